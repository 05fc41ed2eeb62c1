package main

// This file keeps commands quiet that are asked to be.

import (
	"errors"
	"io"
)

// quieting is the flag of commands that other programs run: these look at the exit code, and people at what went wrong.
type quieting struct {
	Quiet bool `short:"q" help:"quiet"`
}

// hushed gives a program that prints nothing but problems. What is wrong is never left out: it goes to stderr, and is
// the same with the flag and without.
func (q quieting) hushed(p *program) *program {
	if !q.Quiet {
		return p
	}
	still := *p
	still.stdout, still.quiet = io.Discard, true
	return &still
}

// quietWith refuses --quiet beside a flag whose only use is that something is printed.
func (q quieting) quietWith(p *program, flag string, given bool) error {
	if !q.Quiet || !given {
		return nil
	}
	return p.misuse(errors.New(flag+" prints a result, and --quiet leaves it out"), "leave out one of the two")
}

// progress shows how far a long job is, unless the command is to be quiet.
func (p *program) progress() *progress {
	if p.quiet {
		return newProgress(io.Discard)
	}
	return newProgress(p.stderr)
}
