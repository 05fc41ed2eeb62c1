package mirror

// A test of a mistake on the goroutine that takes the system's news.

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestAMistakeWhileNewsAreTakenComesOutWhereTheFolderIsWatched(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	odd := func(name string, isDir bool) bool {
		if strings.HasPrefix(name, "odd") {
			panic("a mistake")
		}
		return true
	}
	ctx, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	caught := make(chan string, 1)
	first := make(chan struct{}, 100)
	go func() {
		defer func() { caught <- fmt.Sprint(recover()) }()
		Watch(ctx, dir, odd, func(Change) { first <- struct{}{} })
	}()
	<-first
	if err := os.WriteFile(filepath.Join(dir, "odd.md"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if got := <-caught; !strings.HasPrefix(got, "a mistake\n") || !strings.Contains(got, "pump") {
		t.Errorf("it came to %s", got)
	}
}
