package worksheets

// How large gauges may be, which way their page lies, and that they come out the same each time.

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestRoomRefusesWhatNoPaperHolds(t *testing.T) {
	for _, g := range []Gauge{
		{Kind: Ruler, Size: 400}, {Kind: Wrap, Size: 120}, {Kind: Squares, Size: 500}, {Kind: Target, Size: 2e5},
		{Kind: Fan, Size: 2e5},
		{Kind: Ruler, Size: 0}, {Kind: Fan, Size: -1}, {Kind: Rose, Size: math.NaN()}, {Kind: Target, Size: math.Inf(1)},
		{Kind: "compass", Size: 5},
	} {
		for _, p := range Papers {
			if _, err := g.Room(p); err == nil {
				t.Errorf("a %s of %g mm is said to fit on %s", g.Kind, g.Size, p.Name)
			}
		}
	}
}

func TestRoomNamesTheLargestThatFits(t *testing.T) {
	for _, g := range []Gauge{{Kind: Ruler, Size: 400}, {Kind: Wrap, Size: 120}, {Kind: Squares, Size: 500}} {
		for _, p := range Papers {
			_, err := g.Room(p)
			if err == nil {
				t.Fatal("it fits")
			}
			_, offer, _ := strings.Cut(err.Error(), "the largest that fits is ")
			var size float64
			if n, scanErr := fmt.Sscanf(offer, "%f mm", &size); n != 1 || scanErr != nil {
				t.Fatalf("%q offers no size", err)
			}
			offered := g
			offered.Size = size
			fit, err := offered.Room(p)
			w, h, lying := fit.Width, fit.Height, fit.Lying
			if err != nil {
				t.Errorf("what is offered does not fit: %v", err)
			}
			width, height := p.Width, p.Height
			if lying {
				width, height = height, width
			}
			if w > width-2*Margin+0.01 || h > height-2*Margin-gaugeFree+0.01 {
				t.Errorf("a %s of %g mm takes %.1f × %.1f mm on %s", g.Kind, size, w, h, p.Name)
			}
		}
	}
}

func TestRoomTurnsThePageOnlyWhenItMust(t *testing.T) {
	for _, test := range []struct {
		g     Gauge
		lying [2]bool // on A4, on Letter
	}{
		{Gauge{Kind: Ruler, Size: 185}, [2]bool{false, false}}, {Gauge{Kind: Ruler, Size: 190}, [2]bool{true, false}},
		{Gauge{Kind: Ruler, Size: 10 * inch}, [2]bool{true, true}},
		{Gauge{Kind: Wrap, Size: 48}, [2]bool{false, false}}, {Gauge{Kind: Wrap, Size: 65}, [2]bool{true, true}},
		{Gauge{Kind: Squares, Size: 150}, [2]bool{false, false}},
		{Gauge{Kind: Target, Size: 1200}, [2]bool{false, false}}, {Gauge{Kind: Fan, Size: 1200}, [2]bool{false, false}},
		{Gauge{Kind: Rose, Size: 112}, [2]bool{false, false}},
	} {
		for i, p := range Papers {
			fit, err := test.g.Room(p)
			w, h, lying := fit.Width, fit.Height, fit.Lying
			if err != nil || lying != test.lying[i] {
				t.Errorf("a %s of %g mm on %s: lying %v, error %v", test.g.Kind, test.g.Size, p.Name, lying, err)
			}
			width, height := p.Width, p.Height
			if lying {
				width, height = height, width
			}
			if w > width-2*Margin+0.01 || h > height-2*Margin-gaugeFree+0.01 {
				t.Errorf("a %s of %g mm takes %.1f × %.1f mm on %s", test.g.Kind, test.g.Size, w, h, p.Name)
			}
		}
	}
}

func TestTheSameGaugeHasTheSameBytes(t *testing.T) {
	drawn := func() []byte {
		pdf := newDocument("gauge", "test", "en")
		for _, g := range []Gauge{{Kind: Ruler, Size: 100}, {Kind: Wrap, Size: 48}, {Kind: Target, Size: 1200},
			{Kind: Fan, Size: 1200}, {Kind: Rose, Size: 112}, {Kind: Squares, Size: 100}} {
			g.Words, g.Text = testWords, "π ± 1"
			pdf.AddPage(Papers[0].Width, Papers[0].Height)
			g.draw(pdf, Margin, Margin)
		}
		out, err := pdf.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	if !bytes.Equal(drawn(), drawn()) {
		t.Error("two drawings of the same gauges differ")
	}
}
