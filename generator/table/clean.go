package table

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"trundle/generator/quantity"
)

// separatorLine is a first line by which some spreadsheets name what stands between cells.
var separatorLine = regexp.MustCompile("^(?:\xef\xbb\xbf)?(?i:sep)=([,;])\r?\n")

// seen gives a cell's text without what nobody sees: characters that control a terminal or
// the direction of writing, and breaks of lines.
func (t *Table) seen(text string) string {
	clean := strings.Map(func(r rune) rune {
		switch {
		case r == '\n', r == '\r', r == '\t':
			return ' '
		case unicode.In(r, unicode.Cc, unicode.Cf):
			t.hidden = true
			return -1
		}
		return r
	}, text)
	return strings.TrimSpace(clean)
}

func blank(record []string) bool {
	return !slices.ContainsFunc(record, func(cell string) bool { return strings.TrimSpace(cell) != "" })
}

// trim drops columns at the end that have neither a name nor a cell.
func (t *Table) trim() {
	for n := len(t.Columns); n > 1 && t.Columns[n-1].Name == ""; n-- {
		t.Columns = t.Columns[:n-1]
	}
}

// number shapes of a file with semicolons.
var (
	withComma = regexp.MustCompile(`^[-+]?\d*,\d+$`)
	withPoint = regexp.MustCompile(`^[-+]?\d*\.\d+$`)
	thousands = regexp.MustCompile(`^[-+]?[1-9]\d{0,2}(?:\.\d{3})+$`)
)

// settle finds out whether a file with semicolons has decimal commas or decimal points.
func (t *Table) settle() {
	if t.decimal != ambiguous {
		return
	}
	point := false
	for _, c := range t.Columns {
		for _, cell := range c.Cells {
			text := strings.Replace(cell.Text, quantity.Minus, "-", 1)
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
// commas, or in groups of three where nothing tells.
func (t *Table) doubtful(text string) bool {
	text = strings.Replace(text, quantity.Minus, "-", 1)
	return t.decimal == commas && withPoint.MatchString(text) || t.decimal != points && thousands.MatchString(text)
}
