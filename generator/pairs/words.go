package pairs

// Pairs in other languages than English. Only what is hard to misread is taken for a pair there: a bracket, an equal
// sign, and words that say that both are the same.

import (
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"trundle/generator/wording"
)

// Words are those that a language has about units. A Words may be used by several goroutines.
type Words struct {
	Commas bool              // decimals come after a comma
	Units  map[string]string // symbols by other names, in small letters

	joints                       []foreignJoint
	saidAbout, part, slip, scale *wording.Pattern
}

// A foreignJoint is a way in which a language joins two quantities.
type foreignJoint struct {
	joint   joint
	pattern *wording.Pattern // its first group is set by about, its second by exactly
}

// Lists are the words of a language by their use.
type Lists struct {
	About, Exactly, Inside, Which, Equals, Slip, Scale, PartBefore []string
}

// NewWords makes the words of a language ready.
func NewWords(commas bool, units map[string]string, l Lists) *Words {
	w := &Words{Commas: commas, Units: map[string]string{}}
	for name, symbol := range units {
		w.Units[strings.ToLower(name)] = symbol
	}
	aside := `(?i:(` + either(append([]string{"≈", "~"}, l.About...)) + `) ?|(` + either(l.Exactly) + `) )?$`
	w.joints = []foreignJoint{
		{byBracket, wording.New(`^ ?\( ?(?:(?i:=|` + either(l.Inside) + `),? ?)?` + aside)},
		{byEqual, wording.New(`^ ?= ?` + aside)},
		{byEqual, wording.New(`^ ?([≈~]) ?$`)},
		{byEqual, wording.New(`^,? (?i:` + either(l.Equals) + `) ` + aside)},
		{byWhich, wording.New(`^(?:[,;]| [—–]) (?i:` + either(l.Which) + `),? ` + aside)},
	}
	w.saidAbout = wording.New(`(?i)(?:^|[^\pL])` + either(l.About) + ` ?$`)
	w.part = partPattern(l.PartBefore)
	w.slip, w.scale = words(either(append([]string{"≠"}, l.Slip...))), words(either(l.Scale))
	return w
}

// partPattern matches what makes the quantity after it a part of something. A short word such as "to" does so after a
// number, or with two words more: two strips of.
func partPattern(words []string) *wording.Pattern {
	var short, long []string
	for _, word := range words {
		if utf8.RuneCountInString(word) <= 3 {
			short = append(short, word)
		} else {
			long = append(long, word)
		}
	}
	return wording.New(`(?i)(?:[-−–+×*·÷±^]|\d|\x{fffc}|(?:^|[^\pL])` + either(long) + `(?: \pL+){0,2}|` +
		`(?:[\d½¼¾\x{fffc}%°″′] ?\pL{0,12} ?|^|[^\pL])` + either(short) + ` \pL+ \pL+|` +
		`[\d½¼¾\x{fffc}%°″′] ?\pL{0,12} ?` + either(short) + `) ?$`)
}

// either matches one of some texts, the longest first.
func either(texts []string) string {
	if len(texts) == 0 {
		return `[^\x{0}-\x{10ffff}]`
	}
	quoted := slices.Clone(texts)
	slices.SortFunc(quoted, func(a, b string) int { return len(b) - len(a) })
	for i, text := range quoted {
		quoted[i] = strings.NewReplacer("'", "['’]", "’", "['’]").Replace(regexp.QuoteMeta(text))
	}
	return `(?:` + strings.Join(quoted, "|") + `)`
}

// symbol is the unit that a word stands for.
func (w *Words) symbol(word string) (string, bool) {
	symbol, known := symbolOf[word]
	if !known && w != nil {
		symbol, known = w.Units[strings.ToLower(word)]
	}
	return symbol, known
}

// commaForms are the forms of numbers where decimals come after a comma. 1.200 is 1200 there, and for many who type a
// point 1.2 all the same, so it is none.
var commaForms = append([]numberForm{
	{
		pattern: wording.New(`^([1-9]\d{0,2}(?: \d{3})+(?:,\d+)?|[1-9]\d{0,2}(?:\.\d{3})+,\d+)(?:$|[^\d,.]|[,.](?:$|\D))`),
		plain:   func(s string) string { return strings.NewReplacer(".", "", " ", "", ",", ".").Replace(s) },
	},
	{
		pattern: wording.New(`^([1-9]\d{0,2}(?:\.\d{3})+)(?:$|[^\d,.]|[,.](?:$|\D))`),
		plain:   func(string) string { return "" },
	},
}, numberForms[1:]...)

func (w *Words) numberForms() []numberForm {
	if w == nil || !w.Commas {
		return numberForms
	}
	return commaForms
}

// pairAt tells whether amounts[i] says again what the amount before it says.
func (w *Words) pairAt(text string, amounts []amount, i int) (pair, bool) {
	if w == nil {
		return pairAt(text, amounts, i)
	}
	p := pair{first: amounts[i-1], second: amounts[i]}
	j, about, exactly, joined := w.jointOf(text[p.first.end:p.second.start])
	before := justBefore(text[:p.first.start])
	if m := w.saidAbout.FindStringIndex(before); m != nil {
		before, about = before[:m[0]], true
	}
	if !joined || !p.comparable() || w.part.MatchString(strings.TrimRight(before, " (")) ||
		!endsAsPair(j, text, amounts, i) || w.meantOtherwise(j, text, p.first.start, p.second.end) {
		return p, false
	}
	if i > 1 {
		gap := text[amounts[i-2].end:p.first.start]
		if strings.IndexFunc(gap, unicode.IsLetter) < 0 && !strings.ContainsAny(gap, ".;:!?") { // a list, a range
			return p, false
		}
	}
	if p.about = about; exactly || p.first.isCount() || p.first.number == 1 && j == byEqual && !about {
		p.first.step = 0
	}
	return p, true
}

func (w *Words) jointOf(between string) (j joint, about, exactly, ok bool) {
	for _, c := range w.joints {
		if m := c.pattern.FindStringSubmatch(between); m != nil {
			return c.joint, len(m) > 1 && m[1] != "", len(m) > 2 && m[2] != "", true
		}
	}
	return 0, false, false, false
}

// meantOtherwise looks around the two quantities for words that make them two: a scale, a slip on show, a question.
func (w *Words) meantOtherwise(j joint, text string, start, end int) bool {
	before, after := lastSentences(text[:start]), nextSentences(text[end:])
	if ends := sentenceEnd.Compiled().FindAllStringIndex(before, -1); ends != nil {
		before = before[ends[len(ends)-1][1]:]
	}
	rest, next := splitSentence(after)
	following, _ := splitSentence(next)
	if sentence := before + text[start:end] + rest; w.slip.MatchString(sentence + following) {
		return true
	}
	return j != byBracket && (w.scale.MatchString(before+rest) ||
		strings.HasSuffix(strings.TrimRight(rest, " \n\"”’»)"), "?"))
}
