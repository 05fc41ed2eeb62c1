package site

// How sure numbers are: what stands beside a find for mentors, and their page that says what it means.

import (
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
)

// SurePage is the name of the mentors' page that says what ± means.
const SurePage = "sure.html"

// surePart is one notation with what it means.
type surePart struct{ Shown, Means string }

// sureParts are the notations of that page, in the order in which it explains them; their texts are sure-… and
// sure-…-means.
var sureParts = []string{"plus-minus", "within", "key", "mean", "interval", "carried", "apart", "not"}

// Sure makes the mentors' page that says what ± means.
func (s *Site) Sure(p *lesson.Pack) ([]byte, error) {
	var parts []surePart
	for _, name := range sureParts {
		parts = append(parts, surePart{s.words.Say("sure-" + name), s.words.Say("sure-" + name + "-means")})
	}
	return s.page("sure.html", frame{Edition: Mentors, Title: s.words.Say("sure-page"), Pack: p, Content: parts})
}

// sureWord is the sentence by which students read how sure facts of a kit are, "" if none of them says so.
func sureWord(facts []lesson.Field) string {
	for _, f := range facts {
		if f.Literal.Sure() != "" {
			return "sure-students"
		}
	}
	return ""
}

// howSure writes the value of a find with its ± and the interval of 95 %, "" if it has none.
func (b *body) howSure(q quantity.Quantity, unit string) string {
	if q.Uncertainty() <= 0 {
		return ""
	}
	value, u := quantity.FormatUncertain(q.Number, q.Uncertainty())
	low, high := quantity.FormatInterval(q)
	text := b.words.Number(quantity.Shown{Number: "(" + value + " ± " + u + ")", Unit: unit}.Text())
	return text + " · " + b.words.Say("sure-between", b.words.Number(low),
		b.words.Number(quantity.Shown{Number: high, Unit: unit}.Text()))
}

// apart says which records a find takes as independent though they may not be, "" if there are none.
func (b *body) apart(l *work.Lesson, q quantity.Quantity) string {
	names := l.Apart(q)
	if len(names) == 0 {
		return ""
	}
	return b.words.Say("sure-taken-apart", strings.Join(names, ", "))
}
