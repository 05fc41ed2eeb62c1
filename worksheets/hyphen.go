package worksheets

// Where a word ends a line that is too narrow for all of it. Only words that no line has room for are parted, as German
// compounds are in narrow columns.

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"trundle/generator/typography"
	"trundle/worksheets/pdf"
)

// mostOfWord is in bytes: no language has a longer word, and looking for syllables in what somebody pasted takes time
// with the square of its length.
const mostOfWord = 200

// hyphenated gives how many bytes of a word that is too wide go onto a line, and that line: with a hyphen where a
// syllable may end, else cut between any two letters, one letter at least.
func hyphenated(doc *pdf.Document, m typography.Marks, word string, width float64) (n int, line string) {
	n = fitting(doc, word, width)
	if n == len(word) {
		return n, word
	}
	if end := lastHyphen(word[:n]); 2*end > n {
		return end, word[:end]
	}
	if len(word) > mostOfWord || !isOfLetters(word) {
		return n, word[:n]
	}
	room := fitting(doc, word, width-doc.Width("-"))
	for end := room; end > 0; end-- {
		if utf8.RuneStart(word[end]) && m.MayPart(word, end) {
			return end, word[:end] + "-"
		}
	}
	return n, word[:n]
}

// lastHyphen is the end of the last hyphen or stroke of a text, 0 if there is none that has letters before it.
func lastHyphen(text string) int {
	i := strings.LastIndexAny(text, "-–/")
	if i < 2 {
		return 0
	}
	_, size := utf8.DecodeRuneInString(text[i:])
	return i + size
}

// isOfLetters tells a word of prose from code and addresses: letters and hyphens, with marks before and after them, and
// no capital within a part of it.
func isOfLetters(word string) bool {
	inner := strings.TrimFunc(word, func(r rune) bool { return unicode.IsPunct(r) && r != '_' || unicode.IsSymbol(r) })
	before := '-'
	for _, r := range inner {
		if !unicode.IsLetter(r) && !strings.ContainsRune("-–’'", r) || unicode.IsUpper(r) && unicode.IsLower(before) {
			return false
		}
		before = r
	}
	return true
}
