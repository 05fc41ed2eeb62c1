package pdf

// Text of drawings in SVG: where it stands, how it is held, and in which grey.

import (
	"math"
	"strconv"
	"strings"

	"github.com/carlos7ags/folio/svg"
)

// A label is a piece of text of a drawing, in its units from its top left.
type label struct {
	text     string
	to       svg.Matrix // from where the text runs to the drawing
	x, y     float64
	size     float64
	style    Style
	grey     int
	anchored float64 // how much of its width lies left of x
}

// text keeps a text and its parts; a part without a place of its own goes on where the one before ends, which only
// the typeface knows, so it is joined to it.
func (d *Drawing) text(n *svg.Node, here painted, looks Looks, to svg.Matrix) {
	own := attributes(n, looks)
	place := [2]float64{measured(own["x"]) + measured(own["dx"]), measured(own["y"]) + measured(own["dy"])}
	l := labelled(n.Text, here, to, place)
	for _, part := range n.Children {
		if part.Tag != "tspan" {
			continue
		}
		of, inside := attributes(part, looks), painted{}
		for _, name := range inherited {
			if inside[name] = here[name]; of[name] != "" {
				inside[name] = of[name]
			}
		}
		if of["x"] == "" && of["y"] == "" && of["dy"] == "" {
			l.text = strings.TrimSpace(l.text + " " + part.Text)
			continue
		}
		d.keep(l)
		if of["x"] != "" {
			place[0] = measured(of["x"])
		}
		if of["y"] != "" {
			place[1] = measured(of["y"])
		}
		place = [2]float64{place[0] + measured(of["dx"]), place[1] + measured(of["dy"])}
		l = labelled(part.Text, inside, to, place)
	}
	d.keep(l)
}

func (d *Drawing) keep(l label) {
	if l.text != "" && l.size > 0 {
		d.labels = append(d.labels, l)
	}
}

func labelled(text string, here painted, to svg.Matrix, place [2]float64) label {
	l := label{text: strings.Join(strings.Fields(text), " "), to: to, x: place[0], y: place[1],
		size: measured(here["font-size"]), grey: greyOf(here["fill"], here["color"])}
	switch weight := here["font-weight"]; {
	case weight == "bold" || measured(weight) >= 600:
		l.style = Bold
	case here["font-style"] == "italic":
		l.style = Italic
	}
	switch here["text-anchor"] {
	case "middle":
		l.anchored = 0.5
	case "end":
		l.anchored = 1
	}
	return l
}

// measured reads the first number of an attribute, 0 if there is none.
func measured(text string) float64 {
	first, _, _ := strings.Cut(strings.TrimSpace(text), " ")
	x, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSuffix(first, "px"), ","), 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return 0
	}
	return x
}

// greyOf is a colour of hexadecimal digits as dark as it looks (ITU-R BT.601), any other as black.
func greyOf(fill, current string) int {
	if fill == "currentColor" {
		fill = current
	}
	rgb, _ := hexadecimal(fill)
	return (299*rgb[0] + 587*rgb[1] + 114*rgb[2]) / 1000
}

// hexadecimal reads a colour such as #1d2328 or #fff.
func hexadecimal(colour string) (rgb [3]int, ok bool) {
	digits, ok := strings.CutPrefix(colour, "#")
	if len(digits) == 3 {
		digits = digits[:1] + digits[:1] + digits[1:2] + digits[1:2] + digits[2:] + digits[2:]
	}
	all, err := strconv.ParseUint(digits, 16, 32)
	if !ok || err != nil || len(digits) != 6 {
		return rgb, false
	}
	return [3]int{int(all >> 16), int(all >> 8 & 255), int(all & 255)}, true
}

// label writes one on a drawing whose zero lies at x and y, a unit of it so many millimetres.
func (d *Document) label(l label, x, y, mm float64) {
	// A text is turned and enlarged, never slanted.
	size := math.Hypot(l.to.A, l.to.B)
	if size == 0 {
		return
	}
	d.SetFont(l.style, math.Round(l.size*size*mm*72/25.4*100)/100)
	text := d.writable(l.text)
	aside := l.anchored * d.Width(text)
	px := x + mm*(l.to.A*l.x+l.to.C*l.y+l.to.E)
	py := y + mm*(l.to.B*l.x+l.to.D*l.y+l.to.F)
	d.Shade(l.grey)
	cos, sin := l.to.A/size, -l.to.B/size // the page's y runs up
	if math.Abs(sin) < 1e-6 && cos > 0 {
		d.Text(px-aside, py, text)
		return
	}
	round := func(v float64) float64 { return math.Round(v*1e5) / 1e5 }
	d.turned(round(cos), round(sin), d.across(px), d.up(py), func() { d.Text(px-aside, py, text) })
}

// writable leaves letters out that the type has no glyph for.
func (d *Document) writable(text string) string {
	return strings.Map(func(r rune) rune {
		if d.letters[d.style].Has(r) {
			return r
		}
		return -1
	}, text)
}
