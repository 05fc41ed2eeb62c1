package worksheets

// What of a lesson goes on paper. It is decided by what the blocks are, and by the marks of headings; no word of a
// lesson decides it.

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// A selection is what is printed of a lesson.
type selection struct {
	lesson  *work.Lesson
	brief   bool                               // there is hardly room
	most    int                                // characters of a paragraph that leads to what comes next
	blocks  []ast.Node                         // of the top level and for students, in their order
	marks   map[ast.Node]lesson.PaperMark      // of them
	written map[ast.Node]bool                  // those of parts that are answered in writing
	printed map[ast.Node]bool                  // those that are printed in their place
	later   []*lesson.DataBlock                // what waits for answers, to be printed last
	part    map[*lesson.DataBlock]*ast.Heading // that these are from; nil above the first heading
	pointed map[ast.Node]bool                  // those of them in whose place the sheet says where they are
}

// selectionOf decides what is printed of a lesson.
func selectionOf(l *work.Lesson, brief bool) *selection {
	s := &selection{lesson: l, brief: brief, most: mostLeading,
		marks: map[ast.Node]lesson.PaperMark{}, written: map[ast.Node]bool{}, printed: map[ast.Node]bool{},
		part: map[*lesson.DataBlock]*ast.Heading{}, pointed: map[ast.Node]bool{}}
	for n, mark := range lesson.MarkedBlocks(l.Body) {
		if !lesson.ForMentors(n) {
			s.blocks = append(s.blocks, n)
			s.marks[n] = mark
		}
	}
	if brief {
		s.most = mostBrief
	}
	s.findWritten()
	var part *ast.Heading
	for _, n := range s.blocks {
		if h, ok := n.(*ast.Heading); ok && h.Level <= 2 {
			part = h
		}
		if d, ok := n.(*lesson.DataBlock); ok && s.isLater(d) {
			s.pointed[d] = len(s.later) == 0 || s.part[s.later[len(s.later)-1]] != part // once in a part
			s.later = append(s.later, d)
			s.part[d] = part
		}
		s.printed[n] = s.isPrinted(n)
	}
	s.introductions()
	s.headings()
	return s
}

// isLater tells whether students answer something before they see a block.
func (s *selection) isLater(d *lesson.DataBlock) bool {
	worked := s.lesson.OfData(d)
	return worked != nil && d.Name != lesson.ShowBlock && s.hasPaperForm(d) && waits(worked) &&
		s.marks[d] != lesson.NotOnPaper
}

// hasPaperForm tells whether a block with runs or figures is printed at all.
func (s *selection) hasPaperForm(d *lesson.DataBlock) bool {
	worked := s.lesson.OfData(d)
	switch {
	case worked == nil:
		return false
	case d.Name == lesson.ShowBlock:
		return true
	case s.brief && s.repeats(d):
		return false
	case d.Name == lesson.ChartBlock && d.File.Value == "": // lines of formulas explain something on the page
		return owned(worked.Chart)
	}
	return onSheets(worked)
}

// repeats tells whether a chart shows runs that a table of the lesson has.
func (s *selection) repeats(d *lesson.DataBlock) bool {
	return (d.Draws == lesson.DotsChart || d.Draws == lesson.BarsChart) &&
		slices.ContainsFunc(s.blocks, func(n ast.Node) bool {
			of, ok := n.(*lesson.DataBlock)
			return ok && of.Name == lesson.RunsBlock && of.File.Value == d.File.Value
		})
}

// isPrinted tells what is printed because of what it is, and of its part's mark.
func (s *selection) isPrinted(n ast.Node) bool {
	switch s.marks[n] {
	case lesson.NotOnPaper:
		return false
	case lesson.OnPaper:
		return !s.isHeading(n) && !s.isOnlyOnPages(n) && !s.waits(n)
	case lesson.Unmarked:
	}
	switch n := n.(type) { // the others: prose, which introductions looks at, and what only pages show
	case *ast.List, *tables.Table, *lesson.WorkBlock, *lesson.FilledCode, *ast.Blockquote:
		return true
	case *lesson.DataBlock:
		return s.hasPaperForm(n) && !s.waits(n)
	case *ast.Paragraph:
		return len(picturesIn(n)) > 0 || isAllStrong(n) || s.written[n]
	}
	return false
}

func (s *selection) isHeading(n ast.Node) bool { return n.Kind() == ast.KindHeading }

func (s *selection) waits(n ast.Node) bool {
	d, ok := n.(*lesson.DataBlock)
	return ok && s.isLater(d)
}

// isOnlyOnPages is true of what has no form on paper, and of gauges, which have pages of their own.
func (s *selection) isOnlyOnPages(n ast.Node) bool {
	switch n := n.(type) { // the others: paper has a form for them
	case *lesson.GaugeBlock, *ast.HTMLBlock, *ast.ThematicBreak:
		return true
	case *lesson.DataBlock:
		return !s.hasPaperForm(n)
	}
	return false
}

// picturesIn are the pictures of a paragraph.
func picturesIn(n ast.Node) []*ast.Image {
	var all []*ast.Image
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if i, ok := n.(*ast.Image); ok && entering {
			all = append(all, i)
		}
		return ast.WalkContinue, nil
	})
	return all
}

// isAllStrong tells whether a paragraph is written in bold from end to end: then it must not be missed.
func isAllStrong(n ast.Node) bool {
	e, ok := n.FirstChild().(*ast.Emphasis)
	return ok && e.Level == 2 && e.NextSibling() == nil
}

// How many characters a paragraph has at most that is printed because it leads to what comes next; and where there is
// hardly room.
const (
	mostLeading = 240
	mostBrief   = 130
)

// introductions adds the paragraphs that lead to what comes next. They are gone through from the last, since one may
// lead to another.
func (s *selection) introductions() {
	for i := len(s.blocks) - 2; i >= 0; i-- {
		p, ok := s.blocks[i].(*ast.Paragraph)
		if !ok || s.marks[p] != lesson.Unmarked || s.printed[p] {
			continue
		}
		next := s.blocks[i+1]
		if _, heading := next.(*ast.Heading); heading || !s.printed[next] {
			continue
		}
		text := strings.TrimSpace(s.text(p))
		_, prose := next.(*ast.Paragraph)
		s.printed[p] = len(text) <= 2*s.most && strings.HasSuffix(text, ":") || !prose && len(text) <= s.most
	}
}

func (s *selection) text(n ast.Node) string {
	return lesson.TextOf(n, s.lesson.Markdown, func(*lesson.Value) string { return blankMark })
}

// blankMark stands for a value when only the kind of a text matters.
const blankMark = "…"

// headings adds those that have something printed below them.
func (s *selection) headings() {
	below := 7 // the level of what has been seen that is still without its heading; 7 is text
	some := false
	for _, n := range slices.Backward(s.blocks) {
		h, ok := n.(*ast.Heading)
		if !ok {
			some = some || s.printed[n]
			continue
		}
		s.printed[h] = some || below > h.Level && below < 7
		switch {
		case s.printed[h]:
			below = h.Level
		case h.Level < below:
			below = 7
		}
		some = false
	}
}

// findWritten finds the parts that students answer in writing: those after the last part with something to measure that
// ask numbered questions, or that are nothing but questions.
func (s *selection) findWritten() {
	parts := s.parts()
	for _, p := range slices.Backward(parts) {
		if slices.ContainsFunc(p, isMeasured) {
			return
		}
		if last := s.lastQuestion(p); last >= 0 {
			for _, n := range p[:last+1] {
				s.written[n] = true
			}
			return
		}
	}
}

// parts are the blocks below each heading of the first two levels, without it.
func (s *selection) parts() [][]ast.Node {
	all := [][]ast.Node{nil}
	for _, n := range s.blocks {
		if h, ok := n.(*ast.Heading); ok && h.Level <= 2 {
			all = append(all, nil)
			continue
		}
		all[len(all)-1] = append(all[len(all)-1], n)
	}
	return all
}

// isMeasured tells whether a block has places for what students measure or run.
func isMeasured(n ast.Node) bool {
	w, ok := n.(*lesson.WorkBlock)
	return ok && slices.ContainsFunc(w.Statements, func(s *lesson.Statement) bool {
		return s.Kind == lesson.Measure || s.Kind == lesson.Record
	})
}

// lastQuestion is where in a part the last of what is asked or answered stands, -1 if it is no part to be answered in
// writing. What comes after that, such as what next week brings, is no part of the questions.
func (s *selection) lastQuestion(part []ast.Node) int {
	last, numbered, prose := -1, false, true
	for i, n := range part {
		switch n := n.(type) { // the others: pictures of what is asked about
		case *ast.List:
			asks := n.IsOrdered() && s.asks(n)
			numbered = numbered || asks
			prose = false
			if asks {
				last = i
			}
		case *lesson.WorkBlock, *tables.Table:
			prose = false
			last = i
		case *ast.Paragraph:
			if strings.HasSuffix(strings.TrimSpace(s.text(n)), "?") {
				last = i
			} else if last < 0 {
				prose = false
			}
		}
	}
	if numbered || prose {
		return last
	}
	return -1
}

// asks tells whether a point of a list is a question, or leaves something open.
func (s *selection) asks(list ast.Node) bool {
	for item := list.FirstChild(); item != nil; item = item.NextSibling() {
		if text := s.text(item); strings.Contains(text, "?") || strings.Contains(text, "…") {
			return true
		}
	}
	return false
}

// inPlace are the blocks that are printed where they stand, and those that the sheet points to from there.
func (s *selection) inPlace() []ast.Node {
	var all []ast.Node
	for _, n := range s.blocks {
		if s.printed[n] || s.pointed[n] {
			all = append(all, n)
		}
	}
	return all
}
