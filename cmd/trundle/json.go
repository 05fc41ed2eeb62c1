package main

// This file prints what a pack comes to for other programs.

import (
	"encoding/json"
	"io"
	"math"

	"trundle/generator"
	"trundle/generator/quantity"
)

// findJSON is a find as prove --json prints it. Numbers are in the unit given.
type findJSON struct {
	Lesson string   `json:"lesson"`
	Part   string   `json:"part,omitempty"` // the file of the part that it stands in, none if it is the lesson's own
	Line   int      `json:"line"`
	Name   string   `json:"name"`
	Value  *float64 `json:"value"` // null if it could not be worked out
	Unit   string   `json:"unit"`
	U      float64  `json:"u"`             // the ±, as a standard uncertainty
	DOF    *float64 `json:"dof,omitempty"` // its effective degrees of freedom, none if no readings go into it
	Key    *string  `json:"key"`           // null if there is none
	Holds  *bool    `json:"holds"`
}

// printFinds prints one object a line, so that a program can read a season line by line.
func printFinds(w io.Writer, p *generator.Proved) error {
	out := json.NewEncoder(w)
	out.SetEscapeHTML(false)
	for _, left := range p.Lessons {
		l := p.Open(left)
		for _, s := range l.Finds {
			r := l.Of(s)
			f := findJSON{Lesson: l.Slug, Line: l.File.Position(s.At.Start).Line, Name: s.Name}
			if file, _ := l.File.Origin(s.At); file.Name != l.File.Name {
				f.Part = file.Name
			}
			if q, ok := r.Quantity(); ok {
				value := quantity.Snapped(q.Number)
				f.Value, f.Unit, f.U = &value, q.Unit.String(), quantity.Snapped(q.Uncertainty())
				if freedom := q.Freedom(); !math.IsInf(freedom, 1) {
					freedom = quantity.Snapped(freedom)
					f.DOF = &freedom
				}
			}
			if r.Key != nil {
				// As its source has it, in units that trundle reads, such as rot.
				text := r.Key.Statement.Literal.String()
				if r.Key.Statement.Negative {
					text = quantity.Minus + text
				}
				f.Key = &text
				if r.Key.Compared { // else it is neither right nor wrong: the two are of different kinds, say
					f.Holds = &r.Key.Holds
				}
			}
			if err := out.Encode(f); err != nil {
				return err
			}
		}
	}
	return nil
}

// keys counts the finds of a pack, and those whose key agrees.
func keys(p *generator.Proved) (agreeing, finds int) {
	for _, l := range p.Lessons {
		inLesson, agree := l.Keys()
		finds, agreeing = finds+inLesson, agreeing+agree
	}
	return agreeing, finds
}
