package main

// This file hands the problems of a pack on in a report.

import (
	"errors"
	"fmt"

	"trundle/generator/problem"
	"trundle/generator/write"
)

// reporting is the flag of commands that hand the problems of a pack on.
type reporting struct {
	Report *string `placeholder:"FILE" help:"report"`
}

// reportIsUsable is asked before the work begins: a name that cannot be written to should not cost a minute first. It
// says what is wrong with the name that was typed for a report.
func (r reporting) reportIsUsable(p *program) error {
	if r.Report == nil {
		return nil
	}
	if *r.Report == "" {
		return r.refuse(p, errors.New("the file for --report has no name"))
	}
	err := write.CheckFile(*r.Report, problem.SARIFHead)
	if errors.Is(err, write.ErrOther) || errors.Is(err, write.ErrNoFolder) {
		return r.refuse(p, err)
	}
	return err
}

// outside sees to it that the report is not written into a folder that is replaced after it: it would be gone at the
// end, although the command succeeded.
func (r reporting) outside(p *program, out string) error {
	if r.Report == nil || !errors.Is(write.Check(out, *r.Report), write.ErrInside) {
		return nil
	}
	return r.refuse(p, fmt.Errorf("%s is in the folder %s, which is replaced as a whole", *r.Report, out))
}

// refuse says what is wrong with the name of the report.
func (r reporting) refuse(p *program, err error) error {
	return p.misuse(err, "choose the name of another file for --report")
}

// write writes the report, if one is asked for, with no results in it if there are no problems: a program that reads
// the last one would otherwise go on reporting them.
func (r reporting) write(pack string, problems []problem.Problem) error {
	if r.Report == nil {
		return nil
	}
	data, err := problem.SARIF(prefixOf(pack), problems)
	if err != nil {
		return err
	}
	return write.File(*r.Report, data)
}
