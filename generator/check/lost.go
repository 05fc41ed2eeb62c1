package check

// What a coach wrote and a page shows otherwise, without being wrong as Markdown: values in a program that is not
// filled, a table without its second line, a mark that is not closed.

import (
	"bytes"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
	"trundle/generator/work"
)

// lost looks through a lesson's Markdown.
func lost(l *work.Lesson, problems *problem.List) {
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) { // the others: their marks are in the texts below them, or mean nothing there
		case *ast.FencedCodeBlock:
			notFilled(l, n, languageOf(n, l.Markdown), problems)
		case *ast.CodeBlock:
			openBlock(l.Lesson, n, problems)
			notFilled(l, n, "", problems)
		case *ast.Paragraph, *ast.TextBlock, *ast.Heading:
			if openBlock(l.Lesson, n, problems) { // its marks are shown as they are because of that
				return ast.WalkSkipChildren, nil
			}
			tableShown(l.Lesson, n, problems)
			linkShown(l.Lesson, n, problems)
			markShown(l.Lesson, n, problems)
		case *tables.TableCell:
			markShown(l.Lesson, n, problems)
		}
		return ast.WalkContinue, nil
	})
}

// valueInCode is a pair of braces on one line.
var valueInCode = wording.New(`\{([^{}]+)\}`)

// notFilled reports values of the lesson in a program that shows them as they are written. Braces that belong to
// the program's own language are left alone: what is no value of this lesson, and a name alone where it may be one.
func notFilled(l *work.Lesson, n ast.Node, language string, problems *problem.List) {
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		line := s.Value(l.Markdown)
		for _, m := range valueInCode.FindAllSubmatchIndex(line, -1) {
			target, ok := valueOf(l, string(line[m[2]:m[3]]))
			at := source.Span{Start: s.Start + m[0], End: s.Start + m[1]}
			hint := "write  ```" + named(language) + " filled  above it, or \\{ in a filled one for a brace of the program"
			switch ownBrace := inText(line[:m[0]]) || bytes.HasSuffix(line[:m[0]], []byte("$")); {
			case !ok:
			case !target.Step.IsZero() || target.HasUnit && !ownBrace:
				problems.Error(l.File, at, "not-filled",
					"this program is shown as it is written, with this in braces and not its value", hint)
			case !ownBrace && loneName(language, line[:m[0]]):
				problems.Caution(l.File, at, "not-filled",
					"this program is shown as it is written; this looks like a value of the lesson", hint)
			}
		}
	}
}

// languageOf is the language of a program, also of one whose words are the wrong way round, as in ```filled python.
func languageOf(n *ast.FencedCodeBlock, src []byte) string {
	language := string(n.Language(src))
	if language == "filled" {
		words := strings.Fields(string(n.Info.Segment.Value(src)))
		return strings.Join(words[1:min(2, len(words))], "")
	}
	return language
}

// named is a language for the first line of a block, which needs one.
func named(language string) string {
	if language == "" {
		return "text"
	}
	return language
}

// valueOf reads a value that has a name of the lesson in it, or a unit or step.
func valueOf(l *work.Lesson, inner string) (quantity.Target, bool) {
	p := l.Words.NewParser(inner, func(i int) int { return i })
	e, err := p.Expr()
	if err != nil {
		return quantity.Target{}, false
	}
	target, err := p.Targets()
	if err == nil {
		err = p.End()
	}
	names := quantity.Names(e)
	for _, name := range names {
		if _, defined := l.Env[name]; !defined {
			return target, false
		}
	}
	return target, err == nil && (len(names) > 0 || target.HasUnit || !target.Step.IsZero())
}

// inText tells whether a program's line so far is within quotes.
func inText(before []byte) bool {
	return bytes.Count(before, []byte(`"`))%2 == 1 || bytes.Count(before, []byte("'"))%2 == 1
}

// loneName tells whether a name in braces means nothing in a language, at a place where a value is wanted.
func loneName(language string, before []byte) bool {
	before = bytes.TrimRight(before, " \t")
	return slices.Contains([]string{"", "python", "py", "text"}, strings.ToLower(language)) &&
		len(before) > 0 && bytes.IndexByte([]byte("(,=+-*/"), before[len(before)-1]) >= 0
}

// fencedWord is a block of trundle whose fence has too few marks, or is indented so far that it is code.
var fencedWord = func() *wording.Pattern {
	words := "work|gauge"
	for _, kind := range lesson.BlockKinds {
		words += "|" + string(kind)
	}
	return wording.New("^[ \t]*`{2,}[ \t]*(" + words + ")\\b")
}()

// openBlock reports a block of ours that Markdown does not take for one.
func openBlock(l *lesson.Lesson, n ast.Node, problems *problem.List) bool {
	if n.Lines().Len() == 0 {
		return false
	}
	s := n.Lines().At(0)
	m := fencedWord.FindSubmatchIndex(s.Value(l.Markdown))
	if m == nil {
		return false
	}
	word := string(s.Value(l.Markdown)[m[2]:m[3]])
	problems.Error(l.File, source.Span{Start: s.Start, End: s.Start + m[3]}, "open-block",
		"this is not read as a "+word+" block",
		"write  ```"+word+"  at the start of a line of its own, three of the marks, and  ```  below the block")
	return true
}

// tableRow is a line that is bounded as a table's rows are; bars about numbers, as in |x|, have no blanks.
var tableRow = wording.New(`^\|\s.*\s\|\s(?:.*\s)?\|$`)

// tableShown reports rows that were meant for a table and are shown with their bars.
func tableShown(l *lesson.Lesson, n ast.Node, problems *problem.List) {
	above := 0 // the bars of the line above
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		line := bytes.TrimSpace(s.Value(l.Markdown))
		bars := barsOf(line)
		if tableRow.Match(line) || bars > 0 && bars == above {
			problems.Caution(l.File, source.Span{Start: s.Start, End: s.Start + len(line)}, "table-shown",
				"this is shown as text with its bars, not as a table",
				"a table needs a second line with as many columns as the first, as in  | --- | --- |")
			return
		}
		above = bars
	}
}

// barsOf counts the bars of a line that part cells; code and escaped ones have none.
func barsOf(line []byte) int {
	bars, code := 0, false
	for i, c := range line {
		switch {
		case c == '`':
			code = !code
		case c == '|' && !code && (i == 0 || line[i-1] != '\\'):
			bars++
		}
	}
	return bars
}

// markShown reports the first mark of a text that opens something and is never closed, or the other way round.
func markShown(l *lesson.Lesson, n ast.Node, problems *problem.List) {
	for p := range lesson.Pieces(n, l.Markdown) {
		if p.Kind != lesson.Words || p.In != nil {
			continue
		}
		for i := p.At.Start; i < p.At.End; i++ {
			size := 0
			switch c := l.Markdown[i]; {
			case c == '\\':
				i++
			case c == '`':
				size = 1
			case c == '*':
				size = starsAt(l.Markdown, i)
				if size != 2 || blankAt(l.Markdown, i-1) == blankAt(l.Markdown, i+size) { // 2 ** 3, x**2
					i, size = i+size-1, 0
				}
			}
			if size > 0 {
				mark := string(l.Markdown[i : i+size])
				problems.Caution(l.File, source.Span{Start: i, End: i + size}, "mark-shown",
					"this "+mark+" is shown as it is, since it has no partner in its paragraph",
					"close it with another  "+mark+", or write  \\  before it if it is to be seen")
				return
			}
		}
	}
}

// Lines that were meant for a link or a heading, and are shown as they are typed.
var (
	linkApart    = wording.New(`\]\s+\((?:[^()\s]+\.(?:md|png|jpe?g|svg|gif|webp)|https?://[^()\s]+)[^()\s]*\)`)
	headingStuck = wording.New(`^#{1,6}[^#\s]`)
)

// linkShown reports a link whose two halves are apart, and a heading whose marks have no blank after them.
func linkShown(l *lesson.Lesson, n ast.Node, problems *problem.List) {
	if _, heading := n.(*ast.Heading); heading {
		return
	}
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		line := s.Value(l.Markdown)
		if m := linkApart.FindIndex(line); m != nil && bytes.IndexByte(line, '`') < 0 {
			problems.Caution(l.File, source.Span{Start: s.Start + m[0], End: s.Start + m[1]}, "mark-shown",
				"this is shown as it is typed, and leads nowhere", "leave out the blank between  ]  and  (")
		}
		if m := headingStuck.FindIndex(line); m != nil && !minutesWithin.Match(line) { // else the plan says so
			problems.Caution(l.File, source.Span{Start: s.Start, End: s.Start + m[1] - 1}, "mark-shown",
				"this is shown as text, and is no heading", "put a blank after the  #")
		}
	}
}

// starsAt counts the stars from a place on.
func starsAt(text []byte, at int) int { return len(text[at:]) - len(bytes.TrimLeft(text[at:], "*")) }

// blankAt tells whether there is a blank, or nothing, at a place.
func blankAt(text []byte, at int) bool {
	return at < 0 || at >= len(text) || bytes.IndexByte([]byte(" \t\r\n"), text[at]) >= 0
}
