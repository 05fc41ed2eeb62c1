package parse

// Runs, chart, compare, readers and show blocks, line by line. What a block needs as a whole is in
// datablock_complete.go.

import (
	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Texts in quotes of data lines: where one is neither needed nor refused, the column's name does instead.
var (
	saysWhat = needsText("says in words what it shows", "end it with a text in quotes")
	saysName = needsText("says in quotes what the column is called in the file",
		"write it as in  column stop = \"Stopping place (in)\"")
	noText = refusesText("text-unused", "has no text of its own", "leave the text in quotes out")
)

// dataKeywords are the lines of each block, in the order in which it uses them.
var dataKeywords = map[lesson.BlockKind][]keyword[lesson.DataLine]{
	lesson.RunsBlock: {
		{word: "group", read: (*reader).column},
		{word: "along", read: (*reader).measured},
		{word: "across", read: (*reader).across},
		{word: "matters", read: (*reader).amount, text: saysWhat, many: true},
		{word: "cycle", read: (*reader).cycle, text: noText},
		{word: "swap", read: (*reader).column, text: noText},
		{word: "length", read: (*reader).amount},
		{word: "track", read: (*reader).amount},
		{word: "column", read: (*reader).columnCalled, text: saysName, many: true},
	},
	lesson.ChartBlock: {
		{word: "title", read: (*reader).nothing, text: saysWhat},
		{word: "vary", read: (*reader).vary, text: saysWhat},
		{word: string(lesson.LineChart), read: (*reader).amount, text: saysWhat, many: true},
		{word: "axis", read: (*reader).nothing, text: saysWhat},
		{word: "mark", read: (*reader).amount, text: saysWhat, many: true},
		{word: "group", read: (*reader).column},
		{word: string(lesson.DotsChart), read: (*reader).measured},
		{word: string(lesson.BarsChart), read: (*reader).measured},
		{word: "cycle", read: (*reader).cycle},
		{word: "swap", read: (*reader).column, text: noText},
		{word: string(lesson.StepsChart), read: (*reader).numbers},
		{word: string(lesson.FittedChart), read: (*reader).fitted},
		{word: "length", read: (*reader).amount},
		{word: "track", read: (*reader).amount},
		{word: string(lesson.PathChart), read: (*reader).amount, text: saysWhat, many: true},
		{word: "column", read: (*reader).columnCalled, text: saysName, many: true},
	},
	lesson.CompareBlock: {
		{word: "group", read: (*reader).column},
		{word: "near", read: (*reader).near, text: saysWhat, many: true},
		{word: "steady", read: (*reader).steady, text: saysWhat, many: true},
		{word: "judged", read: (*reader).judged, text: saysWhat, many: true},
		{word: "by", read: (*reader).nothing, text: saysWhat, many: true},
		{word: "column", read: (*reader).columnCalled, text: saysName, many: true},
	},
	lesson.ReadersBlock: {
		{word: "thing", read: (*reader).column},
		{word: "reader", read: (*reader).column},
		{word: "reading", read: (*reader).numbers},
		{word: "column", read: (*reader).columnCalled, text: saysName, many: true},
	},
	lesson.ShowBlock: figureKeywords,
}

// dataBlock reads a block that works with runs. block = { line }, line = keyword … ["text"].
// words are those of its first line.
func dataBlock(doc *document, words []string, info source.Span, lines []sourceLine) *lesson.DataBlock {
	b := &lesson.DataBlock{Name: lesson.BlockKind(words[0]), At: info}
	name := string(b.Name)
	before := doc.problems.Count()
	if len(words) > 1 {
		b.File = lesson.Text{Value: words[1], At: info}
	}
	if len(words) > 2 { // a name with a blank in it, most likely
		doc.problems.Error(doc.file, info, "data-info", "a "+name+" block names one file",
			"write  ```"+name+" data/runs.csv")
	}
	seen := map[string]bool{} // keywords so far, those of broken lines too
	for _, lexemes := range statementsOf(lines) {
		r := reader{file: doc.file, problems: doc.problems, words: doc.words}
		l, k := r.dataLine(b.Name, lexemes)
		if l == nil {
			b.Unclear = true
			continue
		}
		if seen[l.Keyword] && !l.Broken && !k.many {
			r.problems.Error(r.file, l.At, "line-twice", "this block has a second line that starts with "+l.Keyword,
				"leave one of them out")
		}
		seen[l.Keyword] = true
		if l.Keyword == "by" && !l.Broken { // it is not a line of its own but the end of the one above
			r.by(b, l)
			continue
		}
		if l.Keyword == "matters" && !l.Broken { // as well
			r.matters(b, l)
			continue
		}
		if l.Keyword == "column" {
			b.Columns = append(b.Columns, l)
			continue
		}
		b.Entries = append(b.Entries, l)
	}
	complete(doc, b)
	b.Broken = doc.problems.ErrorsSince(before)
	return b
}

// dataLine reads one line; nil if nobody can tell what it was meant for. One with a slip in its keyword is given back
// as broken, so that the block is not said to lack it.
func (r *reader) dataLine(block lesson.BlockKind, lexemes []lexeme) (*lesson.DataLine, *keyword[lesson.DataLine]) {
	h := r.head(lexemes)
	l := &lesson.DataLine{Keyword: h.word, At: h.at, Text: r.prompt, TextAt: r.promptAt, Weight: 1}
	k := keywordNamed(dataKeywords[block], h.word)
	if k == nil {
		if l.Keyword = r.unknownKeyword("unknown-keyword", string(block), h,
			wordsOf(dataKeywords[block])); l.Keyword == "" {
			return nil, nil
		}
		l.Broken = true // reported; what it was meant for is not missing
		return l, nil
	}
	r.p.Stop("within", "weight", "from", "over") // else they would be read as units or names
	if block == lesson.ShowBlock {
		r.p.Stop(figureStops...)
	}
	err := k.read(r, l)
	if err == nil {
		err = r.p.End()
	}
	if err != nil {
		r.problems.FromQuantity(r.file, r.explained(h, err))
	}
	l.Broken = err != nil || !h.quoted || !r.textFits(k.text, l.At, "a line that starts with "+l.Keyword)
	return l, k
}

// nothing is for lines that are only a text, which dataLine has taken off already.
func (r *reader) nothing(*lesson.DataLine) *quantity.Error { return nil }

// column = name ["in" unit] ["to" step]
func (r *reader) column(l *lesson.DataLine) *quantity.Error {
	name, err := r.p.Name("a line that names a column")
	if err != nil {
		return err
	}
	l.Column, l.ColumnAt = name.Text, source.Span(name.At)
	l.Target, err = r.p.Target()
	return err
}

// columnCalled = name ["in" unit] ["="], and in quotes what the file calls it.
func (r *reader) columnCalled(l *lesson.DataLine) *quantity.Error {
	err := r.column(l)
	if err == nil {
		r.p.Sign("=")
	}
	return err
}

// numbers = column, one of numbers. The mark tells the working out that every cell must be one.
func (r *reader) numbers(l *lesson.DataLine) *quantity.Error {
	l.Numbers = true
	return r.column(l)
}

// cycle = column ["afresh"]. Without the word a robot carries on where its last cycle ended.
func (r *reader) cycle(l *lesson.DataLine) *quantity.Error {
	err := r.numbers(l)
	if err != nil {
		return err
	}
	at := r.p.Place()
	if l.Afresh = r.p.Word("afresh"); !l.Afresh && r.p.End() != nil {
		return &quantity.Error{Span: at, Slug: "syntax", What: "I do not understand what follows the column",
			Hint: "write  afresh  if the robot is set back on the line before each cycle, and nothing if it carries on"}
	}
	return nil
}

// fitted = column "over" column
func (r *reader) fitted(l *lesson.DataLine) *quantity.Error {
	err := r.numbers(l)
	if err != nil {
		return err
	}
	if at := r.p.Place(); !r.p.Word("over") {
		return &quantity.Error{Span: at, Slug: "syntax", What: "“over” is missing in a line that fits one column to another",
			Hint: "write it as in  fitted stop in cm over turns in rot; runs out and back are drawn with  steps"}
	}
	l.Over = &lesson.DataLine{Keyword: l.Keyword, At: l.At}
	return r.numbers(l.Over)
}

// across = column. Its runs are compared with 0, and a coach who writes another place gets a problem: going straight is
// the only aim that sideways runs have.
func (r *reader) across(l *lesson.DataLine) *quantity.Error {
	err := r.numbers(l)
	if at := r.p.Place(); err == nil && r.p.Sign("=") {
		return &quantity.Error{Span: at, Slug: "syntax", What: "sideways runs are always compared with 0",
			Hint: "leave the = and what follows out"}
	}
	return err
}

// measured = column ["=" expr]
func (r *reader) measured(l *lesson.DataLine) *quantity.Error {
	err := r.numbers(l)
	if err == nil && r.p.Sign("=") {
		l.Expr, err = r.p.Expr()
	}
	return err
}

// amount = expr ["in" unit] ["to" step]
func (r *reader) amount(l *lesson.DataLine) (err *quantity.Error) {
	if l.Expr, err = r.p.Expr(); err == nil {
		l.Target, err = r.p.Target()
	}
	return err
}

// vary = name "from" expr "to" expr
func (r *reader) vary(l *lesson.DataLine) *quantity.Error {
	name, err := r.p.Name("a line that says what varies")
	if err != nil {
		return err
	}
	l.Column, l.ColumnAt = name.Text, source.Span(name.At)
	if err = r.expectWord("from", "a line that says what varies"); err != nil {
		return err
	}
	if l.From, err = r.p.Expr(); err != nil {
		return err
	}
	if err = r.expectWord("to", "a line that says what varies"); err != nil {
		return err
	}
	l.To, err = r.p.Expr()
	return err
}

// expectWord takes a word that a line cannot do without. An expression ends before "from" only
// because dataLine tells the parser to stop at it, so it is here that a missing one is noticed.
func (r *reader) expectWord(word, context string) *quantity.Error {
	if r.p.Word(word) {
		return nil
	}
	return &quantity.Error{Span: r.p.Place(), Slug: "syntax", What: "“" + word + "” is missing in " + context,
		Hint: "write it as in  vary x from 0 cm to 200 cm"}
}

// near = column "=" expr "within" expr ["weight" number]
func (r *reader) near(l *lesson.DataLine) *quantity.Error {
	err := r.numbers(l)
	if err == nil {
		err = r.p.Expect("=", "a criterion that asks how near the runs come")
	}
	if err == nil {
		l.Expr, err = r.p.Expr()
	}
	if err == nil {
		err = r.within(l)
	}
	return err
}

// steady = column "within" expr ["weight" number]
func (r *reader) steady(l *lesson.DataLine) *quantity.Error {
	err := r.numbers(l)
	if err == nil {
		err = r.within(l)
	}
	return err
}

// within = "within" expr ["weight" number]. A criterion has no points of its own: how far off
// gives none at all is what makes two criteria comparable, so it cannot be left out.
func (r *reader) within(l *lesson.DataLine) (err *quantity.Error) {
	if !r.p.Word("within") {
		return &quantity.Error{Span: r.p.Place(), Slug: "syntax",
			What: "“within” is missing: where do the points of this criterion end?",
			Hint: "write how far off gives no point at all, as in  within 6 cm"}
	}
	if l.Within, err = r.p.Expr(); err != nil {
		return err
	}
	return r.weight(l)
}

// weight = ["weight" number]. Without one the weight is 1, so that a block without any weighs all alike.
func (r *reader) weight(l *lesson.DataLine) *quantity.Error {
	if !r.p.Word("weight") {
		return nil
	}
	n, negative, at, err := r.p.Number("a weight")
	if err != nil {
		return err
	}
	if l.Weight = n.Float(); negative {
		l.Weight = -l.Weight
	}
	return weighed(l.Weight, at)
}

// MaxPoints bounds weights and scores, which are numbers that people talk about.
const MaxPoints = 1000

// weighed refuses weights that no choice can be made with. Beyond a thousandfold, one criterion
// decides alone and the others are only there for show.
func weighed(weight float64, at quantity.Span) *quantity.Error {
	switch {
	case !(weight > 0):
		return &quantity.Error{Span: at, Slug: "bad-weight", What: "a weight must be more than zero",
			Hint: "leave the criterion out if it does not count"}
	case weight > MaxPoints || weight < 1.0/MaxPoints:
		return &quantity.Error{Span: at, Slug: "bad-weight", What: "a weight lies between 0.001 and 1000",
			Hint: "only the ratio of the weights counts: make all of them smaller or larger"}
	}
	return nil
}

// by says who gave the scores of the judged line above it.
func (r *reader) by(b *lesson.DataBlock, l *lesson.DataLine) {
	if n := len(b.Entries); n > 0 && b.Entries[n-1].Keyword == "judged" && b.Entries[n-1].By == "" {
		b.Entries[n-1].By = l.Text
		return
	}
	r.problems.Error(r.file, l.At, "by-alone", "this is not below the judged line that it belongs to",
		"put it right below that line")
}

// matters is about the measured column above it.
func (r *reader) matters(b *lesson.DataBlock, l *lesson.DataLine) {
	if n := len(b.Entries); n > 0 && b.Entries[n-1].Matters == nil {
		if above := b.Entries[n-1]; above.Keyword == "along" || above.Keyword == "across" {
			above.Matters = l
			return
		}
	}
	r.problems.Error(r.file, l.At, "matters-alone", "this is not below the column that it is about",
		"put it right below the line along or across, as in  matters 1 cm \"the width of the gate\"")
}
