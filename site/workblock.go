package site

// The statements of a work block as rows of a page: what each edition sees, and what mentors need to judge an answer.

import (
	"cmp"
	"html"
	"html/template"
	"slices"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
)

// A row is one statement of a work block as a page shows it.
type row struct {
	At       string // file:line, for who writes the pack
	Kind     string
	Label    string // the kind's word
	Name     string
	Symbol   template.HTML
	Long     bool // the symbol is a word rather than a letter
	Prompt   string
	Unit     string
	Value    string // shown to this edition; "" where students write
	Field    bool   // the student writes a number here
	Plain    bool   // and digits are enough for it
	Words    bool   // the student writes words here
	Free     string // to mentors: why there is neither value nor key
	Runs     []string
	Blank    []int // numbers of the runs to fill in
	Key      string
	Computed string // with its ±
	Apart    string // which records it takes as independent
	LinkSure bool   // the last with a ± in its block: what ± means is linked below it
	Steps    []step
	Others   []otherKit // for which it comes out differently
	Slips    []shownSlip
	Listens  []string      // what mentors listen for in a student's words
	Vapour   *vapour       // of an estimate of vapour, for mentors
	Live     template.HTML // a value that the page works out
}

// step is one line of worked steps; an aside converts a unit and is set apart.
type step struct {
	Aside bool
	Math  template.HTML
}

// shownSlip is a wrong way of a find: what it comes to, and the hint that students get.
type shownSlip struct{ Value, Hint string }

// workBlock shows the statements of a block; keys and slips are shown with their find.
func (b *body) workBlock(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering || b.lesson == nil {
		return ast.WalkContinue, nil
	}
	if b.mentors {
		return ast.WalkContinue, b.keyTable(w, n.(*lesson.WorkBlock))
	}
	var rows []row
	for _, s := range n.(*lesson.WorkBlock).Statements {
		if !s.Kind.BelongsAbove() {
			rows = append(rows, b.row(s))
		}
	}
	for i, r := range slices.Backward(rows) {
		if r.Computed != "" {
			rows[i].LinkSure = true
			break
		}
	}
	if len(rows) == 0 {
		return ast.WalkContinue, nil
	}
	return ast.WalkContinue, b.site.templates.ExecuteTemplate(w, "work.html", rows)
}

// row is a statement as the edition sees it: students get a place to write where mentors get a value.
func (b *body) row(s *lesson.Statement) row {
	r := b.lesson.Of(s)
	const letters = 3 // that stand side by side as a formula's symbol
	out := row{
		At: b.place(s.At.Start), Kind: string(s.Kind), Label: b.words.Say(string(s.Kind)), Name: s.Name,
		Symbol: trusted(mathML(quantity.SymbolOf(s.Name), "")), Prompt: s.Prompt, Unit: r.Unit(),
		Long: utf8.RuneCountInString(s.Name) > letters, Plain: b.lesson.Plain(s),
	}
	switch s.Kind {
	case lesson.Given:
		if r.Varies && !b.mentors {
			out.Live = trusted(b.live(r))
			return out
		}
	case lesson.Record:
		b.readings(&out, s, r)
		return out
	case lesson.Measure, lesson.Predict, lesson.Find:
		out.Field = !r.Guessed || !b.mentors
	case lesson.Say:
		b.inWords(&out, s)
		return out
	case lesson.Key, lesson.Slip, lesson.Listen: // they are shown with what they belong to
	}
	if b.mentors && r.Guessed {
		out.Free = b.words.Say("guessed-" + out.Kind)
		out.Steps, out.Slips = stepsOf(r), b.slips(s)
	}
	if b.hidden(r) {
		return out
	}
	out.Value = r.Text()
	if s.Kind == lesson.Find {
		b.answer(&out, s, r)
	}
	return out
}

// readings adds a record's sample, or the numbers of the runs that students fill in.
func (b *body) readings(out *row, s *lesson.Statement, r *work.Result) {
	if !b.hidden(r) {
		out.Runs = s.Texts
		return
	}
	if out.Unit != "" {
		out.Label = b.words.Say("record-in", out.Unit)
	}
	for i := range s.Numbers {
		out.Blank = append(out.Blank, i+1)
	}
}

// answer adds what a mentor needs to judge an answer.
func (b *body) answer(out *row, s *lesson.Statement, r *work.Result) {
	if q, ok := r.Quantity(); ok {
		out.Computed, out.Apart = b.howSure(q, out.Unit), b.apart(b.lesson, q)
	}
	if r.Key != nil {
		out.Key = r.Key.Text()
	}
	out.Steps = stepsOf(r)
	out.Vapour = b.vapour(s)
	for _, other := range b.lesson.Others {
		if o := other.Of(s); o != nil && o.Text() != "" && o.Text() != r.Text() {
			out.Others = append(out.Others, otherKit{other.Kit.Title, o.Text(), stepsOf(o)})
		}
	}
	out.Slips = b.slips(s)
}

// slips are the wrong ways of a find, by what they come to; one with a guess in it by its formula.
func (b *body) slips(find *lesson.Statement) []shownSlip {
	var all []shownSlip
	for _, sl := range find.Slips {
		all = append(all, shownSlip{cmp.Or(b.lesson.Of(sl).Text(), sl.Expr.String()), sl.Prompt})
	}
	return all
}

// inWords adds room for words, or to mentors what to listen for. Words have no symbol: their name is for the
// device alone.
func (b *body) inWords(out *row, s *lesson.Statement) {
	out.Symbol, out.Words = "", !b.mentors
	if !b.mentors {
		return
	}
	for _, l := range s.Listens {
		out.Listens = append(out.Listens, l.Prompt)
	}
}

// stepsOf are the worked steps of a find.
func stepsOf(r *work.Result) []step {
	var all []step
	for _, line := range r.Steps {
		all = append(all, step{line.Kind == quantity.ConversionStep, trusted(stepML(line))})
	}
	return all
}

// otherKit is a find's answer for another kit of the pack.
type otherKit struct {
	Kit, Value string
	Steps      []step
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
