package main

// This file proves a pack, which is where building and bundling begin, and prints its problems.

import (
	"errors"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strconv"

	"trundle/generator"
	"trundle/generator/problem"
)

// proveCommand is for the moments before a save is handed on, and for continuous integration: it draws nothing, so it
// takes a fraction of the time of a build.
type proveCommand struct {
	Pack string `arg:"" help:"The pack's folder."`
	JSON bool   `name:"json" help:"prove_json"`
	reporting
	quieting
}

// Run prints the finds even if there are errors, since programs want to know which keys agree all the same.
func (c *proveCommand) Run(p *program) error {
	if err := c.quietWith(p, "--json", c.JSON); err != nil {
		return err
	}
	p = c.hushed(p)
	proved, err := p.prove(c.reporting, c.Pack)
	if proved == nil {
		return err
	}
	if c.JSON {
		return errors.Join(printFinds(p.stdout, proved), err)
	}
	if err == nil {
		p.summary(proved)
		p.spareTime(proved)
	}
	return err
}

// spareTime says of each lesson with parts for when there is time what its meeting takes without them.
func (p *program) spareTime(proved *generator.Proved) {
	for _, l := range proved.WithSpareTime() {
		fmt.Fprintf(p.stdout, "%s: %d minutes, %d without what is for when there is time\n", l.File, l.Minutes, l.Without)
	}
}

// finished is prove for what is handed out: drafts, and what is wrong in them, are left aside.
func (p *program) finished(report reporting, pack string, kept *keeper) (*generator.Proved, error) {
	return p.proveAs(report, pack, kept, (*generator.Proved).WithoutDrafts)
}

// prove works a pack out, drafts and all, prints its problems and writes them into a report, if one is asked for.
func (p *program) prove(report reporting, pack string) (*generator.Proved, error) {
	return p.proveAs(report, pack, nil, func(all *generator.Proved) *generator.Proved { return all })
}

// workedOut works out the pack in a folder, whatever is wrong in it; kept, if not nil, is what earlier runs kept. The
// folder is a root, so that a link in it cannot lead to files outside of it.
func (p *program) workedOut(pack string, kept *keeper) (*os.Root, *generator.Proved, error) {
	if err := p.isFolder(pack); err != nil {
		return nil, nil, err
	}
	root, err := os.OpenRoot(pack)
	if err != nil {
		return nil, nil, err
	}
	p.room.forLessons(generator.LessonsIn(root.FS()))
	proved, err := generator.ProveFor(p.ctx, root.FS(), kept.of)
	if err != nil {
		return nil, nil, errors.Join(err, root.Close())
	}
	return root, proved, nil
}

// proveAs is both; take chooses what counts. Whoever only proves is told what is so now, whatever was kept.
func (p *program) proveAs(report reporting, pack string, kept *keeper, take func(*generator.Proved) *generator.Proved) (
	*generator.Proved, error) {
	if err := report.reportIsUsable(p); err != nil {
		return nil, err
	}
	// The root stays open until the command ends, since lessons of a large pack are read again when they are drawn.
	_, proved, err := p.workedOut(pack, kept)
	if err != nil {
		return nil, err
	}
	proved = take(proved)
	if err := errors.Join(p.printProblems(pack, proved.Problems), report.write(pack, proved.Problems)); err != nil {
		return nil, err
	}
	if proved.HasErrors() {
		return proved, codeError(hasProblems)
	}
	return proved, nil
}

// printProblems prints a pack's problems, each with a path that can be opened from where
// the command was typed; errors come first, since they stop the build. How many there are comes last, where it is
// seen when they have scrolled by.
func (p *program) printProblems(pack string, problems []problem.Problem) error {
	if err := problem.PrintMost(p.stderr, prefixOf(pack), problems); err != nil {
		return err
	}
	if len(problems) > 0 {
		fmt.Fprintf(p.stderr, "\n%s\n", problem.Summary(problems))
	}
	return nil
}

// prefixOf goes before the names of a pack's files wherever they are printed.
func prefixOf(pack string) string {
	if prefix := path.Clean(filepath.ToSlash(pack)) + "/"; prefix != "./" {
		return prefix
	}
	return ""
}

// summary says in a line what was worked out and compared.
func (p *program) summary(proved *generator.Proved) {
	fmt.Fprintln(p.stdout, counted(proved))
}

// codesLeadTo says where the pages must stand for the codes on the worksheets to work, if the pack has an address.
func (p *program) codesLeadTo(proved *generator.Proved) {
	if address := proved.Pack.Address; address != "" {
		fmt.Fprintf(p.stdout, "the worksheets lead to %s: the folder students must be there\n", address)
	}
}

// counted gives the numbers of a pack: "12 lessons, 142 questions, 142 keys agree".
func counted(proved *generator.Proved) string {
	agreeing, finds := keys(proved)
	verb := " agree"
	if agreeing == 1 {
		verb = " agrees"
	}
	lessons := problem.Plural(len(proved.Lessons), "lesson")
	if n := proved.Drafts(); n > 0 {
		lessons += ", " + strconv.Itoa(n) + " of them " + map[bool]string{true: "a draft", false: "drafts"}[n == 1]
	}
	return lessons + ", " + problem.Plural(finds, "question") + ", " +
		problem.Plural(agreeing, "key") + verb
}
