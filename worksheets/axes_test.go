package worksheets

// Axes for a chart of a team's own numbers.

import (
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/site/figure"
)

// TestAChartOfATeamsOwnNumbersIsAxesToDrawOn has a negative side only where the sample goes there, and is as high in
// both editions.
func TestAChartOfATeamsOwnNumbersIsAxesToDrawOn(t *testing.T) {
	mm, _ := quantity.LookupUnit("mm")
	for _, signed := range []bool{false, true} {
		low := 1.0
		if signed {
			low = -1
		}
		d := &work.Data{DataBlock: &lesson.DataBlock{Name: lesson.ChartBlock}, Chart: &work.Chart{Kind: lesson.LineChart,
			XTitle: "Way", XUnit: mm, YTitle: "Drift", YUnit: mm,
			Curves: []work.Curve{{OfStudents: true, X: []float64{0, 1}, Y: []float64{low, 2}}}}}
		if !onSheets(d) {
			t.Fatal("the chart stays on the page")
		}
		shown := NewIllustrations(nil, func(_ *work.Lesson, _ *work.Data, mentors bool) figure.Figure {
			if mentors {
				return figure.Figure{Title: "Drift on the way", Picture: `<svg class="chart" viewBox="0 0 400 200"/>`}
			}
			return figure.Figure{Title: "Drift on the way", Note: "it is your own"}
		})
		var ends [2]float64
		for i, mentors := range []bool{false, true} {
			s := &sheet{paper: Papers[0], about: About{Words: testWords, Shown: shown}, mentors: mentors, fit: fit{picture: 60}}
			s.doc = newDocument("axes", "test", "en")
			s.newPage()
			s.chart(d, s.figureOf(d, mentors), s.figureOf(d, !mentors))
			ends[i] = s.y
			if said := textOfSheet(t, s); !mentors && (!strings.Contains(said, "Drift (mm)") ||
				!strings.Contains(said, "Way (mm)") || strings.Contains(said, quantity.Minus) != signed) {
				t.Errorf("signed is %v; the axes say\n%s", signed, said)
			}
		}
		if ends[0] != ends[1] {
			t.Errorf("the editions end at %g and %g", ends[0], ends[1])
		}
	}
}
