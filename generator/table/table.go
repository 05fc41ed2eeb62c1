// Package table reads files of runs: RFC 4180, a row a run, the unit of a measured column
// in its name, as in "stop (cm)". What a spreadsheet of another country writes, semicolons
// and decimal commas, is read too, with a note.
package table

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Table is a file of runs.
type Table struct {
	File    *source.File
	Columns []*Column
	Rows    int
	hidden  source.Span // the first cell of which characters were left out that cannot be seen
	decimal decimals
	words   *quantity.Vocabulary
}

// decimals is how a file's numbers are to be read.
type decimals int

const (
	points    decimals = iota // 12.5
	commas                    // 12,5
	ambiguous                 // 1.203 of a file with semicolons, and nothing that tells what it means
)

// Column is a column of a table, its cells as written.
type Column struct {
	Name    string // "stop"
	Written string // in the file, as in "stop (in)"
	Unit    quantity.Unit
	HasUnit bool
	Broken  bool        // its unit is none, which was reported
	Meant   string      // how a name that ends in a unit without brackets should be, as in "stop (in)"; else ""
	At      source.Span // of the name in the header
	Cells   []Cell      // one a row
}

// Cell is a cell as written, without blanks around it.
type Cell struct {
	Text string
	At   source.Span
}

// MaxRows bounds a file; no class makes as many runs.
const MaxRows = 200_000

// MaxNumber is the size beyond which a number is a slip of the keyboard.
const MaxNumber = 1e12

// MaxCell and MaxColumns bound what a cell holds, in characters, and a row, in cells.
const (
	MaxCell    = 200
	MaxColumns = 60
)

// Read reads a file. It gives what could be read together with every problem found. words are what its pack names
// itself, nil for nothing.
func Read(f *source.File, words *quantity.Vocabulary) (*Table, problem.List) {
	var problems problem.List
	t := &Table{File: f, words: words}
	r := csv.NewReader(bytes.NewReader(f.Text()))
	r.FieldsPerRecord, r.ReuseRecord = -1, true
	named := separatorLine.Match(f.Text())
	t.separator(r, &problems)
	ragged := &Reporter{file: f, problems: &problems}
	starts := lineStarts(f.Text())
	place := func(field int, text string) source.Span {
		line, column := r.FieldPos(field)
		start := starts[line-1] + column - 1
		return source.Span{Start: start, End: min(start+max(1, len(text)), len(f.Text()))} // the last one may be empty
	}
	for {
		record, err := r.Read()
		if err != nil {
			if !errors.Is(err, io.EOF) {
				problems.Error(f, brokenAt(err, starts), "broken-table",
					"this cannot be read as a table: "+reason(err), "save the file from the spreadsheet again, as CSV")
			}
			break
		}
		if named {
			named = false // the line that names the separator is for a spreadsheet
			continue
		}
		if t.Columns == nil {
			t.header(record, place, &problems)
			continue
		}
		if blank(record) {
			continue
		}
		if t.Rows++; t.Rows > MaxRows {
			problems.Error(f, place(0, record[0]), "table-too-long",
				"a file of runs has at most "+strconv.Itoa(MaxRows)+" rows", "split it")
			break
		}
		t.row(record, place, ragged)
	}
	ragged.Rest("rows of another length than the first")
	if t.Columns == nil {
		problems.Error(f, source.Span{}, "empty-table", "this file has no row of names",
			"start with a row such as  base,run,stop (cm)")
	}
	t.trim(&problems)
	t.settle()
	t.reportHidden(&problems)
	return t, problems
}

// separator sees what stands between the cells, and says so if others would not expect it.
func (t *Table) separator(r *csv.Reader, problems *problem.List) {
	switch first, _, _ := bytes.Cut(t.File.Text(), []byte("\n")); {
	case tabs(first):
		r.Comma, t.decimal = '\t', ambiguous
		problems.Caution(t.File, source.Span{}, "tabs", "this file is read with tabs between cells",
			"nothing has to be done; other spreadsheets read it more easily with commas between cells")
	case semicolons(t.File.Text()):
		r.Comma, t.decimal = ';', ambiguous
		if t.words.HasCommas() {
			break // it is the form that spreadsheets of the pack's language have
		}
		problems.Caution(t.File, source.Span{}, "semicolons",
			"this file is read with semicolons between cells and commas in numbers",
			"nothing has to be done; other spreadsheets read it more easily with commas between and points in numbers")
	}
}

// reportHidden says that characters were left out which nobody sees.
func (t *Table) reportHidden(problems *problem.List) {
	if t.hidden != (source.Span{}) {
		problems.Caution(t.File, t.hidden, "hidden-characters", "from this cell on the file has characters that cannot "+
			"be seen, such as marks of writing from right to left; they are left out",
			"nothing has to be done; they come with copied text")
	}
}

// tabs tells whether a first line has more tabs than other marks between cells.
func tabs(line []byte) bool {
	n := bytes.Count(line, []byte("\t"))
	return n > bytes.Count(line, []byte(",")) && n > bytes.Count(line, []byte(";"))
}

// semicolons tells whether the first line has more semicolons than commas outside quotes. Spreadsheets of countries
// with a decimal comma save so, and the coach cannot see it there.
func semicolons(text []byte) bool {
	n, quoted := 0, false
	for _, b := range text {
		switch {
		case b == '"':
			quoted = !quoted
		case quoted:
		case b == ';':
			n++
		case b == ',':
			n--
		case b == '\n':
			return n > 0
		}
	}
	return n > 0
}

// lineStarts gives the offset of each line.
func lineStarts(text []byte) []int {
	starts := []int{0}
	for i, b := range text {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// brokenAt gives the place where the reader of CSV gave up: its own column is of no use after a line end in a cell.
func brokenAt(err error, starts []int) source.Span {
	var parse *csv.ParseError
	if errors.As(err, &parse) && parse.StartLine <= len(starts) {
		start := starts[parse.StartLine-1] // where the row starts; a quote that is never closed ends with the file
		return source.Span{Start: start, End: start + 1}
	}
	return source.Span{}
}

// reason says in plain words what is wrong with a table.
func reason(err error) string {
	switch {
	case errors.Is(err, csv.ErrQuote):
		return "a quote mark is never closed, or has text after it"
	case errors.Is(err, csv.ErrBareQuote):
		return "there is a quote mark inside a cell that does not start with one"
	}
	return err.Error()
}

// header reads the names: name [ "(" unit ")" ]. A name without a unit is a column of plain numbers or of texts; which
// of the two is only known when somebody asks for its numbers.
func (t *Table) header(record []string, place func(int, string) source.Span, problems *problem.List) {
	seen := map[string]bool{}
	t.Columns = []*Column{}
	for i, text := range record {
		c := &Column{At: place(i, text)}
		c.Name = t.seen(text, c.At)
		c.Written = c.Name
		if i == MaxColumns {
			problems.Error(t.File, c.At, "too-many-columns",
				"a file of runs has at most "+strconv.Itoa(MaxColumns)+" columns", "leave out those that nobody uses")
			return
		}
		if utf8.RuneCountInString(c.Name) > MaxCell {
			problems.Error(t.File, c.At, "cell-too-long",
				"this name is longer than "+strconv.Itoa(MaxCell)+" characters", "is a quote mark missing?")
		}
		if open := strings.LastIndexByte(c.Name, '('); open > 0 && strings.HasSuffix(c.Name, ")") {
			written := strings.TrimSpace(c.Name[open+1 : len(c.Name)-1])
			c.Name = strings.TrimSpace(c.Name[:open])
			u, err := t.words.ParseUnit(written)
			if err != nil && !err.Reported {
				problems.Error(t.File, c.At, "unknown-unit",
					"“"+written+"” is not a unit for the column "+c.Name, quantity.UnitHint)
			}
			c.Unit, c.HasUnit, c.Broken = u, err == nil, err != nil
		}
		c.unbracketed()
		switch {
		case c.Name == "" && !blank(record[i:]):
			t.Columns = append(t.Columns, c)
			t.nameless(i+1, problems)
			continue
		case c.Name != "" && seen[c.Name]:
			problems.Error(t.File, c.At, "column-twice", "two columns are called "+c.Name,
				"give one of them another name")
		}
		seen[c.Name] = true
		t.Columns = append(t.Columns, c)
	}
}

// row takes the cells of a row, each to its column.
func (t *Table) row(record []string, place func(int, string) source.Span, report *Reporter) {
	if len(record) < len(t.Columns) || !blank(record[len(t.Columns):]) {
		report.Error(place(0, record[0]), "ragged-row",
			"this row has "+problem.Plural(len(record), "cell")+" and the first one "+strconv.Itoa(len(t.Columns)),
			"fill the row up, or leave its cells empty with their separators")
	}
	for i, c := range t.Columns {
		cell := Cell{At: place(0, record[0])}
		if i < len(record) {
			cell.At = place(i, record[i])
			cell.Text = unguarded(t.seen(record[i], cell.At))
		}
		if utf8.RuneCountInString(cell.Text) > MaxCell {
			report.Error(cell.At, "cell-too-long", "this cell has more than "+strconv.Itoa(MaxCell)+" characters",
				"is a quote mark missing?")
			cell.Text = ""
		}
		c.Cells = append(c.Cells, cell)
	}
}

// unguarded takes off the ' that keeps a spreadsheet from taking a text for a formula; the
// students' page writes it.
func unguarded(text string) string {
	rest, quoted := strings.CutPrefix(text, "'")
	if first, _ := utf8.DecodeRuneInString(rest); quoted && strings.ContainsRune("=+-@＝＋－＠", first) {
		return rest
	}
	return text
}

// Numbers gives a column's cells as numbers in the unit given; an empty cell, and one that
// is no number, is NaN.
func (t *Table) Numbers(c *Column, u quantity.Unit) ([]float64, problem.List) {
	var problems problem.List
	if c.HasUnit && !quantity.Alike(c.Unit, u) {
		problems.Error(t.File, c.At, "mixed-dimensions",
			"the column "+c.Name+" is in "+c.Unit.String()+", "+c.Unit.Dimension().String()+"; "+
				u.Dimension().String()+" is asked for",
			"name a column of that kind")
		return nil, problems
	}
	if !t.HasNumber(c) && t.texts(c) > 1 { // one problem for all of its cells
		problems.Error(t.File, c.At, "not-a-number", "no cell of the column "+c.Name+" is a number",
			"name a column of numbers where this one is asked for")
		return nil, problems
	}
	numbers, report := make([]float64, len(c.Cells)), t.Reporter(c, &problems)
	for i, cell := range c.Cells {
		numbers[i] = math.NaN()
		if cell.Text == "" { // a run that was not made is not a mistake
			continue
		}
		x, ok := t.number(cell.Text)
		if t.doubtful(cell.Text) {
			report.Error(cell.At, "point-or-comma",
				"“"+cell.Text+"” may be "+strings.Replace(cell.Text, ".", "", -1)+" or "+strings.Replace(cell.Text,
					".", ",", 1)+" in a file with semicolons",
				"write it without the point, or with a decimal comma")
			continue
		}
		if !ok {
			if x, ok = t.spelledOut(c, cell, report); !ok {
				continue
			}
		}
		if math.Abs(x) > MaxNumber {
			report.Error(cell.At, "number-too-large", "“"+cell.Text+"” is too large to be measured", "check the number")
			continue
		}
		if c.HasUnit {
			q, _ := quantity.New(x, c.Unit).In(u)
			x = q.Number
		}
		numbers[i] = x
	}
	report.Rest("cells of the column " + c.Name + " that cannot be read")
	return numbers, problems
}

// mostPlaces are more than anybody reads off; with more, a number was calculated, and has no step.
const mostPlaces = 6

// Finest gives the finest step to which a column's cells are written, in a unit, as 0.1 for 120.4 and 119; 0 if it is
// not known. What was read to whole steps throughout may be written without decimals, so that all cells count.
func (t *Table) Finest(c *Column, u quantity.Unit) float64 {
	places := 0
	for _, cell := range c.Cells {
		_, fraction, _ := strings.Cut(strings.ReplaceAll(quantity.Ungrouped(cell.Text), ",", "."), ".")
		if _, plain := t.number(cell.Text); cell.Text != "" && !plain || len(fraction) > mostPlaces ||
			strings.ContainsAny(cell.Text, "eE") {
			return 0
		}
		places = max(places, len(fraction))
	}
	step := math.Pow(10, -float64(places))
	if !c.HasUnit {
		return step
	}
	in, _ := quantity.New(step, c.Unit).In(u)
	return in.Number
}

// texts counts the cells of a column with something in them.
func (t *Table) texts(c *Column) int {
	n := 0
	for _, cell := range c.Cells {
		if cell.Text != "" {
			n++
		}
	}
	return n
}

// HasNumber tells whether any cell of a column is a number: a column with none was never measured.
func (t *Table) HasNumber(c *Column) bool {
	for _, cell := range c.Cells {
		if _, ok := t.number(cell.Text); ok {
			return true
		}
		if _, err := t.answer(cell.Text); err == nil {
			return true
		}
	}
	return false
}

// number reads a cell's number. ParseFloat would take hexadecimal digits and underscores too, which no spreadsheet
// means.
func (t *Table) number(text string) (float64, bool) {
	text = quantity.Ungrouped(strings.Replace(text, quantity.Minus, "-", 1))
	if t.decimal == commas {
		text = strings.Replace(text, ",", ".", 1)
	}
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && !math.IsInf(x, 0) && !math.IsNaN(x) && !strings.ContainsAny(text, "xXpP_")
}

// Only gives a table with some of its rows. The table itself stays as it is.
func (t *Table) Only(rows []int) *Table {
	some := *t
	some.Rows, some.Columns = len(rows), make([]*Column, len(t.Columns))
	for i, column := range t.Columns {
		c := *column
		c.Cells = make([]Cell, len(rows))
		for k, row := range rows {
			c.Cells[k] = column.Cells[row]
		}
		some.Columns[i] = &c
	}
	return &some
}
