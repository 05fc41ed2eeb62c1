package main

// This file works out one expression, outside any pack.

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"trundle/generator"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/site/words"
)

// workCommand reads one expression, in the language of lessons. A coach tries there what a lesson will say, steps and
// all, before a line of the lesson is written.
type workCommand struct {
	Expr string `arg:"" help:"expression"`
	In   string `placeholder:"UNIT" help:"The unit of the result."`
	To   string `placeholder:"STEP" help:"Round the result to this step, such as 0.01 or 1/16."`
	JSON bool   `name:"json" help:"Print one JSON object: value, unit, u."`
}

// resultJSON is an expression as work --json prints it.
type resultJSON struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	U     float64 `json:"u"`
}

// notesOn gives what must be said with a value: where its ± misleads; and an estimate of vapour never appears without
// its assumptions. Those are said in the words of the mentors' page, which are English here, as all that the
// command prints.
func notesOn(c generator.Calculation) []string {
	var notes []string
	if c.Doubt != "" {
		notes = append(notes, c.Doubt)
	}
	if !c.Vapour {
		return notes
	}
	en, err := words.Load("en")
	if err != nil {
		panic(err) // embedded, and checked by a test
	}
	return append(notes, en["vapour-bound"], en["vapour-no-card"], en["vapour-replaces"])
}

// meantUnit changes the hint for --to cm, which asks for a unit where a step belongs.
func (c *workCommand) meantUnit(found []problem.Problem) {
	if _, err := quantity.ParseUnit(c.To); c.To == "" || err != nil {
		return
	}
	for i := range found {
		if found[i].Slug == "syntax" {
			found[i].Hint = "for the unit write --in " + c.To + "; --to takes a step, such as 0.1 or 1/16"
		}
	}
}

// longestExpression is far more than anybody types, and no load for a parser.
const longestExpression = 64 << 10

// expression is what was typed, or what comes from standard input in its place.
func (c *workCommand) expression(p *program) (string, error) {
	if c.Expr != standardInput {
		return c.Expr, nil
	}
	text, err := io.ReadAll(io.LimitReader(p.stdin, longestExpression+1))
	switch {
	case err != nil:
		return "", err
	case len(text) > longestExpression:
		return "", p.misuse(errors.New("there is more on standard input than an expression"), "give one expression")
	}
	return strings.TrimSpace(strings.TrimPrefix(string(text), "\uFEFF")), nil
}

// Run puts the flags into the expression, where the language has places for them, so that --in and --to mean just what
// they mean in a lesson.
func (c *workCommand) Run(p *program) error {
	text, err := c.expression(p)
	if err != nil {
		return err
	}
	if c.In != "" {
		text += " in " + c.In
	}
	if c.To != "" {
		text += " to " + c.To
	}
	calculation, found := generator.Calculate(text)
	if len(found) > 0 {
		c.meantUnit(found)
		if err := problem.Print(p.stderr, "", found); err != nil {
			return err
		}
		return codeError(misused)
	}
	q, notes := calculation.Value, notesOn(calculation)
	if c.JSON {
		// Programs read the one object on stdout; people still see what must be said with it.
		for _, note := range notes {
			fmt.Fprintln(p.stderr, note)
		}
		return json.NewEncoder(p.stdout).Encode(
			resultJSON{quantity.Snapped(q.Number), q.Unit.String(), quantity.Snapped(q.Uncertainty())})
	}
	var b strings.Builder // written as a whole, so that a reader who goes away leaves one error
	for _, s := range calculation.Steps {
		indent := "  "
		if s.Kind == quantity.ConversionStep { // aside of the way from the expression to its value
			indent = "      "
		}
		fmt.Fprintf(&b, "%s%s\n", indent, s.Text())
	}
	fmt.Fprintln(&b, quantity.ShowText(q, calculation.Target))
	if u := q.Uncertainty(); u > 0 {
		value, uncertainty := quantity.FormatUncertain(q.Number, u)
		fmt.Fprintln(&b, quantity.Shown{Number: "(" + value + " ± " + uncertainty + ")", Unit: q.Unit.Symbol()}.Text())
	}
	for _, note := range notes {
		fmt.Fprintln(&b, note)
	}
	_, err = fmt.Fprint(p.stdout, b.String())
	return err
}
