package parse

// From Markdown to the tree: goldmark's nodes, and ours where fences and headings are. Quotes are in quote.go.

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	tables "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// NewMarkdown gives trundle's Markdown: CommonMark and tables, with computed values
// in prose and work blocks. Work and filled blocks are fenced code to goldmark and
// are turned into our nodes once the fence is read, so that fences stay its own.
func NewMarkdown() goldmark.Markdown {
	return goldmark.New(
		goldmark.WithExtensions(extension.Table),
		goldmark.WithParserOptions(
			parser.WithInlineParsers(util.Prioritized(valueParser{}, 150)),
			parser.WithASTTransformers(util.Prioritized(transformer{}, 500)),
		),
	)
}

// Markdown parses text, whose offsets are those of the file, into a document.
func Markdown(md goldmark.Markdown, f *source.File, markdown []byte) (ast.Node, []*lesson.Section, problem.List) {
	return markdownWith(lesson.DefaultLanguage, md, f, markdown, nil)
}

// markdownWith is Markdown with the units and formulas that the pack names itself.
func markdownWith(language string, md goldmark.Markdown, f *source.File, markdown []byte, words *quantity.Vocabulary) (
	ast.Node, []*lesson.Section, problem.List) {
	var problems problem.List
	doc := &document{file: f, problems: &problems, words: words, marks: marksOf(language)}
	pc := parser.NewContext()
	pc.Set(contextKey, doc)
	markdown = doc.withoutVastTables(doc.withoutStarry(markdown))
	root := md.Parser().Parse(text.NewReader(markdown), parser.WithContext(pc))
	doc.countBlocks(root)
	return root, sections(root, markdown), problems
}

// transformer turns what goldmark parsed into our own nodes. Nodes are collected
// first and replaced afterwards, since a walk loses its way in a changing tree.
type transformer struct{}

// Transform runs once for each file, after goldmark has parsed all of it. The order matters: times and
// marks come off the headings first, since a section is found by the title that is left.
func (transformer) Transform(root *ast.Document, from text.Reader, pc parser.Context) {
	doc := pc.Get(contextKey).(*document)
	src := from.Source()
	var fences []*ast.FencedCodeBlock
	var quotes []*ast.Blockquote
	var headings []*ast.Heading
	var texts []ast.Node // that may say whom they are for
	removeRemarks(root, src)
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.FencedCodeBlock:
			fences = append(fences, n)
		case *ast.Blockquote:
			quotes = append(quotes, n)
		case *ast.Heading:
			cutBrackets(doc, n, src)
			headings, texts = append(headings, n), append(texts, n)
		case *ast.Paragraph, *ast.TextBlock, *tables.TableCell:
			texts = append(texts, n)
		}
		return ast.WalkContinue, nil
	})
	for _, n := range fences {
		if block := transformFence(doc, n, src); block != nil {
			n.Parent().ReplaceChild(n.Parent(), n, block)
		}
	}
	for _, n := range quotes { // before texts, since the first word of a quote is about the whole of it
		transformQuote(n, src, doc.marks)
	}
	for _, n := range texts {
		declare(n, src, doc.marks)
	}
	gatherMentorSections(root, src, doc.marks)
	for _, h := range headings { // now that it is known which are for mentors
		ignoreInNotes(doc, h)
		ignoreIfTime(doc, h)
	}
}

// transformFence gives the block of ours that a fence is, nil if it is code.
func transformFence(doc *document, n *ast.FencedCodeBlock, src []byte) ast.Node {
	if n.Info == nil {
		return nil
	}
	info := source.Span{Start: n.Info.Segment.Start, End: n.Info.Segment.Stop}
	words := strings.Fields(string(n.Info.Segment.Value(src)))
	if len(words) == 0 {
		return nil
	}
	lines := linesOf(n, src)
	switch {
	case words[0] == workFence, words[0] == gaugeFence, slices.Contains(lesson.BlockKinds, lesson.BlockKind(words[0])):
		lines = untilNextFence(doc, words[0], lines)
	}
	switch {
	case words[0] == workFence: // a problem with the first line does not keep the rest from being read
		standsAlone(doc, words, info, "work-info")
		return &lesson.WorkBlock{Statements: statements(doc, lines)}
	case words[0] == gaugeFence:
		standsAlone(doc, words, info, "gauge-info")
		return &lesson.GaugeBlock{Gauges: gauges(doc, lines)}
	case slices.Contains(lesson.BlockKinds, lesson.BlockKind(words[0])):
		return dataBlock(doc, words, info, lines)
	case len(words) == 2 && words[1] == "filled":
		code := &lesson.FilledCode{Language: words[0], Parts: fill(doc, lines)}
		code.SetPos(info.Start)
		return code
	}
	if meant := meantBlock(words[0]); meant == workFence { // so that its names are known below
		doc.problems.Error(doc.file, source.Span{Start: info.Start, End: info.Start + len(words[0])},
			"near-miss-block", "a block of trundle starts with "+meant, "write  ```"+meant)
		return &lesson.WorkBlock{Statements: statements(doc, untilNextFence(doc, meant, lines))}
	} else if meant != "" {
		doc.problems.Caution(doc.file, source.Span{Start: info.Start, End: info.Start + len(words[0])},
			"near-miss-block",
			"this is shown as code; a block of trundle starts with "+meant, "write  ```"+meant)
	}
	return nil
}

// The first words of the fences that name nothing else: they have their values in them.
const (
	workFence  = "work"
	gaugeFence = "gauge"
)

// untilNextFence are the lines of a block of ours up to one that begins another block: the end of this one is
// missing, and what goes on below is not its own.
func untilNextFence(doc *document, word string, lines []sourceLine) []sourceLine {
	for i, l := range lines {
		text := strings.TrimLeft(l.text, " ")
		if marks := strings.TrimSpace(text); marks == "``" || marks == "`" || marks == "~~" || marks == "---" {
			doc.problems.Error(doc.file, source.Span{Start: l.at, End: l.at + len(l.text)}, "open-block",
				"this does not close the "+word+" block", "write  ```  alone, three of the marks")
			return lines[:i]
		}
		if strings.HasPrefix(text, "```") {
			doc.problems.Error(doc.file, source.Span{Start: l.at, End: l.at + len(l.text)}, "open-block",
				"the "+word+" block above is not closed where this one begins",
				"put a line with  ```  alone where the "+word+" block ends")
			return lines[:i]
		}
	}
	return lines
}

// standsAlone refuses more words on the first line of a fence. They would be lost without a trace, and a coach wrote
// them for a reason.
func standsAlone(doc *document, words []string, info source.Span, slug string) {
	if len(words) > 1 {
		doc.problems.Error(doc.file, info, slug,
			"a "+words[0]+" block has nothing after its first word", "write ```"+words[0]+" alone")
	}
}

// meantBlock is the block that a fence's first word is a slip of: another case, one or many. It guesses no further, as
// a fence may name any programming language.
func meantBlock(word string) string {
	names := []string{workFence, gaugeFence}
	for _, kind := range lesson.BlockKinds {
		names = append(names, string(kind))
	}
	singular := strings.TrimSuffix(strings.ToLower(word), "s")
	for _, name := range names {
		if word != name && singular == strings.TrimSuffix(name, "s") {
			return name
		}
	}
	return ""
}

// linesOf are the lines of a fence with their places. In a quote or a list each line has its own indent, so places
// cannot be counted on from the first.
func linesOf(n ast.Node, src []byte) []sourceLine {
	segments := n.Lines()
	lines := make([]sourceLine, 0, segments.Len())
	for i := range segments.Len() {
		s := segments.At(i)
		value := strings.TrimRight(string(src[s.Start:s.Stop]), "\r\n")
		at := s.Start
		if s.Padding > 0 {
			// Columns of a tab that the fence's own indent did not use up.
			value, at = strings.Repeat(" ", s.Padding)+value, at-s.Padding
		}
		lines = append(lines, sourceLine{value, at})
	}
	return lines
}

// sections names every heading and lists those of level 2. What is for when there is time below one counts there.
func sections(root ast.Node, src []byte) []*lesson.Section {
	var all []*lesson.Section
	ids := make(map[string]int)
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		title := titleOf(h, src)
		id := anchor(title, ids)
		h.SetAttributeString("id", []byte(id))
		if h.Level == 2 {
			s := &lesson.Section{ID: id, Title: title, Mentors: lesson.ForMentors(h), At: headingSpan(h)}
			if minutes, timed := h.AttributeString("minutes"); timed {
				s.Minutes, s.HasMinutes = minutes.(int), true
			}
			if s.IfTime = lesson.IfTime(h); s.IfTime {
				s.Spare = s.Minutes
			}
			all = append(all, s)
		}
		if last := len(all) - 1; h.Level == 3 && lesson.IfTime(h) && last >= 0 && !all[last].IfTime {
			if minutes, timed := h.AttributeString("minutes"); timed {
				all[last].Spare += minutes.(int)
			}
		}
		return ast.WalkSkipChildren, nil
	})
	return all
}

// headingSpan is the place of a heading's text; an empty heading has none but its own.
func headingSpan(h *ast.Heading) source.Span {
	if h.Lines().Len() == 0 {
		return source.Span{Start: h.Pos(), End: h.Pos()}
	}
	return source.Span{Start: h.Lines().At(0).Start, End: h.Lines().At(h.Lines().Len() - 1).Stop}
}

// titleOf is a heading's text, its time and mark cut off.
func titleOf(h *ast.Heading, src []byte) string {
	return strings.Join(strings.Fields(lesson.TextOf(h, src, nil)), " ")
}

// anchor makes an id of a title: letters and digits of any script, the rest hyphens.
func anchor(title string, taken map[string]int) string {
	id := strings.Trim(strings.Join(strings.FieldsFunc(strings.ToLower(title), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), "-"), "-")
	if id == "" { // a heading of signs alone
		id = "part"
	}
	for { // a second "part" is part-2; if a heading is called so itself, part-2-2
		taken[id]++
		if taken[id] == 1 {
			return id
		}
		id += "-" + strconv.Itoa(taken[id])
	}
}
