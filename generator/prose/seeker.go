package prose

// Whether a lesson mentions a word or phrase, and where.

import (
	"bytes"
	"regexp"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/source"

	"trundle/generator/wording"
)

// A Found is a hit in a lesson, with its place in the file.
type Found struct {
	Hit
	At        source.Span
	Qualified bool // a word stands before it that may make another thing of it: moss cleaner
}

// Find gives what a lesson says of substances and tools: the phrases of the table and those of its pack.
func Find(l *lesson.Lesson, own *Phrases) []Found {
	var all []Found
	for _, r := range everythingSaid(l, func(ast.Node) bool { return false }) {
		for _, h := range own.In(r.Text) {
			all = append(all, Found{h, r.Span(h.Start, h.End), In(l.Language).Qualified(r.Text, h)})
		}
	}
	return all
}

// A Seeker looks for phrases in what students read.
type Seeker struct {
	tongue *Tongue
	runs   []Run
}

// NewStudentsSeeker reads a lesson.
func NewStudentsSeeker(l *lesson.Lesson) *Seeker {
	return &Seeker{In(l.Language), everythingSaid(l, lesson.ForMentors)}
}

// Find gives the place where students read some words first.
func (s *Seeker) Find(phrase string) (at source.Span, found bool) {
	find := s.tongue.finder(phrase)
	for _, r := range s.runs {
		if from, to, ok := find(r.Text); ok {
			return r.Span(from, to), true
		}
	}
	return source.Span{}, false
}

// Finder gives a test for one phrase of a language in many texts in small letters.
func (t *Tongue) Finder(phrase string) func(text []byte) bool {
	find := t.finder(phrase)
	return func(text []byte) bool { _, _, found := find(text); return found }
}

// finder finds a phrase, one or many, in texts in small letters. In English a pattern is made for it once.
func (t *Tongue) finder(phrase string) func(text []byte) (from, to int, found bool) {
	if t != nil {
		return t.formsFinder(phrase)
	}
	words := wordsOf(phrase)
	if len(words) == 0 {
		return func([]byte) (int, int, bool) { return 0, 0, false }
	}
	pattern, always := patternOf(words), []byte(alwaysIn(words))
	return func(text []byte) (from, to int, found bool) {
		if !bytes.Contains(text, always) {
			return 0, 0, false
		}
		m := pattern.FindSubmatchIndex(text)
		if m == nil {
			return 0, 0, false
		}
		return m[2], m[3], true
	}
}

// alwaysIn is what is in every text that patternOf matches. To look for it first takes a fraction of the time, and few
// texts have it.
func alwaysIn(words []string) string {
	if len(words) > 1 {
		return words[0]
	}
	return stemOf(words[0])
}

// wordsOf cuts a phrase at blanks and hyphens.
func wordsOf(phrase string) []string {
	return strings.FieldsFunc(strings.ToLower(phrase),
		func(r rune) bool { return unicode.IsSpace(r) || unicode.Is(unicode.Pd, r) })
}

// patternOf matches a phrase in small letters, one or many of it, its words set apart by blanks or hyphens.
func patternOf(words []string) *wording.Pattern {
	quoted := make([]string, len(words))
	for i, word := range words {
		quoted[i] = regexp.QuoteMeta(word)
	}
	last := words[len(words)-1]
	stem := stemOf(last)
	quoted[len(words)-1] = regexp.QuoteMeta(stem) + `(?:` + regexp.QuoteMeta(strings.TrimPrefix(last, stem)) +
		`|e?s|y|ies|fe?|ves)?`
	return wording.New(`(?:^|[^\pL])(` + strings.Join(quoted, `[ \p{Pd}]+`) + `)(?:$|[^\pL])`)
}

// stemOf is what one and many of a word have in common: batter, kni, cutter.
func stemOf(word string) string {
	for _, ending := range []string{"ies", "ves", "fe", "y", "f", "s"} {
		if stem, ok := strings.CutSuffix(word, ending); ok && len(stem) > 2 && !strings.HasSuffix(stem, "s") {
			return stem
		}
	}
	return word
}
