package main

// This file says what is wrong with a folder that something is to be written into, and what is going on there.

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"trundle/generator/write"
)

// tell prints a line for whoever waits, and would otherwise wonder why.
func (p *program) tell(line string) { fmt.Fprintln(p.stderr, "trundle: "+plain(line)) }

// refused makes misuse of an error that is about the folder that was typed for -o; any other is given back.
func (p *program) refused(out string, err error) error {
	const another = "choose a new folder for -o, or an empty one"
	var held *write.StrangersError
	switch {
	case errors.As(err, &held):
		return p.misuse(errors.New(plain(err.Error())), wayOut(held))
	case errors.Is(err, write.ErrInside):
		return p.misuse(err, "choose a folder beside the pack's folder")
	case errors.Is(err, write.ErrMount):
		return p.misuse(err, "choose a new folder in it, such as -o "+filepath.Join(out, "site"))
	case errors.Is(err, write.ErrNotOurs), errors.Is(err, write.ErrFile), errors.Is(err, write.ErrNowhere),
		errors.Is(err, write.ErrNoName):
		return p.misuse(err, another)
	}
	return err
}

// wayOut says what to do about files that would be lost. Whoever publishes with git cannot move what git keeps.
func wayOut(held *write.StrangersError) string {
	switch {
	case slices.Contains(held.Others, ".git/"), slices.Contains(held.Others, ".git"):
		return "git keeps its records there: choose a new folder for -o, and copy what is to be published from there"
	case len(held.Others) == 0:
		return "keep a copy elsewhere if you need it, and delete it there; or choose a new folder for -o"
	}
	return "move that elsewhere, or choose a new folder for -o"
}
