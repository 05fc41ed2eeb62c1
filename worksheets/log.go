package worksheets

// The end of a sheet: the team's log, with what it can do now, its own numbers, and what it will try next; and what may
// be looked at only after it has been predicted.

import (
	"strings"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/wording"
	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// mostResults is how many of its own numbers a team copies into its log.
const mostResults = 2 * abreast

// abreast is how many stand side by side.
const abreast = 3

// log puts the log of the week.
func (s *sheet) log() {
	if len(s.lesson.Fields)+len(s.lesson.Lesson.Goals) == 0 {
		return
	}
	s.headingOf(2, s.wordsOf(s.say("log-title", s.lesson.Week), bold), "")
	if !s.hasOwnLog() {
		s.results()
	}
	if s.fit.terse {
		s.shortLog()
		return
	}
	s.need(2*s.line(body) + 2*ruled)
	if len(s.lesson.Lesson.Goals) > 0 {
		s.plainText(s.say("log-goals"))
	}
	s.plainText(s.say("log-next"))
	s.ruledLines(s.exitLines() - 1)
}

// shortLog puts what the log says in one paragraph, with a line to write on behind its last words.
func (s *sheet) shortLog() {
	text := s.say("log-next")
	if len(s.lesson.Lesson.Goals) > 0 {
		text = s.say("log-goals") + " " + text
	}
	lines := s.setLines(s.wordsOf(text, regular), body, s.width())
	last := lines[len(lines)-1]
	from := s.widest([]textLine{last}, body) + 2
	s.gap(0.8)
	s.need(s.line(body)*float64(len(lines)) + ruled)
	s.doc.In(pdf.P, func() {
		s.putLines(lines, 0, body)
		s.put(ruled, func(y float64) {
			s.doc.In(pdf.Form, func() {
				if s.left()+from+leastBox < s.right() {
					s.writing(s.left()+from, s.right(), y-0.6)
				}
				s.writing(s.left(), s.right(), y+ruled-1)
			}, pdf.Alt(s.say("room-to-write")))
		})
	})
}

// hasOwnLog tells whether the lesson's written part has a table of its own to be filled in.
func (s *sheet) hasOwnLog() bool {
	for n := range s.chosen.written {
		if n.Kind() == tables.KindTable {
			return true
		}
	}
	return false
}

// plainText puts a paragraph of the interface's words.
func (s *sheet) plainText(text string) {
	lines := s.setLines(s.wordsOf(text, regular), body, s.width())
	s.doc.In(pdf.P, func() { s.putLines(lines, 0, body) })
}

// A result is a number of the team's own that goes into its log.
type result struct {
	find *lesson.Statement
	of   *work.Result
}

// ownResults are what the team has found from what it has measured or run. Of many the last are taken: they are made
// of the others.
func (s *sheet) ownResults() []result {
	statements, own := map[string]*lesson.Statement{}, map[*lesson.Statement]bool{}
	for _, f := range s.lesson.Fields {
		statements[f.Statement.Name] = f.Statement
	}
	var finds []result
	for _, f := range s.lesson.Finds {
		if r := s.lesson.Of(f); r != nil && statements[f.Name] == f && isOwn(f, statements, own) {
			finds = append(finds, result{f, r})
		}
	}
	most := mostResults
	if s.fit.terse {
		most = abreast
	}
	return finds[max(0, len(finds)-most):]
}

// isOwn tells whether a number depends on what students measure or run. What is known of each is kept: with numbers
// that are each made of all before, the ways to the first double with every one.
func isOwn(st *lesson.Statement, statements map[string]*lesson.Statement, own map[*lesson.Statement]bool) bool {
	is, known := own[st]
	switch {
	case known:
		return is
	case st == nil:
		return false
	case st.Kind == lesson.Record || st.Kind == lesson.Measure:
		return true
	case st.Expr == nil:
		return false
	}
	for _, name := range quantity.Names(st.Expr) {
		if above := statements[name]; above != st && isOwn(above, statements, own) {
			own[st] = true
			return true
		}
	}
	own[st] = false
	return false
}

// results puts a line for each of the team's own numbers, three abreast.
func (s *sheet) results() {
	const apart, high = 5.0, 13.5
	all := s.ownResults()
	width := (s.width() - apart*(abreast-1)) / abreast
	for i := 0; i < len(all); i += abreast {
		row := all[i:min(i+abreast, len(all))]
		most := 1
		for _, r := range row {
			most = max(most, len(s.resultLines(r, width)))
		}
		s.put(high+float64(most-1)*labelSize*point*leading, func(y float64) {
			for j, r := range row {
				s.result(r, s.left()+float64(j)*(width+apart), y, width)
			}
		})
	}
}

// result draws a line with its symbol and unit, and what it is below.
func (s *sheet) result(r result, x, y, width float64) {
	const base = 7.5
	unit := printable(s.unit(r.of.Asked()))
	s.doc.In(pdf.P, func() {
		symbol := setter{s.doc, body}.set(quantity.SymbolOf(r.find.Name))
		symbol.draw(x, y+base)
		s.font(regular, body)
		wide := s.doc.Width(unit)
		from, to := x+symbol.width+2, x+width-wide-1.5
		s.doc.In(pdf.Form, func() {
			s.writing(from, to, y+base+1)
			if s.mentors && !r.of.Guessed {
				s.centred(bold, body, s.number(answerOf(r.of)), from, y+base, to-from)
			}
		}, pdf.Alt(r.find.Name+" "+unit))
		if unit != "" {
			s.font(regular, body)
			s.doc.Text(x+width-wide, y+base, unit+" ")
		}
		lines := s.resultLines(r, width)
		s.lines(x, y+base+1.4, lines, labelSize*point*leading)
	})
}

// resultLines is what a result is, in few lines of small type.
func (s *sheet) resultLines(r result, width float64) []string {
	const most = 3
	s.font(regular, labelSize)
	return short(s.wrap(inShort(r.find.Prompt), width), most)
}

// answerOf is the number of a result without its unit: its key if it has one.
func answerOf(r *work.Result) string {
	text := r.Text()
	if r.Key != nil {
		text = r.Key.Amount()
	}
	return strings.TrimSpace(strings.TrimSuffix(text, r.Unit()))
}

// detailPattern is where a prompt goes into detail, as the page's log has it. A question keeps its mark, and one that
// begins with a mark goes on to the other.
const detailPattern = `^(?:([^¿¡].{7,}?)(?:[,;:(]|\. |([?!]) )|([¿¡].{7,}?[?!]) ).*$`

var detail = wording.New(detailPattern)

// inShort is a prompt's first words.
func inShort(prompt string) string {
	return strings.TrimSpace(detail.ReplaceAllString(prompt, "$1$2$3"))
}

// lookAfter puts what waits for answers, each with the part that it belongs to.
func (s *sheet) lookAfter() {
	if len(s.chosen.later) == 0 {
		return
	}
	s.headingOf(2, s.wordsOf(s.say("look-after"), bold), "")
	alone := s.fit.terse // whose part there is no need to name
	for _, d := range s.chosen.later {
		alone = alone && s.chosen.part[d] == s.chosen.part[s.chosen.later[0]]
	}
	var part *ast.Heading
	for _, d := range s.chosen.later {
		if h := s.chosen.part[d]; h != nil && h != part && !alone {
			part = h
			s.headingOf(3, s.spansOf(h, bold), "")
		}
		s.data(d)
	}
}
