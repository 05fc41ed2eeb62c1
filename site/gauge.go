package site

// Measuring aids and worksheets as a page names them: what there is, and links to the sheets. Drawing them is left
// to worksheets.

import (
	"html"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/site/words"
)

// gaugeBlock names the measuring aids and links to the sheets that they are printed on.
func (b *body) gaugeBlock(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering || b.lesson == nil {
		return ast.WalkContinue, nil
	}
	gauges := "gauges"
	if b.mentors {
		gauges = "gauges-keyed"
	}
	put(w, `<div class="gauges"><p><b>`, html.EscapeString(b.words.Say(gauges)), "</b> ", b.sheetLinks(),
		"</p>\n<ul>\n")
	for _, g := range n.(*lesson.GaugeBlock).Gauges {
		if sized := b.lesson.OfGauge(g); sized != nil {
			put(w, "<li>", html.EscapeString(b.words.Say("gauge-"+string(g.Kind))), ", ",
				html.EscapeString(b.words.Number(sized.SizeText)))
			if g.Text != "" {
				put(w, b.words.Say("colon"), " ", html.EscapeString(g.Text))
			}
			put(w, "</li>\n")
		}
	}
	put(w, "</ul></div>\n")
	return ast.WalkContinue, nil
}

// sheetLinks leads to the lesson's worksheets.
func (b *body) sheetLinks() string { return sheetLinks(b.words, b.lesson.Lesson) }

// sheetLinks are links to a lesson's worksheets, one for each paper.
func sheetLinks(w words.Words, l *lesson.Lesson) string {
	var links []string
	for _, paper := range papersOf("", l) {
		links = append(links, `<a href="`+html.EscapeString(paper.Address)+`">`+html.EscapeString(w.Say(paper.Word))+"</a>")
	}
	return strings.Join(links, " · ")
}
