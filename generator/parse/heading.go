package parse

// What stands in brackets at the end of a heading: the minutes of its part, whether that is printed, and whether it is
// for when there is time.

import (
	"bytes"
	"slices"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// paperMarks are what stands between the brackets.
var paperMarks = map[string]lesson.PaperMark{"on paper": lesson.OnPaper, "not on paper": lesson.NotOnPaper}

// cutBrackets takes a time such as "(17 min)" and a mark such as "(on paper)" off the end of a heading, whichever comes
// first, and keeps them as the heading's attributes. An escaped bracket, or one in code, is text like any other.
func cutBrackets(doc *document, h *ast.Heading, src []byte) {
	timed := false
	for {
		t, open, inside := lastBracket(h, src)
		if t == nil {
			break
		}
		minutes, isTime := minutesIn(inside)
		words := strings.Join(strings.Fields(inside), " ")
		mark, isMark := doc.marks.paper(words)
		switch {
		case isTime && !timed:
			timed = true
			h.SetAttributeString("minutes", minutes)
		case isMark:
			markPaper(doc, h, mark)
		case doc.marks.ifTime(words):
			lesson.SetIfTime(h, true)
		default:
			t = nil
		}
		if t == nil {
			break
		}
		rest := bytes.TrimRightFunc(t.Segment.Value(src)[:open], unicode.IsSpace)
		t.Segment = t.Segment.WithStop(t.Segment.Start + len(rest))
		if len(rest) == 0 {
			removeEmptied(t, h, src)
		}
	}
	nearMarks(doc, h, src)
}

// lastBracket finds what stands in brackets at the end of a heading: the text that ends so, where in it the bracket
// opens, and what is inside. The text is nil if there is none.
func lastBracket(h *ast.Heading, src []byte) (t *ast.Text, open int, inside string) {
	last := h.LastChild()
	for last != nil && last.Kind() == ast.KindEmphasis {
		last = last.LastChild()
	}
	t, ok := last.(*ast.Text)
	if !ok {
		return nil, 0, ""
	}
	value := bytes.TrimRightFunc(t.Segment.Value(src), unicode.IsSpace)
	open = bytes.LastIndexByte(value, '(')
	if open < 0 || open > 0 && value[open-1] == '\\' {
		return nil, 0, ""
	}
	inside, closed := strings.CutSuffix(lesson.Plain(value[open+1:]), ")")
	if !closed {
		return nil, 0, ""
	}
	return t, open, inside
}

// removeEmptied takes a text of nothing out of a heading, with the emphasis that held nothing
// else, and the blank that stood before it.
func removeEmptied(n ast.Node, h *ast.Heading, src []byte) {
	for n != ast.Node(h) && n.ChildCount() == 0 {
		parent, before := n.Parent(), n.PreviousSibling()
		parent.RemoveChild(parent, n)
		if t, ok := before.(*ast.Text); ok {
			rest := bytes.TrimRightFunc(t.Segment.Value(src), unicode.IsSpace)
			t.Segment = t.Segment.WithStop(t.Segment.Start + len(rest))
			if len(rest) == 0 { // another bracket may stand before it
				parent.RemoveChild(parent, t)
			}
		}
		n = parent
	}
}

// minutesIn reads "17 min".
func minutesIn(s string) (minutes int, ok bool) {
	number, found := strings.CutSuffix(s, "min")
	number = strings.TrimSpace(number)
	if !found || number == "" || len(number) > 4 {
		return 0, false
	}
	for _, c := range number {
		if c < '0' || c > '9' {
			return 0, false
		}
		minutes = minutes*10 + int(c-'0')
	}
	return minutes, true
}

// marksOnCard reports marks on the headings of a care card.
func marksOnCard(doc *document, root ast.Node) {
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		h, ok := n.(*ast.Heading)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		if lesson.IfTime(h) {
			doc.problems.Caution(doc.file, headingSpan(h), "if-time", "a care card is in no time plan",
				"leave the mark out: what a card says is not for when there is time")
		}
		if lesson.PaperMarkOf(h) != lesson.Unmarked {
			doc.problems.Caution(doc.file, headingSpan(h), "paper-mark",
				"sheets have the short form of a care card, whatever its headings say",
				"leave the mark out; the field first says what sheets print of the card")
		}
		return ast.WalkContinue, nil
	})
}

// markPaper gives a heading its mark. Two that differ are an error; then it has none, so that nothing else is reported.
func markPaper(doc *document, h *ast.Heading, mark lesson.PaperMark) {
	if other := lesson.PaperMarkOf(h); other != lesson.Unmarked && other != mark {
		doc.problems.Error(doc.file, headingSpan(h), "paper-marks",
			"this heading says both “on paper” and “not on paper”",
			"keep  (on paper)  if all of the part is to be printed,  (not on paper)  if nothing of it is")
		mark = lesson.Unmarked
	}
	lesson.SetPaperMark(h, mark)
}

// ignoreInNotes takes the mark off a heading in the notes for mentors, which are on no sheet for students.
func ignoreInNotes(doc *document, h *ast.Heading) {
	if lesson.PaperMarkOf(h) == lesson.Unmarked || !lesson.ForMentors(h) {
		return
	}
	lesson.SetPaperMark(h, lesson.Unmarked)
	doc.problems.Caution(doc.file, headingSpan(h), "paper-mark",
		"this part is for mentors, and is not on the students' sheet whatever its heading says",
		"leave the mark out; the run sheet takes what mentors need on paper")
}

var (
	// bracketed is what stands in brackets.
	bracketed = wording.New(`\(([^()\[\]]*)\)|\[([^()\[\]]*)\]`)
	// paperWord is "paper" as it may be typed in a hurry, alone or with the words before it.
	paperWord = wording.New(`^(?:no|not|off)?-?(?:on)?-?papers?[.!]?$`)
	// markWords are what may stand beside it in what was meant as a mark. Whoever writes more, such as "on squared
	// paper", means the paper.
	markWords = strings.Fields("on not no off in for without the a only just never isn't don't do print printed")
	// against is how a word begins that makes a mark one against paper.
	against = wording.New(`^(?:no|off|without|isn't|don't|never)`)
)

// nearMarks reports what looks like a mark and is not one: it would stay in the heading, and nothing would come of it.
func nearMarks(doc *document, h *ast.Heading, src []byte) {
	for _, at := range wordSpans(h, src) {
		text := src[at.Start:at.End]
		for _, m := range bracketed.FindAllSubmatchIndex(text, -1) {
			if m[0] > 0 && text[m[0]-1] == '\\' {
				continue
			}
			inside := strings.Join(strings.Fields(lesson.Plain(text[m[0]+1:m[1]-1])), " ")
			_, exact := doc.marks.paper(inside)
			words := strings.Fields(strings.ToLower(inside))
			span := source.Span{Start: at.Start + m[0], End: at.Start + m[1]}
			near, slug := doc.marks.near(inside)
			switch {
			case exact && text[m[0]] == '(':
				doc.problems.Caution(doc.file, span, "paper-mark", "this mark counts only at the end of a heading",
					"write it last, on one line; if it is part of the heading's words, write  \\(  for its bracket")
			case meansMark(words):
				doc.problems.Caution(doc.file, span, "paper-mark",
					"these words are shown in the heading; they do not decide whether its part is printed",
					"write  "+meantMark(words)+
						"  at the end; if they are part of the heading, write a \\ before the bracket")
			case near != "" && !exact && !doc.marks.ifTime(inside):
				doc.problems.Caution(doc.file, span, slug, "these words are shown in the heading, and say nothing else",
					"write  ("+near+")  at the end; if they are part of the heading, write a \\ before the bracket")
			default:
				nearIfTime(doc, inside, text[m[0]] == '(', span)
			}
		}
	}
}

// meansMark tells whether some words in brackets, in small letters, were meant as a mark.
func meansMark(words []string) bool {
	paper := 0
	for _, w := range words {
		switch {
		case paperWord.MatchString(w):
			paper++
		case !slices.Contains(markWords, w):
			return false
		}
	}
	return paper == 1
}

// meantMark is the mark that some words were meant as.
func meantMark(words []string) string {
	if slices.ContainsFunc(words, against.MatchString) {
		return "(not on paper)"
	}
	return "(on paper)"
}

// wordSpans are the places of a heading's typed words, without code, pictures and values. Pieces with at most blanks
// between them are one.
func wordSpans(h *ast.Heading, src []byte) []source.Span {
	var all []source.Span
	for p := range lesson.Pieces(h, src) {
		if p.Kind != lesson.Words || p.In != nil {
			continue
		}
		last := len(all) - 1
		if last >= 0 && len(bytes.TrimSpace(src[all[last].End:p.At.Start])) == 0 {
			all[last].End = p.At.End
			continue
		}
		all = append(all, p.At)
	}
	return all
}
