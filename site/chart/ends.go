package chart

// The names of curves at the ends of their lines, in place of a legend, where there is room for them.

import (
	"cmp"
	"slices"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const (
	endLimit  vg.Length = 120 // how wide a name may be; a longer one has more lines
	endLines            = 3   // at most
	endGap    vg.Length = 6   // between a line and its name
	endOff    vg.Length = 14  // how far from the end of its line a name may be moved
	endShort            = 0.1 // of the axis: a line that ends earlier has its name in the legend
	mostNamed           = 4   // curves; more are better told apart in a legend
)

// endNames are the names of curves, in lines.
type endNames struct {
	text  []string
	width vg.Length
}

// endNames wraps the names of curves and makes room for them at the right; not if one of them is too long.
func (f *frame) endNames(curves []Curve) (endNames, bool) {
	var all endNames
	for _, c := range curves {
		name, ok := f.text.stacked(tidy(c.Label), endLimit, endLines)
		if !ok {
			return endNames{}, false
		}
		for line := range strings.SplitSeq(name, "\n") {
			all.width = max(all.width, f.text.width(line))
		}
		all.text = append(all.text, name)
	}
	if n := len(curves); n < 2 || n > mostNamed {
		return endNames{}, false
	}
	f.area = draw.Crop(f.area, 0, -all.width-endGap+side/2, 0, 0)
	return all, true
}

// room is that of endNames, if they are wanted.
func (f *frame) room(named bool, curves []Curve) (endNames, bool) {
	if !named {
		return endNames{}, true
	}
	return f.endNames(curves)
}

// stacked breaks a text into a few lines, between words.
func (l lettering) stacked(s string, limit vg.Length, most int) (string, bool) {
	if s == "" || len([]rune(s)) > longest {
		return "", false
	}
	var lines []string
	for _, word := range strings.Fields(s) {
		if n := len(lines); n > 0 && l.width(lines[n-1]+" "+word) <= limit {
			lines[n-1] += " " + word
		} else {
			lines = append(lines, word)
		}
	}
	wide := slices.ContainsFunc(lines, func(line string) bool { return l.width(line) > limit })
	return strings.Join(lines, "\n"), !wide && len(lines) <= most
}

// named places the names, the axes being set; not if they would run into each other or far from their lines.
func (f *frame) named(names endNames, curves []Curve) (plot.Plotter, bool) {
	c := f.DataCanvas(f.area)
	toX, toY := f.Transforms(&c)
	sty := f.text.style(draw.XLeft, draw.YCenter)
	type place struct{ want, at, half vg.Length }
	places := make([]place, len(curves))
	order := make([]int, len(curves))
	for i, curve := range curves {
		end := lastPoint(curve)
		if end < 0 || toX(curve.X[end]) < c.Max.X-endShort*c.Size().X {
			return nil, false
		}
		half := sty.Height(names.text[i])/2 + 1
		want := toY(curve.Y[end])
		places[i], order[i] = place{want, max(want, c.Min.Y+half-2), half}, i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(places[i].want, places[j].want) })
	for k, i := range order[1:] { // each above the one below it
		below := places[order[k]]
		places[i].at = max(places[i].at, below.at+below.half+places[i].half)
	}
	for _, p := range places {
		if p.at > p.want+endOff || p.at < p.want-endOff || p.at+p.half > c.Max.Y+top+2 {
			return nil, false
		}
	}
	return drawing(func(c draw.Canvas, _ *plot.Plot) {
		for i, p := range places {
			c.FillText(sty, vg.Point{X: c.Max.X + endGap, Y: p.at}, names.text[i])
		}
	}), true
}

// lastPoint is the place of a curve's last point that is drawn, or -1.
func lastPoint(c Curve) int {
	for i := min(len(c.X), len(c.Y)) - 1; i >= 0; i-- {
		if drawable(c.X[i], c.Y[i]) {
			return i
		}
	}
	return -1
}
