package worksheets

// Which gauges share a page, and that none lies on another.

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
)

// gaugesFrom puts gauges on a sheet that is filled down to a height, and gives it.
func gaugesFrom(p Paper, y float64, gauges ...Gauge) *sheet {
	s := emptySheet(p, gauges...)
	s.newPage()
	s.y = y
	s.gauges()
	return s
}

// emptySheet is one of a lesson that has nothing but gauges.
func emptySheet(p Paper, gauges ...Gauge) *sheet {
	s := &sheet{paper: p, about: About{Words: testWords}}
	s.lesson = &work.Lesson{Lesson: &lesson.Lesson{Body: ast.NewDocument()}}
	for _, g := range gauges {
		s.lesson.Gauges = append(s.lesson.Gauges, &work.Gauge{Gauge: &lesson.Gauge{Kind: g.Kind, Text: "What it is for"},
			Size: quantity.Quantity{Number: g.Size}, SizeText: "so much", Inches: g.Inches})
	}
	s.doc = newDocument("gauges", "test", "en")
	return s
}

var (
	// In inches, since the edge of a page is a ruler in centimetres.
	ruler, longRuler = Gauge{Kind: Ruler, Size: 6 * inch, Inches: true}, Gauge{Kind: Ruler, Size: 9.5 * inch, Inches: true}
	strip            = Gauge{Kind: Wrap, Size: 70}
	target           = Gauge{Kind: Target, Size: 1200}
	fan              = Gauge{Kind: Fan, Size: 1200}
	rose             = Gauge{Kind: Rose, Size: 112}
	squares          = Gauge{Kind: Squares, Size: 120}
)

func TestGaugesShareAPage(t *testing.T) {
	for i, shared := range [][]Gauge{{squares, longRuler}, {strip, ruler}, {fan, strip}, {target, squares},
		{squares, target}, {squares, ruler}, {ruler, ruler, ruler, ruler}, {rose, ruler}} {
		for _, p := range Papers {
			s := gaugesFrom(p, Margin, shared...)
			if s.doc.PageCount() != 1 {
				t.Errorf("case %d on %s takes %d pages", i, p.Name, s.doc.PageCount())
			}
			if s.y > s.foot()+0.01 {
				t.Errorf("case %d on %s ends at %.1f; the page ends at %.1f", i, p.Name, s.y, s.foot())
			}
			if boxes := figures(t, s); len(boxes) != len(shared)+1 {
				t.Errorf("case %d on %s has %d figures; its gauges and the bars are %d", i, p.Name, len(boxes), len(shared)+1)
			} else {
				lieApart(t, fmt.Sprint("case ", i, " on ", p.Name), s, boxes)
			}
		}
	}
}

// TestGaugesGoBelowTheText leaves them where there is room, and takes new pages where there is none.
func TestGaugesGoBelowTheText(t *testing.T) {
	for _, test := range []struct {
		from   float64
		gauges []Gauge
		pages  int
	}{
		{180, []Gauge{ruler}, 1}, {240, []Gauge{ruler}, 2},
		{60, []Gauge{target}, 1}, {150, []Gauge{target}, 2},
		{150, []Gauge{squares, target}, 2}, // squares below the text
		{60, []Gauge{squares, longRuler}, 2},
		{60, []Gauge{target, fan, rose}, 3},
		{60, []Gauge{{Kind: Ruler, Size: 10.7 * inch, Inches: true}, ruler}, 2},
	} {
		s := gaugesFrom(Papers[0], test.from, test.gauges...)
		if got := s.doc.PageCount(); got != test.pages {
			t.Errorf("%v below %g mm: %d pages, not %d", test.gauges, test.from, got, test.pages)
		}
	}
}

// TestALongRulerStandsBesideTheTextOfTheFirstPage takes its room there before anything is put, and is drawn when all
// is.
func TestALongRulerStandsBesideTheTextOfTheFirstPage(t *testing.T) {
	for _, test := range []struct {
		gauges []Gauge
		stands bool
	}{{[]Gauge{longRuler, squares}, true}, {[]Gauge{strip, ruler}, true}, {[]Gauge{strip, fan}, false},
		{[]Gauge{ruler}, false}} {
		for _, p := range Papers {
			s := emptySheet(p, test.gauges...)
			s.newPage()
			s.leaveStrip()
			left, foot := s.left(), s.foot()
			if (left > Margin) != test.stands {
				t.Errorf("%v on %s: the text begins at %.1f", test.gauges, p.Name, left)
				continue
			}
			s.newPage()
			if s.left() != Margin || s.foot() != p.Height-Margin-footerHeight {
				t.Errorf("%v on %s: the second page has gauges, too", test.gauges, p.Name)
			}
			s.y = 60
			s.gauges()
			if s.doc.PageCount() != 2+map[bool]int{false: 1}[test.stands || len(test.gauges) == 1] {
				t.Errorf("%v on %s take %d pages", test.gauges, p.Name, s.doc.PageCount())
			}
			for i, box := range figures(t, s) {
				if beside := box[2] <= left; test.stands && i == 0 && !beside {
					t.Errorf("%v on %s: the text, which begins at %.1f, lies on %.1f", test.gauges, p.Name, left, box)
				}
				if test.stands && i == 1 && box[3] > p.Height-foot {
					t.Errorf("%v on %s: the text, which ends at %.1f, lies on the bars", test.gauges, p.Name, foot)
				}
			}
		}
	}
}

// TestARulerThatOnlyALyingPageHoldsHasOne at the end, with no empty page before it.
func TestARulerThatOnlyALyingPageHoldsHasOne(t *testing.T) {
	s := gaugesFrom(Papers[1], 100, Gauge{Kind: Ruler, Size: 10 * inch, Inches: true}, ruler)
	if got := s.doc.PageCount(); got != 2 || s.lying[1] || !s.lying[2] {
		t.Errorf("%d pages, lying: %v; two were expected, of which the second lies", got, s.lying)
	}
}

var figureBox = regexp.MustCompile(`/BBox \[([\d.]+) ([\d.]+) ([\d.]+) ([\d.]+)\]`)

// figures are the boxes of a document's figures, in millimetres from the bottom left.
func figures(t *testing.T, s *sheet) [][4]float64 {
	t.Helper()
	made, err := s.doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "gauges.pdf")
	if err := os.WriteFile(file, made, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdfinfo", "-struct", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	var all [][4]float64
	for _, m := range figureBox.FindAllStringSubmatch(string(out), -1) {
		var box [4]float64
		for i := range box {
			points, _ := strconv.ParseFloat(m[i+1], 64)
			box[i] = points * point
		}
		all = append(all, box)
	}
	return all
}

// lieApart looks whether boxes are within the margins and beside each other.
func lieApart(t *testing.T, what string, s *sheet, boxes [][4]float64) {
	t.Helper()
	for i, a := range boxes {
		if a[0] < s.left()-0.01 || a[2] > s.right()+0.01 || a[1] < s.paper.Height-s.foot()-0.01 ||
			a[3] > s.paper.Height-Margin+0.01 {
			t.Errorf("%s: figure %d lies outside of the margins: %.1f", what, i, a)
		}
		for _, b := range boxes[:i] {
			if a[0] < b[2]-0.01 && b[0] < a[2]-0.01 && a[1] < b[3]-0.01 && b[1] < a[3]-0.01 {
				t.Errorf("%s: figure %d lies on another: %.1f and %.1f", what, i, a, b)
			}
		}
	}
}
