package main

// This file builds a pack into a folder.

import (
	"errors"
	"fmt"
	"path/filepath"

	"trundle/generator"
	"trundle/generator/write"
)

// buildCommand writes both editions below one folder; whoever publishes only one takes that part of it.
type buildCommand struct {
	Pack string `arg:"" help:"The pack's folder."`
	Out  string `short:"o" required:"" placeholder:"DIR" help:"${build_out}"`
	starting
	keeping
	reporting
	quieting
}

// Run refuses a folder that must not be replaced before anything is read, since a pack may take a while to work out.
// If the pack has errors the folder keeps what it had.
func (c *buildCommand) Run(p *program) error {
	p = c.hushed(p)
	if err := write.Check(c.Out, c.Pack); errors.Is(err, write.ErrNotOurs) || errors.Is(err, write.ErrInside) {
		hint := "choose a new folder for -o, or an empty one"
		if errors.Is(err, write.ErrInside) {
			hint = "choose a folder beside the pack's folder"
		}
		return p.misuse(err, hint)
	}
	if err := c.outside(p, c.Out); err != nil {
		return err
	}
	start, err := c.minutes(p)
	if err != nil {
		return err
	}
	shown := p.progress() // from here on somebody waits
	proved, err := p.finished(c.reporting, c.Pack)
	if err != nil {
		if errors.As(err, new(codeError)) && proved != nil {
			fmt.Fprintf(p.stderr, "nothing was written; %s is as it was\n", c.Out)
		}
		return err
	}
	proved.Start = start
	tidy := c.keep(p, proved)
	into, err := write.Begin(p.ctx, c.Out, c.Pack, p.tell)
	if err != nil {
		return err
	}
	err = generator.DrawTo(p.ctx, proved, into, shown.update)
	shown.end()
	if err != nil {
		return errors.Join(err, into.Abandon())
	}
	if err := into.Commit(); err != nil {
		return err
	}
	tidy()
	p.summary(proved)
	for _, e := range []string{"students", "mentors"} {
		fmt.Fprintf(p.stdout, "%s\n", filepath.Join(c.Out, e, "index.html"))
	}
	p.codesLeadTo(proved)
	// Whoever puts the whole folder on the web publishes the keys.
	fmt.Fprintf(p.stdout, "%s holds the keys: upload students only, or hand out zip files (trundle bundle)\n",
		filepath.Join(c.Out, "mentors"))
	return nil
}

// tell prints a line for whoever waits.
func (p *program) tell(line string) { fmt.Fprintln(p.stderr, line) }
