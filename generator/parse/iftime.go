package parse

// The mark of a part that a meeting has only if there is time.

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// ifTimeMark is what stands between the brackets.
const ifTimeMark = "if there is time"

// meantIfTime is what was meant as the mark and may not be it, in small letters.
var meantIfTime = wording.New(`^(?:only )?(?:(?:if|when) ` +
	`(?:(?:there is|there's|there are|there was|you have|we have|you've|we've) )?` +
	`(?:got |any |some |enough |still |more )*(?:time|minutes)(?: (?:left|over|remains|allows|permits|is left))*|` +
	`time permitting|if time)[.!]?$`)

// nearIfTime reports words in brackets that were meant as the mark, or that are it at another place than the end.
func nearIfTime(doc *document, words string, round bool, at source.Span) {
	switch {
	case doc.marks.ifTime(words) && round:
		doc.problems.Caution(doc.file, at, "if-time", "this mark counts only at the end of a heading",
			"write it last, on one line; if it is part of the heading's words, write  \\(  for its bracket")
	case meantIfTime.MatchString(strings.ToLower(words)):
		doc.problems.Caution(doc.file, at, "if-time",
			"these words are shown in the heading; the plan does not say that its part may be left out",
			"write  ("+ifTimeMark+")  at the end; if they are part of the heading, write a \\ before the bracket")
	}
}

// ignoreIfTime takes the mark off a heading of which no plan takes notice.
func ignoreIfTime(doc *document, h *ast.Heading) {
	if !lesson.IfTime(h) || h.Parent().Kind() == ast.KindDocument && (h.Level == 2 || h.Level == 3) {
		return
	}
	lesson.SetIfTime(h, false)
	what, hint := "only a heading with ## or ### can say that its part is for when there is time",
		"leave the mark out, or put what may be left out below a heading with ##"
	if lesson.ForMentors(h) {
		what, hint = "this part is for mentors, and is in no plan whatever its heading says", "leave the mark out"
	}
	doc.problems.Caution(doc.file, headingSpan(h), "if-time", what, hint)
}
