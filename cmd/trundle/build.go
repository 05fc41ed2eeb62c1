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
	Out  string `short:"o" required:"" placeholder:"DIR" help:"build_out"`
	starting
	keeping
	reporting
	quieting
}

// Run refuses a folder that must not be replaced before anything is read, since a pack may take a while to work out. It
// also waits then for another build into it, so that the last one that was started writes what it read last.
// If the pack has errors the folder keeps what it had.
func (c *buildCommand) Run(p *program) error {
	p = c.hushed(p)
	site, err := write.Begin(p.ctx, c.Out, c.Pack, p.tell)
	if err != nil {
		return p.refused(c.Out, err)
	}
	defer site.Abandon()
	if err := c.outside(p, c.Out); err != nil {
		return err
	}
	start, err := c.minutes(p)
	if err != nil {
		return err
	}
	shown := p.progress() // from here on somebody waits
	kept := c.keep(p)
	proved, err := p.finished(c.reporting, c.Pack, kept)
	if err != nil {
		if errors.As(err, new(codeError)) && proved != nil {
			fmt.Fprintf(p.stderr, "nothing was written; %s is as it was\n", c.Out)
		}
		return err
	}
	proved.Start = start
	err = generator.DrawTo(p.ctx, proved, site, shown.update)
	shown.end()
	if err != nil {
		return err
	}
	if err := site.Commit(); err != nil {
		return p.refused(c.Out, err)
	}
	kept.tidy()
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
