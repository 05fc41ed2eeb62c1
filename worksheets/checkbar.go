package worksheets

// The bar on each page with gauges by which a reader sees whether it was printed at true scale.

import "trundle/worksheets/pdf"

const fourInches = 4 * inch

// checkBar draws a bar of 100 mm and one of 4 in, what they must measure, and a box to
// tick once they have been measured.
func checkBar(doc *pdf.Document, x, y float64, words func(string, ...any) string) {
	p := pen{doc}
	bar := func(y, length float64, label string) {
		p.line(x+gaugeEdge, y, x+gaugeEdge+length, y, thin, black)
		p.line(x+gaugeEdge, y-2, x+gaugeEdge, y+2, hair, black)
		p.line(x+gaugeEdge+length, y-2, x+gaugeEdge+length, y+2, hair, black)
		p.word(x+gaugeEdge+length/2, y-1, 7.5, centred, label)
	}
	bar(y+5, 100, "100 mm")
	bar(y+12, fourInches, "4 in")
	p.rect(x+fourInches+6, y+3, 4, 4, 0.25, black)
	p.note(x+fourInches+12, y+6, 72, 8, 3, words("must-measure"))
	p.down()
}
