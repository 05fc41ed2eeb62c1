package worksheets

// Formulas on paper, set as boxes that are put beside and above each other. The same formulas in pages are MathML,
// written in site.

import (
	"strings"

	"trundle/generator/quantity"
	"trundle/worksheets/pdf"
)

// A box is a piece of a formula: how wide it is, how far it reaches above and below its
// base line, and how it is drawn from a point of that line. Millimetres.
type box struct {
	width, up, down float64
	draw            func(x, y float64)
}

func (b box) height() float64 { return b.up + b.down }

// A setter sets formulas in one size of type, in points.
type setter struct {
	doc  *pdf.Document
	size float64
}

// em is the size of the type in millimetres; all distances in a formula are parts of it.
func (s setter) em() float64 { return s.size * point }

// text sets words. Every text has the same height, so that brackets and bars do not jump from one to the next.
func (s setter) text(style pdf.Style, text string) box {
	s.doc.SetFont(style, s.size)
	text = printable(text)
	return box{s.doc.Width(text), 0.75 * s.em(), 0.25 * s.em(), func(x, y float64) {
		s.doc.SetFont(style, s.size)
		s.doc.Text(x, y, text)
	}}
}

// smaller is for indices and exponents.
func (s setter) smaller() setter { return setter{s.doc, s.size * 0.72} }

// set turns a formula into a box, fractions as fractions.
func (s setter) set(m quantity.Math) box {
	switch m := m.(type) {
	case quantity.Symbol:
		return s.symbol(m)
	case quantity.Word:
		return s.text(regular, m.Words)
	case quantity.Sign:
		return beside(s.space(0.25), s.text(regular, m.Sign), s.space(0.25))
	case quantity.Shown:
		return s.shown(m)
	case quantity.Row:
		parts := make([]box, len(m.Parts))
		for i, p := range m.Parts {
			parts[i] = s.set(p)
		}
		return beside(parts...)
	case quantity.Fraction:
		return s.fraction(s.set(m.Over), s.set(m.Under))
	case quantity.Power:
		return s.raised(s.set(m.Base), s.smaller().set(m.Exponent))
	case quantity.Root:
		return s.root(s.set(m.Of))
	case quantity.Bars:
		return s.fenced(s.set(m.Of), true)
	case quantity.Parens:
		return s.fenced(s.set(m.Of), false)
	case quantity.WithUnit:
		return beside(s.set(m.Of), s.unit(quantity.Shown{Unit: m.Unit}))
	case quantity.Apply:
		args := []box{}
		for i, a := range m.Args {
			if i > 0 {
				args = append(args, s.text(regular, ", "))
			}
			args = append(args, s.set(a))
		}
		return beside(s.text(regular, m.Name), s.fenced(beside(args...), false))
	}
	return s.text(regular, m.Text())
}

// space is an empty box.
func (s setter) space(ems float64) box {
	return box{ems * s.em(), 0, 0, func(float64, float64) {}}
}

// symbol sets one letter in italics, a longer name upright, an index lowered.
func (s setter) symbol(m quantity.Symbol) box {
	style := regular
	if len([]rune(m.Name)) == 1 {
		style = italic
	}
	b := s.text(style, m.Name)
	if m.Index != "" {
		low := s.smaller().text(regular, m.Index)
		drop := 0.22 * s.em()
		b = beside(b, box{low.width, low.up - drop, low.down + drop, func(x, y float64) { low.draw(x, y+drop) }})
	}
	return b
}

// shown sets a number with its unit; a fraction of a tape is stacked.
func (s setter) shown(m quantity.Shown) box {
	var parts []box
	if several := m.Parts(); len(several) > 1 { // 6 ft 3 1/2 in
		for i, part := range several {
			if i > 0 {
				parts = append(parts, s.space(0.25))
			}
			parts = append(parts, s.shown(part))
		}
		return beside(parts...)
	}
	whole, part, mixed := strings.Cut(m.Number, " ")
	if !mixed && strings.Contains(m.Number, "/") {
		whole, part = "", m.Number
		if rest, negative := strings.CutPrefix(part, quantity.Minus); negative {
			whole, part = quantity.Minus, rest
		}
	}
	if whole != "" {
		parts = append(parts, s.text(regular, whole))
	}
	if over, under, ok := strings.Cut(part, "/"); ok {
		parts = append(parts, s.smaller().fraction(s.smaller().text(regular, over), s.smaller().text(regular, under)))
	}
	return beside(append(parts, s.unit(m))...)
}

// unit sets the unit after a number, the sign of degrees without a blank.
func (s setter) unit(m quantity.Shown) box {
	switch m.Unit {
	case "":
		return beside()
	case "°":
		return s.text(regular, "°")
	}
	return beside(s.space(0.18), s.text(regular, m.UnitAfter()))
}

// beside puts boxes on one base line.
func beside(parts ...box) box {
	var all box
	for _, p := range parts {
		all.width += p.width
		all.up, all.down = max(all.up, p.up), max(all.down, p.down)
	}
	all.draw = func(x, y float64) {
		for _, p := range parts {
			p.draw(x, y)
			x += p.width
		}
	}
	return all
}

// fraction puts one box above another, with a bar at the height of a minus between.
func (s setter) fraction(over, under box) box {
	gap, axis := 0.15*s.em(), 0.3*s.em()
	width := max(over.width, under.width) + 0.3*s.em()
	return box{width, axis + gap + over.height(), under.height() + gap - axis, func(x, y float64) {
		bar := y - axis
		over.draw(x+(width-over.width)/2, bar-gap-over.down)
		under.draw(x+(width-under.width)/2, bar+gap+under.up)
		s.line(x+0.05*s.em(), bar, x+width-0.05*s.em(), bar)
	}}
}

// raised puts an exponent at the upper right of its base, higher for a higher base.
func (s setter) raised(base, exponent box) box {
	lift := base.up - 0.35*s.em()
	return box{base.width + exponent.width, max(base.up, lift+exponent.up), base.down, func(x, y float64) {
		base.draw(x, y)
		exponent.draw(x+base.width, y-lift)
	}}
}

// root draws the sign of a root around a box.
func (s setter) root(of box) box {
	sign := 0.6 * s.em()
	up := of.up + 0.2*s.em()
	return box{sign + of.width + 0.1*s.em(), up, of.down, func(x, y float64) {
		s.line(x, y-0.25*s.em(), x+0.2*sign, y-0.35*s.em())
		s.line(x+0.2*sign, y-0.35*s.em(), x+0.5*sign, y+of.down)
		s.line(x+0.5*sign, y+of.down, x+sign, y-up)
		s.line(x+sign, y-up, x+sign+of.width+0.1*s.em(), y-up)
		of.draw(x+sign, y)
	}}
}

// fenced puts brackets as high as what they hold around it, or the bars of a size.
func (s setter) fenced(of box, bars bool) box {
	side := 0.32 * s.em()
	return box{of.width + 2*side, of.up, of.down, func(x, y float64) {
		top, foot, middle := y-of.up, y+of.down, y-(of.up-of.down)/2
		left, right := x+0.6*side, x+2*side+of.width-0.6*side
		bend := 0.22 * s.em()
		if bars {
			bend = 0
		}
		s.width()
		s.doc.Bow(left+bend/2, top, left-bend, middle, left+bend/2, foot)
		s.doc.Bow(right-bend/2, top, right+bend, middle, right-bend/2, foot)
		of.draw(x+side, y)
	}}
}

// width sets the width of lines, which goes with the size of the type.
func (s setter) width() { s.doc.LineWidth(0.05 * s.em()) }

func (s setter) line(x1, y1, x2, y2 float64) {
	s.width()
	s.doc.Line(x1, y1, x2, y2)
}
