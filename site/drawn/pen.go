// Package drawn makes the still pictures of a show block's figures: what a page shows before its script draws the same
// from the boxes, and where there is no script. scripts/drawn does it in the same way, and a test compares the two.
package drawn

import (
	"html"
	"math"
	"math/big"
	"strconv"
	"strings"

	"trundle/generator/quantity"
	"trundle/site/words"
)

// A pen writes SVG. Colours are classes, since the pages' policy allows no styles in an element.
type pen struct {
	strings.Builder
	write func(number string) string // as the language has it
}

// at writes a place to a tenth of a pixel.
func at(x float64) string { return strconv.FormatFloat(math.Floor(x*10+0.5)/10+0, 'f', -1, 64) }

// path draws a line or a shape. Its parts are texts and numbers, in the order in which they are written.
func (p *pen) path(class string, parts ...any) {
	p.WriteString(`<path class="` + class + `" d="` + written(parts) + `"></path>`)
}

// written joins the parts of a path: a number after a number is set apart.
func written(parts []any) string {
	var out strings.Builder
	afterNumber := false
	for _, part := range parts {
		switch part := part.(type) {
		case string:
			out.WriteString(part)
			afterNumber = false
		case float64:
			if afterNumber {
				out.WriteByte(' ')
			}
			out.WriteString(at(part))
			afterNumber = true
		}
	}
	return out.String()
}

func (p *pen) circle(class string, x, y, r float64) {
	p.WriteString(`<circle class="` + class + `" cx="` + at(x) + `" cy="` + at(y) + `" r="` + at(r) + `"></circle>`)
}

func (p *pen) text(class string, x, y float64, text string) {
	p.WriteString(`<text class="` + class + `" x="` + at(x) + `" y="` + at(y) + `">` + html.EscapeString(text) + "</text>")
}

// A scale is a tape's: where its picture begins, and how many pixels one unit takes.
type scale struct {
	from, k float64
	parts   int  // of a unit: 10, or 16 of an inch
	fine    bool // an axis, which may have numbers between whole units
}

func (s scale) x(value float64) float64 { return (value - s.from) * s.k }

// Sizes of a tape, in pixels.
const (
	tapeHigh   = 40.0
	leastTick  = 3.2  // between two marks
	leastGap   = 40.0 // between two numbers
	numberDown = 34.0
)

// mostParts is how far along a tape its parts can be counted: beyond, a float64 has no number for each.
const mostParts = 1 << 53

// tape draws one across the picture, with marks and numbers unless these would tell what is asked. Whoever fills a box
// in may write any number, so that a tape for which there are no marks is left blank.
func (p *pen) tape(y, width float64, s scale, unit string, marked bool) {
	p.path("t", "M0 ", y, "H", width, "v", tapeHigh, "H0z")
	parts, every := float64(s.parts), s.every()
	last := (s.from + width/s.k) * parts
	if !marked || every == 0 || !(last < mostParts) { // or NaN
		return
	}
	name := s.name() * parts // which are marks, too
	var ticks []any
	var numbers pen
	for i := max(0, math.Ceil(s.from*parts/every)) * every; i <= last; i += every {
		named := math.Mod(i, name) == 0
		x := s.x(i / parts)
		ticks = append(ticks, "M", x, y, "v", tick(i, parts, named))
		if named && x > 36 && x < width-10 { // at the left stands the unit
			numbers.text("n", x, y+numberDown, p.write(strconv.FormatFloat(i/parts, 'f', -1, 64)))
		}
	}
	p.path("k", ticks...)
	p.WriteString(numbers.String())
	p.text("n u", 5, y+numberDown, unit)
}

// name is how many units lie from one number to the next.
func (s scale) name() float64 {
	names := []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 1e4, 2e4, 5e4}
	if s.fine {
		names = append([]float64{.1, .2, .5}, names...)
	}
	for _, n := range names {
		if n*s.k >= leastGap {
			return n
		}
	}
	return 1e6
}

// every is how many parts lie from one mark to the next, 0 if that would be more than any tape has.
func (s scale) every() float64 {
	steps := []float64{1, 5, 10, 50, 100, 500, 1000, 5000, 1e4, 5e4}
	if s.parts == 16 {
		steps = []float64{1, 2, 4, 8, 16, 80, 160, 800, 1600, 8000, 16000, 80000, 160000, 800000}
	}
	for _, n := range steps {
		if n*s.k/float64(s.parts) >= leastTick {
			return n
		}
	}
	return 0
}

// tick is how long a mark is: the finer, the shorter.
func tick(i, parts float64, named bool) float64 {
	switch {
	case named:
		return 20
	case math.Mod(i, parts/2) == 0:
		return 16
	case parts == 16 && math.Mod(i, 4) == 0:
		return 12
	case parts == 16 && math.Mod(i, 2) == 0:
		return 9
	}
	return 6
}

// saying fills the gaps of a text that pages and scripts share.
func saying(w words.Words, name string, parts ...string) string {
	return w.Fill("drawn-"+name, parts...)
}

// amount writes a number with its unit.
func (v *view) amount(x float64, u quantity.Unit) string {
	return v.words.Number(quantity.Shown{Number: quantity.FormatPlain(x), Unit: u.Symbol()}.Text())
}

// to writes a number to a step, 1 part of many.
func (v *view) to(x float64, many int64) string {
	step := quantity.Number{Exact: big.NewRat(1, many), Text: "0.1"}.Step() // decimal
	return v.words.Number(quantity.FormatStep(x, step))
}
