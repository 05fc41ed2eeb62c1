package quantity

// This file takes the marks between thousands out of a number where they can be nothing else, as our own pages write
// them. site/scripts/read.js does the same.

import (
	"regexp"
	"strings"
	"sync"
	"unicode/utf8"
)

// grouped is a number at the start of a text whose marks are clear, with what follows: 1,000.5 or 1.000,5, since both
// marks are there; 1,000,000, since no number has two decimal points; 1 000,5. What a / or : follows is no such number:
// 3 120/125 is a little less than four. It is compiled when it is first needed.
var grouped = sync.OnceValue(func() *regexp.Regexp {
	const blank = `[ \x{a0}\x{2009}\x{202f}]`
	return regexp.MustCompile(`^[ +−-]*([1-9]\d{0,2}(?:(?:,\d{3})+\.\d+|(?:\.\d{3})+,\d+|(?:,\d{3}){2,}|(?:\.\d{3}){2,}|` +
		`(?:` + blank + `\d{3})+(?:[.,]\d+)?))(?:[^\d.,/:]|$)`)
})

// betweenThousands gives the places of the marks between thousands in a text, each with its end.
func betweenThousands(text string) []Span {
	// Most numbers have one mark or none, and are not looked at any longer.
	marks := strings.Count(text, ".") + strings.Count(text, ",")
	if marks < 2 && !strings.ContainsAny(text, " \u00a0\u2009\u202f") {
		return nil
	}
	found := grouped().FindStringSubmatchIndex(text)
	if found == nil {
		return nil
	}
	number := text[found[2]:found[3]]
	decimal := strings.LastIndexAny(number, ".,")
	if decimal < 0 || strings.IndexByte(number, number[decimal]) < decimal {
		decimal = len(number)
	}
	var all []Span
	for i, r := range number[:decimal] {
		if r < '0' || '9' < r {
			at := found[2] + i
			all = append(all, Span{at, at + utf8.RuneLen(r)})
		}
	}
	return all
}

// Ungrouped is a text without the marks between thousands of a number at its start, where it is clear that they are
// such.
func Ungrouped(text string) string {
	spans := betweenThousands(text)
	for i := len(spans) - 1; i >= 0; i-- {
		text = text[:spans[i].Start] + text[spans[i].End:]
	}
	return text
}

// ungroup takes the marks between thousands out of what was typed.
func (t *typist) ungroup() {
	text := t.text.String()
	spans := betweenThousands(text)
	if spans == nil {
		return
	}
	var out typist
	start := 0
	for _, s := range append(spans, Span{len(text), len(text)}) {
		out.text.WriteString(text[start:s.Start])
		out.at = append(out.at, t.at[start:s.Start]...)
		start = s.End
	}
	t.text, t.at = out.text, out.at
}
