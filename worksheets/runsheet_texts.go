package worksheets

// What a run sheet says of each question, whatever its size: the key, other kits' keys, the likeliest wrong answers.

import (
	"cmp"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// mostSlips is how many wrong answers stand beside a key.
const mostSlips = 2

// mostListens is how many things to listen for stand beside a question; a pack may have very many.
const mostListens = 6

// A keyText is a question with its key, or with what to listen for if it is answered in words.
type keyText struct {
	part         string // of the lesson, with when it begins
	name         quantity.Symbol
	ask          string
	number, unit string // of the key; "" if there is none
	besides      []string
	hints        []hint
	example      bool // the key is worked from the lesson's example readings
}

// A hint is what to say to a wrong answer, or to listen for.
type hint struct{ lead, text string }

// keyTexts are the questions in the order of the lesson.
func (r *runSheet) keyTexts() []keyText {
	asked := slices.Concat(r.lesson.Finds, r.lesson.Chooses, r.lesson.Says)
	slices.SortStableFunc(asked, func(a, b *lesson.Statement) int { return a.At.Start - b.At.Start })
	var all []keyText
	for _, s := range asked {
		text := keyText{part: r.partAt(s.At.Start), ask: cmp.Or(s.Prompt, s.Name)}
		switch {
		case s.Kind == lesson.Say && len(s.Listens) > 0:
			for _, l := range s.Listens[:min(len(s.Listens), mostListens)] {
				text.hints = append(text.hints, hint{r.led(string(l.Kind)), l.Prompt})
			}
		case s.Kind == lesson.Choose:
			text.hints = r.choiceHints(s)
		case r.hasKey(s):
			r.addKey(&text, s)
		default:
			continue
		}
		all = append(all, text)
	}
	return all
}

// choiceHints are the right answer to a choose, and what to say to the others.
func (r *runSheet) choiceHints(s *lesson.Statement) []hint {
	var right, wrong []hint
	for _, a := range s.Answers {
		switch {
		case a.Right:
			right = append(right, hint{r.led("choose-right"), a.Text})
		case a.Hint != nil:
			wrong = append(wrong, hint{a.Text + " " + arrow, a.Hint.Prompt})
		}
	}
	return append(right, wrong...)
}

// partAt is the name of the part that a place of the source is in, with when it begins.
func (r *runSheet) partAt(at int) string {
	name := ""
	for _, s := range r.lesson.Sections {
		if s.At.Start > at {
			break
		}
		name = s.Title
		for _, p := range r.parts {
			if p.ID == s.ID {
				name += " · " + lesson.ClockAt(r.about.Start, p.From)
			}
		}
	}
	return name
}

// hasKey tells whether a question has an answer to hold others against. An estimate of vapour has none without the
// warnings that stand beside it on the page.
func (r *runSheet) hasKey(s *lesson.Statement) bool {
	return s.Kind == lesson.Find && !s.IsVapour() && !r.lesson.Of(s).Guessed && r.amount(s) != ""
}

// amount is a question's key, or its value if it has none.
func (r *runSheet) amount(s *lesson.Statement) string {
	if key := r.lesson.Of(s).Key; key != nil {
		return r.number(key.Amount())
	}
	return r.number(r.lesson.Of(s).Text())
}

// ofReadings tells whether a value depends on what a team reads on the floor: then the key is that of the lesson's
// example, and a team's own is another. What a kit says is no reading.
//
// What is known of each is kept, as there may be a great many ways from one to another.
func (r *runSheet) ofReadings(s *lesson.Statement) bool {
	is, known := r.read[s]
	switch {
	case known:
		return is
	case s.Kind == lesson.Record:
		return true
	case s.Expr == nil:
		return false
	}
	names := quantity.Names(s.Expr)
	if s.Kind == lesson.Measure {
		return len(names) == 0
	}
	is = slices.ContainsFunc(names, func(name string) bool {
		of := r.lesson.Named(name)
		return of != nil && of != s && r.ofReadings(of)
	})
	r.read[s] = is
	return is
}

// addKey adds a question's key and what stands beside it, without the unit where that is the key's.
func (r *runSheet) addKey(text *keyText, s *lesson.Statement) {
	of := r.lesson.Of(s)
	text.name = quantity.SymbolOf(s.Name)
	unit := of.Unit()
	if of.Key != nil {
		unit = of.Key.Statement.Literal.Unit.Symbol()
		if limit := of.Key.Statement.Literal.Sure(); limit != "" {
			text.besides = append(text.besides, withoutUnit(r.number(limit), unit))
		}
	}
	if of.Target.Also != nil && of.Key != nil {
		text.besides = append(text.besides, r.number(of.Text()))
	}
	amount := printable(r.amount(s))
	unit = r.unit(unit)
	if text.number = withoutUnit(amount, unit); text.number != amount {
		text.unit = printable(unit)
	}
	if text.example = r.ofReadings(s); text.example {
		text.unit = strings.TrimSpace(text.unit + " *")
	}
	for _, other := range r.lesson.Others {
		if o := other.Of(s); o != nil && o.Text() != "" && o.Text() != of.Text() {
			text.besides = append(text.besides, other.Kit.Title+"\u00a0"+withoutUnit(r.number(o.Text()), unit))
		}
	}
	for _, slip := range s.Slips[:min(len(s.Slips), mostSlips)] {
		said := r.number(cmp.Or(r.lesson.Of(slip).Text(), slip.Expr.String()))
		text.hints = append(text.hints, hint{withoutUnit(said, unit) + " " + arrow, slip.Prompt})
	}
}

// withoutUnit takes a unit off an amount that ends in it.
func withoutUnit(amount, unit string) string {
	amount = printable(amount)
	if rest, ok := strings.CutSuffix(amount, " "+printable(unit)); ok && unit != "" {
		return rest
	}
	return amount
}
