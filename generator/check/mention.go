package check

import (
	"bytes"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/source"
)

// careRuns gives all that a lesson says of substances: its header, its prose with what stands in
// code marks or in HTML, its prompts.
func careRuns(l *lesson.Lesson) []run {
	var all []run
	for _, text := range append(append([]string{l.Title}, l.Goals...), l.Materials...) {
		all = append(all, textAt(text, l.HeaderAt))
	}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *lesson.WorkBlock:
			for _, s := range n.Statements {
				all = append(all, promptRun(l, s))
			}
		case *ast.HTMLBlock:
			all = append(all, htmlRun(n, l.Markdown))
		default:
			if first := n.FirstChild(); n.Type() == ast.TypeBlock && first != nil && first.Type() == ast.TypeInline {
				all = append(all, spokenRun(n, l.Markdown))
			}
		}
		return ast.WalkContinue, nil
	})
	for i, r := range all {
		all[i] = small(r)
	}
	return all
}

// spokenRun is the text below a node as it is read, code and HTML in it; a line break is a blank,
// and between two blocks stands a stop.
func spokenRun(top ast.Node, src []byte) run {
	var r run
	_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Text:
			r.markdown(src, n.Segment.Start, n.Segment.Stop)
			if n.SoftLineBreak() || n.HardLineBreak() {
				r.plain(" ", n.Segment.Stop, n.Segment.Stop)
			}
		case *ast.RawHTML:
			for i := range n.Segments.Len() {
				s := n.Segments.At(i)
				r.markdown(src, s.Start, s.Stop)
			}
		case *lesson.Value:
			r.write(noText, 0, 0)
		default:
			if n.Type() == ast.TypeBlock && len(r.text) > 0 {
				r.write(". ", r.ends[len(r.ends)-1], r.ends[len(r.ends)-1])
			}
		}
		return ast.WalkContinue, nil
	})
	return r
}

func htmlRun(n *ast.HTMLBlock, src []byte) run {
	var r run
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		r.markdown(src, s.Start, s.Stop)
	}
	if n.HasClosure() {
		r.markdown(src, n.ClosureLine.Start, n.ClosureLine.Stop)
	}
	return r
}

// wordsOf cuts a phrase at blanks and hyphens.
func wordsOf(phrase string) []string {
	return strings.FieldsFunc(strings.ToLower(phrase), func(r rune) bool { return unicode.IsSpace(r) || unicode.Is(unicode.Pd, r) })
}

// patternOf matches a phrase, its plural too, its words set apart by blanks or hyphens.
func patternOf(words []string) *regexp.Regexp {
	quoted := make([]string, len(words))
	for i, word := range words {
		quoted[i] = regexp.QuoteMeta(word)
	}
	return regexp.MustCompile(`(?i)(?:^|[^\pL])(` + strings.Join(quoted, `[ \p{Pd}]+`) + `(?:e?s)?)(?:$|[^\pL])`)
}

// mentioned looks for a phrase in the lesson's texts, and gives the place of the first.
func mentioned(runs []run, words string) (source.Span, bool) {
	for _, r := range runs {
		if at := where(r, words); at != nil {
			return r.span(at[0], at[1]), true
		}
	}
	return source.Span{}, false
}

// where gives where a phrase stands in a text in small letters, nil if it does not.
func where(r run, phrase string) []int {
	words := wordsOf(phrase)
	if len(words) == 0 || !bytes.Contains(r.text, []byte(words[0])) { // most are not there, and patterns are dear
		return nil
	}
	if m := patternOf(words).FindSubmatchIndex(r.text); m != nil {
		return m[2:4]
	}
	return nil
}

// small makes small letters of those that have one of the same length.
func small(r run) run {
	for i := 0; i < len(r.text); {
		c, size := utf8.DecodeRune(r.text[i:])
		if lower := unicode.ToLower(c); utf8.RuneLen(lower) == size {
			utf8.EncodeRune(r.text[i:], lower)
		}
		i += size
	}
	return r
}
