package worksheets

// The numbers printed on gauges: each stands where the mark is that it names.

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// printedNumber is a number on a gauge, and where its middle is, in millimetres.
type printedNumber struct{ value, x, y float64 }

var wordBox = regexp.MustCompile(`<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]+)</word>`)

// numbersOn draws a gauge and reads its numbers back by poppler.
func numbersOn(t *testing.T, g Gauge) []printedNumber {
	t.Helper()
	g.Words = testWords
	s := &sheet{paper: Papers[0], about: About{Words: testWords}}
	s.doc = newDocument("gauge", "test", "en")
	fit, err := g.Room(Papers[0])
	if err != nil {
		t.Fatal(err)
	}
	s.blankPage(fit.Lying)
	g.draw(s.doc, place{Margin, Margin, fit.Width, fit.Height})
	pdf, err := s.doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "gauge.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-bbox", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	var all []printedNumber
	for _, m := range wordBox.FindAllStringSubmatch(string(out), -1) {
		value, err := strconv.ParseFloat(strings.Replace(m[5], quantity.Minus, "-", 1), 64)
		if err != nil {
			continue // a word
		}
		var box [4]float64
		for i := range box {
			box[i], _ = strconv.ParseFloat(m[i+1], 64)
		}
		const point = inch / 72
		all = append(all, printedNumber{value, (box[0] + box[2]) / 2 * point, (box[1] + box[3]) / 2 * point})
	}
	return all
}

// TestTheNumbersOfARoseCountTurnsToTheLeft finds every ten degrees at its own place about the middle:
// 0 ahead, plus to the left.
func TestTheNumbersOfARoseCountTurnsToTheLeft(t *testing.T) {
	numbers := slices.DeleteFunc(numbersOn(t, Gauge{Kind: Rose, Size: 112}),
		func(n printedNumber) bool { return n.value == 112 }) // the track
	if len(numbers) != 36 {
		t.Fatalf("%d numbers are printed; every ten degrees have one", len(numbers))
	}
	var cx, cy float64
	for _, n := range numbers {
		cx, cy = cx+n.x/36, cy+n.y/36
	}
	for _, n := range numbers {
		angle := math.Atan2(cx-n.x, cy-n.y) * 180 / math.Pi
		if off := math.Mod(angle-n.value+540, 360) - 180; math.Abs(off) > 2 {
			t.Errorf("%g° is printed at %.1f°", n.value, angle)
		}
	}
}

// TestTheNumbersOfARulerStandInTheirOrder finds each number as many units after the first as it says. The
// last may be moved a little, to stay on the gauge.
func TestTheNumbersOfARulerStandInTheirOrder(t *testing.T) {
	for unit, g := range map[float64]Gauge{10: {Kind: Ruler, Size: 150},
		inch: {Kind: Ruler, Size: 6 * inch, Inches: true}} {
		numbers := numbersOn(t, g)
		if len(numbers) < 6 {
			t.Fatalf("only %v are printed", numbers)
		}
		for _, n := range numbers[1:] {
			if off := n.x - numbers[0].x - (n.value-numbers[0].value)*unit; math.Abs(off) > 2.6 {
				t.Errorf("%g stands %.1f mm beside its mark", n.value, off)
			}
		}
	}
}
