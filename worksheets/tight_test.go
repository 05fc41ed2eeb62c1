package worksheets

// What gives way where there is hardly room, and that it keeps its place.

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

func TestARulerInCentimetresIsTheEdgeOfTheLastPage(t *testing.T) {
	centimetres := Gauge{Kind: Ruler, Size: 160}
	for _, test := range []struct {
		gauge   Gauge
		is      bool
		figures int
	}{{centimetres, true, 0}, {ruler, false, 2}, {Gauge{Kind: Ruler, Size: 265}, false, 2}} {
		s := gaugesFrom(Papers[0], 100, test.gauge)
		text := textOfSheet(t, s, "-raw")
		if got := strings.Contains(strings.Join(strings.Fields(text), " "), "along this edge"); got != test.is {
			t.Errorf("%v: that it is the edge is said: %t", test.gauge, got)
		}
		if got := len(figures(t, s)); got != test.figures {
			t.Errorf("%v: %d figures are drawn", test.gauge, got)
		}
	}
	two := gaugesFrom(Papers[0], 100, centimetres, centimetres)
	text := strings.Join(strings.Fields(textOfSheet(t, two, "-raw")), " ")
	if got := strings.Count(text, "along this edge"); got != 2 || two.doc.PageCount() != 1 {
		t.Errorf("of two rulers %d are said, on %d pages", got, two.doc.PageCount())
	}
}

// textOfSheet is what a sheet says, as pdftotext with some options reads it.
func textOfSheet(t *testing.T, s *sheet, options ...string) string {
	t.Helper()
	made, err := s.doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, made, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", append(options, file, "-")...).Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// tightSheet is one with an empty page, laid out as tight as can be.
func tightSheet() *sheet {
	s := emptySheet(Papers[0])
	s.fit = fits[len(fits)-1]
	s.newPage()
	return s
}

func TestPointsInRunningLinesKeepTheirOrderAndTheirWidth(t *testing.T) {
	s := tightSheet()
	texts := []string{"a tape measure", "a cup", strings.Repeat("a very long thing indeed ", 12), "chalk"}
	for range 20 {
		texts = append(texts, "something of middling length")
	}
	points, height := s.runPoints(texts, 30)
	if len(points) != len(texts) {
		t.Fatalf("%d points of %d", len(points), len(texts))
	}
	for i, p := range points {
		wide := tickWide + s.widest(p.lines, s.headSize())
		if p.x+wide > s.width()+0.01 || p.y+s.line(s.headSize())*float64(len(p.lines)) > height+0.01 {
			t.Errorf("point %d at %.1f, %.1f is %.1f wide", i, p.x, p.y, wide)
		}
		if i == 0 {
			continue
		}
		before := points[i-1]
		low := before.y + s.line(s.headSize())*float64(len(before.lines)-1)
		if p.y < low-0.01 || p.y < low+0.01 && p.x < before.x+tickWide+s.widest(before.lines, s.headSize()) {
			t.Errorf("point %d lies on the one before it, or above", i)
		}
	}
}

// TestTheNumbersOfALowFanStandApart measures those of each row.
func TestTheNumbersOfALowFanStandApart(t *testing.T) {
	s := tightSheet()
	for _, size := range []float64{1000, 1500} {
		for reach := float64(fanLeast); reach <= fanMost; reach += 5 {
			apart := func(step float64) float64 { // of two numbers in a row
				return 2 * step * reach * math.Tan(math.Pi/180)
			}
			s.font(regular, smallest)
			widestNumber := s.doc.Width(Gauge{}.sideways(size * math.Tan(9*math.Pi/180)))
			every := 1.0
			if reach < fanEvery {
				every = 2
			}
			if apart(every) < widestNumber+0.3 {
				t.Errorf("reach %g: numbers %.1f wide stand %.1f apart", reach, widestNumber, apart(every))
			}
		}
	}
}

// TestALowRoseStillShowsItsTrack if a rose of any size does.
func TestALowRoseStillShowsItsTrack(t *testing.T) {
	for _, track := range []float64{60, 112, 140} {
		g := Gauge{Kind: Rose, Size: track}
		if r := (g.leastRose()-g.captionRoom())/2 - roseOuter; track/2 > r-roseMarks {
			t.Errorf("a track of %g mm has no room in a radius of %g", track, r)
		}
	}
}

func TestCellsToFillAreLowerWhereThereIsHardlyRoom(t *testing.T) {
	s := tightSheet()
	low := s.cellToFill()
	s.fit = fits[0]
	if high := s.cellToFill(); low >= high || low < 7 {
		t.Errorf("%g and %g mm; children need 7", low, high)
	}
}

// TestAShortLogTakesLessThanALongOne and is on the page as a whole.
func TestAShortLogTakesLessThanALongOne(t *testing.T) {
	heights := map[bool]float64{}
	for _, short := range []bool{true, false} {
		s := tightSheet()
		s.chosen = &selection{}
		s.lesson.Lesson.Goals = []string{"Measure"}
		s.y = 60
		s.fit.terse = short
		s.log()
		heights[short] = s.y - 60
		if s.doc.PageCount() != 1 {
			t.Errorf("it takes %d pages", s.doc.PageCount())
		}
	}
	if heights[true] > heights[false]-5 {
		t.Errorf("the short one takes %.1f mm, the long one %.1f", heights[true], heights[false])
	}
}

// TestAShortTableStaysOnOnePage begins one where it has no room.
func TestAShortTableStaysOnOnePage(t *testing.T) {
	for rows, pages := range map[int]int{3: 1, 30: 2} {
		g := laidTable{}
		for range rows {
			g.rows = append(g.rows, tableRow{height: 10})
		}
		s := tightSheet()
		s.y = s.foot() - 25
		s.need(s.tableNeeds(g))
		if got := s.doc.PageCount(); got != 3-pages {
			t.Errorf("a table of %d rows begins on page %d", rows, got)
		}
	}
}
