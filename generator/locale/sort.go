package locale

// The order of the alphabet.

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// joined are letters that no accent makes, as they are sorted.
var joined = strings.NewReplacer("ß", "ss", "æ", "ae", "œ", "oe", "ø", "o", "ł", "l", "đ", "d")

// afterAll comes after every letter.
const afterAll = "\U0010ffff"

// Compare puts two texts into the order of a list: by letters, then by accents and capitals.
func (f Forms) Compare(a, b string) int {
	return cmp.Or(strings.Compare(f.sorted(a), f.sorted(b)), strings.Compare(strings.ToLower(a), strings.ToLower(b)),
		strings.Compare(a, b))
}

// sorted is a text as it is compared: without accents, but for letters that the language counts as letters of their
// own, which come after those that they are written with.
func (f Forms) sorted(text string) string {
	var out strings.Builder
	for _, r := range norm.NFC.String(strings.ToLower(text)) {
		bare := strings.Map(func(r rune) rune {
			if unicode.Is(unicode.Mn, r) {
				return -1
			}
			return r
		}, norm.NFD.String(string(r)))
		out.WriteString(joined.Replace(bare))
		if slices.Contains(f.Letters, string(r)) {
			out.WriteString(afterAll)
		}
	}
	return out.String()
}
