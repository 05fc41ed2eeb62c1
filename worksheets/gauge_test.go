package worksheets

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestRoomRefusesWhatNoPaperHolds(t *testing.T) {
	for _, g := range []Gauge{
		{Kind: Ruler, Size: 400}, {Kind: Wrap, Size: 120}, {Kind: Squares, Size: 500}, {Kind: Target, Size: 2e5}, {Kind: Fan, Size: 2e5},
		{Kind: Ruler, Size: 0}, {Kind: Fan, Size: -1}, {Kind: Rose, Size: math.NaN()}, {Kind: Target, Size: math.Inf(1)}, {Kind: "compass", Size: 5},
	} {
		for _, p := range Papers {
			if _, _, _, err := g.Room(p); err == nil {
				t.Errorf("a %s of %g mm is said to fit on %s", g.Kind, g.Size, p.Name)
			}
		}
	}
}

func TestRoomNamesTheLargestThatFits(t *testing.T) {
	for _, g := range []Gauge{{Kind: Ruler, Size: 400}, {Kind: Wrap, Size: 120}, {Kind: Squares, Size: 500}} {
		for _, p := range Papers {
			_, _, _, err := g.Room(p)
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
			w, h, lying, err := offered.Room(p)
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
