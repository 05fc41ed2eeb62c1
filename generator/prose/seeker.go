package prose

// Whether a lesson mentions a word or phrase, and where.

import (
	"bytes"
	"regexp"
	"strings"
	"unicode"

	"trundle/generator/lesson"
	"trundle/generator/source"
)

// A Seeker looks for words and phrases in what a lesson says of substances. It makes each
// pattern once, and none for what cannot be there.
type Seeker struct {
	runs    []Run
	all     []byte // of the runs
	phrases map[string]*Phrase
}

// A Phrase is a pattern, and a word of it that a text must have for the pattern to be worth
// trying.
type Phrase struct {
	pattern *regexp.Regexp
	word    []byte
}

// NewSeeker reads a lesson.
func NewSeeker(l *lesson.Lesson) *Seeker {
	s := &Seeker{runs: everythingSaid(l), phrases: map[string]*Phrase{}}
	for _, r := range s.runs {
		s.all = append(append(s.all, r.Text...), '\n')
	}
	return s
}

// Find gives the place where the lesson says some words first.
func (s *Seeker) Find(words string) (at source.Span, found bool) {
	p := s.Phrase(words)
	if p == nil {
		return source.Span{}, false
	}
	for _, r := range s.runs {
		if at, found := p.In(r); found {
			return r.Span(at.Start, at.End), true
		}
	}
	return source.Span{}, false
}

// Phrase is that of some words, nil if the lesson does not have all of them.
func (s *Seeker) Phrase(text string) *Phrase {
	if p, made := s.phrases[text]; made {
		return p
	}
	words := wordsOf(text)
	var p *Phrase
	if len(words) > 0 && s.mayHave(words) {
		p = &Phrase{patternOf(words), []byte(words[0])}
		if len(words) == 1 {
			p.word = []byte(stemOf(words[0]))
		}
	}
	s.phrases[text] = p
	return p
}

// mayHave tells whether all words of a phrase are somewhere in the lesson. A pack has dozens of
// phrases and a lesson mentions a few: most need no pattern at all.
func (s *Seeker) mayHave(words []string) bool {
	for i, word := range words {
		if i == len(words)-1 {
			word = stemOf(word)
		}
		if !bytes.Contains(s.all, []byte(word)) {
			return false
		}
	}
	return true
}

// Forget blanks a phrase out, so that a word of it is not found once more.
func (s *Seeker) Forget(words string) {
	if p := s.Phrase(words); p != nil {
		s.blank(p.pattern, p.word)
	}
}

// blank puts blanks in a pattern's place, in the texts that have a word of it.
func (s *Seeker) blank(pattern *regexp.Regexp, word []byte) {
	for i, r := range s.runs {
		if bytes.Contains(r.Text, word) {
			s.runs[i].Text = pattern.ReplaceAllFunc(r.Text,
				func(name []byte) []byte { return bytes.Repeat([]byte(" "), len(name)) })
		}
	}
}

// In gives where a phrase is in a text in small letters, as a part of that text.
func (p *Phrase) In(r Run) (part source.Span, found bool) {
	if !bytes.Contains(r.Text, p.word) {
		return source.Span{}, false
	}
	m := p.pattern.FindSubmatchIndex(r.Text)
	if m == nil {
		return source.Span{}, false
	}
	return source.Span{Start: m[2], End: m[3]}, true
}

// Mentions tells whether a phrase has a word in it, one or many.
func Mentions(phrase, word string) bool {
	return patternOf(wordsOf(word)).MatchString(strings.ToLower(phrase))
}

// Finder gives a test for one phrase in many texts, which makes its pattern only once.
func Finder(phrase string) func(text string) bool {
	words := wordsOf(phrase)
	if len(words) == 0 {
		return func(string) bool { return false }
	}
	return patternOf(words).MatchString
}

// wordsOf cuts a phrase at blanks and hyphens.
func wordsOf(phrase string) []string {
	return strings.FieldsFunc(strings.ToLower(phrase),
		func(r rune) bool { return unicode.IsSpace(r) || unicode.Is(unicode.Pd, r) })
}

// patternOf matches a phrase in small letters, one or many of it, its words set apart by blanks or hyphens.
func patternOf(words []string) *regexp.Regexp {
	quoted := make([]string, len(words))
	for i, word := range words {
		quoted[i] = regexp.QuoteMeta(word)
	}
	last := words[len(words)-1]
	stem := stemOf(last)
	quoted[len(words)-1] = regexp.QuoteMeta(stem) + `(?:` + regexp.QuoteMeta(strings.TrimPrefix(last, stem)) +
		`|e?s|y|ies|fe?|ves)?`
	return regexp.MustCompile(`(?:^|[^\pL])(` + strings.Join(quoted, `[ \p{Pd}]+`) + `)(?:$|[^\pL])`)
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
