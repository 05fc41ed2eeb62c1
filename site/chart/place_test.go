package chart

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/plot/vg"
)

// near tells whether a drawing has what it should have, in any order, to 0.2 units.
func near(t *testing.T, what string, got, want []point) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d points, not %d", what, len(got), len(want))
	}
	for _, w := range want {
		if !slices.ContainsFunc(got, func(g point) bool { return math.Hypot(g.x-w.x, g.y-w.y) <= 0.2 }) {
			t.Errorf("%s: nothing at %v, but at %v", what, w, got)
		}
	}
}

func TestMarkersOfLinesStandAtTheirNumbers(t *testing.T) {
	l := sampleLines()
	all := read(t, l.Draw().SVG)
	x, y := scales(t, all)
	for i, class := range []string{"c1 f", "c2 f", "c3 f"} {
		var want []point
		for _, m := range l.Marks {
			if !math.IsNaN(m.Y[i]) {
				want = append(want, point{x.at(m.X), y.at(m.Y[i])})
			}
		}
		near(t, class, marked(t, paths(all, class)), want)
	}
	for i, class := range []string{"c1", "c2", "c3"} {
		drawn := parts(t, paths(all, class)[0].attrs["d"])[0]
		for k := range l.Curves[i].X {
			p := vg.Point{X: vg.Length(x.at(l.Curves[i].X[k])), Y: vg.Length(y.at(l.Curves[i].Y[k]))}
			if d := off(p, drawn); d > 0.2 {
				t.Fatalf("%s leaves its point %d by %v", class, k, d)
			}
		}
	}
}

// off is how far a point lies from a line.
func off(p vg.Point, line []point) float64 {
	best := math.Inf(1)
	for i := range line[1:] {
		a, b := line[i], line[i+1]
		best = min(best, distance(p, vg.Point{X: vg.Length(a.x), Y: vg.Length(a.y)},
			vg.Point{X: vg.Length(b.x), Y: vg.Length(b.y)}))
	}
	return best
}

func TestDotsStandAtTheirValues(t *testing.T) {
	d := sampleDots()
	all := read(t, d.Draw().SVG)
	x, _ := scales(t, all)
	var got, want []float64
	dots := paths(all, "c1 dot")
	for _, p := range marked(t, dots[:1]) {
		got = append(got, p.x)
	}
	for _, g := range d.Groups {
		for i, v := range g.Values {
			if i >= len(g.Odd) || !g.Odd[i] {
				want = append(want, x.at(v))
			}
		}
	}
	slices.Sort(got)
	slices.Sort(want)
	if len(got) != len(want) {
		t.Fatalf("%d dots for %d runs", len(got), len(want))
	}
	for i := range got {
		if math.Abs(got[i]-want[i]) > 0.2 {
			t.Errorf("a dot at %v, not at %v", got[i], want[i])
		}
	}
	rings := marked(t, dots[1:])
	if len(rings) != 1 || math.Abs(rings[0].x-x.at(129.5)) > 0.2 {
		t.Errorf("rings at %v, not at %v", rings, x.at(129.5))
	}
	for i, m := range means(t, all) {
		if math.Abs(m-x.at(d.Groups[i].Mean)) > 0.2 {
			t.Errorf("the mean of %s at %v, not at %v", d.Groups[i].Name, m, x.at(d.Groups[i].Mean))
		}
	}
	if goal := parts(t, paths(all, "goal")[0].attrs["d"])[0]; math.Abs(goal[0].x-x.at(120)) > 0.2 ||
		goal[0].x != goal[1].x {
		t.Errorf("target %v, not at %v", goal, x.at(120))
	}
}

func means(t *testing.T, all []element) []float64 {
	t.Helper()
	var xs []float64
	for _, e := range paths(all, "ink") {
		if e.attrs["stroke-width"] == "3" {
			for _, p := range parts(t, e.attrs["d"]) {
				xs = append(xs, p[0].x)
			}
		}
	}
	return xs
}

func TestEachOfManyEqualRunsIsSeen(t *testing.T) {
	d := sampleEqual()
	all := read(t, d.Draw().SVG)
	dots := paths(all, "c1 dot")
	got := marked(t, dots)
	if len(got) != 36 {
		t.Fatalf("%d dots for 36 runs", len(got))
	}
	wide := dots[0].number(t, "stroke-width")
	for i, a := range got {
		for _, b := range got[:i] {
			if math.Hypot(a.x-b.x, a.y-b.y) < wide-0.1 {
				t.Errorf("%v and %v lie on each other, %v wide", a, b, wide)
			}
		}
	}
}

func TestMeansAndTheirIntervalsStandAtTheirNumbers(t *testing.T) {
	for _, b := range []Bars{sampleBars(), sampleBelow()} {
		all := read(t, b.Draw().SVG)
		x, _ := scales(t, all)
		dots := marked(t, paths(all, "c1 f"))
		var whiskers [][]point
		for _, e := range paths(all, "ink") {
			if e.attrs["stroke-width"] == "2" {
				whiskers = append(whiskers, parts(t, e.attrs["d"])...)
			}
		}
		for _, g := range b.Groups {
			if math.IsNaN(g.Value) {
				continue
			}
			if math.Abs(dots[0].x-x.at(g.Value)) > 0.2 {
				t.Errorf("%s: a dot at %v, not at %v", g.Name, dots[0], x.at(g.Value))
			}
			dots = dots[1:]
			if math.IsNaN(g.Low) {
				continue
			}
			if l, h := whiskers[0][0].x, whiskers[1][0].x; math.Abs(l-x.at(g.Low)) > 0.2 || math.Abs(h-x.at(g.High)) > 0.2 {
				t.Errorf("%s: whiskers at %v and %v, not %v and %v", g.Name, l, h, x.at(g.Low), x.at(g.High))
			}
			whiskers = whiskers[3:]
		}
		if len(dots)+len(whiskers) > 0 {
			t.Errorf("%d dots and %d whiskers too many", len(dots), len(whiskers))
		}
	}
}

func TestAPathStandsAtItsNumbersAndTellsItsStretch(t *testing.T) {
	d := samplePath()
	p := d.Draw()
	all := read(t, p.SVG)
	x, y := scales(t, all)
	for i, class := range []string{"c1 f", "c2 f"} {
		var want []point
		for k := range d.Paths[i].X[1:] {
			want = append(want, point{x.at(d.Paths[i].X[k+1]), y.at(d.Paths[i].Y[k+1])})
		}
		near(t, class, marked(t, paths(all, class)), want)
	}
	if got := -y.unit / x.unit; math.Abs(got/p.Stretch-1) > 0.01 {
		t.Errorf("stretch %v, but drawn %v times as large", p.Stretch, got)
	}
	straight := parts(t, paths(all, "goal")[0].attrs["d"])[0]
	if straight[0].y != straight[1].y || math.Abs(straight[0].y-y.at(0)) > 0.2 || math.Abs(straight[0].x-x.at(0)) > 0.2 {
		t.Errorf("straight ahead is %v, not from (%v, %v)", straight, x.at(0), y.at(0))
	}
}

func TestReadingsAndStepsStandAtTheirNumbers(t *testing.T) {
	d := sampleSteps()
	d.Groups = d.Groups[:1]
	all := read(t, d.Draw().SVG)
	split := float64(pictureWidth) * panelPart
	var left, right []element // the readings and the steps, as if each had a picture of its own
	for _, e := range all {
		switch {
		case e.name == "text" && e.attrs["transform"] == "" && e.number(t, "x") >= split:
			right = append(right, e)
		case e.name == "path" && parts(t, e.attrs["d"])[0][0].x >= split:
			right = append(right, e)
		default:
			left = append(left, e)
		}
	}
	x, y := scales(t, left)
	_, up := scales(t, right)
	for i, class := range []string{"c1 f", "c1"} { // the second arrangement is hollow
		a := d.Groups[0].Arrangements[i]
		var want, steps []point
		for k := range a.X {
			want = append(want, point{x.at(a.X[k]), y.at(a.Y[k])})
			steps = append(steps, point{0, up.at(a.Steps[k])})
		}
		near(t, class, marked(t, paths(left, class)), want)
		at := marked(t, paths(right, class))
		for k := range at {
			at[k].x = 0
		}
		near(t, class+" steps", at, steps)
	}
	band := parts(t, paths(left, "band f")[0].attrs["d"])[0]
	half := d.Groups[0].Band
	near(t, "band", []point{band[1], band[4]}, []point{{x.at(1), y.at(half[1])}, {x.at(4), y.at(half[4])}})
	mean := parts(t, paths(right, "ink")[len(paths(right, "ink"))-1].attrs["d"])
	if got := mean[0][0].y; math.Abs(got-up.at(-10.25)) > 0.2 {
		t.Errorf("the mean step is at %v, not at %v", got, up.at(-10.25))
	}
}

// The line stands at its numbers, and what it leaves of each run is below: by hand 20.6 − 0.2 − 20.34 = 0.06.
func TestRunsStandAtTheirLineAndWhatItLeavesBelow(t *testing.T) {
	d := sampleFitted()
	all := read(t, d.Draw().SVG)
	var upper, lower []element // as if each had a picture of its own
	for _, e := range all {
		switch {
		case e.name == "text" && e.attrs["transform"] == "" && e.number(t, "y") > float64(fittedHeight):
			lower = append(lower, e)
		case e.name == "path" && parts(t, e.attrs["d"])[0][0].y > float64(fittedHeight):
			lower = append(lower, e)
		default:
			upper = append(upper, e)
		}
	}
	x, y := scales(t, upper)
	below, left := scales(t, lower)
	g := d.Groups[0]
	var want, rests []point
	for i := range g.X {
		want = append(want, point{x.at(g.X[i]), y.at(g.Y[i])})
		rests = append(rests, point{below.at(g.X[i]), left.at(g.Y[i] - g.Start - g.Slope*g.X[i])})
	}
	near(t, "runs", marked(t, paths(upper, "c1 f")), want)
	near(t, "what is left", marked(t, paths(lower, "c1 f")), rests)
	near(t, "line", parts(t, paths(upper, "c1")[0].attrs["d"])[0], []point{{x.at(1), y.at(20.54)}, {x.at(4), y.at(81.56)}})
	if math.Abs(g.Y[0]-g.Start-g.Slope-0.06) > 1e-9 {
		t.Error("by hand it is 0.06")
	}
	if marks := marked(t, paths(lower, "c2 f")); len(marks) > 0 {
		t.Errorf("without a line %v are left", marks)
	}
}
