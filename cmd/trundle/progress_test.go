package main

// Tests of what is shown of a long job.

import (
	"bytes"
	"io"
	"os"
	"testing"
	"time"
)

func TestProgressIsShownAfterASecondAndWipedAtTheEnd(t *testing.T) {
	var out bytes.Buffer
	at := time.Unix(0, 0)
	g := &progress{w: &out, now: func() time.Time { return at }, next: at.Add(longJob)}
	for _, step := range []struct {
		after time.Duration
		done  int
		want  string
	}{
		{0, 1, ""},
		{999 * time.Millisecond, 2, ""},
		{time.Second, 3, "\r3 of 9 files drawn"},
		{1050 * time.Millisecond, 4, ""},
		{1200 * time.Millisecond, 6, "\r6 of 9 files drawn"},
		{1400 * time.Millisecond, 5, ""}, // a goroutine that was held up
	} {
		at = time.Unix(0, 0).Add(step.after)
		g.update(step.done, 9)
		if got := out.String(); got != step.want {
			t.Errorf("after %v: shown %q, want %q", step.after, got, step.want)
		}
		out.Reset()
	}
	g.end()
	if got := out.String(); got != "\r\x1b[K" {
		t.Errorf("at the end: %q", got)
	}
}

func TestNothingIsShownOfAShortJobOrInAFile(t *testing.T) {
	var out bytes.Buffer
	short := &progress{w: &out, now: time.Now, next: time.Now().Add(time.Hour)}
	short.update(1, 2)
	short.end()
	if out.Len() > 0 {
		t.Errorf("shown of a short job: %q", out.String())
	}
	file, err := os.CreateTemp(t.TempDir(), "")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	for _, w := range []io.Writer{file, &out} {
		if g := newProgress(w); g.w != nil {
			t.Errorf("%T is taken for a terminal", w)
		}
	}
}
