package lesson

import (
	"regexp"
	"strings"
	"unicode"
)

// What belongs here: how a word that a card mentions is found in a text. The check that asks for cards and the page
// that marks them must agree on it.

// MentionWords cuts a phrase at blanks and hyphens.
func MentionWords(phrase string) []string {
	return strings.FieldsFunc(strings.ToLower(phrase), func(r rune) bool { return unicode.IsSpace(r) || unicode.Is(unicode.Pd, r) })
}

// MentionPattern matches a phrase in small letters, one or many of it, its words set apart by blanks or hyphens.
// Its group is the phrase.
func MentionPattern(words []string) *regexp.Regexp {
	quoted := make([]string, len(words))
	for i, word := range words {
		quoted[i] = regexp.QuoteMeta(word)
	}
	last := words[len(words)-1]
	stem := MentionStem(last)
	quoted[len(words)-1] = regexp.QuoteMeta(stem) + `(?:` + regexp.QuoteMeta(strings.TrimPrefix(last, stem)) + `|e?s|y|ies|fe?|ves)?`
	return regexp.MustCompile(`(?:^|[^\pL])(` + strings.Join(quoted, `[ \p{Pd}]+`) + `)(?:$|[^\pL])`)
}

// MentionStem is what one and many of a word have in common: batter, kni, cutter.
func MentionStem(word string) string {
	for _, ending := range []string{"ies", "ves", "fe", "y", "f", "s"} {
		if stem, ok := strings.CutSuffix(word, ending); ok && len(stem) > 2 && !strings.HasSuffix(stem, "s") {
			return stem
		}
	}
	return word
}
