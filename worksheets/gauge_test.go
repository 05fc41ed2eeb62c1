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
			if err != nil {
				t.Errorf("what is offered does not fit: %v", err)
			}
			staysOnPaper(t, offered, fit, p)
		}
	}
}

// staysOnPaper looks whether what a gauge takes is free on the page that it lies on.
func staysOnPaper(t *testing.T, g Gauge, fit Fit, p Paper) {
	t.Helper()
	room := levelRoom(p)
	switch {
	case fit.Upright:
		room = sideRoom(p)
	case fit.Lying:
		room = lyingRoom(p)
	}
	if fit.Width > room.Width+0.01 || fit.Height > room.Height+0.01 {
		t.Errorf("a %s of %g mm takes %.1f × %.1f mm on %s", g.Kind, g.Size, fit.Width, fit.Height, p.Name)
	}
}

// TestRoomTurnsAGaugeOnlyWhenItMust stands it upright before it lays the page on its side.
func TestRoomTurnsAGaugeOnlyWhenItMust(t *testing.T) {
	const level, upright, lying = 0, 1, 2
	for _, test := range []struct {
		g   Gauge
		how [2]int // on A4, on Letter
	}{
		{Gauge{Kind: Ruler, Size: 175}, [2]int{level, level}}, {Gauge{Kind: Ruler, Size: 180}, [2]int{upright, level}},
		{Gauge{Kind: Ruler, Size: 240}, [2]int{upright, upright}},
		{Gauge{Kind: Ruler, Size: 10 * inch}, [2]int{upright, lying}},
		{Gauge{Kind: Ruler, Size: 270}, [2]int{lying, -1}},
		{Gauge{Kind: Wrap, Size: 48}, [2]int{level, level}}, {Gauge{Kind: Wrap, Size: 70}, [2]int{upright, upright}},
		{Gauge{Kind: Squares, Size: 150}, [2]int{level, level}}, {Gauge{Kind: Squares, Size: 180}, [2]int{lying, lying}},
		{Gauge{Kind: Target, Size: 1200}, [2]int{level, level}}, {Gauge{Kind: Fan, Size: 1200}, [2]int{level, level}},
		{Gauge{Kind: Rose, Size: 112}, [2]int{level, level}},
	} {
		for i, p := range Papers {
			fit, err := test.g.Room(p)
			how := level
			switch {
			case err != nil:
				how = -1
			case fit.Upright:
				how = upright
			case fit.Lying:
				how = lying
			}
			if how != test.how[i] {
				t.Errorf("a %s of %g mm on %s: %+v, error %v", test.g.Kind, test.g.Size, p.Name, fit, err)
			}
			if err == nil {
				staysOnPaper(t, test.g, fit, p)
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
			fit, _ := g.Room(Papers[0])
			g.draw(pdf, place{Margin, Margin, fit.Width, fit.Height})
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
