package main

// This file makes a new pack, and one more lesson in a pack.

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"trundle/cmd/trundle/starter"
	"trundle/generator/write"
)

// startCommand makes a pack that builds without a problem, so that whatever goes wrong next is the coach's own edit.
type startCommand struct {
	Dir      string `arg:"" help:"start_dir"`
	Lesson   string `placeholder:"NAME" help:"start_lesson"`
	Language string `placeholder:"TAG" help:"start_language"`
}

// Run writes into a new or empty folder alone: nothing that somebody wrote can get lost by starting.
func (c *startCommand) Run(p *program) error {
	if c.Dir == "" {
		return p.misuse(errors.New("the new pack's folder has no name"), "write it as in: trundle start mypack")
	}
	all := starter.Languages()
	if c.Language != "" && (c.Lesson != "" || !slices.Contains(all, c.Language)) {
		what := fmt.Errorf("there is no pack to begin with in %s", plain(c.Language))
		if c.Lesson != "" {
			what = errors.New("a lesson is written in the language of its pack, so --language says nothing here")
		}
		return p.misuse(what, "a new pack can be in "+strings.Join(all, ", "))
	}
	if c.Lesson != "" {
		return c.lesson(p)
	}
	files, err := starter.Pack(cmp.Or(c.Language, starter.English))
	if err != nil {
		return err
	}
	switch err := write.New(c.Dir, files); {
	case errors.Is(err, os.ErrExist), errors.Is(err, write.ErrNotOurs):
		return p.misuse(fmt.Errorf("%s is there already and is not empty; nothing was changed", c.Dir),
			"choose the name of a new folder")
	case errors.Is(err, write.ErrFile), errors.Is(err, write.ErrNowhere), errors.Is(err, write.ErrMount):
		return p.misuse(err, "choose the name of a new folder")
	case err != nil:
		return err
	}
	// The second line can be copied and is what to do next.
	fmt.Fprintf(p.stdout, "%s: a pack of two lessons, for you to change\ntrundle preview %s\n", filepath.Clean(c.Dir),
		c.Dir)
	return nil
}
