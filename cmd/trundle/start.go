package main

// This file makes a new pack.

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"trundle/cmd/trundle/starter"
	"trundle/generator/write"
)

// startCommand makes a pack that builds without a problem, so that whatever goes wrong next is the coach's own edit.
type startCommand struct {
	Dir string `arg:"" help:"The folder to make. It must not exist yet, or be empty."`
}

// Run writes into a new or empty folder alone.
func (c *startCommand) Run(p *program) error {
	if c.Dir == "" {
		return p.misuse(errors.New("the new pack's folder has no name"), "write it as in: trundle start mypack")
	}
	files, err := starter.Pack()
	if err != nil {
		return err
	}
	switch err := write.New(c.Dir, files); {
	case errors.Is(err, os.ErrExist), errors.Is(err, write.ErrNotOurs):
		return p.misuse(fmt.Errorf("%s is there already and is not empty; nothing was changed", c.Dir),
			"choose the name of a new folder")
	case err != nil:
		return err
	}
	fmt.Fprintf(p.stdout, "%s: a pack of two lessons, for you to change\ntrundle preview %s\n", filepath.Clean(c.Dir),
		c.Dir)
	return nil
}
