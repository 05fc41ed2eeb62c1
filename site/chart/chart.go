// Package chart draws small charts as SVG for the inside of a page: lines of a formula, dots of runs, means with
// intervals, a path seen from above, readings over cycles and their steps.
//
// It lays out; it computes nothing. Every mean, interval and band comes in as a number. The axes, scales and
// plotters are gonum/plot's; its drawing goes through a canvas of our own, because a page's security policy forbids
// style attributes: all colour comes from classes in styles/chart.css. Series differ in dash and marker as well, so
// that they can be told apart on grey paper.
//
// NaN, infinities and numbers beyond 1e300 are left out. The same input gives the same bytes, from any number of
// goroutines.
package chart

import (
	"html"
	"strings"

	"gonum.org/v1/plot/vg"
)

// Chart is what every kind of chart has.
type Chart struct {
	ID          string // unique in the page; the ids in the SVG start with it
	Title       string // plain text, read aloud
	Description string // plain text made from the values, read aloud after the title
}

// Axis is one axis; its title holds the unit: "Distance (cm)".
type Axis struct {
	Title  string
	Number func(text string) string // puts a mark's number into the form of a language; nil leaves it with a point
}

// Curve is a line through points; where one is left out, the line is broken.
type Curve struct {
	Label string
	X, Y  []float64
}

// Picture is a drawn chart. What the lines and markers mean stands at the lines' ends, where there is room, or else in
// the legend, which the page lays out as text.
type Picture struct {
	SVG    string
	Legend []Entry

	// Stretch says of a Path how many times larger one unit sideways is drawn than one unit forward; 0 for other kinds.
	Stretch float64
}

// Entry is one line of a legend. Its swatch is an inline SVG that readers aloud pass over; its label is plain text.
type Entry struct {
	Label, Swatch string
}

// Limits of what is read aloud, in characters.
const (
	titleLimit       = 200
	descriptionLimit = 4000
)

// pictureWidth is that of every picture, in the units of its viewBox.
const pictureWidth vg.Length = 400

// svg puts the drawing into its element.
func (h Chart) svg(c *canvas) string {
	id := identifier(h.ID)
	var b strings.Builder
	b.WriteString(`<svg class="chart" role="img" aria-labelledby="` + id + `-t ` + id + `-d" viewBox="` + c.box() + `">`)
	b.WriteString(`<title id="` + id + `-t">` + html.EscapeString(cut(tidy(h.Title), titleLimit)) + `</title>`)
	b.WriteString(`<desc id="` + id + `-d">` + html.EscapeString(cut(tidy(h.Description), descriptionLimit)) + `</desc>`)
	b.WriteString(c.body())
	b.WriteString(`</svg>`)
	return b.String()
}

// identifier makes of a caller's id one that may stand in a list of ids.
func identifier(id string) string {
	id = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '_' {
			return r
		}
		return '-'
	}, cut(id, 100))
	if id == "" {
		return "chart"
	}
	return id
}
