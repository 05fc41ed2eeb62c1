package tally

// This file writes a report for other programs.

import (
	"encoding/json"
	"io"
	"math"

	"trundle/generator/quantity"
	"trundle/generator/runs"
)

// reportJSON is the report as a program reads it. Numbers are in the column's unit; null where there is none. Lists
// are never null, so that a program can go through them without asking.
type reportJSON struct {
	Files   []string     `json:"files"`
	Teams   int          `json:"teams"`
	Runs    int          `json:"runs"`
	By      string       `json:"by"`
	Columns []columnJSON `json:"columns"`
}

// columnJSON is a measured column; target is null if none was given. Pairs tell whose runs end nearer to the target or,
// without one, have more; aim tells whose mean is nearer.
type columnJSON struct {
	Name   string      `json:"name"`
	Unit   string      `json:"unit"`
	Target *float64    `json:"target"`
	Groups []groupJSON `json:"groups"`
	Pairs  []pairJSON  `json:"pairs"`
	Aim    []pairJSON  `json:"aim"`
}

// groupJSON is a group's runs in one column. A group of one run has a mean, and null for what needs a spread.
type groupJSON struct {
	Name    string    `json:"name"`
	N       int       `json:"n"`
	Mean    *float64  `json:"mean"`
	SD      *float64  `json:"sd"`
	Low     *float64  `json:"low"`
	High    *float64  `json:"high"`
	Bias    *float64  `json:"bias"`
	Percent *float64  `json:"percent"`
	Odd     []oddJSON `json:"odd"`
}

// oddJSON is a run far from the others of its group, with its place in the file, since somebody has to look there.
type oddJSON struct {
	File  string  `json:"file"`
	Line  int     `json:"line"`
	Value float64 `json:"value"`
}

// pairJSON compares two groups. P is null where nothing was tested.
type pairJSON struct {
	First   string   `json:"first"`
	Second  string   `json:"second"`
	Verdict string   `json:"verdict"` // apart, together, no-spread, too-few
	P       *float64 `json:"p"`
}

// verdicts are the words of WriteJSON for what a pair of groups comes to.
var verdicts = map[runs.Verdict]string{
	runs.Apart: "apart", runs.Together: "together", runs.NoSpread: "no-spread", runs.TooFew: "too-few",
}

// WriteJSON writes the report as one object.
func (r *Report) WriteJSON(w io.Writer) error {
	out := reportJSON{Files: r.Files, Teams: r.Teams, Runs: r.Runs, By: r.By, Columns: []columnJSON{}}
	for _, c := range r.Columns {
		column := columnJSON{Name: c.Name, Unit: c.Unit.String(), Target: number(c.Column.Target),
			Groups: []groupJSON{}}
		for _, g := range c.Groups {
			column.Groups = append(column.Groups, c.json(g))
		}
		column.Pairs, column.Aim = c.pairs(c.Near), c.pairs(c.Aim)
		out.Columns = append(out.Columns, column)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false) // the reader is a program, and “<” in a name should stay one
	return enc.Encode(out)
}

// pairs gives compared groups as they are written.
func (c Column) pairs(all []runs.Pair) []pairJSON {
	out := []pairJSON{}
	for _, p := range all {
		pair := pairJSON{First: c.Groups[p.First].Name, Second: c.Groups[p.Second].Name, Verdict: verdicts[p.Verdict]}
		if p.Verdict == runs.Apart || p.Verdict == runs.Together {
			pair.P = number(p.P)
		}
		out = append(out, pair)
	}
	return out
}

// json gives a group as it is written.
func (c Column) json(g runs.Group) groupJSON {
	out := groupJSON{
		Name: g.Name, N: g.N, Mean: number(g.Mean), SD: number(g.SD), Low: number(g.Low), High: number(g.High),
		Bias: number(g.Bias), Percent: number(100 * g.Percent), Odd: []oddJSON{},
	}
	for _, i := range g.Odd {
		at := c.Places[g.Rows[i]]
		out.Odd = append(out.Odd, oddJSON{at.File, at.Line, quantity.Snapped(g.Values[i])})
	}
	return out
}

// number gives a number that JSON can hold, nil for others: JSON has no word for what could not be worked out but null.
// 48.1 in is 122.174 cm there, without what binary arithmetic leaves.
func number(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	x = quantity.Snapped(x)
	return &x
}
