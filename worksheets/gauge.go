package worksheets

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"trundle/generator/lesson"
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

// Room says how large a gauge is on a paper, and whether its page must lie on its side.
// The error, for a coach, says what does not fit and what would.
func (g Gauge) Room(p Paper) (w, h float64, landscape bool, err error) {
	if !(g.Size > 0) || math.IsInf(g.Size, 0) { // NaN too
		return 0, 0, false, errors.New("the size of this gauge must be a length above 0")
	}
	upright := place{Width: p.Width - 2*Margin, Height: p.Height - 2*Margin - gaugeFree}
	lying := place{Width: p.Height - 2*Margin, Height: p.Width - 2*Margin - gaugeFree}
	var on, onSide float64
	switch g.Kind {
	case Ruler:
		w, h = g.rulerRoom()
		on, onSide = largestRuler(upright), largestRuler(lying)
	case Wrap:
		w, h = g.wrapRoom()
		on, onSide = largestWrap(upright), largestWrap(lying)
	case Squares:
		w, h = g.squaresRoom()
		on, onSide = largestSquares(upright), largestSquares(lying)
	case Target:
		w, h = g.targetOn(upright).room()
		on = farthest
	case Fan:
		w, h = upright.Width, g.fanHeight(upright)
		on = farthest
	case Rose:
		w, h = g.roseRoom(upright)
		on = math.MaxFloat64 // a track too wide for the rose is left out of it
	default:
		return 0, 0, false, errors.New("there is no gauge called " + string(g.Kind))
	}
	if g.Size > max(on, onSide)+nearly {
		return 0, 0, false, g.tooLarge(p, max(on, onSide))
	}
	return w, h, g.Size > on+nearly, nil
}

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
	what := "a " + string(g.Kind)
	switch g.Kind { // the others: they go by their keyword
	case Wrap:
		what = "a wrap strip for a wheel"
	case Squares:
		what = "squared paper"
	}
	return errors.New(what + " of " + g.sizeText() + " does not fit on " + paper + "; the largest that fits is " + fits)
}

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

// draw draws the gauge with its top left corner at x, y on the current page.
func (g Gauge) draw(pdf page, x, y float64) {
	width, height := pdf.GetPageSize()
	p := Paper{"paper", min(width, height), max(width, height)}
	w, h, _, err := g.Room(p)
	if err != nil {
		pdf.SetError(err)
		return
	}
	at := place{x, y, w, h}
	upright := place{Width: p.Width - 2*Margin, Height: p.Height - 2*Margin - gaugeFree}
	with := pen{pdf}
	switch g.Kind {
	case Ruler:
		g.drawRuler(with, at)
	case Wrap:
		g.drawWrap(with, at)
	case Target:
		g.drawTarget(with, at, g.targetOn(upright))
	case Fan:
		g.drawFan(with, at)
	case Rose:
		g.drawRose(with, at)
	case Squares:
		g.drawSquares(with, at)
	}
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
