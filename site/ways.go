package site

// The way to an answer in words, for a team that has tried in vain: "Divide the distance L by …".

import (
	"cmp"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/typography"
	"trundle/generator/work"
	"trundle/site/words"
)

// way says in words how a find is worked out, and then what its names stand for.
func way(w words.Words, l *work.Lesson, find *lesson.Statement) []string {
	said := speaker{w, l}
	parts := []string{said.sentence(find.Expr)}
	if call, ok := find.Expr.(*quantity.Call); ok && call.Formula() != nil && call.Formula().Says != "" {
		f := call.Formula()
		parts = slices.Insert(parts, 0, w.Say("way-name", withBlanks(f.Name), strings.TrimRight(f.Says, ".")))
	}
	for _, name := range quantity.Names(find.Expr) {
		s := l.Named(name)
		if s == nil || s.Prompt == "" || strings.Contains(s.Prompt, "?") { // a question says nothing of what it is
			continue
		}
		parts = append(parts, w.Say("way-name", said.symbol(name), strings.TrimRight(s.Prompt, ".")))
	}
	marks := typography.In(w.Forms())
	for i, part := range parts {
		parts[i] = marks.Text(part)
	}
	return parts
}

// A speaker says formulas in words.
type speaker struct {
	words  words.Words
	lesson *work.Lesson
}

// sentence tells what to do: what the language file has for the function at the top, else the formula read out.
func (s speaker) sentence(e quantity.Expr) string {
	switch e := e.(type) {
	case *quantity.Call:
		if own, ok := e.Written(); ok {
			return s.sentence(own)
		}
		if said := s.countOf(e, "way-count-if"); said != "" {
			return said
		}
		if s.has("way-" + e.Name) {
			return s.sentenceOf(e)
		}
	case *quantity.Comparison:
		return s.words.Say("way-whether", s.comparison(e, s.phrase))
	case *quantity.Binary:
		if call := s.known(e.Left); call != nil && (e.Op == '*' || e.Op == '/') {
			return s.sentenceOf(call) + " " + s.words.Say("way-then-"+operations[e.Op], s.phrase(e.Right))
		}
		if call := s.known(e.Right); call != nil && e.Op == '*' {
			return s.sentenceOf(call) + " " + s.words.Say("way-then-times", s.phrase(e.Left))
		}
	case *quantity.Name:
		return s.words.Say("way-unit", s.phrase(e))
	}
	return s.words.Say("way-other", s.phrase(e))
}

func (s speaker) has(name string) bool {
	_, ok := s.words[name]
	return ok
}

// known gives a call that there is a sentence for, and no shorter way of saying.
func (s speaker) known(e quantity.Expr) *quantity.Call {
	call, ok := e.(*quantity.Call)
	if ok && s.has("way-"+call.Name) && !s.has("way-the-"+call.Name) {
		return call
	}
	return nil
}

var operations = map[byte]string{'+': "plus", '-': "minus", '*': "times", '/': "over", '^': "power"}

// sentenceOf is what the language file has for a function.
func (s speaker) sentenceOf(call *quantity.Call) string {
	name := "way-" + call.Name
	f := call.Formula()
	if len(f.Params) == 0 { // a statistic, of however many values
		return s.words.Say(name, s.list(call.Args))
	}
	args := make([]any, len(call.Args))
	for i, a := range call.Args {
		args[i] = s.phrase(a)
	}
	if optional := len(f.Params) - 1; f.Params[optional].Optional && len(args) > optional {
		return s.words.Say(name, args[:optional]...) + " " + s.words.Say(name+"-gear", args[optional])
	}
	return s.words.Say(name, args...)
}

func (s speaker) symbol(name string) string {
	return quantity.SymbolOf(name).Text()
}

// phrase reads a formula out.
func (s speaker) phrase(e quantity.Expr) string {
	switch e := e.(type) {
	case *quantity.Name:
		if _, isRecord := s.lesson.Env[e.Text].(quantity.Record); isRecord {
			return s.words.Say("way-all", s.symbol(e.Text))
		}
		return s.symbol(e.Text)
	case *quantity.Literal:
		return s.words.Number(quantity.Shown{Number: e.Number.Text, Unit: e.Unit.Symbol()}.Text())
	case *quantity.Unary:
		return s.words.Say("way-sign", s.part(e.Operand, 1))
	case *quantity.Binary:
		return s.binary(e)
	case *quantity.Comparison:
		return s.comparison(e, s.phrase)
	case *quantity.Reading:
		return s.words.Say("way-reading", e.Number, s.symbol(e.Record.Text))
	case *quantity.Call:
		if own, ok := e.Written(); ok {
			return s.phrase(own)
		}
		if said := cmp.Or(s.stepped(e), s.countOf(e, "way-the-count-if")); said != "" {
			return said
		}
		if difference := differenceOf(e); difference != nil {
			return s.words.Say("way-difference", s.part(difference.Left, 2), s.part(difference.Right, 2))
		}
		if !s.has("way-the-" + e.Name) {
			return strings.ReplaceAll(e.Name, "_", " ") + " (" + s.list(e.Args) + ")"
		}
		return s.words.Say("way-the-"+e.Name, s.list(e.Args))
	}
	return e.String()
}

// compared are what the language file calls the signs of comparisons.
var compared = map[string]string{
	"<": "less", "≤": "atmost", ">": "more", "≥": "atleast", "=": "equal", "≠": "unequal", "within": "within",
}

// comparison reads out what is compared; left says how its left side is read.
func (s speaker) comparison(e *quantity.Comparison, left func(quantity.Expr) string) string {
	parts := []any{left(e.Left), s.phrase(e.Right)}
	if e.Within != nil {
		parts = append(parts, s.phrase(e.Within))
	}
	return s.words.Say("way-is-"+compared[e.Op], parts...)
}

// countOf says what is counted where runs are compared with something, "" for any other call.
func (s speaker) countOf(e *quantity.Call, word string) string {
	if e.Name != "count" || len(e.Args) != 1 {
		return ""
	}
	comparison, ok := e.Args[0].(*quantity.Comparison)
	if !ok {
		return ""
	}
	return s.words.Say(word, s.comparison(comparison, func(left quantity.Expr) string {
		if n, named := left.(*quantity.Name); named {
			return s.words.Say("way-a-reading", s.symbol(n.Text))
		}
		return s.phrase(left)
	}))
}

// stepped reads out a function that goes by steps, "" for any other call.
func (s speaker) stepped(e *quantity.Call) string {
	name := "way-whole-" + e.Name
	if len(e.Args) == 2 {
		name = "way-step-" + e.Name
	}
	if !s.has(name) {
		return ""
	}
	args := make([]any, len(e.Args))
	for i, a := range e.Args {
		args[i] = s.phrase(a)
	}
	return s.words.Say(name, args...)
}

// differenceOf gives a difference whose sign is of no account, nil for any other call.
func differenceOf(e *quantity.Call) *quantity.Binary {
	if e.Name != "abs" || len(e.Args) != 1 {
		return nil
	}
	difference, ok := e.Args[0].(*quantity.Binary)
	if !ok || difference.Op != '-' {
		return nil
	}
	return difference
}

func (s speaker) binary(e *quantity.Binary) string {
	if two, ok := e.Right.(*quantity.Literal); ok && e.Op == '^' && two.Number.Text == "2" {
		return s.words.Say("way-squared", s.part(e.Left, rank('^')+1))
	}
	// What stands to the right of a minus or a division would be read the wrong way round.
	return s.words.Say("way-"+operations[e.Op], s.part(e.Left, rank(e.Op)), s.part(e.Right, rank(e.Op)+1))
}

// rank tells which operator goes first, the higher.
func rank(op byte) int { return map[byte]int{'+': 0, '-': 0, '*': 1, '/': 1, '^': 2}[op] }

// part reads out a formula within another one, in brackets if its operator would go after that one's.
func (s speaker) part(e quantity.Expr, least int) string {
	if call, ok := e.(*quantity.Call); ok {
		if own, ok := call.Written(); ok {
			e = own
		}
	}
	if b, ok := e.(*quantity.Binary); ok && rank(b.Op) < least {
		return "(" + s.phrase(e) + ")"
	}
	return s.phrase(e)
}

// list reads several out: a, b and c.
func (s speaker) list(all []quantity.Expr) string {
	parts := make([]string, len(all))
	for i, e := range all {
		parts[i] = s.phrase(e)
	}
	return s.words.List(parts)
}
