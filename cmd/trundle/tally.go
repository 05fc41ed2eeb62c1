package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"trundle/generator"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/tally"
	"trundle/generator/write"
	"trundle/site/figure"
)

type tallyCommand struct {
	reporting
	Files  []string `arg:"" name:"file.csv" help:"Files of runs: a row a run, the unit of a measured column in its name."`
	By     string   `placeholder:"COLUMN" help:"The column that says which group a run is of. Without it: base, else team."`
	Target []string `placeholder:"COLUMN=SIZE" sep:"none" help:"What every run of a column should have come to, such as 's=120 cm'. May be given more than once."`
	JSON   bool     `name:"json" help:"Print one object: files, by, columns with their groups and pairs."`
	Out    string   `short:"o" placeholder:"DIR" help:"Write a page with charts into this folder; trundle replaces it as a whole, and only if it made it."`
}

// anywhere opens files by the names that were typed.
type anywhere struct{}

func (anywhere) Open(name string) (fs.File, error) { return os.Open(name) }

func (c *tallyCommand) Run(p *program) error {
	targets, err := c.targets(p)
	if err != nil {
		return err
	}
	if err := c.usable(p); err != nil {
		return err
	}
	t, err := generator.Tally(anywhere{}, c.Files, tally.Options{By: c.By, Targets: targets})
	if err != nil {
		return err
	}
	// The files' names stand as they were typed, as those of a pack do that is the folder here.
	if err := errors.Join(p.printProblems(".", t.Problems), c.write(".", t.Problems)); err != nil {
		return err
	}
	if errorsAmong, _ := problem.Counts(t.Problems); errorsAmong > 0 {
		return codeError(problems)
	}
	if c.Out != "" {
		files, err := generator.DrawTally(t.Report)
		if err != nil {
			return err
		}
		if err := write.Report(c.Out, c.Files[0], files); err != nil {
			return err
		}
	}
	if c.JSON {
		return printTally(p.stdout, t.Report)
	}
	if err := printTables(p.stdout, t); err != nil {
		return err
	}
	if c.Out != "" {
		_, err = fmt.Fprintln(p.stdout, filepath.Join(c.Out, "index.html"))
	}
	return err
}

// targets reads COLUMN=SIZE.
func (c *tallyCommand) targets(p *program) (map[string]quantity.Quantity, error) {
	all := map[string]quantity.Quantity{}
	for _, text := range c.Target {
		name, size, ok := strings.Cut(text, "=")
		name = strings.TrimSpace(name)
		if !ok || name == "" {
			p.fail(misused, fmt.Errorf("--target %s names no column and its size; write it as in --target 's=120 cm'", text))
			return nil, codeError(misused)
		}
		if strings.Contains(size, "±") {
			p.fail(misused, fmt.Errorf("--target %s has a ±, and a target is where every run should end; leave it out", text))
			return nil, codeError(misused)
		}
		sum, found := generator.WorkSum(size)
		if len(found) > 0 {
			if err := problem.Print(p.stderr, "--target ", found); err != nil {
				return nil, err
			}
			return nil, codeError(misused)
		}
		for other := range all {
			if strings.EqualFold(other, name) {
				p.fail(misused, fmt.Errorf("--target %s is a second target of that column; give one", text))
				return nil, codeError(misused)
			}
		}
		all[name] = sum.Value
	}
	return all, nil
}

// usable says what is wrong with the names that were typed.
func (c *tallyCommand) usable(p *program) error {
	for _, name := range c.Files {
		info, err := os.Stat(name)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			p.fail(misused, fmt.Errorf("there is no file %s", name))
			return codeError(misused)
		case err != nil:
			return err
		case info.IsDir():
			p.fail(misused, fmt.Errorf("%s is a folder; name the files in it", name))
			return codeError(misused)
		case !info.Mode().IsRegular():
			p.fail(misused, fmt.Errorf("%s is no file that can be read twice", name))
			return codeError(misused)
		}
		if c.Out == "" {
			continue
		}
		if err := write.CheckReport(c.Out, name); errors.Is(err, write.ErrNotOurs) || errors.Is(err, write.ErrInside) {
			if errors.Is(err, write.ErrInside) {
				err = fmt.Errorf("%s lies in the folder %s, which would be replaced", name, c.Out)
			}
			return p.misuse(err, "choose a new folder for -o, or an empty one")
		}
	}
	if c.Out != "" {
		if err := c.outside(p, c.Out); err != nil {
			return err
		}
	}
	return c.reporting.usable(p)
}

// printTables prints a report for a terminal.
func printTables(w io.Writer, t *generator.Tallied) error {
	var b strings.Builder
	fmt.Fprintln(&b, t.Head)
	for _, table := range t.Tables {
		fmt.Fprintf(&b, "\n%s\n", plainLine(table.Caption))
		printTable(&b, table)
		for _, s := range slices.Concat(table.Look, table.Says) {
			fmt.Fprintln(&b, plainLine(s))
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// printTable sets a table in columns: the first to the left, numbers to the right.
func printTable(b *strings.Builder, t figure.Numbers) {
	rows := append([][]string{t.Heads}, t.Rows...)
	widths := make([]int, len(t.Heads))
	for _, row := range rows {
		for i := range row {
			row[i] = plainLine(row[i])
			widths[i] = max(widths[i], utf8.RuneCountInString(row[i]))
		}
	}
	for _, row := range rows {
		line := ""
		for i, cell := range row {
			blanks := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if i == 0 {
				line += cell + blanks
			} else {
				line += "  " + blanks + cell
			}
		}
		fmt.Fprintln(b, strings.TrimRight(line, " "))
	}
}

// plainLine keeps what a file holds from steering the terminal.
func plainLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 || r == 0x061c || r == 0x200e || r == 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return '\ufffd'
		}
		return r
	}, s)
}

// The report as --json prints it. Numbers are in the column's unit; null where there is none.
type talliedJSON struct {
	Files   []string     `json:"files"`
	Teams   int          `json:"teams"`
	Runs    int          `json:"runs"`
	By      string       `json:"by"`
	Columns []columnJSON `json:"columns"`
}

type columnJSON struct {
	Name   string      `json:"name"`
	Unit   string      `json:"unit"`
	Target *float64    `json:"target"`
	Groups []groupJSON `json:"groups"`
	Pairs  []pairJSON  `json:"pairs"`
}

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

type oddJSON struct {
	File  string  `json:"file"`
	Line  int     `json:"line"`
	Value float64 `json:"value"`
}

type pairJSON struct {
	First   string   `json:"first"`
	Second  string   `json:"second"`
	Verdict string   `json:"verdict"` // apart, together, same, no-spread, too-few
	P       *float64 `json:"p"`
	Runs    *int     `json:"runs"` // each, that would tell them apart
}

var verdicts = map[runs.Verdict]string{
	runs.Apart: "apart", runs.Together: "together", runs.Same: "same", runs.NoSpread: "no-spread", runs.TooFew: "too-few",
}

func printTally(w io.Writer, r *tally.Report) error {
	out := talliedJSON{Files: r.Files, Teams: r.Teams, Runs: r.Runs, By: r.By, Columns: []columnJSON{}}
	for _, c := range r.Columns {
		column := columnJSON{Name: c.Name, Unit: c.Unit.String(), Target: number(c.Column.Target), Groups: []groupJSON{}, Pairs: []pairJSON{}}
		for _, g := range c.Groups {
			column.Groups = append(column.Groups, groupOf(c, g))
		}
		for _, p := range c.Pairs {
			pair := pairJSON{First: c.Groups[p.First].Name, Second: c.Groups[p.Second].Name, Verdict: verdicts[p.Verdict]}
			if p.Verdict == runs.Apart || p.Verdict == runs.Together {
				pair.P = number(p.P)
			}
			if n, ok := c.Needed(p); ok && p.Verdict == runs.Together {
				pair.Runs = &n
			}
			column.Pairs = append(column.Pairs, pair)
		}
		out.Columns = append(out.Columns, column)
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	return enc.Encode(out)
}

func groupOf(c tally.Column, g runs.Group) groupJSON {
	out := groupJSON{
		Name: g.Name, N: g.N, Mean: number(g.Mean), SD: number(g.SD), Low: number(g.Low), High: number(g.High),
		Bias: number(g.Bias), Percent: number(100 * g.Percent), Odd: []oddJSON{},
	}
	for _, i := range g.Odd {
		at := c.Places[g.Rows[i]]
		out.Odd = append(out.Odd, oddJSON{at.File, at.Line, g.Values[i]})
	}
	return out
}

func number(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}
