package typography

// Where a word may be parted that no line has room for. The rule looks at letters alone: it finds syllables, and not
// the parts of a compound.

import (
	"strings"
	"unicode"
)

// Letters that a parted word keeps at its beginning and at its end, at least.
const leastBefore, leastAfter = 2, 3

// MayPart tells whether a word may be parted after so many bytes: before a consonant that a vowel follows, or before
// consonants that begin a syllable together, and with a vowel on both sides.
func (m Marks) MayPart(word string, end int) bool {
	before, after := strings.ToLower(word[:end]), strings.ToLower(word[end:])
	if lettersOf(before) < leastBefore || lettersOf(after) < leastAfter || !strings.ContainsFunc(before, isVowel) {
		return false
	}
	onset := after[:max(0, strings.IndexFunc(after, isVowel))]
	if onset == "" {
		return false
	}
	for _, o := range m.onsets {
		if rest, joined := strings.CutSuffix(before+onset, o); joined {
			return len(rest) == end
		}
	}
	return len([]rune(onset)) == 1 && unicode.IsLetter([]rune(onset)[0])
}

// softHyphen is where a browser may part a word; it shows a hyphen there only if it does.
const softHyphen = "\u00ad"

// longestParted is beyond any word, in bytes. What has no blanks would take long: for each letter all is looked at.
const longestParted = 200

// Parted lets words of more than so many letters be parted.
func (m Marks) Parted(text string, most int) string {
	words := strings.Split(text, " ")
	for i, word := range words {
		if lettersOf(word) <= most || len(word) > longestParted {
			continue
		}
		var parted strings.Builder
		for at, r := range word {
			if m.MayPart(word, at) {
				parted.WriteString(softHyphen)
			}
			parted.WriteRune(r)
		}
		words[i] = parted.String()
	}
	return strings.Join(words, " ")
}

func isVowel(r rune) bool {
	return strings.ContainsRune("aeiouyäöüáéíóúàèìòùâêîôûëïæœ", r)
}

func lettersOf(text string) (n int) {
	for _, r := range text {
		if unicode.IsLetter(r) {
			n++
		}
	}
	return n
}
