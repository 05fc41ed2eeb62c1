package main

// This file has what becomes of a mistake in trundle itself, wherever in the program it comes out.

import (
	"fmt"
	"runtime/debug"
)

// A mistakeError is a panic with the lines that help to find its reason.
type mistakeError struct{ lines string }

// Error is what comes first of what is printed.
func (m *mistakeError) Error() string {
	return "this is a mistake in trundle, and not in what was typed"
}

// mistakeOf keeps what a panic said; to be called where it is caught.
func mistakeOf(wrong any) *mistakeError {
	return &mistakeError{fmt.Sprintf("%v\n%s", wrong, debug.Stack())}
}

// caught does something on a goroutine that nobody watches, and gives a panic as an error: it would end the program
// with the code for a line that was not understood, and in the middle of whatever else is going on.
func caught(do func() error) (err error) {
	defer func() {
		if wrong := recover(); wrong != nil {
			err = mistakeOf(wrong)
		}
	}()
	return do()
}

// reportMistake prints a mistake with the lines that belong into a report of it.
func (p *program) reportMistake(m *mistakeError) int {
	p.fail(failed, m)
	fmt.Fprintf(p.stderr, "   report it with the lines below\n%s", m.lines)
	return failed
}
