// Package typography makes typed text into set text at output: quotation marks and apostrophes that turn the right way,
// signs for inches and feet, and no line break between a number and its unit. Sources and checks keep what was typed.
package typography

import (
	"slices"
	"strings"
	"unicode"
)

// NoBreak is the blank at which no line ends.
const NoBreak = '\u00a0'

// asTyped stands after a mark that is to stay as it was typed. It is a word joiner, which nobody sees.
const asTyped = '\u2060'

// Text sets a text that stands alone. Each character stays one character, in its place.
func Text(s string) string {
	if !strings.ContainsAny(s, "\"' ") {
		return s
	}
	runes := []rune(s)
	set(runes)
	return string(runes)
}

// Keep has Text leave the quotation marks of a text as they are, since it is code.
func Keep(code string) string {
	return strings.NewReplacer(`"`, `"`+string(asTyped), `'`, `'`+string(asTyped)).Replace(code)
}

// set sets the characters of one paragraph in place.
func set(runes []rune) {
	isOpen := false // a quotation that has begun
	for i, r := range runes {
		switch {
		case next(runes, i) == asTyped:
		case r == '"':
			runes[i] = double(runes, i, isOpen)
			isOpen = runes[i] == '“' || isOpen && runes[i] == '″'
		case r == '\'':
			runes[i] = single(runes, i)
		case (r == ' ' || r == '\n') && isNumber(runes[:i]) && isUnit(runes[i+1:]):
			runes[i] = NoBreak
		}
	}
}

// double turns a straight double mark: inches after a number, unless it has to close what is open.
func double(runes []rune, i int, isOpen bool) rune {
	before, after := previous(runes, i), next(runes, i)
	// Of the marks to come one has to close what is open, and the others go in pairs.
	closedLater := isOpen && count(runes[i+1:], '"')%2 == 1
	switch {
	case isDigit(before) && (!isOpen || closedLater):
		return '″'
	case opens(before) && !unicode.IsSpace(after) && after != 0 && (!isOpen || unicode.IsSpace(before)):
		return '“'
	}
	return '”'
}

// single turns a straight single mark: feet after a number, an opening mark before a word that is closed later, and
// else the mark that ends a quotation, which is that of a letter left out as well.
func single(runes []rune, i int) rune {
	before, after := previous(runes, i), next(runes, i)
	switch {
	case isDigit(before) && !unicode.IsLetter(after) && !slices.Contains(runes[:i], '‘'):
		return '′'
	case opens(before) && unicode.IsLetter(after) && isClosed(runes[i+1:]):
		return '‘'
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
	return before == 0 || unicode.IsSpace(before) || strings.ContainsRune("([{—–-/“‘…", before)
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
