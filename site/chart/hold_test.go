package chart

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"
)

// allowed are the elements and attributes a picture may have; a style or a handler is none of them.
var allowed = map[string]string{
	"svg": "class role aria-labelledby viewBox aria-hidden", "title": "id", "desc": "id", "g": "text-anchor",
	"path": "class stroke-width stroke-dasharray d", "text": "x y transform",
}

// sound holds what is true of every picture.
func sound(t failer, p Picture) []element {
	t.Helper()
	all := read(t, p.SVG)
	for _, e := range all {
		for name := range e.attrs {
			if !strings.Contains(" "+allowed[e.name]+" ", " "+name+" ") {
				t.Errorf("a picture may not have %s %s", e.name, name)
			}
		}
	}
	if strings.Contains(p.SVG, "NaN") || strings.Contains(p.SVG, "Inf") {
		t.Errorf("a number that is none: %.3000s", p.SVG)
	}
	svg := all[0]
	if svg.name != "svg" || svg.attrs["role"] != "img" || svg.attrs["class"] != "chart" {
		t.Errorf("begins with %v", svg)
	}
	if want := all[1].attrs["id"] + " " + all[2].attrs["id"]; all[1].name != "title" || all[2].name != "desc" ||
		svg.attrs["aria-labelledby"] != want {
		t.Errorf("labelled by %q, not %q", svg.attrs["aria-labelledby"], want)
	}
	inside(t, all)
	for _, e := range p.Legend {
		if swatch := read(t, e.Swatch)[0]; swatch.attrs["aria-hidden"] != "true" || swatch.attrs["class"] != "swatch" {
			t.Errorf("swatch %v", swatch)
		}
	}
	return all
}

// inside holds that all text lies in the viewBox, and no two texts on each other.
func inside(t failer, all []element) {
	t.Helper()
	var w, h float64
	if _, err := fmt.Sscanf(all[0].attrs["viewBox"], "0 0 %f %f", &w, &h); err != nil {
		t.Fatalf("viewBox: %v", err)
	}
	type box struct {
		text           string
		x0, y0, x1, y1 float64
	}
	l := newLettering(newCanvas(1, 1))
	var boxes []box
	for _, e := range named(all, "text") {
		wide := float64(l.width(e.text))
		back := map[string]float64{"start": 0, "middle": wide / 2, "end": wide}[e.anchor]
		var b box
		if turned := e.attrs["transform"]; turned != "" {
			var x, y float64
			if _, err := fmt.Sscanf(turned, "translate(%f %f)rotate(-90)", &x, &y); err != nil {
				t.Fatalf("%s: %v", turned, err)
			}
			b = box{e.text, x - 9, y - back, x + 1, y - back + wide}
		} else {
			x, y := e.number(t, "x"), e.number(t, "y")
			b = box{e.text, x - back, y - 9, x - back + wide, y + 1}
		}
		if b.x0 < -1 || b.y0 < -1 || b.x1 > w+1 || b.y1 > h+1 {
			t.Errorf("%q lies outside: %v in %v × %v", e.text, b, w, h)
		}
		for _, o := range boxes {
			if b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 {
				t.Errorf("%v lies on %v", b, o)
			}
		}
		boxes = append(boxes, b)
	}
}

func TestPicturesAreSound(t *testing.T) {
	for name, draw := range samples() {
		t.Run(name, func(t *testing.T) { sound(t, draw()) })
	}
}

func TestPicturesAreSmall(t *testing.T) {
	for name, draw := range samples() {
		p, most := draw(), 4608
		if name == "steps" { // two panels for each of two groups
			most = 5120
		}
		if name != "dots-many" && (len(p.SVG) > most || packed(t, p.SVG) > 1536) {
			t.Errorf("%s has %d bytes, %d packed", name, len(p.SVG), packed(t, p.SVG))
		}
	}
	for _, groups := range []int{1, 4, 20} {
		d := sampleMany(groups, 100_000/groups)
		for _, g := range d.Groups {
			for i := range g.Odd {
				g.Odd[i] = i%3 == 0
			}
		}
		if p := d.Draw(); len(p.SVG) > 60_000 {
			t.Errorf("100,000 runs of %d groups have %d bytes", groups, len(p.SVG))
		}
	}
}

func TestSameInputGivesSameBytesSideBySide(t *testing.T) {
	all := samples()
	want := map[string]string{}
	for name, draw := range all {
		want[name] = fmt.Sprint(draw())
	}
	var wait sync.WaitGroup
	for range 4 {
		for name, draw := range all {
			wait.Go(func() {
				if got := fmt.Sprint(draw()); got != want[name] {
					t.Errorf("%s is another beside others", name)
				}
			})
		}
	}
	wait.Wait()
}

func TestSeriesAreToldApartWithoutColour(t *testing.T) {
	seen := map[string]bool{}
	for i := range series(36) {
		d, m := fmt.Sprint(i.line().Dashes), fmt.Sprint(i.glyph().Shape)
		if seen[d+m] || i < colours && (seen[d] || seen[m]) {
			t.Errorf("series %d looks like one before: dashes %s, marker %s", i, d, m)
		}
		seen[d], seen[m], seen[d+m] = true, true, true
	}
	p := sampleSix().Draw()
	swatches := map[string]bool{}
	for _, e := range p.Legend {
		swatches[regexp.MustCompile(`c\d`).ReplaceAllString(e.Swatch, "")] = true
	}
	if len(swatches) != 8 {
		t.Errorf("%d swatches for 8 series", len(swatches))
	}
}

func TestAnyTextIsEscapedAndBounded(t *testing.T) {
	for _, s := range []string{
		`<script>alert("1")</script>`, `" onload="x`, "a & b ' c", strings.Repeat("W", 10_000),
		strings.Repeat("wide words ", 1000),
		"מסלול ישר", "\u202eturned", "🤖🦆👩\u200d🔧 robots of all kinds", "two\nlines\tand a tab", "\x00\x1b\xff",
		"e\u0301\u0301\u0301" + strings.Repeat("\u0301", 500),
		"", " ", "Distance from the start line to the lock gate of the upper canal (cm)", "((((", "x ()",
	} {
		h, a := Chart{s, s, s}, Axis{Title: s}
		l := sampleLines()
		l.Chart, l.X, l.Y, l.Curves[0].Label, l.Marks[0].Label, l.Marks[1].Label = h, a, a, s, s, s
		d := sampleDots()
		d.Chart, d.Value, d.Groups[0].Name, d.Words = h, a, s, DotWords{s, s, s, s, s}
		b := sampleBars()
		b.Chart, b.Value, b.Groups[0].Name, b.Words = h, a, s, BarWords{s, s, s}
		w := samplePath()
		w.Chart, w.Forward, w.Sideways, w.Words = h, a, a, PathWords{s, s}
		c := sampleSteps()
		c.Chart, c.Cycle, c.Offset, c.Step, c.Groups[0].Name = h, a, a, a, s
		fit := sampleFitted()
		fit.Chart, fit.X, fit.Y, fit.Left, fit.Groups[0].Label = h, a, a, a, s
		for _, p := range []Picture{l.Draw(), d.Draw(), b.Draw(), w.Draw(), c.Draw(), fit.Draw()} {
			sound(t, p)
			if len(p.SVG) > 12_000 {
				t.Errorf("%.20q gives %d bytes", s, len(p.SVG))
			}
		}
	}
}

func TestAUnitStaysWhereATitleIsCut(t *testing.T) {
	d := sampleDots()
	d.Value = Axis{Title: strings.Repeat("Distance from the start line ", 6) + "(cm)"}
	if svg := d.Draw().SVG; !strings.Contains(svg, "… (cm)") {
		t.Errorf("the unit is gone: %s", svg)
	}
}

func TestMinusSignsAndGreatNumbers(t *testing.T) {
	for _, c := range []struct {
		v, largest float64
		power      int
		want       string
	}{
		{-5, 20, 0, "−5"}, {0, 1e9, 8, "0"}, {2.5, 4, -1, "2.5"}, {2, 4, -1, "2.0"}, {2e7, 4e7, 7, "2×10⁷"},
		{-2.5e-7, 1e-6, -8, "−2.5×10⁻⁷"}, {1e300, 2e300, 299, "1×10³⁰⁰"},
	} {
		if got := tickLabel(c.v, c.largest, c.power); got != c.want {
			t.Errorf("%v is written %s, not %s", c.v, got, c.want)
		}
	}
}

// awkward are numbers that break careless arithmetic.
var awkward = []float64{
	0, 1, -1, 100, 100, math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1e300, math.MaxFloat64, -math.MaxFloat64, 5e-324,
	1e-300, -1e-299, 1e16, 1e16 + 2,
	0.1, 0.30000000000000004, 1e6, 999999.5, 1e-5, 123456789,
}

func TestNoNumbersBreakAPicture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.OneOf(rapid.SampledFrom(awkward), rapid.Float64Range(-200, 200), rapid.Float64())
		values := rapid.SliceOfN(value, 0, 12)
		v := func() float64 { return value.Draw(t, "value") }
		vs := func() []float64 { return values.Draw(t, "values") }
		n := rapid.IntRange(0, 4).Draw(t, "groups")
		l := Lines{X: Axis{Title: "Time (s)"}, Y: Axis{Title: "Distance (cm)"}}
		d, b := Dots{Value: Axis{Title: "Stop (cm)"}, Target: v()}, Bars{From: v(), Target: v()}
		p := Path{Forward: Axis{Title: "Forward (cm)"}}
		c := Steps{Offset: Axis{Title: "Offset (mm)"}, Step: Axis{Title: "Step (mm)"}}
		fit := Fitted{X: Axis{Title: "Rotations"}, Left: Axis{Title: "Off line (mm)"}}
		for i := range n {
			fit.Groups = append(fit.Groups, FittedGroup{"Heron", vs(), vs(), v(), v()})
			l.Curves = append(l.Curves, Curve{[]string{"First leg", "Both of them together"}[i%2], vs(), vs()})
			l.Marks = append(l.Marks, Mark{Label: []string{"", "Gate", "A longer name"}[i%3], X: v(), Y: vs()})
			d.Groups = append(d.Groups, Group{Name: "Heron", Values: vs(), Odd: []bool{i > 1}, Mean: v()})
			b.Groups = append(b.Groups, Bar{"Heron", v(), v(), v()})
			p.Paths = append(p.Paths, Curve{"Left wheel a little slower", vs(), vs()})
			c.Groups = append(c.Groups, Stepped{"Heron", []Stepping{{vs(), vs(), vs(), v(), v(), v()}}, vs()})
		}
		for _, drawn := range []Picture{l.Draw(), d.Draw(), b.Draw(), p.Draw(), c.Draw(), fit.Draw()} {
			sound(t, drawn)
		}
	})
}

func TestMarksAreFewAndRound(t *testing.T) {
	round := regexp.MustCompile(`^(0|−?[\d.]+(×10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?)$`)
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-9e6, 9e6).Draw(t, "low")
		wide := nothing.with(low, low+math.Pow(10, rapid.Float64Range(-8, 5.9).Draw(t, "size"))).roomy(0.05)
		f := newFrame(260, Axis{Title: "Time (s)"}, Axis{Title: "Distance (cm)"})
		f.up(wide)
		f.across(wide, false)
		x, y := f.X.Tick.Marker.Ticks(wide.low, wide.high), f.Y.Tick.Marker.Ticks(wide.low, wide.high)
		least := 2
		if wide.high-wide.low < max(-wide.low, wide.high)*2e-3 {
			least = 1 // Numbers with so many digits that two may not find room.
		}
		if len(x) < least || len(x) > 11 || len(y) < 3 || len(y) > 10 {
			t.Errorf("%d marks across and %d up from %v to %v", len(x), len(y), wide.low, wide.high)
		}
		for _, m := range append(x, y...) {
			if !round.MatchString(m.Label) || m.Value < wide.low-(wide.high-wide.low)*1e-6 ||
				m.Value > wide.high+(wide.high-wide.low)*1e-6 {
				t.Errorf("mark %+v from %v to %v", m, wide.low, wide.high)
			}
		}
	})
}

func TestStyleSheetKnowsEveryClassAndColoursStandOut(t *testing.T) {
	b, err := os.ReadFile("../styles/chart.css")
	if err != nil {
		t.Fatal(err)
	}
	light, dark, _ := strings.Cut(string(b), "@media (prefers-color-scheme: dark)")
	for name, draw := range samples() {
		for _, m := range regexp.MustCompile(`class="([^"]+)"`).FindAllStringSubmatch(draw().SVG, -1) {
			for class := range strings.FieldsSeq(m[1]) {
				if !strings.Contains(light, "."+class+" ") {
					t.Errorf("%s has a class %q that has no style", name, class)
				}
			}
		}
	}
	for i := range series(colours) {
		colour := regexp.MustCompile(`\.` + string(i.paint()) + ` \{ color: #([0-9a-f]+)`)
		onLight := colour.FindStringSubmatch(light)[1]
		onDark := onLight
		if m := colour.FindStringSubmatch(dark); m != nil {
			onDark = m[1]
		}
		if c := contrast(t, onLight, "fff"); c < 3 {
			t.Errorf("%s has %.2f:1 on white", i.paint(), c)
		}
		if c := contrast(t, onDark, "1f2427"); c < 3 {
			t.Errorf("%s has %.2f:1 on the dark sheet", i.paint(), c)
		}
	}
}

// contrast is that of WCAG 2.2.
func contrast(t *testing.T, a, b string) float64 {
	t.Helper()
	la, lb := luminance(t, a), luminance(t, b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	if len(hex) == 3 {
		hex = string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
	}
	sum := 0.0
	for i, share := range []float64{0.2126, 0.7152, 0.0722} {
		n, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		v := float64(n) / 255
		if v <= 0.04045 {
			sum += share * v / 12.92
		} else {
			sum += share * math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return sum
}

func BenchmarkDraw(b *testing.B) {
	for name, draw := range samples() {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				draw()
			}
		})
	}
}
