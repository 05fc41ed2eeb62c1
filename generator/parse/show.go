package parse

// Lines of a show block: figures that follow the boxes of the page. Each is a keyword, what it is drawn of, if need be
// the find that it waits for, and a text in quotes.

import (
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// figureKeywords are the lines of a show block. Any may come again, since each is a figure of its own.
var figureKeywords = []keyword[lesson.DataLine]{
	{word: string(lesson.UnrollFigure), read: (*reader).unroll, text: saysWhat, many: true},
	{word: string(lesson.LapsFigure), read: (*reader).laps, text: saysWhat, many: true},
	{word: string(lesson.TapeFigure), read: (*reader).tape, text: saysWhat, many: true},
	{word: string(lesson.PathFigure), read: (*reader).path, text: saysWhat, many: true},
	{word: string(lesson.ReadFigure), read: (*reader).readTape, text: saysWhat, many: true},
	{word: string(lesson.PartFigure), read: (*reader).part, text: saysWhat, many: true},
	{word: string(lesson.ShuffleFigure), read: (*reader).shuffle, text: saysWhat, many: true},
}

// figureStops end an expression in a figure's line.
var figureStops = []string{"=", "by", "of", "over", "times", "until"}

// unroll = expr ["until" find]
func (r *reader) unroll(l *lesson.DataLine) (err *quantity.Error) {
	if err = r.drawn(l); err == nil {
		err = r.until(l)
	}
	return err
}

// drawn reads what a figure is drawn of.
func (r *reader) drawn(l *lesson.DataLine) (err *quantity.Error) {
	at := r.p.Place()
	for _, word := range figureStops { // else it would be taken for a name
		if r.p.Word(word) {
			return &quantity.Error{Span: at, Slug: "syntax", What: "what is drawn is missing before “" + word + "”",
				Hint: "write a name of the lesson there, or a value with its unit"}
		}
	}
	l.Expr, err = r.p.Expr()
	return err
}

// laps = expr "by" expr ["until" find]
func (r *reader) laps(l *lesson.DataLine) *quantity.Error {
	return r.twoValues(l, "by", "laps L by C until n")
}

// part = expr "of" expr ["until" find]
func (r *reader) part(l *lesson.DataLine) *quantity.Error {
	return r.twoValues(l, "of", "part miss of L until e")
}

// twoValues reads two expressions with a word between them.
func (r *reader) twoValues(l *lesson.DataLine, word, example string) (err *quantity.Error) {
	if err = r.values(l, word, example); err == nil {
		err = r.until(l)
	}
	return err
}

func (r *reader) values(l *lesson.DataLine, word, example string) (err *quantity.Error) {
	if err = r.drawn(l); err != nil {
		return err
	}
	if at := r.p.Place(); !r.p.Word(word) {
		return &quantity.Error{Span: at, Slug: "syntax",
			What: "“" + word + "” is missing in a line that starts with " + l.Keyword, Hint: "write it as in  " + example}
	}
	l.Second, err = r.p.Expr()
	return err
}

// tape = expr ["=" expr] ["until" find]
func (r *reader) tape(l *lesson.DataLine) (err *quantity.Error) {
	if err = r.drawn(l); err != nil {
		return err
	}
	if r.p.Sign("=") {
		if l.Second, err = r.p.Expr(); err != nil {
			return err
		}
	}
	return r.until(l)
}

// MaxTimes is how much larger a path's sideways can be drawn: the end of the page's slider.
const MaxTimes = 50

// path = expr "over" expr ["times" number] ["until" find]
func (r *reader) path(l *lesson.DataLine) *quantity.Error {
	if err := r.values(l, "over", "path drift over L times 10"); err != nil {
		return err
	}
	l.Times = 1
	if r.p.Word("times") {
		n, negative, at, err := r.p.Number("a line that starts with path")
		if err != nil {
			return err
		}
		if l.Times = n.Float(); negative || l.Times < 1 || l.Times > MaxTimes {
			return &quantity.Error{Span: at, Slug: "figure-times",
				What: "sideways is drawn 1 to 50 times as large as it is", Hint: "write it as in  times 10"}
		}
	}
	return r.until(l)
}

// read = expr ["in" unit] "to" step ["until" find]
func (r *reader) readTape(l *lesson.DataLine) *quantity.Error {
	err := r.amount(l)
	if err != nil {
		return err
	}
	if l.Target.Step.IsZero() {
		return &quantity.Error{Span: r.p.Place(), Slug: "syntax", What: "“to” is missing in a line that starts with read",
			Hint: "write how finely the tape is to be read, as in  read L to 1/16"}
	}
	return r.until(l)
}

// groupsForm finds the two groups of shuffle, which are written as in the file, blanks and all.
var groupsForm = wording.New(`\sof\s+(\S.*?)\s*(?:\suntil\s|$)`)

// shuffle = column ["in" unit] "by" column ["of" group "," group] ["until" find]
func (r *reader) shuffle(l *lesson.DataLine) *quantity.Error {
	if err := r.groups(l); err != nil {
		return err
	}
	if err := r.numbers(l); err != nil {
		return err
	}
	if at := r.p.Place(); !r.p.Word("by") {
		return &quantity.Error{Span: at, Slug: "syntax", What: "“by” is missing in a line that starts with shuffle",
			Hint: "name the column that groups the runs, as in  shuffle stop by base of Heron, Coot"}
	}
	l.Over = &lesson.DataLine{Keyword: l.Keyword, At: l.At}
	if err := r.column(l.Over); err != nil {
		return err
	}
	return r.until(l)
}

// groups takes the two groups off the line, and leaves blanks in their place.
func (r *reader) groups(l *lesson.DataLine) *quantity.Error {
	text := strings.TrimRight(r.text.text.String(), " \t")
	start := strings.Index(text, l.Keyword) + len(l.Keyword)
	m := groupsForm.FindStringSubmatchIndex(text)
	if m == nil {
		return nil
	}
	place := func(i int) int { return r.text.source(i + start) }
	from := m[2]
	for _, part := range strings.Split(text[m[2]:m[3]], ",") {
		at, name := from+leading(part), strings.TrimSpace(part)
		l.Groups = append(l.Groups, lesson.Text{Value: name,
			At: source.Span{Start: r.text.source(at), End: r.text.source(at+max(len(name)-1, 0)) + 1}})
		from += len(part) + 1
	}
	if len(l.Groups) != 2 || l.Groups[0].Value == l.Groups[1].Value {
		return &quantity.Error{Span: quantity.Span{Start: r.text.source(m[2]), End: r.text.source(m[3]-1) + 1},
			Slug: "figure-groups", What: "the runs of two groups are dealt anew, and here are not two",
			Hint: "write it as in  shuffle stop by base of Heron, Coot"}
	}
	blanked := text[:m[0]] + strings.Repeat(" ", m[3]-m[0]) + text[m[3]:]
	r.p = r.words.NewParser(blanked[start:], place)
	r.p.Stop(figureStops...)
	return nil
}

// until = ["until" find]
func (r *reader) until(l *lesson.DataLine) *quantity.Error {
	if !r.p.Word("until") {
		return nil
	}
	name, err := r.p.Name("a line that says which find it waits for")
	if err == nil {
		l.Until = lesson.Text{Value: name.Text, At: source.Span(name.At)}
	}
	return err
}
