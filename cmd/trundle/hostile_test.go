package main

// Packs that are made to fill the memory or take for ever.

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"trundle/testdata/hostile"
)

// What one pack may take at most: five seconds of a processor, half a gigabyte.
const (
	mostTime   = 5 * time.Second
	mostMemory = 512 << 10 // kB
)

// mostOfCases is of how many cases one is run when nobody asks for all.
const mostOfCases = 8

// TestHostilePacksAreRefusedInGoodTime runs each in a process of its own, whose time and memory the system counts.
func TestHostilePacksAreRefusedInGoodTime(t *testing.T) {
	trundle, err := exec.LookPath("trundle") // this test, as testscript installs it
	if err != nil {
		t.Fatal(err)
	}
	cases := hostile.Cases()
	if len(cases) < 200 {
		t.Errorf("there are %d cases only", len(cases))
	}
	var sum, longest time.Duration
	for i, c := range cases {
		if i%mostOfCases != 0 && os.Getenv("TRUNDLE_HOSTILE") == "" {
			continue // all of them: TRUNDLE_HOSTILE=all
		}
		dir := t.TempDir()
		pack := filepath.Join(dir, "pack")
		if err := os.CopyFS(pack, os.DirFS("testdata/pack")); err != nil {
			t.Fatal(err)
		}
		for name, text := range c.Files {
			if err := os.WriteFile(filepath.Join(pack, name), []byte(text), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		args := []string{c.Command, pack}
		if c.Command == "build" {
			args = append(args, "-o", filepath.Join(dir, "out"))
		}
		var said bytes.Buffer
		command := exec.Command(trundle, args...)
		command.Stderr = &said
		_ = command.Run() // its exit code is looked at below
		state := command.ProcessState
		took := state.UserTime() + state.SystemTime()
		sum, longest = sum+took, max(longest, took)
		if state.ExitCode() != c.Code || c.Slug != "" && !strings.Contains(said.String(), "("+c.Slug+")") ||
			said.Len() > 100_000 {
			t.Errorf("%s: exit %d with %d bytes said:\n%.600s", c.Name, state.ExitCode(), said.Len(), said.String())
		}
		usage, ok := state.SysUsage().(*syscall.Rusage)
		if took > mostTime || ok && runtime.GOOS == "linux" && usage.Maxrss > mostMemory {
			t.Errorf("%s took %v and %d kB", c.Name, took, usage.Maxrss)
		}
	}
	t.Logf("%d packs took %v, the longest %v", len(cases), sum, longest)
}
