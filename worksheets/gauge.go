package worksheets

// What all measuring aids have in common: their kinds, which paper has room for which size, and drawing one at a place.
// Each kind has a file of its own.

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"trundle/generator/lesson"
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
	Words    func(name string, args ...any) string
}

// place is where a gauge lies on a page: its box, in millimetres from the top left.
type place struct{ X, Y, Width, Height float64 }

const (
	inch = 25.4 // millimetres, by definition

	gaugeFree     = 36     // what heading, check bar and footer take of a gauge's page
	gaugeEdge     = 0.5    // from a gauge's box to its outermost lines, so that they lie inside
	captionHeight = 9      // room for two lines above a gauge
	captionSize   = 9      // points
	farthest      = 100000 // no robot on a table runs farther than 100 m
	nearly        = 1e-6   // a length this much too long is a rounding of floating point
)

// shape is what a kind of gauge brings along.
type shape struct {
	noun    string                        // in "… of 40 cm does not fit"
	room    func(g Gauge, on place) place // how much of an upright page it takes
	largest func(on place) float64        // the greatest size that a page has room for
	lies    bool                          // it may lie on its side, to be larger
	draw    func(g Gauge, with pen, at, on place)
}

// shapes has every kind of gauge. A target, a fan and a rose fit on any paper, whatever their size.
var shapes = map[GaugeKind]shape{
	Ruler: {noun: "a ruler", lies: true, largest: largestRuler,
		room: func(g Gauge, _ place) place { return sized(g.rulerRoom()) },
		draw: func(g Gauge, with pen, at, _ place) { g.drawRuler(with, at) }},
	Wrap: {noun: "a wrap strip for a wheel", lies: true, largest: largestWrap,
		room: func(g Gauge, _ place) place { return sized(g.wrapRoom()) },
		draw: func(g Gauge, with pen, at, _ place) { g.drawWrap(with, at) }},
	Target: {noun: "a target", largest: anyDistance,
		room: func(g Gauge, on place) place { return sized(g.targetOn(on).room()) },
		draw: func(g Gauge, with pen, at, on place) { g.drawTarget(with, at, g.targetOn(on)) }},
	Fan: {noun: "a fan", largest: anyDistance,
		room: func(g Gauge, on place) place { return sized(on.Width, g.fanHeight(on)) },
		draw: func(g Gauge, with pen, at, _ place) { g.drawFan(with, at) }},
	Rose: {noun: "a rose", // a track too wide for it is left out of it
		largest: func(place) float64 { return math.MaxFloat64 },
		room:    func(g Gauge, on place) place { return sized(g.roseRoom(on)) },
		draw:    func(g Gauge, with pen, at, _ place) { g.drawRose(with, at) }},
	Squares: {noun: "squared paper", lies: true, largest: largestSquares,
		room: func(g Gauge, _ place) place { return sized(g.squaresRoom()) },
		draw: func(g Gauge, with pen, at, _ place) { g.drawSquares(with, at) }},
}

func sized(width, height float64) place { return place{Width: width, Height: height} }

func anyDistance(place) float64 { return farthest }

// Fit is how a gauge lies on a page.
type Fit struct {
	Width, Height float64
	Lying         bool // the page must lie on its side
}

// uprightRoom and lyingRoom are what a page has room for, as it stands and on its side.
func uprightRoom(p Paper) place { return sized(p.Width-2*Margin, p.Height-2*Margin-gaugeFree) }
func lyingRoom(p Paper) place   { return sized(p.Height-2*Margin, p.Width-2*Margin-gaugeFree) }

// Room says how a gauge lies on a paper. The error, for a coach, says what does not fit and what would.
func (g Gauge) Room(p Paper) (Fit, error) {
	s, ok := shapes[g.Kind]
	switch {
	case !ok:
		return Fit{}, errors.New("there is no gauge called " + string(g.Kind))
	case !(g.Size > 0) || math.IsInf(g.Size, 0): // NaN too
		return Fit{}, errors.New("the size of this gauge must be a length above 0")
	}
	stands := s.largest(uprightRoom(p))
	largest := stands
	if s.lies {
		largest = max(stands, s.largest(lyingRoom(p)))
	}
	if g.Size > largest+nearly {
		return Fit{}, g.tooLarge(p, largest)
	}
	room := s.room(g, uprightRoom(p))
	return Fit{room.Width, room.Height, g.Size > stands+nearly}, nil
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
	if g.SizeText != "" {
		return g.SizeText
	}
	if g.Inches {
		return fmt.Sprintf("%.4g in", g.Size/inch)
	}
	return fmt.Sprintf("%.4g mm", g.Size)
}

// captionRoom is what the caption takes above a gauge.
func (g Gauge) captionRoom() float64 {
	if g.Text == "" {
		return 0
	}
	return captionHeight
}

// draw draws the gauge with its top left corner at x, y on the current page; nothing if it has no room there.
func (g Gauge) draw(doc *pdf.Document, x, y float64) {
	width, height := doc.PageSize()
	p := Paper{"paper", min(width, height), max(width, height)}
	fit, err := g.Room(p)
	if err != nil {
		return
	}
	with := pen{doc}
	doc.In(pdf.Figure, func() {
		shapes[g.Kind].draw(g, with, place{x, y, fit.Width, fit.Height}, uprightRoom(p))
	}, pdf.Alt(g.about()), doc.Around(x, y, fit.Width, fit.Height))
	with.down()
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
	return strings.TrimSpace(shapes[g.Kind].noun + ", " + g.sizeText() + ": " + g.Text)
}
