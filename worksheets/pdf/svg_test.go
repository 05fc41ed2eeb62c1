package pdf

// What is drawn of an SVG: its shapes as they look, its text in the document's typeface, the same on every processor.

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// drawn reads a drawing of 100 by 50 units with what is inside.
func drawn(t *testing.T, outermost, inside string) *Drawing {
	t.Helper()
	d, err := NewDrawing([]byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 50" `+outermost+`>`+inside+
		`</svg>`), Looks{"c1": {"color": "#abcdef"}, "f": {"fill": "currentColor"}})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// written are the operators of a drawing, without the first, which set its place.
func written(d *Drawing) string {
	var all strings.Builder
	for _, p := range d.pieces {
		if p.width > 0 {
			all.WriteString("w" + strconv.FormatFloat(p.width, 'g', -1, 64) + "\n")
		}
		all.Write(p.bytes)
	}
	return all.String()
}

func TestAShapeInheritsFromTheOutermostNode(t *testing.T) {
	if got := written(drawn(t, `fill="#ff0000"`, `<rect x="1" y="2" width="3" height="4"/>`)); !strings.Contains(got,
		"1 2 3 4 re\n1 0 0 rg\nf\n") {
		t.Errorf("the rectangle is not red:\n%s", got)
	}
}

func TestAShapeLooksAsItsClassesSay(t *testing.T) {
	got := written(drawn(t, ``, `<g class="c1"><rect class="f" x="1" y="2" width="3" height="4"/></g>`))
	if !strings.Contains(got, "0.671 0.804 0.937 rg") {
		t.Errorf("the rectangle has not its class's colour:\n%s", got)
	}
}

func TestDashesDoNotRunOnIntoTheNextShape(t *testing.T) {
	got := written(drawn(t, `stroke="#000"`, `<path d="M0 0L9 9" stroke-dasharray="2 1"/><path d="M1 1L9 9"/>`))
	_, after, found := strings.Cut(got, "[2 1] 0 d")
	if before, _, _ := strings.Cut(after, "1 1 m"); !found || !strings.Contains(before, "Q\n") {
		t.Errorf("the second line is dashed like the first:\n%s", got)
	}
}

func TestWhatIsTransparentIsPaler(t *testing.T) {
	got := written(drawn(t, ``, `<g opacity="0.5"><rect width="3" height="4" fill="#000" fill-opacity=".5"/></g>`))
	if !strings.Contains(got, "0.749 0.749 0.749 rg") {
		t.Errorf("a black quarter is not a light grey:\n%s", got)
	}
}

func TestATintOfTheWholeDrawingIsLeftToThePaper(t *testing.T) {
	got := written(drawn(t, ``, `<rect width="100" height="50" fill="#fbfaf5"/><rect width="50" height="50"/>`))
	if strings.Contains(got, "0.984") || !strings.Contains(got, "0 0 50 50 re\n0 0 0 rg\nf\n") {
		t.Errorf("the ground is drawn, or more than it is not:\n%s", got)
	}
}

func TestWhatIsNotDisplayedIsNotDrawn(t *testing.T) {
	d := drawn(t, ``, `<text display="none" x="1" y="1">a</text><defs><text id="b">b</text></defs>`)
	if len(d.labels) != 0 {
		t.Errorf("%d texts are drawn", len(d.labels))
	}
}

// TestTextOfADrawing follows where text stands, through groups, turns and parts.
func TestTextOfADrawing(t *testing.T) {
	d := drawn(t, `font-size="10" fill="#808080"`, `<g transform="translate(20 10)" text-anchor="end">
		<text x="5" y="6" font-weight="700">right −</text></g>
		<text transform="translate(30 40)rotate(-90)" style="font-size:8px;font-style:italic">up</text>
		<text x="1" y="2">one <tspan>more</tspan><tspan x="1" dy="12">below</tspan></text>`)
	var said []string
	for _, l := range d.labels {
		x, y := l.to.A*l.x+l.to.C*l.y+l.to.E, l.to.B*l.x+l.to.D*l.y+l.to.F
		said = append(said, l.text+" "+strconv.FormatFloat(x, 'f', 0, 64)+" "+strconv.FormatFloat(y, 'f', 0, 64)+" "+
			strconv.FormatFloat(l.size, 'f', 0, 64)+" "+strconv.Itoa(int(l.style))+" "+
			strconv.FormatFloat(l.anchored, 'f', 1, 64)+" "+strconv.Itoa(l.grey))
	}
	want := "right − 25 16 10 1 1.0 128|up 30 40 8 2 0.0 128|one more 1 2 10 0 0.0 128|below 1 14 10 0 0.0 128"
	if got := strings.Join(said, "|"); got != want {
		t.Errorf("the texts are\n%s\n%s was expected", got, want)
	}
}

// TestNoLineIsThinnerThanACopierKeeps draws a drawing small.
func TestNoLineIsThinnerThanACopierKeeps(t *testing.T) {
	d := New(Info{}, Typeface{})
	d.AddPage(100, 100)
	d.Drawing(drawn(t, ``, `<path d="M0 0L9 9" stroke="#000"/><path d="M0 0L9 9" stroke="#000" stroke-width="9"/>`),
		10, 10, 20, 20)
	got := string(d.current.content.bytes)
	// 20 mm for 100 units: a quarter of a millimetre is 1.25 units.
	if !strings.Contains(got, "\n 1.25 w\n") || !strings.Contains(got, "\n 9 w\n") {
		t.Errorf("the lines have other widths:\n%s", got)
	}
	if place := " 0 0 0.56693 28.346 212.598\ncm\n"; !strings.Contains(strings.ReplaceAll(got, " \n", "\n"), place) {
		t.Errorf("the drawing is not in the middle of its rectangle:\n%s", got)
	}
}

// TestNumbersOfADrawingDependOnNoProcessor has curves whose last bits differ where a processor rounds once for a
// product and a sum: the numbers are those of a file made on another one.
func TestNumbersOfADrawingDependOnNoProcessor(t *testing.T) {
	got := written(drawn(t, `stroke="#000" fill="none"`, `<path d="M10.3 7.7A13.7 9.1 33 1 0 40.9 21.3"/>
		<path d="M9 9a4.5 4.5 0 0 0-9 0 4.5 4.5 0 0 0 9 0z"/><circle cx="33.3" cy="11.1" r="7.7"/>
		<path d="M1.1 2.2q3.3 4.4 5.5 6.6"/>
		<g transform="rotate(90 20 20)"><path d="M.1 .2h0"/></g>`))
	if regexp.MustCompile(`-0[ \n]|\d\.\d{4,}`).MatchString(got) {
		t.Errorf("a number has more than thousandths, or is a zero with a sign:\n%s", got)
	}
	const want = "testdata/curves.txt"
	if os.Getenv("UPDATE") != "" {
		if err := os.WriteFile(want, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if expected, err := os.ReadFile(want); err != nil || string(expected) != got {
		t.Errorf("the curves are\n%s\nnot\n%s\n%v", got, expected, err)
	}
}

// TestPathsAreWrittenAnew has every command, with places of both kinds.
func TestPathsAreWrittenAnew(t *testing.T) {
	for path, want := range map[string]string{
		"M1 2 3 4h5v-1H0V9z":       "M 1 2L 3 4L 8 4L 8 3L 0 3L 0 9Z",
		"m1,2 3,4zl1 1":            "M 1 2L 4 6ZL 2 3",
		"M0 0C1 1 2 1 3 0S5-1 6 0": "M 0 0C 1 1 2 1 3 0C 4 -1 5 -1 6 0",
		"M0 0q1 1 2 0t2 0T9 9":     "M 0 0Q 1 1 2 0Q 3 -1 4 0Q 5 1 9 9",
		"M0 0s1 1 2 0":             "M 0 0C 0 0 1 1 2 0",
		"M.5.5-1e1":                "M 0.5 0.5",
		"M1 0A1 1 0 0 1 0 1":       "M 1 0C 1 0.55228 0.55228 1 0 1",
		"M1 0a1 1 0 01-1 1":        "M 1 0C 1 0.55228 0.55228 1 0 1",
		"M1 0A1 1 0 1 0 0 1": "M 1 0C 1 -0.55228 0.55228 -1 0 -1" +
			"C -0.55228 -1 -1 -0.55228 -1 0C -1 0.55228 -0.55228 1 0 1",
		"M-1 0A.1.1 0 0 1 1 0":    "M -1 0C -1 -0.55228 -0.55228 -1 0 -1C 0.55228 -1 1 -0.55228 1 0",
		"M0 0A0 5 0 0 1 1 1":      "M 0 0L 1 1",
		"M0 0L1 1 2 rubbish L3 3": "M 0 0L 1 1",
	} {
		if got := rewritten(path); got != want {
			t.Errorf("%s is written as\n%s, not\n%s", path, got, want)
		}
	}
}

func TestWhatIsNoDrawingIsRefused(t *testing.T) {
	for _, text := range []string{``, `<p>`, `<svg xmlns="http://www.w3.org/2000/svg"/>`, `<svg viewBox="0 0 0 9"/>`} {
		if _, err := NewDrawing([]byte(text), nil); err == nil {
			t.Errorf("%q is taken", text)
		}
	}
}

// TestHalvesOfAThousandthDependOnNoProcessor rounds what two processors make of the same half.
func TestHalvesOfAThousandthDependOnNoProcessor(t *testing.T) {
	for _, half := range []float64{200.4995, 12.0005, 0.0015} {
		if below, above := thousandths(math.Nextafter(half, 0)), thousandths(math.Nextafter(half, 1000)); below != above {
			t.Errorf("%g mm is %g and %g thousandths", half, below, above)
		}
	}
}
