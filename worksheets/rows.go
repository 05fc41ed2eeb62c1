package worksheets

// Rows of work blocks, one by one, for columns.

import "trundle/generator/lesson"

// A workRow is a row of a work block that may stand in a column.
type workRow struct {
	draw func()
	wide bool
}

// rows gives those of a work block. Where boxes share a row, they stay in it.
func (s *sheet) rows(b *lesson.WorkBlock) []workRow {
	var all []workRow
	for rest := s.questions(b); len(rest) > 0; {
		n := s.sharing(rest)
		row := rest[:n]
		rest = rest[n:]
		kind := row[0].Kind
		all = append(all, workRow{func() {
			for left := row; len(left) > 0; {
				left = left[s.row(left):]
			}
		}, kind == lesson.Say || isAmount(kind) && !s.fit.terse})
	}
	return all
}

// isAmount tells what has one box beside its prompt.
func isAmount(kind lesson.StatementKind) bool {
	return kind == lesson.Measure || kind == lesson.Predict
}

// sharing is how many of some questions the first row has across the page.
func (s *sheet) sharing(rest []question) int {
	return int(s.measures.next(s.measuring, func() (n float64) {
		s.unseen(func() { n = float64(s.row(rest)) })
		return n
	}))
}
