// Package typography makes typed text into set text at output: a language's quotation marks, apostrophes, signs for
// inches and feet, and no line break before a unit or, in French, a colon. Sources and checks keep what was typed.
package typography

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"trundle/generator/locale"
)

// NoBreak is the blank at which no line ends.
const NoBreak = '\u00a0'

// asTyped stands after a mark that is to stay as it was typed. It is a word joiner, which nobody sees.
const asTyped = '\u2060'

// NarrowNoBreak is the same as a narrow one: before ; in French, and between groups of three digits.
const NarrowNoBreak = '\u202f'

// IsBreak tells a blank at which a line may end.
func IsBreak(r rune) bool { return unicode.IsSpace(r) && r != NoBreak && r != NarrowNoBreak }

// endOfInner stands for the end of a quotation within another until the language's mark takes its place: in English
// it looks like an apostrophe, in German it does not. No text has this character.
const endOfInner = '\ufffe'

// Marks are how a language sets a text. Those of no language are the English ones.
type Marks struct {
	quotes, inner [2]string
	unbroken      []string // blanks at which no line ends, each with the mark that it stands beside
	onsets        []string // consonants that begin a syllable together
}

// In gives the marks of a language.
func In(f locale.Forms) Marks { return Marks{f.Quotes, f.InnerQuotes, f.Unbroken, f.Onsets} }

// Quoted puts a text between the language's quotation marks.
func (m Marks) Quoted(text string) string { return m.spelled('“') + text + m.spelled('”') }

// Text sets a text that stands alone.
func (m Marks) Text(s string) string {
	if !strings.ContainsAny(s, "\"' ") {
		return s
	}
	typed := []rune(s)
	return m.Spell(m.Set(typed), typed)
}

// Set sets a text whose characters all stay one character, in their places; Spell then gives what some of them are.
func (m Marks) Set(typed []rune) []rune {
	runes := slices.Clone(typed)
	m.set(runes)
	return runes
}

// Spell writes characters that Set gave for what was typed.
func (m Marks) Spell(set, typed []rune) string {
	var out strings.Builder
	for i, r := range set {
		if r == typed[i] {
			out.WriteRune(r)
		} else {
			out.WriteString(m.spelled(r))
		}
	}
	return out.String()
}

// spelled is what the language has for a character that was set.
func (m Marks) spelled(r rune) string {
	own := ""
	switch r {
	case '“':
		own = m.quotes[0]
	case '”':
		own = m.quotes[1]
	case '‘':
		own = m.inner[0]
	case endOfInner:
		own, r = m.inner[1], '’'
	}
	return cmp.Or(own, string(r))
}

// Keep has Text leave the quotation marks of a text as they are, since it is code.
func Keep(code string) string {
	return strings.NewReplacer(`"`, `"`+string(asTyped), `'`, `'`+string(asTyped)).Replace(code)
}

// set sets the characters of one paragraph in place.
func (m Marks) set(runes []rune) {
	isOpen, isInnerOpen := false, false // a quotation that has begun, and one within
	for i, r := range runes {
		switch {
		case next(runes, i) == asTyped:
		case r == '"':
			runes[i] = double(runes, i, isOpen)
			isOpen = runes[i] == '“' || isOpen && runes[i] == '″'
		case r == '\'':
			runes[i] = single(runes, i, isInnerOpen)
			isInnerOpen = runes[i] == '‘' || isInnerOpen && runes[i] != endOfInner
		case r != ' ' && r != '\n':
		case isNumber(runes[:i]) && isUnit(runes[i+1:]):
			runes[i] = NoBreak
		default:
			runes[i] = m.blank(runes, i)
		}
	}
}

// blank gives what stands for a blank: beside a mark that the language keeps on its line, one at which no line ends.
func (m Marks) blank(runes []rune, i int) rune {
	before, after := previous(runes, i), next(runes, i)
	for _, pair := range m.unbroken {
		two := []rune(pair)
		switch isBefore := unicode.IsSpace(two[0]); {
		case isBefore && two[1] == after:
			return two[0]
		case !isBefore && two[0] == before:
			return two[1]
		}
	}
	return runes[i]
}

// double turns a straight double mark: inches after a number, unless it has to close what is open.
func double(runes []rune, i int, isOpen bool) rune {
	before, after := previous(runes, i), next(runes, i)
	// Of the marks to come one has to close what is open, and the others go in pairs.
	closedLater := isOpen && count(runes[i+1:], '"')%2 == 1
	switch {
	case isDigit(before) && (!isOpen || closedLater):
		return '″'
	case opens(before) && !unicode.IsSpace(after) && after != 0 && (!isOpen || unicode.IsSpace(before)),
		before == '’' && !isOpen && unicode.IsLetter(after): // l'"eau"
		return '“'
	}
	return '”'
}

// single turns a straight single mark: feet after a number, an opening mark before a word that is closed later, the
// mark that ends such a quotation, and else that of a letter left out.
func single(runes []rune, i int, isOpen bool) rune {
	before, after := previous(runes, i), next(runes, i)
	switch {
	case isDigit(before) && !unicode.IsLetter(after) && !slices.Contains(runes[:i], '‘'):
		return '′'
	case opens(before) && unicode.IsLetter(after) && isClosed(runes[i+1:]):
		return '‘'
	case isOpen && before != 0 && !unicode.IsSpace(before) && !unicode.IsLetter(after):
		return endOfInner
	}
	return '’'
}

// isClosed tells whether a straight mark ends a word here.
func isClosed(runes []rune) bool {
	for i, r := range runes {
		if r == '\'' && i > 0 && !unicode.IsSpace(runes[i-1]) && !unicode.IsLetter(next(runes, i)) {
			return true
		}
	}
	return false
}

func count(runes []rune, mark rune) (n int) {
	for _, r := range runes {
		if r == mark {
			n++
		}
	}
	return n
}

func previous(runes []rune, i int) rune {
	if i == 0 {
		return 0
	}
	return runes[i-1]
}

func next(runes []rune, i int) rune {
	if i+1 >= len(runes) {
		return 0
	}
	return runes[i+1]
}

// opens tells whether a quotation may begin after a character; 0 is the start of a text.
func opens(before rune) bool {
	return before == 0 || unicode.IsSpace(before) || strings.ContainsRune("([{—–-/“‘…¿¡«‹„‚", before)
}

func isDigit(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune(fractions, r) }

const fractions = "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"

// isNumber tells whether a text ends with a number, and not with a name such as A4.
func isNumber(runes []rune) bool {
	n := len(runes)
	for n > 0 && (isDigit(runes[n-1]) || strings.ContainsRune(".,/⁄", runes[n-1])) {
		n--
	}
	return n < len(runes) && isDigit(runes[len(runes)-1]) && (n == 0 || !unicode.IsLetter(runes[n-1]))
}

// units are those that are written as signs; a line may end before a whole word.
var units = strings.Fields("mm cm m km in ft yd s min h g kg oz lb N mL L V A mA W rad deg rot ppm dB Hz " +
	"mm/s cm/s m/s in/s ft/s km/h % °C °F mi mph rpm lbf Ah mAh Wh")

// places are what comes after "in" where it is no inch: 1 in a million, 3 in the same row, 1 in 20.
var places = strings.Fields("a all an each every our the this your")

func isPlace(after []rune) bool {
	word, _, _ := strings.Cut(strings.TrimSpace(string(after[:min(len(after), 8)])), " ")
	return slices.Contains(places, word) || word != "" && isDigit([]rune(word)[0])
}

// isUnit tells whether a text begins with a unit.
func isUnit(runes []rune) bool {
	end := 0
	for end < len(runes) && (unicode.IsLetter(runes[end]) || strings.ContainsRune("/%°", runes[end])) {
		end++
	}
	if string(runes[:end]) == "in" && isPlace(runes[end:]) {
		return false
	}
	return slices.Contains(units, string(runes[:end])) && (end == len(runes) || !isDigit(runes[end]))
}
