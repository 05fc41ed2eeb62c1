package main

// Tests of mistakes of ours that come out on a goroutine beside the command's own.

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"
)

// lateBug is fine until somebody prints what became of a pack, which the goroutine does that follows its folder.
type lateBug struct{}

func (lateBug) Write(data []byte) (int, error) {
	if bytes.Contains(data, []byte("1 lesson")) {
		panic("a late mistake")
	}
	return len(data), nil
}

func TestAMistakeWhileAPackIsFollowedEndsThePreviewInASentence(t *testing.T) {
	t.Parallel()
	var stderr output
	code := make(chan int, 1)
	go func() {
		code <- run(context.Background(), []string{"preview", "testdata/pack", "--port", "0"}, lateBug{}, &stderr)
	}()
	select {
	case got := <-code:
		want := "trundle: this is a mistake in trundle, and not in what was typed\n" +
			"   report it with the lines below\na late mistake\n"
		if got != failed || !strings.HasPrefix(stderr.String(), want) || !strings.Contains(stderr.String(), "preview.go") {
			t.Errorf("exit code %d:\n%s", got, stderr.String())
		}
	case <-time.After(30 * time.Second):
		t.Fatal("it does not end")
	}
}
