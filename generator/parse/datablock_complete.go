package parse

import (
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/source"
)

// A pattern is what a block, or a kind of chart, needs and may have.
type pattern struct {
	kind  string   // the line that tells a kind of chart
	needs []string // keywords that must be there
	may   []string
	file  bool // it needs a file
}

// charts are the kinds of charts. A title they all need.
var charts = []pattern{
	{kind: "line", needs: []string{"vary"}, may: []string{"axis", "mark"}},
	{kind: "dots", needs: []string{"group"}, file: true},
	{kind: "bars", needs: []string{"group"}, file: true},
	{kind: "fitted", needs: []string{"group", "cycle"}, may: []string{"swap"}, file: true},
	{kind: "path", needs: []string{"length", "track"}},
}

// complete says what a block lacks, or has too much of, as a whole.
func complete(doc *document, b *lesson.DataBlock) {
	switch b.Name {
	case lesson.RunsBlock:
		needs := pattern{needs: []string{"group"}, file: true}
		if len(b.All("along", "across")) == 0 {
			missing(doc, b, "along or across", "name the column that was measured, as in  along stop = 120 cm")
		}
		cycle := b.Line("cycle")
		if cycle != nil && !cycle.Broken {
			needs.needs = append(needs.needs, "across")
			if (b.Line("length") == nil) != (b.Line("track") == nil) {
				needs.needs = append(needs.needs, "length", "track")
			}
			if l := b.Line("along"); l != nil && !l.Broken {
				doc.problems.Error(doc.file, l.At, "line-unused", "runs out and back are told by how far sideways they come home, and this block has a cycle line", "leave the line out, or make a block of its own for it")
			}
		} else if l := b.Line("swap"); l != nil && cycle == nil {
			doc.problems.Error(doc.file, l.At, "line-unused", "swapped wheels are looked at cycle by cycle, and this block has no cycle line", "add a line such as  cycle cycle")
		}
		lacks(doc, b, needs)
	case lesson.CompareBlock:
		if len(b.All("near", "steady", "judged")) == 0 {
			missing(doc, b, "near, steady or judged", "say what counts, as in  near stop = 120 cm within 6 cm \"Stops where it was told\"")
		}
		if len(b.All("near", "steady")) > 0 {
			lacks(doc, b, pattern{needs: []string{"group"}, file: true})
		}
		for _, l := range b.All("judged") {
			if l.By == "" && !l.Broken {
				doc.problems.Error(doc.file, l.At, "judged-by", "these scores do not say who gave them", "add a line below, as in  by \"Two teams, in week 6\"")
			}
		}
	case lesson.ChartBlock:
		chart(doc, b)
	}
}

func chart(doc *document, b *lesson.DataBlock) {
	var kinds []pattern
	for _, c := range charts {
		if b.Line(c.kind) != nil {
			kinds = append(kinds, c)
		}
	}
	if len(kinds) == 0 {
		missing(doc, b, "line, dots, bars, fitted or path", "say what is drawn, as in  line rotations(x, 65 mm) \"Wheel of 65 mm\"")
		return
	}
	if len(kinds) > 1 {
		l := b.Line(kinds[1].kind)
		doc.problems.Error(doc.file, l.At, "two-charts", "one block draws one chart; this one has both "+kinds[0].kind+" and "+kinds[1].kind, "make two blocks of it")
		return
	}
	c := kinds[0]
	c.needs = append([]string{"title"}, c.needs...)
	lacks(doc, b, c)
	known := append(append([]string{c.kind}, c.needs...), c.may...)
	for _, l := range b.Entries {
		used := false
		for _, k := range known {
			used = used || k == l.Keyword
		}
		if !used && !l.Broken {
			doc.problems.Error(doc.file, l.At, "line-unused", "a chart of "+c.kind+" has no use for "+l.Keyword, "leave the line out")
		}
	}
}

func lacks(doc *document, b *lesson.DataBlock, p pattern) {
	for _, k := range p.needs {
		if b.Line(k) == nil {
			missing(doc, b, k, "add it; README.md shows a whole block")
		}
	}
	if p.file && b.File.Value == "" {
		doc.problems.Error(doc.file, b.At, "no-data", "this block does not name its file of runs", "write  ```"+b.Name+" data/runs.csv")
	}
	if !p.file && p.kind != "" && b.File.Value != "" {
		doc.problems.Error(doc.file, b.At, "line-unused", "a chart of "+p.kind+" reads no file", "leave the file's name out")
	}
}

func missing(doc *document, b *lesson.DataBlock, what, hint string) {
	// A line that could not be read has been told; what it would have been is not known to lack.
	for _, l := range b.Entries {
		if l.Broken && strings.Contains(" "+what+" ", " "+l.Keyword+" ") {
			return
		}
	}
	doc.problems.Error(doc.file, source.Span{Start: b.At.Start, End: b.At.Start + len(b.Name)}, "missing-line", "this "+b.Name+" block has no line that starts with "+what, hint)
}
