package worksheets

// What is printed of a gauge is measured: its marks lie where they must, and no ink lies beside it.

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"trundle/generator/lesson"

	"github.com/goccy/go-yaml"
)

// The gauges in pixels: each is printed on a page of its own, rasterised, and its marks
// are found and held against where they must be.

// A mark is found by the middle of its ink, in shades of grey, so that it lies within a tenth of a dot: at
// 300 dots an inch that is a hundredth of a millimetre.
const (
	dpi    = 300
	within = 0.05 // millimetres, or degrees
	nearby = 0.1  // where a page ends in a whole dot, or a slanted walk goes from dot to dot
)

// A raster is a page in grey, from the top left.
type raster struct {
	width, height int
	grey          []byte
}

// testWords gives the words that are printed.
var testWords = func() func(string, ...any) string {
	var words map[string]any
	data, err := os.ReadFile("../generator/locale/en/words.yaml")
	if err == nil {
		err = yaml.Unmarshal(data, &words)
	}
	if err != nil {
		panic(err)
	}
	return func(name string, args ...any) string {
		text, ok := words[name]
		if !ok {
			panic("there is no word " + name)
		}
		if forms, counted := text.(map[string]any); counted {
			text = forms["other"]
		}
		if len(args) > 0 {
			return fmt.Sprintf(fmt.Sprint(text), args...)
		}
		return fmt.Sprint(text)
	}
}()

// printed makes a page with a gauge at the left and upper margin and gives its pixels.
func printed(t *testing.T, p Paper, draw func(s *sheet) (lying bool)) raster {
	t.Helper()
	s := &sheet{paper: p, about: About{Words: testWords}}
	s.doc = newDocument("gauge", "test", "en")
	lying := draw(s)
	out, err := s.doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	r := rasterised(t, out, s.doc.PageCount())
	w, h := p.Width, p.Height
	if lying {
		w, h = h, w
	}
	if math.Abs(float64(r.width)/dpi*25.4-w) > nearby || math.Abs(float64(r.height)/dpi*25.4-h) > nearby {
		t.Fatalf("the page has %d × %d pixels; %g × %g mm at %d dpi were expected", r.width, r.height, w, h, dpi)
	}
	return r
}

func rasterised(t *testing.T, pdf []byte, page int) raster {
	t.Helper()
	file := filepath.Join(t.TempDir(), "gauge.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	only := []string{"-f", fmt.Sprint(page), "-singlefile"}
	out, err := exec.Command("pdftoppm", append(only, "-r", fmt.Sprint(dpi), "-gray", file)...).Output()
	if err != nil {
		t.Fatalf("this test needs pdftoppm, of poppler-utils: %v", err)
	}
	var r raster
	var most int
	if _, err := fmt.Sscanf(string(out[:20]), "P5\n%d %d\n%d\n", &r.width, &r.height, &most); err != nil {
		t.Fatal(err)
	}
	r.grey = out[len(out)-r.width*r.height:]
	return r
}

func pixel(mm float64) int { return int(mm / 25.4 * dpi) }

// at gives the ink at a place, 0 for paper and 255 for black.
func (r raster) at(x, y int) int {
	if x < 0 || y < 0 || x >= r.width || y >= r.height {
		return 0
	}
	return 255 - int(r.grey[y*r.width+x])
}

// marks finds where a straight walk of n steps crosses ink: the middle of each run, weighed
// by its ink, in millimetres of the walk's own measure.
func marks(n int, ink func(i int) int) []float64 {
	const least = 40
	var found []float64
	for i := 0; i < n; i++ {
		if ink(i) < least {
			continue
		}
		sum, weight := 0.0, 0.0
		for ; i < n && ink(i) >= least; i++ {
			sum, weight = sum+(float64(i)+0.5)*float64(ink(i)), weight+float64(ink(i))
		}
		found = append(found, sum/weight/dpi*25.4)
	}
	return found
}

func (r raster) across(y, from, to float64) []float64 {
	start := pixel(from)
	found := marks(pixel(to)-start, func(i int) int { return r.at(start+i, pixel(y)) })
	for i := range found {
		found[i] += float64(start) / dpi * 25.4
	}
	return found
}

func (r raster) down(x, from, to float64) []float64 {
	start := pixel(from)
	found := marks(pixel(to)-start, func(i int) int { return r.at(pixel(x), start+i) })
	for i := range found {
		found[i] += float64(start) / dpi * 25.4
	}
	return found
}

// agree holds what was found against what must be there, in order.
func agree(t *testing.T, what string, found, want []float64) {
	t.Helper()
	if len(found) != len(want) {
		t.Errorf("%s: %d marks are printed, %d were expected: %.2f …", what, len(found), len(want),
			found[:min(len(found), 12)])
		return
	}
	for i := range want {
		if off := math.Abs(found[i] - want[i]); off > within {
			t.Errorf("%s: mark %d lies at %.3f, %.3f away from where it belongs", what, i, found[i], off)
		}
	}
}

func series(start, step float64, n int) []float64 {
	all := make([]float64, n)
	for i := range all {
		all[i] = start + float64(i)*step
	}
	return all
}

// onPage draws a gauge on a page of its own and gives where its drawing starts, and its size.
func onPage(t *testing.T, p Paper, g Gauge) (r raster, x, y, w, h float64) {
	t.Helper()
	g.Words = testWords
	fit, err := g.Room(p)
	if err != nil || fit.Upright {
		t.Fatal(err, fit)
	}
	at := place{Margin, Margin + gaugeHead, fit.Width, fit.Height}
	r = printed(t, p, func(s *sheet) bool {
		s.blankPage(fit.Lying)
		g.draw(s.doc, at)
		return fit.Lying
	})
	return r, at.X, at.Y, at.Width, at.Height
}

// blankPage adds a page, upright or lying.
func (s *sheet) blankPage(lying bool) {
	if lying {
		s.doc.AddPage(s.paper.Height, s.paper.Width)
	} else {
		s.doc.AddPage(s.paper.Width, s.paper.Height)
	}
}

func onBoth(t *testing.T, test func(t *testing.T, p Paper)) {
	for _, p := range Papers {
		t.Run(p.Name, func(t *testing.T) {
			t.Parallel()
			test(t, p)
		})
	}
}

func TestRulersAreTrue(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		r, x, y, _, _ := onPage(t, p, Gauge{Kind: Ruler, Size: 160})
		agree(t, "millimetres", r.across(y+gaugeEdge+1.5, x, x+162), series(x+gaugeEdge, 1, 161))
		agree(t, "centimetres", r.across(y+gaugeEdge+6.5, x, x+162), series(x+gaugeEdge, 10, 17))
		// Ten inches are longer than Letter has room for upright, so the page lies.
		if p.Name == "letter" {
			r, x, y, _, _ = onPage(t, p, Gauge{Kind: Ruler, Size: 10 * inch, Inches: true})
			agree(t, "inches, lying", r.across(y+gaugeEdge+6.5, x, x+256), series(x+gaugeEdge, inch, 11))
		}
		r, x, y, _, _ = onPage(t, p, Gauge{Kind: Ruler, Size: 6 * inch, Inches: true})
		agree(t, "sixteenths", r.across(y+gaugeEdge+1, x, x+155), series(x+gaugeEdge, inch/16, 6*16+1))
		agree(t, "inches", r.across(y+gaugeEdge+6.5, x, x+155), series(x+gaugeEdge, inch, 7))
	})
}

// TestUprightRulersAreTrue measures one that is too long to lie across: its zero is at its foot, its edge at the left.
func TestUprightRulersAreTrue(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		const size, top = 240.0, Margin
		g := Gauge{Kind: Ruler, Size: size, Words: testWords}
		fit, err := g.Room(p)
		if err != nil || !fit.Upright {
			t.Fatal(err, fit)
		}
		r := printed(t, p, func(s *sheet) bool {
			s.blankPage(false)
			g.stand(s.doc, Margin, top, sized(fit.Width, fit.Height))
			return false
		})
		x, y := Margin+gaugeEdge, top+gaugeEdge
		agree(t, "millimetres", r.down(x+1.5, y-1, y+size+1), series(y, 1, 241))
		agree(t, "centimetres", r.down(x+6.5, y-1, y+size+1), series(y, 10, 25))
	})
}

// TestTheEdgeOfEveryPageIsTrue measures the centimetres down the right margin, on the first page and on the second.
func TestTheEdgeOfEveryPageIsTrue(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		for page := 1; page <= 2; page++ {
			r := printed(t, p, func(s *sheet) bool {
				for range page {
					s.newPage()
				}
				return false
			})
			x, length := p.Width-Margin, math.Floor((p.Height-2*Margin-footerHeight)/10)*10
			agree(t, "millimetres", r.down(x-1, Margin-1, p.Height), series(Margin, 1, int(length)+1))
			between := func(y float64) bool { // a number, below its mark
				return math.Abs(math.Remainder(y-Margin, 10)) > 0.5
			}
			tens := slices.DeleteFunc(r.down(x-4.6, Margin-1, p.Height), between)
			agree(t, "centimetres", tens, series(Margin, 10, int(length)/10+1))
		}
	})
}

// TestTheWrapStripReadsADiameter holds both scales of a strip against π, which is the
// definition of what stands between them.
func TestTheWrapStripReadsADiameter(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		r, x, y, _, h := onPage(t, p, Gauge{Kind: Wrap, Size: 50})
		zero := x + gaugeEdge
		round := r.across(y+gaugeEdge+2, zero+0.5, zero+50*math.Pi+0.5)
		agree(t, "circumference", round, series(zero+1, 1, 157))
		across := r.across(y+h-gaugeEdge-2, zero+0.5, zero+50*math.Pi+0.5)
		agree(t, "diameter", across, series(zero+math.Pi, math.Pi, 50))
		if t.Failed() {
			return
		}
		// A 43 mm wheel is 135.1 mm round: its mark stands between 135 and 136 of the other scale.
		if at := across[42] - zero; math.Abs(at-43*math.Pi) > within || at < round[134]-zero || at > round[135]-zero {
			t.Errorf("a wheel of 43 mm is read at %.3f mm round; %.3f is right", at, 43*math.Pi)
		}
		tens := r.across(y+h-gaugeEdge-6.5, zero+0.5, zero+50*math.Pi+0.5)
		agree(t, "each ten of diameter", tens, series(zero+10*math.Pi, 10*math.Pi, 5))
	})
}

func TestTheWrapStripReadsADiameterInInches(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		const size = 2 * inch
		r, x, y, _, h := onPage(t, p, Gauge{Kind: Wrap, Size: size, Inches: true})
		zero := x + gaugeEdge
		round := r.across(y+gaugeEdge+1.5, zero+0.5, zero+size*math.Pi+0.5)
		agree(t, "circumference", round, series(zero+inch/16, inch/16, 100)) // 2·π in is 6.28 in
		across := r.across(y+h-gaugeEdge-1.5, zero+0.5, zero+size*math.Pi+0.5)
		agree(t, "diameter", across, series(zero+math.Pi*inch/16, math.Pi*inch/16, 32))
	})
}

func TestStopTargetsAreTrue(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		for _, inches := range []bool{false, true} {
			g := Gauge{Kind: Target, Size: 1200, SizeText: "120 cm", Inches: inches}
			r, x, y, _, _ := onPage(t, p, g)
			grid := g.targetOn(levelRoom(p))
			width, height := float64(grid.across)*grid.step, float64(grid.over)*grid.step
			left, top := x+numbers, y+grid.captions+gaugeEdge
			agree(t, "sideways", r.across(top+grid.step/2, left-1, left+2*width+1), series(left, grid.step, 2*grid.across+1))
			agree(t, "over and under", r.down(left+grid.step/2, top-1, top+2*height+1), series(top, grid.step, 2*grid.over+1))
			if ink := r.at(pixel(left+width), pixel(top+height+grid.step/2)); ink < 200 {
				t.Errorf("the middle line is not where it belongs: ink %d", ink)
			}
		}
	})
}

func TestTheFansRaysHaveTheirAngles(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		r, x, y, w, h := onPage(t, p, Gauge{Kind: Fan, Size: 1200, SizeText: "120 cm"})
		cx, edge, start := x+w/2, y+fanHead+gaugeEdge, y+h-fanFoot-gaugeEdge
		reach := start - edge
		for _, part := range []float64{0.5, 0.95} { // of the way to the far edge
			found := r.across(start-part*reach, x, x+w)
			if len(found) != 2*widest+1 {
				t.Fatalf("%d rays are printed, %d were expected", len(found), 2*widest+1)
			}
			for i, at := range found {
				angle := math.Atan2(cx-at, part*reach) * 180 / math.Pi
				if want := float64(widest - i); math.Abs(angle-want) > within {
					t.Errorf("the ray of %g° has %.3f°", want, angle)
				}
			}
		}
		var want []float64
		for half := 2 * widest; half >= -2*widest; half-- {
			want = append(want, cx-reach*math.Tan(float64(half)/2*math.Pi/180))
		}
		agree(t, "half degrees at the far edge", r.across(edge+1, x, x+w), shifted(want, cx, reach, 1))
	})
}

// shifted moves the rays' places from the far edge to a line that far before it; the short
// marks of half degrees go straight down.
func shifted(want []float64, cx, reach, before float64) []float64 {
	for i := range want {
		if i%2 == 0 {
			want[i] = cx + (want[i]-cx)*(reach-before)/reach
		}
	}
	return want
}

func TestTheRosesMarksHaveTheirAngles(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		r, x, y, w, _ := onPage(t, p, Gauge{Kind: Rose, Size: 112, SizeText: "112 mm"})
		cx, cy, radius := x+w/2, y+w/2, w/2-roseOuter
		// Round the middle, once through all marks and once through those of ten degrees.
		for _, walk := range []struct {
			in   float64
			step float64
		}{{1.5, 1}, {6.5, 10}} {
			const steps = 36000
			found := marks(steps, func(i int) int {
				sin, cos := math.Sincos((float64(i)/steps*360 - walk.step/2) * math.Pi / 180)
				return r.at(int((cx-(radius-walk.in)*sin)/25.4*dpi), int((cy-(radius-walk.in)*cos)/25.4*dpi))
			})
			for i := range found { // marks counts in millimetres of pixels
				found[i] = found[i]/25.4*dpi/steps*360 - walk.step/2
			}
			agree(t, fmt.Sprintf("marks of %g degrees", walk.step), found, series(0, walk.step, int(360/walk.step)))
		}
	})
}

// TestTheTrackIsRound measures the circle of the wheels from the middle, all the way round.
func TestTheTrackIsRound(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		const track = 112.0
		r, x, y, w, _ := onPage(t, p, Gauge{Kind: Rose, Size: track, SizeText: "112 mm"})
		cx, cy, dashes := x+w/2, y+w/2, 0
		for degree := range 360 {
			if aside := (degree + 90) % 180; aside < 10 || aside > 170 {
				continue // a wheel
			}
			sin, cos := math.Sincos(float64(degree) * math.Pi / 180)
			const from, steps = track/2 - 1, 2000 // a thousandth of a millimetre each
			found := marks(steps, func(i int) int {
				out := from + float64(i)/1000
				return r.at(pixel(cx-out*sin), pixel(cy-out*cos))
			})
			if len(found) != 1 {
				continue // between two dashes, or an arrow
			}
			dashes++
			if radius := from + found[0]*dpi/25.4/1000; math.Abs(radius-track/2) > nearby {
				t.Errorf("at %d° the track's radius is %.3f mm", degree, radius)
			}
		}
		if dashes < 100 {
			t.Errorf("only %d directions show the track", dashes)
		}
	})
}

func TestSquaredPaperIsTrue(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		g := Gauge{Kind: Squares, Size: 150, Text: "Run", Up: "Stop"}
		r, x, y, w, h := onPage(t, p, g)
		width, height := w-besideUp-arrowSpace, h-belowFoot-arrowSpace
		left, top := x+besideUp, y+arrowSpace
		if width < g.Size {
			t.Errorf("the paper is %g mm wide; %g were asked for", width, g.Size)
		}
		agree(t, "across", r.across(top+square/2.0, left-1, left+width+1), series(left, square, int(width/square)+1))
		agree(t, "down", r.down(left+square/2.0, top-1, top+height+1), series(top, square, int(height/square)+1))
	})
}

func TestTheCheckBarsAreTrue(t *testing.T) {
	onBoth(t, func(t *testing.T, p Paper) {
		r := printed(t, p, func(s *sheet) bool {
			s.doc.AddPage(p.Width, p.Height)
			checkBar(s.doc, Margin, 50, 177, testWords)
			return false
		})
		agree(t, "100 mm", r.across(50+5.5, Margin, Margin+105), []float64{Margin + gaugeEdge, Margin + gaugeEdge + 100})
		agree(t, "4 in", r.across(50+11.5, Margin, Margin+105), []float64{Margin + gaugeEdge, Margin + gaugeEdge + 101.6})
	})
}

// TestAGaugeStaysInItsBox looks for ink beside the gauge.
func TestAGaugeStaysInItsBox(t *testing.T) {
	long := "A caption that goes on and on and on, far beyond what anybody would want to read above a gauge on a sheet " +
		"of paper, and then some more of it, and more"
	sizes := map[GaugeKind][]Gauge{
		Ruler:   {{Size: 30, Text: long}, {Size: 1, Text: long}},
		Wrap:    {{Size: 50, Text: long, Inches: true}, {Size: 1, Text: long}},
		Target:  {{Size: 1200, SizeText: "120 cm", Text: long}},
		Fan:     {{Size: farthest, SizeText: long, Text: long}},
		Rose:    {{Size: 144, SizeText: long, Text: long}},
		Squares: {{Size: 100, Text: long, Up: long}, {Size: 1, Text: long, Up: long, Signed: true}},
	}
	onBoth(t, func(t *testing.T, p Paper) {
		for _, kind := range lesson.GaugeKinds {
			if len(sizes[kind]) == 0 {
				t.Errorf("no %s is looked at; add its sizes here, and what its marks must measure above", kind)
			}
			for _, g := range sizes[kind] {
				g.Kind = kind
				staysInItsBox(t, p, g)
			}
		}
	})
}

func staysInItsBox(t *testing.T, p Paper, g Gauge) {
	t.Helper()
	g.Words = testWords
	fit, err := g.Room(p)
	w, h := fit.Width, fit.Height
	if err != nil {
		t.Fatal(err)
	}
	const x, y = Margin + 2, Margin + 3
	r := printed(t, p, func(s *sheet) bool {
		s.blankPage(fit.Lying)
		g.draw(s.doc, place{x, y, w, h})
		return fit.Lying
	})
	left, top, right, foot := pixel(x-0.1), pixel(y-0.1), pixel(x+w+0.1), pixel(y+h+0.1)
	for row := range r.height {
		for column, grey := range r.grey[row*r.width : (row+1)*r.width] {
			if grey < 200 && (column < left || row < top || column > right || row > foot) {
				t.Errorf("%s of %g mm: ink at pixel %d, %d; the box ends at %d, %d", g.Kind, g.Size, column, row, right, foot)
				return
			}
		}
	}
}
