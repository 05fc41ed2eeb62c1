package table

// This file cleans what spreadsheets and copied text leave in cells, and settles what a comma means.

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// separatorLine is a first line by which some spreadsheets name what stands between cells.
var separatorLine = wording.New("^(?:\xef\xbb\xbf)?(?i:sep)=[,;]\r?\n")

// seen gives a cell's text without what nobody sees, and notes the first cell that had such.
func (t *Table) seen(text string, at source.Span) string {
	clean, hidden := Seen(text)
	if hidden && t.hidden == (source.Span{}) {
		t.hidden = at
	}
	return clean
}

// Seen gives a text without what nobody sees: characters that control a terminal or the direction of writing, and
// breaks of lines. What joins letters stays. hidden tells whether there was any.
func Seen(text string) (clean string, hidden bool) {
	clean = strings.Map(func(r rune) rune {
		switch {
		case r == '\n', r == '\r', r == '\t':
			return ' '
		case r == '\u200c', r == '\u200d':
			return r
		case unicode.In(r, unicode.Cc, unicode.Cf):
			hidden = true
			return -1
		}
		return r
	}, text)
	return strings.TrimSpace(clean), hidden
}

// blank is true for a row without any text, as spreadsheets leave them at the end.
func blank(record []string) bool {
	return !slices.ContainsFunc(record, func(cell string) bool { return strings.TrimSpace(cell) != "" })
}

// trim drops columns at the end that have neither a name nor a cell.
func (t *Table) trim(problems *problem.List) {
	for n := len(t.Columns); n > 1 && t.Columns[n-1].Name == ""; n-- {
		if c := t.Columns[n-1]; slices.ContainsFunc(c.Cells, func(cell Cell) bool { return cell.Text != "" }) {
			t.nameless(n, problems)
		}
		t.Columns = t.Columns[:n-1]
	}
}

func (t *Table) nameless(column int, problems *problem.List) {
	problems.Error(t.File, t.Columns[column-1].At, "no-column-name", "column "+strconv.Itoa(column)+" has no name",
		"name it in the first row")
}

// unbracketed notes what a name was probably meant to be that ends in a unit without brackets, such as "stop in".
func (c *Column) unbracketed() {
	words := strings.Fields(c.Name)
	if len(words) < 2 || c.HasUnit {
		return
	}
	last := len(words) - 1
	unit := strings.Trim(words[last], "[]{}/,")
	if _, err := quantity.ParseUnit(unit); err == nil {
		c.Meant = strings.Join(words[:last], "_") + " (" + unit + ")"
	}
}

// number shapes of a file with semicolons.
var (
	withComma = wording.New(`^[-+]?\d*,\d+$`)
	withPoint = wording.New(`^[-+]?\d*\.\d+$`)
	thousands = wording.New(`^[-+]?[1-9]\d{0,2}\.\d{3}$`)
)

// settle finds out whether a file with semicolons has decimal commas or decimal points.
func (t *Table) settle() {
	if t.decimal != ambiguous {
		return
	}
	point := false
	for _, c := range t.Columns {
		for _, cell := range c.Cells {
			text := quantity.Ungrouped(strings.Replace(cell.Text, quantity.Minus, "-", 1))
			if withComma.MatchString(text) {
				t.decimal = commas
				return
			}
			point = point || withPoint.MatchString(text) && !thousands.MatchString(text)
		}
	}
	if point {
		t.decimal = points
	}
}

// doubtful tells whether a number may mean two things: one with a point among decimal
// commas, or before three digits where nothing tells.
func (t *Table) doubtful(text string) bool {
	text = strings.Replace(text, quantity.Minus, "-", 1)
	return t.decimal == commas && withPoint.MatchString(text) || t.decimal != points && thousands.MatchString(text)
}
