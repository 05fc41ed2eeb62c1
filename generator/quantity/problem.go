package quantity

// This file holds what the package says of a mistake: the error with its place, and the
// guess at what a misspelt word was meant to be.

import (
	"slices"
	"strings"
)

// Span is a half-open range of byte offsets, in whatever text the caller counts.
type Span struct{ Start, End int }

// Error is something wrong in an expression: where, what, and what to do about
// it. Slug is a stable name for the kind of error.
type Error struct {
	Span     Span
	Slug     string
	What     string
	Hint     string
	Reported bool   // what it comes from has a problem of its own
	Name     string // of an unknown name, so that a caller who knows more may say more

	Instead string // what would be right in the span's place, where only one thing can be meant
}

func (e *Error) Error() string { return e.What }

// Nearest returns the candidates that are one slip of the pen away from word: one
// letter more, less, other, or two swapped. Of words of fewer than three letters only
// capitals count, since nearly every other short word is that near.
func Nearest(word string, candidates []string) []string {
	if len([]rune(word)) < 3 {
		return otherCase(word, candidates)
	}
	var similar []string
	for _, c := range candidates {
		if c != word && oneSlip([]rune(strings.ToLower(word)), []rune(strings.ToLower(c))) {
			similar = append(similar, c)
		}
	}
	slices.Sort(similar)
	return slices.Compact(similar)
}

// otherCase are the candidates that differ from a word in nothing but capitals.
func otherCase(word string, candidates []string) []string {
	var same []string
	for _, c := range candidates {
		if c != word && strings.EqualFold(c, word) && !slices.Contains(same, c) {
			same = append(same, c)
		}
	}
	slices.Sort(same)
	return same
}

// oneSlip tells whether a becomes b by at most one edit or swap.
func oneSlip(a, b []rune) bool {
	for len(a) > 0 && len(b) > 0 && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	if len(a) == 2 && len(b) == 2 {
		return a[0] == b[1] && a[1] == b[0]
	}
	return len(a) <= 1 && len(b) <= 1
}

// only gives the one candidate, "" if there are several or none.
func only(near []string) string {
	if len(near) != 1 {
		return ""
	}
	return near[0]
}

// DidYouMean is the hint that names the candidates which are one slip of the pen away from
// word, "" if there are none. A caller has its own hint for that case: cmp.Or joins the two.
func DidYouMean(word string, candidates []string) string { return meant(Nearest(word, candidates)) }

// meant asks whether one of some words was meant.
func meant(words []string) string {
	switch len(words) {
	case 0:
		return ""
	case 1:
		return "did you mean " + words[0] + "?"
	}
	return "did you mean one of " + strings.Join(words, ", ") + "?"
}
