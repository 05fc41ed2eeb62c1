package check

// What a students' sheet cannot have, though a part of the lesson counts on it: questions of a part that is kept off
// paper, pictures of a kind that paper cannot show, what is too wide for a page.

import (
	"bytes"
	"fmt"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// What fits between the margins of both papers, in letters of a size that students read: by trial, no source.
const (
	mostColumns = 7
	widestCode  = 80 // characters
)

// unprinted looks through the blocks that students see.
func unprinted(l *lesson.Lesson, problems *problem.List) {
	var off *ast.Heading // the heading whose mark keeps what comes off paper, as long as it has no question below it
	for n, mark := range lesson.MarkedBlocks(l.Body) {
		h, isHeading := n.(*ast.Heading)
		switch {
		case lesson.ForMentors(n):
		case mark == lesson.NotOnPaper:
			if isHeading && lesson.PaperMarkOf(h) == mark {
				off = h
			}
			if s := firstQuestion(n); s != nil && off != nil {
				notOnPaper(l, off, s, problems)
				off = nil // once for a part
			}
		default:
			tooWide(l, n, mark == lesson.OnPaper, problems)
		}
	}
}

// firstQuestion finds the first statement below a block that students have to answer, nil if there is none.
func firstQuestion(n ast.Node) *lesson.Statement {
	var first *lesson.Statement
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		block, ok := n.(*lesson.WorkBlock)
		switch {
		case first != nil:
			return ast.WalkStop, nil
		case n.Kind() == lesson.KindMentorNote:
			return ast.WalkSkipChildren, nil
		case !ok || !entering:
			return ast.WalkContinue, nil
		}
		asks := func(s *lesson.Statement) bool { return s.Kind != lesson.Given }
		if i := slices.IndexFunc(block.Statements, asks); i >= 0 {
			first = block.Statements[i]
		}
		return ast.WalkContinue, nil
	})
	return first
}

// notOnPaper reports a part that is kept off paper and asks something.
func notOnPaper(l *lesson.Lesson, h *ast.Heading, s *lesson.Statement, problems *problem.List) {
	lines := h.Lines()
	at := source.Span{Start: lines.At(0).Start, End: lines.At(lines.Len() - 1).Stop}
	problems.Add(problem.Problem{Severity: problem.Caution, Slug: "not-on-paper", File: l.File, Span: at,
		What: "this part is not printed, so a team with paper alone cannot answer its questions",
		Hint: "take the mark off; or move the questions to a part that is printed, or leave it if every team has a device",
		Related: []problem.Related{
			{File: l.File, Span: s.At, What: "the first question that is not on paper"}}})
}

// tooWide reports tables and programs that do not fit on a page. Programs that are not filled are printed only where a
// coach wants all of a part on paper.
func tooWide(l *lesson.Lesson, n ast.Node, all bool, problems *problem.List) {
	caution := func(at source.Span, what, hint string) {
		problems.Caution(l.File, at, "too-wide-for-paper", what, hint)
	}
	_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) { // the others: their lines are as long as the page is wide
		case *lesson.MentorNote:
			return ast.WalkSkipChildren, nil
		case *tables.Table:
			if columns := len(n.Alignments); columns > mostColumns {
				caution(placeOfTable(n), fmt.Sprintf("this table has %d columns; %d fit on paper", columns, mostColumns),
					"make two tables of it, or turn it so that its columns are rows")
			}
		case *ast.CodeSpan:
			text := lesson.TextOf(n, l.Markdown, nil)
			if wide := utf8.RuneCountInString(text); wide > widestCode && inCell(n) {
				caution(placeOfText(n), fmt.Sprintf("this code has %d characters in one cell; %d fit on paper", wide, widestCode),
					"break it, or put it into a program of its own")
			}
		case *lesson.FilledCode:
			for i, line := range strings.Split(codeOf(n), "\n") {
				longCode(line, placeBelow(l.Markdown, n.Pos(), i+1), caution)
			}
		case *ast.FencedCodeBlock:
			if all {
				for i := range n.Lines().Len() {
					s := n.Lines().At(i)
					line := strings.TrimRight(string(s.Value(l.Markdown)), "\r\n")
					longCode(line, source.Span{Start: s.Start, End: s.Start + len(line)}, caution)
				}
			}
		}
		return ast.WalkContinue, nil
	})
}

// longCode reports a line of a program that is too long.
func longCode(line string, at source.Span, caution func(at source.Span, what, hint string)) {
	if wide := utf8.RuneCountInString(line); wide > widestCode {
		caution(at, fmt.Sprintf("this line of a program has %d characters; %d fit on paper", wide, widestCode),
			"break it as the language of the program allows")
	}
}

// placeBelow is the line so many lines below the one that a place is on.
func placeBelow(src []byte, from, lines int) source.Span {
	at := source.Span{Start: from, End: from}
	for range lines {
		end := bytes.IndexByte(src[at.Start:], '\n')
		if end < 0 {
			return at
		}
		at.Start += end + 1
	}
	line, _, _ := bytes.Cut(src[at.Start:], []byte("\n"))
	text := bytes.TrimSpace(line)
	at.Start += bytes.Index(line, text)
	at.End = at.Start + len(text)
	return at
}

// codeOf is a filled program with a short number for each value: how long that is depends on the team.
func codeOf(n *lesson.FilledCode) string {
	var b strings.Builder
	for _, part := range n.Parts {
		b.WriteString(part.Code)
		if part.Value != nil {
			b.WriteString("0.00")
		}
	}
	return b.String()
}

// inCell tells whether a text stands in a table.
func inCell(n ast.Node) bool {
	for p := n.Parent(); p != nil; p = p.Parent() {
		if p.Kind() == tables.KindTableCell {
			return true
		}
	}
	return false
}

// placeOfTable is its first line.
func placeOfTable(n *tables.Table) source.Span {
	at := source.Span{Start: n.Pos(), End: n.Pos()}
	for cell := n.FirstChild().FirstChild(); cell != nil; cell = cell.NextSibling() {
		if lines := cell.Lines(); lines != nil && lines.Len() > 0 {
			at.End = max(at.End, lines.At(0).Stop)
		}
	}
	return at
}

// placeOfText is where the text of an inline node is written.
func placeOfText(n ast.Node) source.Span {
	first, firstOK := n.FirstChild().(*ast.Text)
	last, lastOK := n.LastChild().(*ast.Text)
	if !firstOK || !lastOK {
		return source.Span{Start: n.Pos(), End: n.Pos()}
	}
	return source.Span{Start: first.Segment.Start, End: last.Segment.Stop}
}

// picturesOnPaper reports pictures in printed parts of a kind that paper cannot show. What else may be wrong with
// them is reported for the page.
func picturesOnPaper(p *lesson.Pack, l *lesson.Lesson, problems *problem.List) {
	for n, mark := range lesson.MarkedBlocks(l.Body) {
		if mark == lesson.NotOnPaper {
			continue
		}
		_ = ast.Walk(n, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			image, ok := n.(*ast.Image)
			if !ok || !entering || lesson.ForMentors(n) {
				return ast.WalkContinue, nil
			}
			name := lesson.PictureName(l.File.Name, string(image.Destination))
			shown := p.Pictures[name]
			if shown == nil || shown.Refused() || printable(name) {
				return ast.WalkContinue, nil
			}
			problems.Caution(l.File, placeOfLink(n, image.Destination, l.Markdown), "picture-not-printed",
				"the picture “"+string(image.Destination)+
					"” is not printed: paper shows PNG, JPEG and SVG, and nothing that moves",
				"save it as PNG, or keep its part off paper with  (not on paper)  at the end of the heading")
			return ast.WalkContinue, nil
		})
	}
}

// printable tells by its name whether paper can show a picture: names that do not say what is in the file are refused,
// and so are moving pictures under these.
func printable(name string) bool {
	return slices.Contains([]string{".png", ".jpg", ".jpeg", ".svg"}, strings.ToLower(path.Ext(name)))
}
