package figure

// The veil over numbers that students find themselves, and how the page opens it.

import (
	"html"
	"strconv"
	"strings"

	"trundle/generator/wording"
	"trundle/generator/work"
)

// A hidden number goes through sentences and tables as a mark between characters that no text
// has, and comes out as an element that holds the finds that open it and a program of their
// answers, never the number.
const (
	veilStart, veilPart, veilEnd = "\ue000", "\ue001", "\ue002"
	// veiled is what readers see of it.
	veiled      = "?"
	veiledClass = `class="veiled"`
)

var veilMark = wording.New(veilStart + "([^" + veilEnd + "]*)" + veilEnd)

// asks is the finds that ask for a number; in the mentors' edition nothing is asked.
func (w *writer) asks(a *work.Answer) *work.Answer {
	if w.mentors {
		return nil
	}
	return a
}

// or gives the number as it is written or, if students find it, a veil that will show it to a
// step, with a plus if it is a signed one.
func (m amounts) or(text string, a *work.Answer, signed bool) string {
	if a == nil || text == missingNumber {
		return text
	}
	sign := ""
	if signed {
		sign = "1"
	}
	parts := []string{strings.Join(a.Finds, " "), string(a.Program), m.shownStep(), sign}
	return veilStart + strings.Join(parts, veilPart) + veilEnd
}

// shownStep is the step to which the page writes a number, "" for as many digits as it takes.
func (m amounts) shownStep() string {
	switch {
	case !m.step.IsZero():
		return m.step.String()
	case m.places > 0:
		return "0." + strings.Repeat("0", m.places-1) + "1"
	case m.places == 0:
		return "1"
	}
	return ""
}

// isVeiled tells whether a text has a hidden number.
func isVeiled(text string) bool { return strings.Contains(text, veilStart) }

// described joins the sentences of a picture's description. A long one is cut by the picture, and must
// not be cut inside a mark.
func described(says []string) string {
	text := strings.Join(says, " ")
	if len(text) > longestMarked {
		return veilMark.ReplaceAllString(text, veiled)
	}
	return text
}

const longestMarked = 3000

// lineBreak stands in a cell before its second line, which is set small.
const lineBreak = "\n"

// secondLine is a text that goes below what a cell has already.
func secondLine(text string) string { return lineBreak + text }

// Markup is a text of a figure as HTML, escaped but for what shows a hidden number and for a second line.
func Markup(text string) string {
	first, second, both := strings.Cut(text, lineBreak)
	if both {
		second = " <small>" + lift(html.EscapeString(second)) + "</small>"
	}
	return lift(html.EscapeString(first)) + second
}

// Written is a text of a figure for paper: plain, with a blank where a number is hidden. A second line comes after a
// line break.
func Written(text, blank string) string { return veilMark.ReplaceAllString(text, blank) }

// lift makes elements of the marks in HTML or SVG. In a description of SVG, HTML may stand.
func lift(markup string) string {
	return veilMark.Compiled().ReplaceAllStringFunc(markup, func(mark string) string {
		parts := strings.Split(strings.Trim(mark, veilStart+veilEnd), veilPart)
		out := "<span " + veiledClass + ` data-open="` + parts[0] + `" data-p="` + parts[1] + `"`
		if parts[2] != "" {
			out += ` data-to="` + parts[2] + `"`
		}
		if parts[3] != "" {
			out += ` data-sign`
		}
		return out + ">" + veiled + "</span>"
	})
}

// numberOf is a number, or its veil.
func (m amounts) numberOf(x float64, a *work.Answer) string { return m.or(m.number(x), a, false) }

// signedOf is a number that shows its side, or its veil.
func (m amounts) signedOf(x float64, a *work.Answer) string { return m.or(m.signed(x), a, true) }

// sizeOf is a number with its unit, or the veil of the number with its unit.
func (m amounts) sizeOf(x float64, a *work.Answer) string {
	return amountIn(m.words, m.numberOf(x, a), m.in)
}

// programmed writes a number into a program.
func programmed(x float64) string { return strconv.FormatFloat(x, 'g', 9, 64) }
