package main

// Tests of how a command ends.

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"trundle/generator/write"
)

func TestWhatIsOpenElsewhereIsNamedWithWhatToDo(t *testing.T) {
	var errs bytes.Buffer
	p := program{ctx: t.Context(), stderr: &errs}
	code := p.ended(fmt.Errorf("out cannot be replaced: %w (access is denied)", write.ErrInUse))
	want := "trundle: out cannot be replaced: a program has it open, or something in it, or it may not be changed " +
		"(access is denied)\n" +
		"   close the windows and programs that have it open, and do it again; if there are none, choose another place\n"
	if code != failed || errs.String() != want {
		t.Errorf("exit code %d:\n%s\nwant\n%s", code, errs.String(), want)
	}
}

// full is a disk on which nothing has room.
type full struct{}

func (full) Write([]byte) (int, error) {
	return 0, &os.PathError{Op: "write", Path: "/dev/stdout", Err: syscall.ENOSPC}
}

func TestWhatCannotBeSaidIsAFailure(t *testing.T) {
	zips := t.TempDir()
	var errs bytes.Buffer
	if code := run(t.Context(), []string{"bundle", "testdata/pack", "-o", zips}, io.Discard, &errs); code != fine {
		t.Fatal(errs.String())
	}
	const want = "trundle: what it has to say cannot be written: the disk is full\n"
	for _, line := range [][]string{
		{"--version"}, {"help"}, {"prove", "testdata/pack"}, {"prove", "testdata/pack", "--json"}, {"work", "1 + 1"},
		{"work", "1 + 1", "--json"}, {"completion", "bash"},
		{"build", "testdata/pack", "-o", filepath.Join(t.TempDir(), "out")}, {"bundle", "testdata/pack", "-o", zips},
		{"bundle", "--check", filepath.Join(zips, "towpath-1.0.0-students.zip")},
	} {
		errs.Reset()
		if code := run(t.Context(), line, full{}, &errs); code != failed || !strings.HasPrefix(errs.String(), want) {
			t.Errorf("%v: exit code %d, %q", line, code, errs.String())
		}
	}
}

func TestNamesOfAStrangersBundleAreShownAndSteerNothing(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a\x1b[2J.zip")
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	z := zip.NewWriter(f)
	for _, entry := range []string{"a/START-HERE.html", "a/SHA256SUMS", "a/" + strings.Repeat("ö", 20000) + ".html"} {
		_, one := z.Create(entry)
		err = errors.Join(err, one)
	}
	if err := errors.Join(err, z.Close(), f.Close()); err != nil {
		t.Fatal(err)
	}
	var errs bytes.Buffer
	code := run(t.Context(), []string{"bundle", "--check", name}, io.Discard, &errs)
	if said := errs.String(); code != hasProblems || strings.Contains(said, "\x1b") || !strings.Contains(said, "ööö …") ||
		len(said) > 4000 {
		t.Errorf("exit code %d, %d bytes: %.400q", code, len(said), said)
	}
}

// bug is something that goes wrong as only a mistake of ours does.
type bug struct{}

func (bug) Write([]byte) (int, error) { panic("a mistake") }

func TestAMistakeOfOursDoesNotLookLikeMisuse(t *testing.T) {
	var errs bytes.Buffer
	code := run(t.Context(), []string{"--version"}, bug{}, &errs)
	want := "trundle: this is a mistake in trundle, and not in what was typed\n" +
		"   report it with the lines below\na mistake\n"
	if code != failed || !strings.HasPrefix(errs.String(), want) || !strings.Contains(errs.String(), "main_test.go") {
		t.Errorf("exit code %d:\n%s", code, errs.String())
	}
}

// run does what a line says, where nothing is kept from run to run.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	p := program{ctx: ctx, stdin: os.Stdin, stdout: stdout, stderr: stderr}
	return p.run(args)
}
