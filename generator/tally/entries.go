package tally

// This file makes of a team's entries in a lesson the table of its runs: the same as the page's own CSV would have.
// Only a pack says which records a lesson has and in what unit a bare number is.

import (
	"math"
	"strconv"
	"strings"

	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/table"
	"trundle/generator/wording"
)

// mostTimes is how many times as many runs a team may add as the lesson asks for; rows.js has the same.
const mostTimes = 3

// hasRuns tells whether a run of a lesson was entered.
func (e entries) hasRuns(l *Lesson) bool {
	for _, r := range l.Records {
		for k := range r.Runs * mostTimes {
			if e.texts[boxOf(r, k+1)] != "" {
				return true
			}
		}
	}
	return false
}

// boxOf is the name of the box of a record's run.
func boxOf(r Record, k int) string { return r.Name + "-" + strconv.Itoa(k) }

// table makes the table of a lesson's runs; kit is what the team says of its robot. A text that is no number of the
// record's kind is an empty cell, with a caution: the page has said so to the team, and the mentor cannot ask it now.
func (p *Pack) table(l *Lesson, w *teamWork, problems *problem.List) *table.Table {
	own, kit := w.lessons[l.Key], w.lessons[""].texts
	base := p.baseOf(kit["@kit"])
	t, most := &table.Table{File: own.from.file}, 0
	for _, name := range about[:3] {
		t.Columns = append(t.Columns, &table.Column{Name: name, Written: name})
	}
	for _, r := range l.Records {
		t.Columns = append(t.Columns, &table.Column{Name: r.Name, Written: r.Name, Unit: r.Unit, HasUnit: !r.Unit.IsNumber()})
		most = max(most, r.Runs*mostTimes)
	}
	other := writesOther(p.Words.HasCommas(), own.texts, kit)
	for k := 1; k <= most; k++ {
		row, full := []table.Cell{{Text: w.team}, {Text: base}, {Text: strconv.Itoa(k)}}, false
		for _, r := range l.Records {
			cell := table.Cell{At: own.places[boxOf(r, k)]}
			if text := strings.TrimSpace(own.texts[boxOf(r, k)]); text != "" && k <= r.Runs*mostTimes {
				x, ok := p.number(text, other, r.Unit)
				if ok {
					cell.Text, full = x, true
				} else {
					problems.Caution(t.File, cell.At, "not-a-number", "“"+text+"”, run "+strconv.Itoa(k)+" of "+r.Name+
						", is not a number of that kind, and is left out", "ask the team what it meant, and save its work again")
				}
			}
			row = append(row, cell)
		}
		if full {
			addRow(t, row)
		}
	}
	return t
}

// baseOf is what a team's runs say of its robot. A text that no kit is called came with a file, from anywhere.
func (p *Pack) baseOf(kit string) string {
	if title := p.Kits[kit]; title != "" {
		return title
	}
	if length(kit) > MaxTeam {
		return ""
	}
	seen, _ := table.Seen(kit)
	return seen
}

// addRow adds a row to a table. A cell that stands nowhere has the place of the row's first run.
func addRow(t *table.Table, row []table.Cell) {
	first := source.Span{}
	for _, cell := range row {
		if cell.At.End > 0 {
			first = cell.At
			break
		}
	}
	t.Rows++
	for i, c := range t.Columns {
		if row[i].At == (source.Span{}) {
			row[i].At = first
		}
		c.Cells = append(c.Cells, row[i])
	}
}

// A time of day without a unit, where a time is asked for.
var bareTime = wording.New(`^[^\pL]*:[^\pL]*$`)

// largest is the size beyond which a number is a slip of the keyboard; rows.js has the same, and so have tables.
const largest = 1e12

// number reads an entry as the page does, and writes it as the page's CSV has it: in the record's unit, without what
// binary arithmetic leaves. other is true for a team that writes decimals with the mark that the pack's language does
// not have there.
func (p *Pack) number(text string, other bool, u quantity.Unit) (string, bool) {
	if symbol := u.Symbol(); (symbol == "s" || symbol == "min" || symbol == "h") && bareTime.MatchString(text) {
		if symbol == "h" || strings.Count(text, ":") > 1 {
			text += " h"
		} else {
			text += " min"
		}
	}
	a, err := p.Words.ReadAnswer(text, other)
	if err != nil {
		return "", false
	}
	x := a.Number.Float()
	if a.Negative {
		x = -x
	}
	if a.HasUnit {
		q, alike := quantity.New(x, a.Unit).In(u)
		if !alike {
			return "", false
		}
		x = q.Number
	}
	if math.IsNaN(x) || math.Abs(x) > largest {
		return "", false
	}
	x = quantity.Snapped(x)
	form := byte('f')
	if size := math.Abs(x); size != 0 && size < 1e-6 { // as JavaScript writes numbers
		form = 'e'
	}
	return strconv.FormatFloat(x, form, -1, 64), true
}

// marks are the shapes of entries that have one mark before their decimals.
type marks struct {
	has    *wording.Pattern // what can be read with it
	surely *wording.Pattern // what can be nothing else, and no thousands
}

var (
	withPoints = marks{wording.New(`^[ +−-]*\d*\.\d`),
		wording.New(`^[ +−-]*(?:\d*\.(?:\d\d?|\d{4,})|0?\.\d+)(?:\D|$)`)}
	withCommas = marks{wording.New(`^[ +−-]*\d*,\d`),
		wording.New(`^[ +−-]*(?:\d*,(?:\d\d?|\d{4,})|0?,\d+)(?:\D|$)`)}
)

// writesOther tells whether a team writes decimals with the mark that the pack's language does not have there: some
// that can be nothing else, and none with the language's own; values.js has the same rule. A sentence says nothing of
// that.
func writesOther(hasCommas bool, written ...map[string]string) bool {
	const sentence = 6 // words
	own, other, some := withPoints, withCommas, false
	if hasCommas {
		own, other = withCommas, withPoints
	}
	for _, texts := range written {
		for _, text := range texts {
			if len(strings.Fields(text)) >= sentence {
				continue
			}
			text = quantity.Ungrouped(text)
			if own.has.MatchString(text) {
				return false
			}
			some = some || other.surely.MatchString(text)
		}
	}
	return some
}
