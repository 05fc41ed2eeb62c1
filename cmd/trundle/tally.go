package main

// This file puts files of runs of several teams together.

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"trundle/generator"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/tally"
	"trundle/generator/write"
)

// tallyCommand works on single files, and needs no pack.
type tallyCommand struct {
	Files  []string `arg:"" name:"file.csv" help:"files"`
	By     string   `placeholder:"COLUMN" help:"by"`
	Target []string `placeholder:"COLUMN=SIZE" sep:"none" help:"target"`
	Pack   string   `placeholder:"PACK" help:"tally_pack"`
	Lesson string   `placeholder:"LESSON" help:"tally_lesson"`
	JSON   bool     `name:"json" help:"tally_json"`
	Out    string   `short:"o" placeholder:"DIR" help:"tally_out"`
	reporting
	quieting
}

// Run checks all names first, then the files; the tables are printed, and a page is written if one is asked for.
func (c *tallyCommand) Run(p *program) error {
	if err := c.quietWith(p, "--json", c.JSON); err != nil {
		return err
	}
	p = c.hushed(p)
	targets, err := c.targets(p)
	if err != nil {
		return err
	}
	c.Files, err = expanded(p, c.Files, "name files of runs, such as otters.csv, or a pattern such as runs/*.csv")
	if err != nil {
		return err
	}
	if err := c.namesAreUsable(p); err != nil {
		return err
	}
	files, err := anywhereFor(p, c.Files)
	if err != nil {
		return err
	}
	options := tally.Options{By: c.By, Targets: targets}
	if err := c.ofPack(p, &options); err != nil {
		return err
	}
	t, err := generator.Tally(files, c.Files, options)
	if err != nil {
		return err
	}
	// The files' names are printed as they were typed, as those of a pack are that is the folder one is in.
	if err := errors.Join(p.printProblems(".", t.Problems), c.write(".", t.Problems)); err != nil {
		return err
	}
	if errorsAmong, _ := problem.Counts(t.Problems); errorsAmong > 0 {
		return codeError(hasProblems)
	}
	if c.Out != "" {
		if err := c.writePage(p, t); err != nil {
			return err
		}
	}
	if c.JSON {
		return t.Report.WriteJSON(p.stdout)
	}
	if err := t.Print(p.stdout); err != nil {
		return err
	}
	if c.Out != "" {
		_, err = fmt.Fprintln(p.stdout, filepath.Join(c.Out, "index.html"))
	}
	return err
}

// ofPack takes from a pack which records its lessons have, and what their runs are compared with. The pack's own
// problems are not what was asked for, but without its numbers nothing can be said.
func (c *tallyCommand) ofPack(p *program, o *tally.Options) error {
	if c.Pack == "" {
		if c.Lesson != "" {
			return p.misuse(errors.New("--lesson names a lesson of a pack, and no pack is named"), "add --pack PACK")
		}
		return nil
	}
	root, proved, err := p.workedOut(c.Pack, nil)
	if err != nil {
		return err
	}
	defer root.Close()
	if proved.HasErrors() {
		return p.misuse(fmt.Errorf("the pack %s has errors", plain(c.Pack)), "trundle prove "+c.Pack+" lists them")
	}
	o.Pack = proved.Records()
	if c.Lesson == "" {
		return nil
	}
	if o.Lesson = o.Pack.Named(c.Lesson); o.Lesson == nil {
		names := make([]string, len(o.Pack.Lessons))
		for i, l := range o.Pack.Lessons {
			names[i] = l.Slug
		}
		return p.misuse(fmt.Errorf("the pack has no lesson %s with a record", plain(c.Lesson)),
			"those with records are "+strings.Join(names, ", "))
	}
	return nil
}

// writePage writes the page with charts.
func (c *tallyCommand) writePage(p *program, t *generator.Tallied) error {
	files, err := t.Draw()
	if err != nil {
		return err
	}
	page, err := write.BeginReport(p.ctx, c.Out, c.Files[0], p.tell)
	if err != nil {
		return p.refused(c.Out, err)
	}
	defer page.Abandon()
	for name, data := range files {
		if err := page.Put(name, data); err != nil {
			return err
		}
	}
	return p.refused(c.Out, page.Commit())
}

// targets reads COLUMN=SIZE. A size is an expression of the lessons' language, so that '4 ft + 2 in' needs no pocket
// calculator.
func (c *tallyCommand) targets(p *program) (map[string]quantity.Quantity, error) {
	all := map[string]quantity.Quantity{}
	wrong := func(text, what string) error {
		return p.misuse(fmt.Errorf("--target %s %s", plain(text), what), "write it as in --target 's=120 cm'")
	}
	for _, text := range c.Target {
		name, size, ok := strings.Cut(text, "=")
		name = strings.TrimSpace(name)
		if !ok || name == "" {
			return nil, wrong(text, "does not name a column and its size")
		}
		if strings.Contains(size, "±") {
			return nil, wrong(text, "has a ±, but a target is the one place where every run should end")
		}
		worked, found := generator.Calculate(size)
		if len(found) > 0 {
			if err := problem.Print(p.stderr, "--target ", found); err != nil {
				return nil, err
			}
			return nil, codeError(misused)
		}
		for other := range all {
			if strings.EqualFold(other, name) {
				return nil, wrong(text, "is a second target of that column")
			}
		}
		all[name] = worked.Value
	}
	return all, nil
}

// namesAreUsable says what is wrong with the names that were typed, before a file is read.
func (c *tallyCommand) namesAreUsable(p *program) error {
	for _, name := range c.Files {
		if err := c.canBeRead(p, name); err != nil {
			return err
		}
	}
	if c.Out != "" {
		if err := c.outside(p, c.Out); err != nil {
			return err
		}
	}
	return c.reportIsUsable(p)
}

// canBeRead says what is wrong with the name of a file of runs. With -o it also refuses a folder that has the file in
// it: the folder is replaced, and the runs would be gone.
func (c *tallyCommand) canBeRead(p *program, name string) error {
	const hint = "name files of runs, such as otters.csv"
	info, err := os.Stat(name)
	switch {
	case name == standardInput:
	case errors.Is(err, fs.ErrNotExist):
		return p.misuse(fmt.Errorf("there is no file %s", plain(name)), hint)
	case err != nil:
		return err
	case info.IsDir():
		return p.misuse(fmt.Errorf("%s is a folder", plain(name)),
			"name the files in it, as in "+filepath.Join(name, "otters.csv"))
	case !info.Mode().IsRegular(): // a pipe is empty after its first reading
		return p.misuse(fmt.Errorf("%s is not a file that can be read twice", plain(name)), hint)
	}
	if c.Out == "" {
		return nil
	}
	err = write.CheckReport(c.Out, name)
	if errors.Is(err, write.ErrInside) {
		err = fmt.Errorf("%s is in the folder %s, which would be replaced", name, c.Out)
		return p.misuse(err, "choose a new folder for -o, or an empty one")
	}
	return p.refused(c.Out, err)
}
