package figure

// The chart of one column over another: its picture, and a table of its lines.

import (
	"math"
	"strconv"

	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/site/chart"
)

// fitted draws runs with the line through them. A line that students work out is not drawn, nor what it leaves.
func (w *writer) fitted(f *Figure, d *work.Data, head chart.Chart) {
	c := d.Chart
	x, y := w.axis(c.XUnit), w.axis(c.YUnit)
	across, up := titled(c.XTitle, w.Unit(x.in.Symbol())), titled(c.YTitle, w.Unit(y.in.Symbol()))
	p := chart.Fitted{Chart: head, X: w.chartAxis(across), Y: w.chartAxis(up),
		Left: w.chartAxis(titled(w.Say("chart-fit-left"), w.Unit(y.in.Symbol())))}
	t := Numbers{Caption: up, Heads: []string{d.GroupTitle, w.Say("runs-n"), titled(w.Say("chart-fit-slope"),
		w.Unit(c.Per.Unit.Symbol())), w.Say("runs-interval"), titled(w.Say("chart-fit-start"), w.Unit(y.in.Symbol())),
		w.Say("runs-interval"), titled(w.Say("chart-fit-residual"), w.Unit(y.in.Symbol()))}}
	var says []string
	for _, g := range c.Fits {
		slope, start, through := w.asks(g.SlopeAnswer), w.asks(g.StartAnswer), w.asks(g.ThroughAnswer)
		drawn := chart.FittedGroup{Label: g.Name, X: g.X, Y: g.Y, Start: math.NaN(), Slope: math.NaN()}
		if g.OK {
			if slope == nil && start == nil && through == nil {
				drawn.Start, drawn.Slope = g.Fit.Start, g.Fit.Slope
			}
			name := g.Name
			if name == "" {
				name = w.Say("chart-fit-runs")
			}
			per, per95 := w.estimate(c.Per.Unit, g.Fit.Slope*c.Per.Number, g.Fit.Half*c.Per.Number, slope)
			at0, at95 := w.estimate(c.YUnit, g.Fit.Start, g.Fit.StartHalf, start)
			straight, straight95 := w.estimate(c.Per.Unit, g.Fit.Through*c.Per.Number, g.Fit.HalfOrigin*c.Per.Number, through)
			t.Rows = append(t.Rows,
				[]string{name, strconv.Itoa(g.Fit.N), per, per95, at0, at95, w.rest(c.YUnit, g.Fit.Residual)},
				[]string{w.Say("chart-fit-origin", name), strconv.Itoa(g.Fit.N), straight, straight95, "0", missingNumber,
					w.rest(c.YUnit, g.Fit.ResidualOrigin)})
			says = append(says, w.Say("chart-fit", name, amountIn(w.Words, per, c.Per.Unit),
				amountIn(w.Words, at0, y.in)))
		}
		p.Groups = append(p.Groups, drawn)
	}
	p.Description = described(says)
	f.Tables, f.Note = append(f.Tables, t), w.Say("chart-fit-note")
	f.show(p.Draw())
}

// estimate writes a number and its interval, to the place at which the interval has two digits.
func (w *writer) estimate(u quantity.Unit, x, half float64, asked *work.Answer) (number, interval string) {
	a := w.axis(u)
	if !(half > 0) {
		return a.numberOf(x, asked), missingNumber
	}
	if a.places = twoDigits(half); asked != nil {
		by := programmed(half)
		return a.numberOf(x, asked), a.or("", asked.Then(by+" -"), false) + " … " + a.or("", asked.Then(by+" +"), false)
	}
	return a.number(x), a.interval(x-half, x+half)
}

// rest writes what runs are off a line by.
func (w *writer) rest(u quantity.Unit, s float64) string {
	a := w.axis(u)
	if s > 0 {
		a.places = twoDigits(s)
	}
	return a.number(s)
}
