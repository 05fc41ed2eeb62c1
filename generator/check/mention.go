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

// A seeker looks for words and phrases in what a lesson says. It makes each pattern once, and none for what
// cannot be there.
type seeker struct {
	runs     []run
	all      []byte // of the runs
	patterns map[string]*phrase
}

// A phrase is a pattern, and a word of it that a text must have for the pattern to be worth trying.
type phrase struct {
	pattern *regexp.Regexp
	word    []byte
}

func newSeeker(l *lesson.Lesson) *seeker {
	s := &seeker{runs: careRuns(l), patterns: map[string]*phrase{}}
	for _, r := range s.runs {
		s.all = append(append(s.all, r.text...), '\n')
	}
	return s
}

// find gives the place of a phrase where the lesson says it first.
func (s *seeker) find(words string) (source.Span, bool) {
	p := s.phrase(words)
	if p == nil {
		return source.Span{}, false
	}
	for _, r := range s.runs {
		if at := p.where(r.text); at != nil {
			return r.span(at[0], at[1]), true
		}
	}
	return source.Span{}, false
}

// phrase is that of some words, nil if the lesson has not all of them.
func (s *seeker) phrase(text string) *phrase {
	if known, ok := s.patterns[text]; ok {
		return known
	}
	words := lesson.MentionWords(text)
	var p *phrase
	if len(words) > 0 && s.mayHave(words) {
		p = &phrase{lesson.MentionPattern(words), []byte(words[0])}
		if len(words) == 1 {
			p.word = []byte(lesson.MentionStem(words[0]))
		}
	}
	s.patterns[text] = p
	return p
}

func (s *seeker) mayHave(words []string) bool {
	for i, word := range words {
		if i == len(words)-1 {
			word = lesson.MentionStem(word)
		}
		if !bytes.Contains(s.all, []byte(word)) {
			return false
		}
	}
	return true
}

// forget blanks a phrase out, so that a word of it is not found once more.
func (s *seeker) forget(words string) {
	if p := s.phrase(words); p != nil {
		s.blank(p.pattern, p.word)
	}
}

// blank puts blanks in a pattern's place, in the texts that have a word of it.
func (s *seeker) blank(pattern *regexp.Regexp, word []byte) {
	for i, r := range s.runs {
		if bytes.Contains(r.text, word) {
			s.runs[i].text = pattern.ReplaceAllFunc(r.text, func(name []byte) []byte { return bytes.Repeat([]byte(" "), len(name)) })
		}
	}
}

// where gives where a phrase stands in a text in small letters, nil if it does not.
func (p *phrase) where(text []byte) []int {
	if !bytes.Contains(text, p.word) {
		return nil
	}
	if m := p.pattern.FindSubmatchIndex(text); m != nil {
		return m[2:4]
	}
	return nil
}

// careRuns gives all that a lesson says of substances, in small letters: its header, its prose, prompts, titles and code.
func careRuns(l *lesson.Lesson) []run {
	var all []run
	for _, text := range append(append([]string{l.Title}, l.Goals...), l.Materials...) {
		all = append(all, headerRun(l, text))
	}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch first := n.FirstChild(); {
		case !entering:
		case n.Kind() == ast.KindHTMLBlock:
			all = append(all, htmlOf(n, l.Markdown))
		case n.Kind() == lesson.KindWorkBlock:
			for _, s := range n.(*lesson.WorkBlock).Statements { // hints too
				all = append(all, promptRun(l, s))
			}
		case n.Type() == ast.TypeBlock && first != nil && first.Type() == ast.TypeInline:
			all = append(all, spokenRun(n, l.Markdown, ". "))
		case n.Kind() != ast.KindCodeSpan: // a part of the prose around it
			all = append(all, seen(l, n)...)
		}
		return ast.WalkContinue, nil
	})
	for i, r := range all {
		all[i] = small(r)
	}
	return all
}

// headerRun finds a text of the header where it stands, if it stands there as it is.
func headerRun(l *lesson.Lesson, text string) run {
	text = strings.TrimSpace(text)
	_, rest, _ := bytes.Cut(l.File.Text, []byte("\n"))
	header, _, _ := bytes.Cut(rest, []byte("\n---"))
	if i := bytes.Index(header, []byte(text)); i >= 0 && text != "" {
		i += len(l.File.Text) - len(rest)
		return rawRun(l.File.Text, i, i+len(text))
	}
	return textAt(text, l.HeaderAt)
}

// spokenRun is the text below a node as students read it, code and HTML in it; a line break is a blank. What stands
// between two blocks is given.
func spokenRun(top ast.Node, src []byte, between string) run {
	var r run
	_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if n.Kind() == lesson.KindMentorNote && n != top {
			return ast.WalkSkipChildren, nil
		}
		if n.Type() == ast.TypeBlock && n != top && len(r.text) > 0 {
			last := r.ends[len(r.ends)-1]
			r.write(between, last, last)
		}
		switch n := n.(type) {
		case *ast.Text:
			r.markdown(src, n.Segment.Start, n.Segment.Stop)
			if n.SoftLineBreak() || n.HardLineBreak() {
				r.plain(" ", n.Segment.Stop, n.Segment.Stop)
			}
		case *ast.RawHTML, *ast.HTMLBlock:
			r.join(htmlOf(n, src))
		case *lesson.Value:
			r.write(noText, 0, 0)
		}
		return ast.WalkContinue, nil
	})
	return r
}

// join adds another run.
func (r *run) join(other run) {
	r.text, r.at, r.ends = append(r.text, other.text...), append(r.at, other.at...), append(r.ends, other.ends...)
}

// small makes small letters of those that have one of the same length.
func small(r run) run {
	text := bytes.Clone(r.text)
	for i := 0; i < len(text); {
		c, size := utf8.DecodeRune(text[i:])
		if lower := unicode.ToLower(c); utf8.RuneLen(lower) == size {
			utf8.EncodeRune(text[i:], lower)
		}
		i += size
	}
	r.text = text
	return r
}
