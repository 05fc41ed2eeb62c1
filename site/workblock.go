package site

// The statements of a work block as rows of a page, and as students see them: where mentors have a value, they have a
// place to write. Keys, samples and slips are put into a row in mentors_keys.go alone, so that none can leak from here.

import (
	"html"
	"html/template"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
)

// A row is one statement of a work block as either edition shows it.
type row struct {
	At     string // file:line, for who writes the pack
	Kind   string
	Name   string
	Symbol template.HTML
	Prompt string
	Unit   string
	Value  string // "" where students write
}

// A studentsRow is one with the place to write.
type studentsRow struct {
	row
	Label string        // the kind's word
	Long  bool          // the symbol is a word rather than a letter
	Field bool          // the student writes a number here
	Plain bool          // and digits are enough for it
	Words bool          // the student writes words here
	Lot   []string      // the student chooses one of these
	Blank []int         // numbers of the runs to fill in
	Live  template.HTML // a value that the page works out
}

// step is one line of worked steps; an aside converts a unit and is set apart.
type step struct {
	Aside bool
	Math  template.HTML
}

// workBlock shows the statements of a block; keys, slips and what to listen for belong to another statement.
func (b *body) workBlock(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering || b.lesson == nil {
		return ast.WalkContinue, nil
	}
	if b.mentors {
		return ast.WalkContinue, b.keyTable(w, n.(*lesson.WorkBlock))
	}
	var rows []studentsRow
	for _, s := range n.(*lesson.WorkBlock).Statements {
		if !s.Kind.BelongsAbove() {
			rows = append(rows, b.studentsRow(s))
		}
	}
	if len(rows) == 0 {
		return ast.WalkContinue, nil
	}
	return ast.WalkContinue, b.site.templates.ExecuteTemplate(w, "work.html", rows)
}

// row is what both editions show of a statement.
func (b *body) row(s *lesson.Statement) row {
	r := b.lesson.Of(s)
	out := row{
		At: b.place(s.At.Start), Kind: string(s.Kind), Name: s.Name,
		Symbol: trusted(mathML(quantity.SymbolOf(s.Name), "")), Prompt: s.Prompt, Unit: b.words.Unit(r.Asked()),
	}
	if s.Kind == lesson.Say || s.Kind == lesson.Choose { // the name of words is for the device alone
		out.Symbol = ""
	}
	if !b.hidden(r) {
		out.Value = b.words.Number(r.Text())
	}
	return out
}

// studentsRow adds the place where students write, or a value that they may have.
func (b *body) studentsRow(s *lesson.Statement) studentsRow {
	const letters = 3 // that stand side by side as a formula's symbol
	r := b.lesson.Of(s)
	out := studentsRow{row: b.row(s), Label: b.words.Say(string(s.Kind)),
		Long: s.Kind != lesson.Choose && utf8.RuneCountInString(s.Name) > letters, Plain: b.lesson.Plain(s)}
	switch s.Kind {
	case lesson.Given:
		if r.Varies {
			out.Live = trusted(b.live(r))
		}
	case lesson.Record:
		if out.Unit != "" {
			out.Label = b.words.Say("record-in", out.Unit)
		}
		for i := range s.Numbers {
			out.Blank = append(out.Blank, i+1)
		}
	case lesson.Measure, lesson.Predict, lesson.Find:
		if out.Field = !r.IsTruth(); !out.Field {
			out.Lot = []string{b.words.Say("check-yes"), b.words.Say("check-no")}
		}
	case lesson.Choose:
		for _, a := range s.Answers {
			out.Lot = append(out.Lot, a.Text)
		}
	case lesson.Say:
		out.Words = true
	case lesson.Key, lesson.Slip, lesson.Listen: // they are shown with what they belong to, and never here
	}
	return out
}

// stepsOf are the worked steps of a find.
func (b *body) stepsOf(r *work.Result) []step {
	var all []step
	in := b.words
	for _, line := range r.Steps {
		all = append(all, step{line.Kind == quantity.ConversionStep, trusted(stepML(quantity.StepIn(in, line)))})
	}
	return all
}

// stepML writes one step; with it goes the same in one line of plain text.
func stepML(s quantity.WorkedStep) string {
	return twoPartsML(s, func(text string) string { return ` alttext="` + html.EscapeString(text) + `"` })
}

// openML writes one with slots, of which there is no plain text yet.
func openML(s quantity.WorkedStep) string {
	return twoPartsML(s, func(string) string { return "" })
}

// twoPartsML makes a step's left side a formula of its own, so that the signs of all steps stand below each other; an
// aside is in one piece.
func twoPartsML(s quantity.WorkedStep, attributes func(text string) string) string {
	left := ""
	if s.Left != nil && s.Kind != quantity.ConversionStep {
		left = mathML(s.Left, attributes(s.Left.Text()))
		s.Left = nil
	}
	return left + lineML(s, attributes(s.Text()))
}

// lineML writes one step: its left side if it has one, the relation, the right side.
func lineML(s quantity.WorkedStep, attributes string) string {
	parts := []quantity.Math{quantity.Sign{Sign: s.Relation}, s.Right}
	if s.Left != nil {
		parts = append([]quantity.Math{s.Left}, parts...)
	}
	return mathML(quantity.Row{Parts: parts}, ` displaystyle="true"`+attributes)
}
