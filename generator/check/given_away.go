package check

// Answers that students could read in the lesson's own text.

import (
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/prose"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
)

// An answer is a find's number with its unit as somebody might write it in a text.
type answer struct {
	find *lesson.Statement
	// Any such text has these digits, with a point or a comma; they are looked for first, since
	// that is quick.
	digits, withComma string
	pattern           func() *regexp.Regexp
}

// match finds the answer in a text: the group is the number with its unit, nil if there is none.
// Nearly all texts of a season fail the first test, which saves compiling the pattern.
func (a answer) match(text string) []int {
	if !strings.Contains(text, a.digits) && !strings.Contains(text, a.withComma) {
		return nil
	}
	return a.pattern().FindStringSubmatchIndex(text)
}

// givenAway looks for the number of a key or of a find, with its unit, in what students
// see: prose typed by hand, prompts, and values that do not depend on a student's work and
// come to the same.
func givenAway(l *work.Lesson, problems *problem.List) {
	answers := answersOf(l)
	if len(answers) == 0 {
		return
	}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if k := n.Kind(); k == lesson.KindMentorNote || k == lesson.KindMentorSection {
			return ast.WalkSkipChildren, nil
		}
		for _, r := range prose.Seen(l.Lesson, n) {
			typedByHand(l, answers, r, problems)
		}
		switch n := n.(type) { // the others: they hold no values to be shown
		case *lesson.FilledCode:
			for _, part := range n.Parts {
				if part.Value != nil {
					shownValue(l, answers, part.Value, problems)
				}
			}
		case *lesson.Value:
			shownValue(l, answers, n, problems)
		}
		return ast.WalkContinue, nil
	})
	for _, r := range prose.OfHeader(l.Lesson) {
		typedByHand(l, answers, r, problems)
	}
}

// answersOf are the numbers that a lesson asks for: as the lesson works them out, and as the coach
// writes the key, which may have other places or another unit.
func answersOf(l *work.Lesson) []answer {
	var all []answer // a find without a unit has none; see answerPattern
	tongue := prose.In(l.Language)
	for _, s := range l.Finds {
		texts := l.Of(s).AllTexts()
		if k := l.Of(s).Key; k != nil {
			texts = append(texts, k.Amount())
		}
		for _, text := range texts {
			if expr, digits := answerPattern(text, tongue); expr != "" {
				compiled := sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expr) })
				all = append(all, answer{s, digits, strings.ReplaceAll(digits, ".", ","), compiled})
			}
		}
	}
	return all
}

// unitPattern matches a unit in any way that people write it: "in", "inches", "″".
func unitPattern(unit string, tongue *prose.Tongue) string {
	factors := strings.Split(unit, "/")
	for i, factor := range factors {
		names := quantity.NamesOfUnit(factor)
		if names == nil { // such as m²
			names = []string{factor}
		}
		var own []string // of the language
		for _, symbol := range quantity.UnitSymbols() {
			if tongue != nil && slices.Contains(quantity.NamesOfUnit(symbol), factor) {
				own = append(own, tongue.NamesOf(symbol)...)
			}
		}
		for j, name := range names {
			names[j] = regexp.QuoteMeta(name)
		}
		for _, name := range own {
			names = append(names, "(?i:"+regexp.QuoteMeta(name)+")")
		}
		factors[i] = "(?:" + strings.Join(names, "|") + ")"
	}
	return strings.Join(factors, "/")
}

// answerPattern matches a number with its unit, whatever blank is between. A number without a
// unit is too common in prose to mean anything.
func answerPattern(text string, tongue *prose.Tongue) (expr, digits string) {
	cut := strings.LastIndexByte(text, ' ')
	number, unit := text[:max(cut, 0)], text[cut+1:]
	if rest, ok := strings.CutSuffix(text, "°"); ok {
		number, unit = rest, "°"
	}
	if number == "" || strings.ContainsAny(unit, "0123456789") { // no unit at all: "1 9/16" ends in a fraction
		return "", ""
	}
	sign := ""
	if rest, negative := strings.CutPrefix(number, quantity.Minus); negative {
		number, sign = rest, "[-−]"
	}
	digits, _, _ = strings.Cut(number, " ") // of 1 9/16 the 1: a text may have another blank there
	body := anyBlankOrMark.Replace(regexp.QuoteMeta(number))
	// What comes before must not be part of the number, nor what comes after part of the unit:
	// 120.4 cm and 20.4 cmx are something else.
	units := `[\s\x{a0}\x{202f}-]?` + unitPattern(unit, tongue)
	if tongue != nil && len(digits) > 3 && strings.Contains(digits, ".") {
		units = `(?:` + units + `)?` // its unit may have a name that nobody thought of
	}
	return `(?:^|[^0-9.,/])(` + sign + body + units + `)(?:$|[^\pL0-9])`, digits
}

// typedByHand reports the answers in a text.
func typedByHand(l *work.Lesson, answers []answer, r prose.Run, problems *problem.List) {
	text := string(r.Text)
	for _, a := range answers {
		m := a.match(text)
		// One answer is reported once a text, since one change of the text settles it.
		if m == nil || isGiven(l, text[m[2]:m[3]]) || ofAnotherUnit(l, text, m) {
			continue
		}
		at := r.Span(m[2], m[3])
		problems.Caution(l.File, at, "given-away",
			"students see this, and it is the answer to "+a.find.Name+" on line "+lineNumber(l, a.find, at),
			keptQuiet(l, a, at))
	}
}

// ofAnotherUnit tells whether a number that was found without its unit has another one, or belongs to a longer one.
func ofAnotherUnit(l *work.Lesson, text string, m []int) bool {
	tongue := prose.In(l.Language)
	if tongue == nil || strings.IndexFunc(text[m[2]:m[3]], unicode.IsLetter) >= 0 {
		return false
	}
	rest := text[m[3]:]
	if next := strings.TrimLeft(rest, ".,"); len(next) < len(rest) && next != "" && '0' <= next[0] && next[0] <= '9' {
		return true
	}
	word := strings.TrimLeftFunc(rest, unicode.IsSpace)
	ends := func(r rune) bool { return !unicode.IsLetter(r) && r != '%' && r != '°' }
	if end := strings.IndexFunc(word, ends); end >= 0 {
		word = word[:end]
	}
	_, known := quantity.LookupUnit(word)
	return known || tongue.IsUnit(word)
}

// keptQuiet is what to do about an answer in a text.
func keptQuiet(l *work.Lesson, a answer, at source.Span) string {
	for _, s := range l.Chooses {
		if s.Answers[0].At.Start <= at.Start && at.End <= s.Answers[len(s.Answers)-1].At.End {
			return "choose other numbers for the answers, since there are no blanks in them"
		}
	}
	return "write {" + a.find.Name + "}, which is a blank until it is answered, or move it into a Mentor: note"
}

// Blanks and the kind of the decimal mark make no difference.
var (
	withoutBlanks  = strings.NewReplacer(" ", "", ",", ".")
	anyBlankOrMark = strings.NewReplacer(" ", `[\s\x{a0}]+`, `\.`, "[.,]")
)

// isGiven tells whether the lesson itself gives a value of that text: then it is no
// secret.
func isGiven(l *work.Lesson, text string) bool {
	text = withoutBlanks.Replace(text)
	given := false
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		block, ok := n.(*lesson.WorkBlock)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		for _, s := range block.Statements {
			if r := l.Of(s); r != nil && s.Kind == lesson.Given && !r.OfStudents && withoutBlanks.Replace(r.Text()) == text {
				given = true
			}
		}
		return ast.WalkContinue, nil
	})
	return given
}

// shownValue looks at a computed value that students see. One that depends on their own numbers is a blank until they
// have answered, so it gives nothing away.
func shownValue(l *work.Lesson, answers []answer, v *lesson.Value, problems *problem.List) {
	r := l.OfValue(v)
	if r.OfStudents || r.Text() == "" || isGiven(l, r.Text()) {
		return
	}
	for _, a := range answers {
		if a.match(r.Text()) != nil {
			problems.Caution(l.File, v.At, "given-away",
				"students see this value, "+r.Text()+", and it is the answer to "+a.find.Name+" on line "+
					lineNumber(l, a.find, v.At),
				"write {"+a.find.Name+"}, which is a blank until it is answered")
			return
		}
	}
}
