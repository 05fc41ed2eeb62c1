package worksheets

// Data on sheets: charts of what was recorded, tables of what the runs come to, and axes for what a team measures.

import (
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site/figure"
	"trundle/worksheets/pdf"
)

// Sizes of data on sheets: millimetres, and points of type.
const (
	chartWidth  = 100.0 // letters of a chart are 10.6 points at this width
	chartNarrow = 86.0  // and 9 at this
	axesHigh    = 60.0
	cellText    = 11.0
	saidText    = 10.0
)

// hiddenNumber stands where students write a number that they find.
const hiddenNumber = "_____"

// data puts a runs, chart or compare block. What waits for a prediction is put where its caller asks for it.
func (s *sheet) data(b *lesson.DataBlock) {
	d := s.lesson.OfData(b)
	if d == nil || s.about.Shown == nil || !onSheets(d) {
		return
	}
	// Both editions are laid out alike, so each must know what the other writes.
	shown, other := s.figureOf(d, s.mentors), s.figureOf(d, !s.mentors)
	if d.Name == lesson.ChartBlock {
		s.chart(d, shown, other)
		return
	}
	for i, t := range shown.Tables {
		if d.Name == lesson.RunsBlock && i >= max(1, len(d.Measured)) {
			break // what else is worked out of the same runs stays on the page
		}
		s.numbers(s.ownColumns(d, t), s.ownColumns(d, other.Tables[i]))
	}
	s.sentences(shown.Ranking, other.Ranking, " · ")
}

// figureOf is the figure of data in an edition.
func (s *sheet) figureOf(d *work.Data, mentors bool) *shownFigure {
	return s.about.Shown.figureOf(s.lesson, d, mentors)
}

// waits tells whether data is to be seen only after a prediction.
func waits(d *work.Data) bool { return len(d.Asked) > 0 }

// onSheets tells what of the data is printed. Drawings that only explain stay on the page: a path seen from above, and
// lines of a formula on which nothing is marked, unless they are a team's own.
func onSheets(d *work.Data) bool {
	if d.Name != lesson.ChartBlock {
		return d.Name != lesson.ShowBlock
	}
	switch d.Chart.Kind {
	case lesson.PathChart:
		return false
	case lesson.LineChart:
		return len(d.Chart.Marks) > 0 || owned(d.Chart)
	case lesson.StepsChart, lesson.FittedChart, lesson.DotsChart, lesson.BarsChart:
	}
	return true
}

// owned tells whether all lines of a chart are for the team to draw.
func owned(c *work.Chart) bool {
	return len(c.Curves) > 0 && !slices.ContainsFunc(c.Curves, func(c work.Curve) bool { return !c.OfStudents })
}

// chart puts a chart with its legend at the right, or axes to draw on.
func (s *sheet) chart(d *work.Data, shown, other *shownFigure) {
	line := s.font(bold, cellText)
	title := short(s.wrap(shown.Title, s.width()), 2)
	high := line * float64(len(title))
	wide, tall := s.chartSize(shown, other)
	s.gap(2)
	s.put(high+tall+2, func(y float64) {
		s.doc.In(pdf.P, func() {
			s.font(bold, cellText)
			s.lines(s.left(), y, title, line)
		})
		if shown.chart == nil {
			s.axes(d, y+high, tall)
			return
		}
		s.doc.In(pdf.Figure, func() { shown.chart.draw(s.doc, s.left(), y+high, wide, tall) },
			pdf.Alt(shown.Title+". "+shown.about), s.doc.Around(s.left(), y+high, wide, tall))
		s.legend(shown, s.left()+wide+4, y+high+2)
	})
}

// chartSize is how large a chart is in both editions.
func (s *sheet) chartSize(shown, other *shownFigure) (wide, tall float64) {
	if shown.chart == nil || other.chart == nil {
		return s.width() * 0.62, axesHigh
	}
	wide = chartWidth
	if tall = wide * shown.chart.height / shown.chart.width; tall > s.fit.picture {
		wide = max(chartNarrow, wide*s.fit.picture/tall)
		tall = wide * shown.chart.height / shown.chart.width
	}
	return wide, max(tall, s.legendHeight(shown, s.width()-wide-4))
}

const (
	legendText   = 10.0
	swatchWidth  = 12.0
	swatchHeight = 3.5
)

// legendHeight is what a legend takes in a width.
func (s *sheet) legendHeight(f *shownFigure, width float64) float64 {
	line, height := s.font(regular, legendText), 2.0
	for _, e := range f.Legend {
		height += line*float64(len(s.wrap(e.Label, width-swatchWidth-2))) + 1
	}
	return height
}

// legend puts what the marks of a chart mean.
func (s *sheet) legend(f *shownFigure, x, y float64) {
	if len(f.Legend) == 0 {
		return
	}
	line := s.font(regular, legendText)
	s.doc.In(pdf.L, func() {
		for i, e := range f.Legend {
			s.doc.In(pdf.LI, func() {
				s.doc.Apart(func() {
					if sample := f.swatches[i]; sample != nil {
						sample.draw(s.doc, x, y+(line-swatchHeight)/2, swatchWidth, swatchHeight)
					}
				})
				s.font(regular, legendText)
				lines := s.wrap(e.Label, s.right()-x-swatchWidth-2)
				s.doc.In(pdf.LBody, func() { s.lines(x+swatchWidth+2, y, lines, line) })
				y += line*float64(len(lines)) + 1
			})
		}
	})
}

// axes draws axes for lines that a team works out, with a negative side if its values may have signs.
func (s *sheet) axes(d *work.Data, y, high float64) {
	c := d.Chart
	titled := func(title, unit string) string {
		if unit == "" || title == "" {
			return title + unit
		}
		return title + " (" + unit + ")"
	}
	g := Gauge{Kind: Squares, Size: square, Text: titled(c.XTitle, s.unit(c.XUnit.Symbol())),
		Up: titled(c.YTitle, s.unit(c.YUnit.Symbol())), Words: s.about.Words}
	for _, curve := range c.Curves {
		g.Signed = g.Signed || slices.ContainsFunc(curve.Y, isBelow)
	}
	at := sized(g.squaresRoom(sized(s.width(), high)))
	at.X, at.Y = s.left(), y
	g.draw(s.doc, at)
}

// sentences puts what is said of data in one paragraph, as high as the other edition's.
func (s *sheet) sentences(all, other []string, between string) {
	if len(all) == 0 {
		return
	}
	line := s.font(regular, saidText)
	laid := func(texts []string) []string {
		return s.wrap(figure.Written(strings.Join(texts, between), hiddenNumber), s.width())
	}
	mine, theirs := laid(all), laid(other)
	s.gap(1)
	s.doc.In(pdf.P, func() {
		for i := range max(len(mine), len(theirs)) {
			s.put(line, func(y float64) {
				s.font(regular, saidText)
				if i < len(mine) {
					s.lines(s.left(), y, mine[i:i+1], line)
				}
			})
		}
	})
}
