package main

// Tests of the preview from its start to its end.

import (
	"bytes"
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"trundle/generator/problem"
	"trundle/generator/source"
)

// output is what a command that goes on has printed so far.
type output struct {
	lock sync.Mutex
	text bytes.Buffer
}

func (o *output) Write(p []byte) (int, error) {
	o.lock.Lock()
	defer o.lock.Unlock()
	return o.text.Write(p)
}

func (o *output) String() string {
	o.lock.Lock()
	defer o.lock.Unlock()
	return o.text.String()
}

// until waits for a text to be printed and gives its groups.
func (o *output) until(t *testing.T, pattern string) []string {
	t.Helper()
	re := regexp.MustCompile(pattern)
	for range 1000 {
		if found := re.FindStringSubmatch(o.String()); found != nil {
			return found
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Fatalf("%s was never printed:\n%s", pattern, o)
	return nil
}

// TestPreviewServesTillItIsInterrupted runs the command as a coach does: on a port that is taken,
// through a problem and its fixing, to the end.
func TestPreviewServesTillItIsInterrupted(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	port := taken.Addr().(*net.TCPAddr).Port
	pack := filepath.Join(t.TempDir(), "pack")
	if err := os.CopyFS(pack, os.DirFS("testdata/pack")); err != nil {
		t.Fatal(err)
	}
	ctx, interrupt := context.WithCancel(context.Background())
	defer interrupt()
	var stdout, stderr output
	code := make(chan int, 1)
	began := time.Now()
	go func() { code <- run(ctx, []string{"preview", pack, "--port", strconv.Itoa(port)}, &stdout, &stderr) }()
	address := stdout.until(t, `(http://127\.0\.0\.1:\d+/) `)[1]
	t.Logf("the address came after %v", time.Since(began))
	stdout.until(t, `1 lesson, \d+ questions?, \d+ keys? agree`)
	stderr.until(t, `port `+strconv.Itoa(port)+` is taken; this is \d+`)
	get(t, address, 200, "All lessons|The season")

	lesson := filepath.Join(pack, "01-one-rotation.md")
	text, err := os.ReadFile(lesson)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(lesson, append(bytes.Clone(text), "\n{nobody}\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	stderr.until(t, `01-one-rotation\.md:\d+:\d+: error: .*unknown-name`)
	stdout.until(t, `01-one-rotation\.md: the last good pages stay`)
	get(t, address+"mentors/01-one-rotation.html", 200, "")
	if err := os.WriteFile(lesson, text, 0o644); err != nil {
		t.Fatal(err)
	}
	stdout.until(t, `01-one-rotation\.md: 1 lesson`)

	interrupt()
	select {
	case got := <-code:
		if got != fine {
			t.Errorf("it ended with %d: %s", got, stderr.String())
		}
	case <-time.After(10 * time.Second):
		t.Fatal("it does not end")
	}
	if _, err := http.Get(address); err == nil {
		t.Error("it is served after the end")
	}
}

func get(t *testing.T, address string, want int, holds string) {
	t.Helper()
	response, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	body, err := io.ReadAll(response.Body)
	if err != nil || response.StatusCode != want || !regexp.MustCompile(holds).Match(body) {
		t.Errorf("%s comes with %d, %v: %.300s", address, response.StatusCode, err, body)
	}
}

func TestPreviewSaysWhatItCannotDo(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"preview"}, misused, "preview needs the pack's folder"},
		{[]string{"preview", "testdata/nowhere"}, misused, "there is no folder testdata/nowhere"},
		{[]string{"preview", "main.go"}, misused, "main.go is a file"},
		{[]string{"preview", "testdata/pack", "--port", "70000"}, misused, "70000 is not one"},
	} {
		var stdout, stderr output
		if got := run(context.Background(), c.args, &stdout, &stderr); got != c.code ||
			!strings.Contains(stderr.String(), c.says) {
			t.Errorf("%q ends with %d: %s", c.args, got, stderr.String())
		}
	}
}

func TestACautionIsPrintedOnceAndErrorsComeFirst(t *testing.T) {
	f := source.NewFile("01-t.md", []byte("a\nb\nc\n"))
	found := func(severity problem.Severity, what string, at int) problem.Problem {
		return problem.Problem{Severity: severity, Slug: "s", File: f, Span: source.Span{Start: at, End: at + 1}, What: what}
	}
	caution, bad := found(problem.Caution, "doubtful", 0), found(problem.Error, "wrong", 2)
	var v viewing
	for i, save := range []struct {
		found []problem.Problem
		want  string
	}{
		{[]problem.Problem{caution, bad}, "wrong doubtful"},
		{[]problem.Problem{caution, bad}, "wrong"},
		{[]problem.Problem{bad, found(problem.Caution, "doubtful", 4)}, "wrong"}, // it has moved down
		{nil, ""},
		{[]problem.Problem{caution}, "doubtful"}, // it was away, and is news
	} {
		var told []string
		for _, p := range v.news(save.found) {
			told = append(told, p.What)
		}
		if got := strings.Join(told, " "); got != save.want {
			t.Errorf("save %d tells %q, want %q", i+1, got, save.want)
		}
	}
}
