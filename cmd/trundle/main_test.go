package main

// Tests of how a command ends.

import (
	"bytes"
	"fmt"
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
