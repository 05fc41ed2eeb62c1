package lesson

// The blocks that work with runs, and what the other stages ask of them.

import (
	"slices"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/quantity"
	"trundle/generator/source"
)

// KindDataBlock is the kind of the blocks that work with runs.
var KindDataBlock = ast.NewNodeKind("DataBlock")

// DataBlock is a fenced block "runs", "chart", "compare", "readers" or "show": runs read from a file of the pack and
// what is to be seen of them, a chart of formulas, or figures that follow the boxes of the page.
type DataBlock struct {
	ast.BaseBlock
	Name    BlockKind
	Draws   ChartKind // of a chart; "" if none of its lines says what it draws
	File    Text      // "data/bases.csv"; empty if the block names none
	At      source.Span
	Entries []*DataLine
	Columns []*DataLine // what columns of the file are called here; the text is their name in the file
	Unclear bool        // it has a line of which nobody can tell what it was meant for
	Broken  bool        // it, or one of its lines, has a problem of its own
}

// DataLine is one line of a data block: a keyword, what it concerns, a text in quotes.
type DataLine struct {
	Keyword string
	At      source.Span

	Column   string // of the file; or the name that a chart varies
	ColumnAt source.Span
	Target   quantity.Target // what the column, or the value, is shown in
	Numbers  bool            // the column must be one of numbers
	Afresh   bool            // of cycle: each starts on the line again, not where the last one ended

	Expr     quantity.Expr // a value; of a column what every run should come to; nil if there is none
	From, To quantity.Expr // of vary
	Within   quantity.Expr // of a criterion: where its points end

	Over    *DataLine // of fitted: the column that lies across the page; of shuffle: the one that groups the runs
	Matters *DataLine // of along and across: the line below it that names the smallest difference that would matter

	Weight float64 // of a criterion
	Scores []Score // of a judged criterion
	Of     float64 // the most that a score can be
	By     string  // who gave the scores

	// Of a figure of a show block.
	Second quantity.Expr // what the value is compared with, cut by, or seen over; nil if there is none
	Until  Text          // the find that must be right before the figure has numbers; empty if it has them at once
	Times  float64       // of path: how much larger the sideways is drawn at first
	Groups []Text        // of shuffle: the two whose runs are dealt anew; none if the file has just two

	Text   string
	TextAt []source.Span // as PromptAt of a statement
	Broken bool          // it has a problem of its own
}

// Score is what a group was given by judgement.
type Score struct {
	Group  string
	Points float64
	At     source.Span
}

func (*DataBlock) Kind() ast.NodeKind { return KindDataBlock }

// IsRaw keeps goldmark from parsing the lines of a block for inline Markdown.
func (*DataBlock) IsRaw() bool { return true }

func (n *DataBlock) Dump(src []byte, level int) { ast.DumpHelper(n, src, level, nil, nil) }

// Line is the first line with a keyword, nil if there is none.
func (n *DataBlock) Line(keyword string) *DataLine {
	if all := n.All(keyword); len(all) > 0 {
		return all[0]
	}
	return nil
}

// All are the lines with any of some keywords, in their order.
func (n *DataBlock) All(keywords ...string) []*DataLine {
	var all []*DataLine
	for _, l := range n.Entries {
		if slices.Contains(keywords, l.Keyword) {
			all = append(all, l)
		}
	}
	return all
}

// AskedFirst are the finds of the work block that a data block follows, with nothing
// or other data blocks between: what students answer before they see it.
func AskedFirst(n *DataBlock) []*Statement {
	above := n.PreviousSibling()
	for ; above != nil; above = above.PreviousSibling() {
		if _, ok := above.(*DataBlock); !ok {
			break
		}
	}
	work, ok := above.(*WorkBlock)
	if !ok {
		return nil
	}
	var finds []*Statement
	for _, s := range work.Statements {
		if s.Kind == Find && !s.Broken {
			finds = append(finds, s)
		}
	}
	return finds
}

// DataFiles gives the files of runs that a lesson works with.
func (l *Lesson) DataFiles() []string {
	if l.IsOutline() {
		return l.outline.data
	}
	return DataFiles(l.Body)
}

// DataFiles are the names of the files of runs that a lesson's blocks work with, each once.
func DataFiles(body ast.Node) []string {
	var names []string
	_ = ast.Walk(body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if b, ok := n.(*DataBlock); ok && entering && b.File.Value != "" && !slices.Contains(names, b.File.Value) {
			names = append(names, b.File.Value)
		}
		return ast.WalkContinue, nil
	})
	return names
}
