package main

// Tests of runs that are killed, and of those that are asked to end. `go test ./cmd/trundle -run Kill -kills 200 -v`
// kills as many builds, and 60 of each of the others.

import (
	"bytes"
	"context"
	"crypto/sha256"
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

var kills = flag.Int("kills", 2, "how many builds are killed; of the other commands three in ten of that")

// A victim is a command that is killed while it replaces what it wrote from one source by what it writes from another.
type victim struct {
	name  string
	args  func(source string) []string // in the folder that has both sources and what is written
	apart bool                         // its files take their names one by one, so that a kill may leave some of each
}

func victims() []victim {
	return []victim{
		{name: "build", args: func(source string) []string { return []string{"build", source, "-o", "out"} }},
		{name: "bundle", apart: true, args: func(source string) []string { return []string{"bundle", source, "-o", "out"} }},
		{name: "tally", args: func(source string) []string {
			return []string{"tally", filepath.Join(source, "runs.csv"), "-o", "out"}
		}},
	}
}

// A scene is a folder with an old and a new pack, each with a file of runs.
type scene struct {
	dir      string
	old, new map[string]string // what either gives: sums by name
	takes    time.Duration
}

// stage makes a scene, and measures how long a run takes there.
func stage(t *testing.T, v victim) *scene {
	t.Helper()
	s := &scene{dir: t.TempDir()}
	for source, runs := range map[string]string{"old": "120", "new": "125"} {
		dir := filepath.Join(s.dir, source)
		if err := os.CopyFS(dir, os.DirFS(filepath.Join("testdata", "pack"))); err != nil {
			t.Fatal(err)
		}
		front := "title: Towpath\nversion: 1.0.0\nclub: The " + source + " club\n"
		table := "team,base,run,s (cm)\nOtters,Heron,1," + runs + "\nOtters,Heron,2,119\n"
		for name, text := range map[string]string{"pack.yaml": front, "runs.csv": table} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	s.run(t, v, "new")
	s.new = s.written(t)
	start := time.Now()
	s.run(t, v, "old")
	s.takes, s.old = time.Since(start), s.written(t)
	if maps.Equal(s.old, s.new) || len(s.old) == 0 {
		t.Fatalf("old and new cannot be told apart: %v", s.old)
	}
	return s
}

// start begins a run.
func (s *scene) start(t *testing.T, v victim, source string) (*exec.Cmd, *bytes.Buffer) {
	t.Helper()
	c, said := exec.CommandContext(context.Background(), "trundle", v.args(source)...), &bytes.Buffer{}
	c.Dir, c.Stdout, c.Stderr = s.dir, said, said
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	return c, said
}

// run lets a run come to its end.
func (s *scene) run(t *testing.T, v victim, source string) {
	t.Helper()
	if c, said := s.start(t, v, source); c.Wait() != nil {
		t.Fatalf("%v: %s", c.Args, said)
	}
}

// written gives the sums of what is in the folder that is written.
func (s *scene) written(t *testing.T) map[string]string {
	t.Helper()
	out, sums := filepath.Join(s.dir, "out"), map[string]string{}
	if err := filepath.WalkDir(out, func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(name)
		rel, _ := filepath.Rel(out, name)
		if sums[rel] = fmt.Sprintf("%x", sha256.Sum256(data)); strings.HasPrefix(rel, ".trundle-") {
			delete(sums, rel) // what a killed run left is looked at apart
		}
		return err
	}); err != nil {
		t.Errorf("what was written is gone: %v", err)
	}
	return sums
}

// left gives the names of what a run is not to leave.
func (s *scene) left(t *testing.T) (names []string) {
	t.Helper()
	for _, pattern := range []string{".*", filepath.Join("out", ".trundle-*")} {
		found, err := filepath.Glob(filepath.Join(s.dir, pattern))
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, found...)
	}
	return names
}

// await waits until a run has begun to write, or has ended.
func (s *scene) await(t *testing.T, ended <-chan struct{}) {
	t.Helper()
	for {
		select {
		case <-ended:
			return
		default:
		}
		if slices.ContainsFunc(s.left(t), func(name string) bool { return strings.Contains(name, "-new-") }) {
			return
		}
		time.Sleep(200 * time.Microsecond)
	}
}

// kill ends a run at a time that the number of the kill settles: every other one while it writes, where most can go
// wrong.
func (s *scene) kill(t *testing.T, v victim, i int, chance *rand.Rand) {
	t.Helper()
	c, _ := s.start(t, v, "new")
	ended := make(chan struct{})
	go func() { _ = c.Wait(); close(ended) }()
	wait := time.Duration(chance.Int64N(int64(s.takes * 11 / 10)))
	if i%2 == 1 {
		s.await(t, ended)
		wait = time.Duration(chance.Int64N(int64(s.takes / 8)))
	}
	select {
	case <-ended:
	case <-time.After(wait):
		_ = c.Process.Kill()
		<-ended
	}
}

func TestKilledRunsLeaveWhatIsWholeAndTheNextRunLeavesNothing(t *testing.T) {
	for _, v := range victims() {
		t.Run(v.name, func(t *testing.T) {
			s, chance := stage(t, v), rand.New(rand.NewPCG(1, 2))
			count := *kills
			if v.name != "build" {
				count = (count*3 + 9) / 10
			}
			var old, fresh, mixed, littered int
			for i := range count {
				s.kill(t, v, i, chance)
				got := s.written(t)
				switch {
				case maps.Equal(got, s.old):
					old++
				case maps.Equal(got, s.new):
					fresh++
				default:
					mixed++
					for name, sum := range got {
						if !v.apart || sum != s.old[name] && sum != s.new[name] {
							t.Errorf("kill %d: %s is neither the old one nor the new one, or not all are", i, name)
						}
					}
				}
				if len(s.left(t)) > 0 {
					littered++
				}
				s.run(t, v, "old")
				if !maps.Equal(s.written(t), s.old) {
					t.Errorf("kill %d: the next run did not write all", i)
				}
				if left := s.left(t); len(left) > 0 {
					t.Errorf("kill %d: the next run left %v", i, left)
				}
			}
			t.Logf("%d kills: %d left the old files, %d the new ones, %d some of each; %d left something to clear",
				count, old, fresh, mixed, littered)
		})
	}
}

func TestASignalToEndLeavesNothingBehind(t *testing.T) {
	// Whoever runs this test may have hangups ignored, as nohup has, and hand that on; a signal that is heard is not.
	heard := make(chan os.Signal, 1)
	signal.Notify(heard, syscall.SIGHUP)
	defer signal.Stop(heard)
	v := victims()[0]
	s := stage(t, v)
	for _, sign := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		for try := 0; ; try++ {
			c, said := s.start(t, v, "new")
			ended := make(chan struct{})
			go func() { _ = c.Wait(); close(ended) }()
			s.await(t, ended)
			_ = c.Process.Signal(sign)
			<-ended
			if c.ProcessState.ExitCode() == fine && try < 50 { // it was faster than we are
				s.run(t, v, "old")
				continue
			}
			if code := c.ProcessState.ExitCode(); code != failed ||
				said.String() != "trundle: stopped; what was there is as it was\n" {
				t.Errorf("%v: exit code %d, %q", sign, code, said)
			}
			break
		}
		if left := s.left(t); len(left) > 0 {
			t.Errorf("%v: it leaves %v", sign, left)
		}
		if !maps.Equal(s.written(t), s.old) {
			t.Errorf("%v: the old site is not as it was", sign)
		}
	}
}

// TestARunWithoutATerminalGoesOn closes the terminal of a run that was started to go on without one.
func TestARunWithoutATerminalGoesOn(t *testing.T) {
	v := victims()[0]
	s := stage(t, v)
	c := exec.CommandContext(t.Context(), "sh", "-c", `trap "" HUP; exec trundle build new -o out`)
	c.Dir = s.dir
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan struct{})
	var err error
	go func() { err = c.Wait(); close(ended) }()
	s.await(t, ended)
	_ = c.Process.Signal(syscall.SIGHUP)
	if <-ended; err != nil {
		t.Error(err)
	}
	if !maps.Equal(s.written(t), s.new) {
		t.Error("the new site was not written")
	}
}
