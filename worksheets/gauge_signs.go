package worksheets

// Whether what a lesson has its teams plot has signs, so that its axis needs a negative side.

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// signed tells whether readings of the lesson are below zero: those in the unit that the text along the side ends with
// ("Drift, in mm"), whether a team records them or a file has them; without a unit those that a team records.
func (s *sheet) signed(side string) bool {
	unit := ""
	if words := strings.Fields(side); len(words) > 0 {
		if _, ok := quantity.LookupUnit(words[len(words)-1]); ok {
			unit = words[len(words)-1]
		}
	}
	found := false
	below := func(in quantity.Unit, numbers []float64) {
		found = found || (unit == "" || in.Symbol() == unit) && slices.ContainsFunc(numbers, isBelow)
	}
	_ = ast.Walk(s.lesson.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n := n.(type) { // the others: no numbers of a side
		case *lesson.WorkBlock:
			s.recorded(n, below)
		case *lesson.DataBlock:
			if unit != "" {
				s.filed(n, below)
			}
		}
		return ast.WalkContinue, nil
	})
	return found
}

func isBelow(x float64) bool { return x < 0 }

// recorded gives the samples of a block's records.
func (s *sheet) recorded(b *lesson.WorkBlock, give func(quantity.Unit, []float64)) {
	for _, st := range b.Statements {
		if r := s.lesson.Of(st); r != nil {
			if record, ok := r.Value.(quantity.Record); ok {
				give(record.Unit, record.Numbers)
			}
		}
	}
}

// filed gives the readings that a data block shows.
func (s *sheet) filed(b *lesson.DataBlock, give func(quantity.Unit, []float64)) {
	d := s.lesson.OfData(b)
	if d == nil {
		return
	}
	for _, m := range d.Measured {
		for _, g := range m.Groups {
			give(m.Unit, g.Values)
		}
	}
}
