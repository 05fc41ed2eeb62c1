package read

// Characters that nobody sees in an editor or on a page. They come with copied text, and some change the order in which
// letters are shown, so that a text reads other than it is written, and no coach who looks at it would find out.

import (
	"bytes"
	"fmt"
	"path"
	"unicode"
	"unicode/utf8"

	"trundle/generator/problem"
	"trundle/generator/source"
)

// turning are the marks that change the order in which letters are shown until another mark ends it (Unicode Standard
// Annex 9). Scripts that run from right to left are shown rightly without them.
var turning = &unicode.RangeTable{R16: []unicode.Range16{{Lo: 0x202a, Hi: 0x202e, Stride: 1},
	{Lo: 0x2066, Hi: 0x2069, Stride: 1}}}

// fillers count as letters, and have no shape.
var fillers = &unicode.RangeTable{R16: []unicode.Range16{{Lo: 0x115f, Hi: 0x1160, Stride: 1},
	{Lo: 0x3164, Hi: 0x3164, Stride: 1}, {Lo: 0xffa0, Hi: 0xffa0, Stride: 1}}}

// plainScripts write their letters one by one, so that nothing has to join or part them.
var plainScripts = []*unicode.RangeTable{unicode.Latin, unicode.Greek, unicode.Cyrillic}

const (
	zeroWidthNonJoiner = '\u200c'
	zeroWidthJoiner    = '\u200d'
	softHyphen         = '\u00ad'
	wordJoiner         = '\u2060'
)

// unseenNames are what the characters are called that are met most.
var unseenNames = map[rune]string{
	softHyphen: "soft hyphen", '\u200b': "zero width space", zeroWidthNonJoiner: "zero width non-joiner",
	zeroWidthJoiner: "zero width joiner", '\u200e': "left-to-right mark", '\u200f': "right-to-left mark",
	'\u202a': "left-to-right embedding", '\u202b': "right-to-left embedding",
	'\u202c': "pop directional formatting", '\u202d': "left-to-right override",
	'\u202e': "right-to-left override", wordJoiner: "word joiner", '\u2066': "left-to-right isolate",
	'\u2067': "right-to-left isolate", '\u2068': "first strong isolate", '\u2069': "pop directional isolate",
	'\u2028': "line separator", '\u2029': "paragraph separator", '\ufeff': "zero width no-break space",
}

// unseenIn reports each line with characters that cannot be seen. Files of runs are left to those who read tables: what
// a spreadsheet leaves in its cells is taken out of them.
func unseenIn(f *source.File) problem.List {
	var problems problem.List
	ending := path.Ext(f.Name)
	if ending != ".md" && ending != ".yaml" {
		return problems
	}
	start, fence := 0, codeFence("")
	for line := range bytes.Lines(f.Text()) {
		isProse := ending == ".md" && !fence.take(line)
		if !isPlain(line) {
			reportUnseen(f, start, line, isProse, &problems)
		}
		start += len(line)
	}
	return problems
}

// isPlain is true of a line with nothing but what typewriters had, as most are.
func isPlain(line []byte) bool {
	for _, c := range line {
		if c < ' ' && c != '\n' && c != '\t' || c >= 0x7f {
			return false
		}
	}
	return true
}

// codeFence is the fence of the code that a line of Markdown is in, "" if it is in none.
type codeFence string

// take goes on to a line, and tells whether it is code; the fences themselves are.
func (f *codeFence) take(line []byte) bool {
	text := bytes.TrimLeft(line, " \t>")
	if *f != "" {
		if bytes.HasPrefix(text, []byte(*f)) {
			*f = ""
		}
		return true
	}
	for _, mark := range []string{"```", "~~~"} {
		if bytes.HasPrefix(text, []byte(mark)) {
			*f = codeFence(mark)
			return true
		}
	}
	return false
}

// reportUnseen reports the characters of a line that cannot be seen, all of them together: one that changes the
// order is an error, and any other a caution.
func reportUnseen(f *source.File, start int, line []byte, isProse bool, problems *problem.List) {
	var first, turned source.Span
	count, before := 0, rune(0)
	for i, c := range string(line) {
		size := utf8.RuneLen(c)
		at := source.Span{Start: start + i, End: start + i + size}
		switch {
		case !isUnseen(c) || hasUse(c, before, line[i+size:], isProse):
		case unicode.Is(turning, c) && turned == source.Span{}:
			turned = at
			fallthrough
		default:
			if count++; count == 1 {
				first = at
			}
		}
		if !unicode.In(c, unicode.Mn, unicode.Sk, emojiTags) { // a form, a colour or a flag of what is before it
			before = c
		}
	}
	if count == 0 {
		return
	}
	if (turned != source.Span{}) {
		problems.Error(f, turned, "hidden-characters", "a character that cannot be seen, "+nameOf(f, turned)+
			", changes the order in which letters are shown, so that this line reads other than it is written"+others(count-1),
			"delete the line and type it anew")
		return
	}
	problems.Caution(f, first, "hidden-characters", "here is a character that cannot be seen, "+nameOf(f, first)+
		others(count-1), "delete it; if you cannot find it, delete what is around it as well and type that anew")
}

// others counts the further characters of a line.
func others(n int) string {
	if n == 0 {
		return ""
	}
	return ", and " + problem.Plural(n, "other") + " in this line"
}

// nameOf writes the character at a place as the Unicode Standard does.
func nameOf(f *source.File, at source.Span) string {
	c, _ := utf8.DecodeRune(f.Text()[at.Start:])
	if name := unseenNames[c]; name != "" {
		return fmt.Sprintf("%U (%s)", c, name)
	}
	return fmt.Sprintf("%U", c)
}

// isUnseen is true of a character that has no shape of its own and is no blank. Some marks of numbers and verses that
// Unicode counts among those that shape text can be seen.
func isUnseen(c rune) bool {
	if c == '\n' || c == '\t' || c == '\r' || unicode.Is(unicode.Prepended_Concatenation_Mark, c) {
		return false
	}
	return unicode.In(c, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, fillers)
}

// hasUse tells whether a character that cannot be seen does there what it is for. In prose a soft hyphen and a word
// joiner say where a line may end and where not, and change nothing that is read; checks read past them. Joiners are
// part of many an emoji, and of words in scripts whose letters join. In a program or a field all of them make another
// word of what looks the same.
func hasUse(c, before rune, after []byte, isProse bool) bool {
	switch c {
	case softHyphen, wordJoiner:
		return isProse && isBesideText(before, after)
	case zeroWidthJoiner, zeroWidthNonJoiner:
		next, _ := utf8.DecodeRune(after)
		return joins(before) && joins(next)
	}
	return unicode.In(c, emojiTags) && unicode.Is(unicode.So, before)
}

// emojiTags follow a flag and say whose it is (Unicode Technical Standard 51).
var emojiTags = &unicode.RangeTable{R32: []unicode.Range32{{Lo: 0xe0020, Hi: 0xe007f, Stride: 1}}}

// isBesideText tells whether there is something to be read on both sides of a place.
func isBesideText(before rune, after []byte) bool {
	next, _ := utf8.DecodeRune(after)
	return !isUnseen(before) && before != 0 && !isUnseen(next)
}

// joins is true of emoji and of letters in scripts that join them.
func joins(c rune) bool {
	return unicode.Is(unicode.S, c) || unicode.In(c, unicode.L, unicode.M) && !unicode.In(c, plainScripts...)
}
