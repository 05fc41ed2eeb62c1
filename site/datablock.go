package site

// Blocks that work with runs, as figures in a lesson's page.

import (
	"strconv"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site/figure"
)

// figureOf is a figure in a page.
type figureOf struct {
	figure.Figure
	At string // file:line, for who writes the pack
}

// dataBlock shows a runs, chart, compare or readers block.
func (b *body) dataBlock(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering || b.lesson == nil {
		return ast.WalkContinue, nil
	}
	d := b.lesson.OfData(n.(*lesson.DataBlock))
	if d == nil {
		return ast.WalkContinue, nil
	}
	if d.Name == lesson.ShowBlock {
		b.showBlock(w, d)
		return ast.WalkContinue, nil
	}
	b.figures++
	if b.figures == 1 {
		put(w, styleLink("figures"))
	}
	f := figure.Of(b.words, b.lesson, d, b.mentors, "_fig"+strconv.Itoa(b.figures))
	return ast.WalkContinue, b.site.templates.ExecuteTemplate(w, "figure.html", figureOf{f, b.place(d.At.Start)})
}

// Figure gives what a runs, chart, compare or readers block shows, for sheets, which show it as the pages do.
func (s *Site) Figure(l *work.Lesson, d *work.Data, mentors bool) figure.Figure {
	return figure.Of(s.words, l, d, mentors, "sheet")
}
