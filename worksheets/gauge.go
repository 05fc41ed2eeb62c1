package worksheets

// What all measuring aids have in common: their kinds, which paper has room for which size, and drawing one at a place.
// Each kind has a file of its own.

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/worksheets/pdf"
)

// GaugeKind is one of the measuring aids that are printed at true scale.
type GaugeKind = lesson.GaugeKind

const (
	Ruler   = lesson.RulerGauge   // Size long
	Wrap    = lesson.WrapGauge    // a strip for wheels of a diameter up to Size
	Target  = lesson.TargetGauge  // a sheet whose zero line goes at the commanded distance Size
	Fan     = lesson.FanGauge     // drift angles from the start line, and what they come to over Size
	Rose    = lesson.RoseGauge    // degrees about the middle of a track of width Size
	Squares = lesson.SquaresGauge // squared paper, Size wide, for a plot
)

// Gauge is a measuring aid. Lengths are in millimetres.
type Gauge struct {
	Kind     GaugeKind
	Size     float64
	SizeText string // as the lesson writes it, such as 48 in
	Inches   bool   // asked for in inches
	Text     string // what is written at it; of squares along the foot
	Up       string // of squares: what is written along the side
	Signed   bool   // of squares: values along the side have signs
	Words    func(name string, args ...any) string
	Forms    quantity.Notation // of its numbers; nil leaves them as the program has them
}

// place is where a gauge lies on a page: its box, in millimetres from the top left.
type place struct{ X, Y, Width, Height float64 }

const (
	inch = 25.4 // millimetres, by definition

	gaugeHead     = 6      // of the line above gauges
	gaugeGap      = 5      // between gauges
	gaugeEdge     = 0.5    // from a gauge's box to its outermost lines, so that they lie inside
	captionHeight = 9      // room for two lines above a gauge
	captionSize   = 9      // points
	smallest      = 8      // points, of the numbers on gauges
	farthest      = 100000 // no robot on a table runs farther than 100 m
	nearly        = 1e-6   // a length this much too long is a rounding of floating point
)

// shape is what a kind of gauge brings along.
type shape struct {
	noun    string                        // in "… of 40 cm does not fit"
	room    func(g Gauge, on place) place // how much of a free place it takes
	least   func(g Gauge) float64         // the height of a place that is still worth having; nil if it never gives way
	largest func(on place) float64        // the greatest size that a place has room for
	stands  bool                          // it may stand upright along a page's side, to be longer
	lies    bool                          // its page may lie on its side
	draw    func(g Gauge, with pen, at place)
}

// shapes has every kind of gauge. A target, a fan and a rose fit on any paper, whatever their size.
var shapes = map[GaugeKind]shape{
	Ruler: {noun: "a ruler", stands: true, lies: true, largest: largestRuler,
		room: func(g Gauge, _ place) place { return sized(g.rulerRoom()) },
		draw: Gauge.drawRuler},
	Wrap: {noun: "a wrap strip for a wheel", stands: true, lies: true, largest: largestWrap,
		room: func(g Gauge, _ place) place { return sized(g.wrapRoom()) },
		draw: Gauge.drawWrap},
	Target: {noun: "a target", largest: anyDistance, least: Gauge.leastTarget,
		room: func(g Gauge, on place) place { return sized(g.targetOn(on).room()) },
		draw: func(g Gauge, with pen, at place) { g.drawTarget(with, at, g.targetOn(at)) }},
	Fan: {noun: "a fan", largest: anyDistance, least: Gauge.leastFan,
		room: func(g Gauge, on place) place { return sized(on.Width, g.fanHeight(on)) },
		draw: Gauge.drawFan},
	Rose: {noun: "a rose", // a track too wide for it is left out of it
		largest: func(place) float64 { return math.MaxFloat64 }, least: Gauge.leastRose,
		room: func(g Gauge, on place) place { return sized(g.roseRoom(on)) },
		draw: Gauge.drawRose},
	Squares: {noun: "squared paper", lies: true, largest: largestSquares, least: Gauge.leastSquares,
		room: func(g Gauge, on place) place { return sized(g.squaresRoom(on)) },
		draw: Gauge.drawSquares},
}

func sized(width, height float64) place { return place{Width: width, Height: height} }

func anyDistance(place) float64 { return farthest }

// Fit is how a gauge lies on a page of its own.
type Fit struct {
	Width, Height float64 // as it is read, left to right
	Upright       bool    // it stands along the page's side, read from below
	Lying         bool    // the page must lie on its side
}

// levelRoom, sideRoom and lyingRoom are what a page has room for: below its line and above its check bar, along its
// side, and on its side.
func levelRoom(p Paper) place {
	return sized(p.Width-2*Margin-edgeWidth, p.Height-2*Margin-footerHeight-gaugeHead-checkRoom)
}
func sideRoom(p Paper) place {
	return sized(p.Height-2*Margin-footerHeight, p.Width-2*Margin-edgeWidth)
}
func lyingRoom(p Paper) place {
	return sized(p.Height-2*Margin, p.Width-2*Margin-footerHeight-gaugeHead-checkRoom)
}

// Room says how a gauge lies on a paper. The error, for a coach, says what does not fit and what would.
func (g Gauge) Room(p Paper) (Fit, error) {
	s, ok := shapes[g.Kind]
	switch {
	case !ok:
		return Fit{}, errors.New("there is no gauge called " + string(g.Kind))
	case !(g.Size > 0) || math.IsInf(g.Size, 0): // NaN too
		return Fit{}, errors.New("the size of this gauge must be a length above 0")
	}
	fits := func(on place) bool { return g.Size <= s.largest(on)+nearly }
	switch {
	case fits(levelRoom(p)):
		room := s.room(g, levelRoom(p))
		return Fit{Width: room.Width, Height: room.Height}, nil
	case s.stands && fits(sideRoom(p)):
		room := s.room(g, sideRoom(p))
		return Fit{Width: room.Width, Height: room.Height, Upright: true}, nil
	case s.lies && fits(lyingRoom(p)):
		room := s.room(g, lyingRoom(p))
		return Fit{Width: room.Width, Height: room.Height, Lying: true}, nil
	}
	largest := s.largest(levelRoom(p))
	if s.stands {
		largest = max(largest, s.largest(sideRoom(p)))
	}
	if s.lies {
		largest = max(largest, s.largest(lyingRoom(p)))
	}
	return Fit{}, g.tooLarge(p, largest)
}

// tooLarge is the error of a size that does not fit: what was asked for, and the largest that would.
func (g Gauge) tooLarge(p Paper, largest float64) error {
	if largest == farthest {
		return fmt.Errorf("the distance of a %s can be at most 100 m; this is %s", g.Kind, g.sizeText())
	}
	paper := strings.ToUpper(p.Name[:1]) + p.Name[1:] + " paper"
	// Rounded down, so that what is offered does fit.
	fits := fmt.Sprintf("%.0f mm", math.Floor(largest+nearly))
	if g.Inches {
		fits = fmt.Sprintf("%g in", math.Floor(4*largest/inch+nearly)/4)
	}
	return errors.New(shapes[g.Kind].noun + " of " + g.sizeText() + " does not fit on " + paper +
		"; the largest that fits is " + fits)
}

// sizeText is the size as the lesson writes it, else in the unit that it was asked for in.
func (g Gauge) sizeText() string {
	switch {
	case g.SizeText != "":
		return g.written(g.SizeText)
	case g.Inches:
		return g.written(fmt.Sprintf("%.4g in", g.Size/inch))
	}
	return g.written(fmt.Sprintf("%.4g mm", g.Size))
}

// captionRoom is what the caption takes above a gauge.
func (g Gauge) captionRoom() float64 {
	if g.Text == "" {
		return 0
	}
	return captionHeight
}

// draw draws the gauge into its box on the current page.
func (g Gauge) draw(doc *pdf.Document, at place) {
	doc.In(pdf.Figure, func() { shapes[g.Kind].draw(g, pen{doc}, at) },
		pdf.Alt(g.about()), doc.Around(at.X, at.Y, at.Width, at.Height))
	pen{doc}.down()
}

// stand draws the gauge upright: read from below, its zero at the foot of a strip whose top left corner is given.
func (g Gauge) stand(doc *pdf.Document, x, y float64, box place) {
	foot := y + box.Width
	doc.In(pdf.Figure, func() {
		doc.Upwards(x, foot, func() { shapes[g.Kind].draw(g, pen{doc}, place{x, foot, box.Width, box.Height}) })
	}, pdf.Alt(g.about()), doc.Around(x, y, box.Height, box.Width))
	pen{doc}.down()
}

// units gives the unit of the numbers on a gauge, the distance of its marks in
// millimetres, and how many marks make one of the unit.
func (g Gauge) units() (unit string, step float64, marks int) {
	if g.Inches {
		return "in", inch / 16, 16
	}
	return "cm", 1, 10
}

// about says in words what the gauge is, for those who do not see it.
func (g Gauge) about() string {
	return strings.TrimSpace(g.say("gauge-"+string(g.Kind)) + ", " + g.sizeText() + g.colon() + g.Text)
}

// written puts a number of ours into the form of the language.
func (g Gauge) written(text string) string { return quantity.TextIn(g.Forms, text) }
