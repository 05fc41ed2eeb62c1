package parse

// What a runs, chart, compare or readers block needs as a whole, and what it has no use for.

import (
	"slices"

	"trundle/generator/lesson"
	"trundle/generator/source"
)

// A pattern is what a block, or a kind of chart, needs and may have.
type pattern struct {
	needs []string // keywords that must be there
	may   []string
	file  bool // it needs a file; if not, it must not name one
}

// charts are the kinds of charts beside the line that each is named after. A title they all
// need.
var charts = map[lesson.ChartKind]pattern{
	lesson.LineChart:   {needs: []string{"title", "vary"}, may: []string{"axis", "mark"}},
	lesson.DotsChart:   {needs: []string{"title", "group"}, file: true},
	lesson.BarsChart:   {needs: []string{"title", "group"}, file: true},
	lesson.StepsChart:  {needs: []string{"title", "group", "cycle"}, may: []string{"swap"}, file: true},
	lesson.FittedChart: {needs: []string{"title"}, may: []string{"group"}, file: true},
	lesson.PathChart:   {needs: []string{"title", "length", "track"}},
}

// complete says what a block lacks, or has too much of, as a whole.
func complete(doc *document, b *lesson.DataBlock) {
	w, before := whole{doc, b}, doc.problems.Count()
	switch b.Name {
	case lesson.RunsBlock:
		w.runs()
	case lesson.CompareBlock:
		w.compare()
	case lesson.ChartBlock:
		w.chart()
	case lesson.ReadersBlock:
		w.lacks(pattern{needs: []string{"thing", "reader", "reading"}, file: true})
	case lesson.ShowBlock:
		w.show()
	}
	if len(b.Columns) > 0 && b.File.Value == "" && !doc.problems.ErrorsSince(before) {
		w.error(b.Columns[0].At, "line-unused", "this block reads no file, and so has no columns", "leave the line out")
	}
}

// show: of its figures only shuffle has its numbers from a file.
func (w whole) show() {
	w.needsOneOf("say what is shown, as in  unroll d until C \"Your wheel, rolled out\"", wordsOf(figureKeywords)...)
	switch shuffles := w.Line(string(lesson.ShuffleFigure)) != nil; {
	case shuffles:
		w.lacks(pattern{file: true})
	case w.File.Value != "" && len(w.Entries) > 0:
		w.error(w.At, "line-unused", "only shuffle reads a file, and this block has no such line",
			"leave the file's name out")
	}
}

// whole is a block with all its lines read. Broken lines count as there: their own problem is enough.
type whole struct {
	doc *document
	*lesson.DataBlock
}

func (w whole) error(at source.Span, slug, what, hint string) {
	w.doc.problems.Error(w.doc.file, at, slug, what, hint)
}

// runs: what a runs block needs depends on whether its runs go out and back. A cycle line makes
// it one of drift per cycle, where along has no meaning and across must be there.
func (w whole) runs() {
	w.needsOneOf("name the column that was measured, as in  along stop = 120 cm", "along", "across")
	needs := pattern{needs: []string{"group"}, file: true}
	cycle, swap := w.Line("cycle"), w.Line("swap")
	switch {
	case cycle != nil && !cycle.Broken:
		needs.needs = append(needs.needs, "across")
		if (w.Line("length") == nil) != (w.Line("track") == nil) {
			needs.needs = append(needs.needs, "length", "track")
		}
		if l := w.Line("along"); l != nil && !l.Broken {
			w.error(l.At, "line-unused",
				"runs out and back are judged by how far sideways they come home, and this block has a cycle line",
				"leave the line out, or make a block of its own for it")
		}
		for _, l := range w.All("across") {
			if l.Matters != nil {
				w.error(l.Matters.At, "line-unused", "how many runs it takes is not worked out for runs out and back",
					"leave the line out")
			}
		}
	case cycle == nil && swap != nil:
		w.error(swap.At, "line-unused", "swapped wheels are compared cycle by cycle, and this block has no cycle line",
			"add a line such as  cycle cycle")
	}
	w.lacks(needs)
}

// compare: near and steady are worked out from a file; judged brings its numbers along, so a block
// of judged lines alone reads none.
func (w whole) compare() {
	w.needsOneOf("say what counts, as in  near stop = 120 cm within 6 cm \"Stops where it was told\"", "near", "steady",
		"judged")
	if len(w.All("near", "steady")) > 0 {
		w.lacks(pattern{needs: []string{"group"}, file: true})
	}
	for _, l := range w.All("judged") {
		if l.By == "" && !l.Broken {
			w.error(l.At, "judged-by", "these scores do not say who gave them",
				"add a line below, as in  by \"Two teams, in week 6\"")
		}
	}
}

// chart finds out what a chart draws. Its kind is not written on the fence, since one line says it already; lines
// that this kind has no use for are mistakes, as they would silently change nothing.
func (w whole) chart() {
	var kinds []lesson.ChartKind
	var names []string
	for _, kind := range lesson.ChartKinds {
		names = append(names, string(kind))
		if w.Line(string(kind)) != nil {
			kinds = append(kinds, kind)
		}
	}
	if len(kinds) == 0 {
		w.needsOneOf("say what is drawn, as in  line rotations(x, 65 mm) \"Wheel of 65 mm\"", names...)
		return
	}
	kind := kinds[0]
	if len(kinds) > 1 {
		w.error(w.Line(string(kinds[1])).At, "two-charts",
			"one block draws one chart; this one has both "+string(kind)+" and "+string(kinds[1]),
			"make two blocks of it")
		return
	}
	w.Draws = kind
	p := charts[kind]
	w.lacks(p)
	if !p.file && w.File.Value != "" {
		w.error(w.At, "line-unused", "a chart of "+string(kind)+" reads no file", "leave the file's name out")
	}
	for _, l := range w.Entries {
		used := l.Keyword == string(kind) || slices.Contains(p.needs, l.Keyword) || slices.Contains(p.may, l.Keyword)
		if !used && !l.Broken {
			w.error(l.At, "line-unused", "a chart of "+string(kind)+" has no use for "+l.Keyword, "leave the line out")
		}
	}
}

// lacks reports what a pattern needs and the block does not have.
func (w whole) lacks(p pattern) {
	for _, word := range p.needs {
		w.needsOneOf("add it; trundle help language "+string(w.Name)+" shows all lines", word)
	}
	if p.file && w.File.Value == "" {
		w.error(w.At, "no-data", "this block does not name its file of runs",
			"write  ```"+string(w.Name)+" data/runs.csv")
	}
}

// needsOneOf reports that a block has no line with any of some keywords. A line that could not
// be read was reported, and counts as there.
func (w whole) needsOneOf(hint string, words ...string) {
	if len(w.All(words...)) > 0 || w.Unclear {
		return
	}
	w.error(source.Span{Start: w.At.Start, End: w.At.Start + len(w.Name)}, "missing-line",
		"this "+string(w.Name)+" block has no line that starts with "+alternatives(words), hint)
}
