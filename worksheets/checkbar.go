package worksheets

// The bars on each page with gauges by which a reader sees whether it was printed at true scale.

import "trundle/worksheets/pdf"

const (
	fourInches = 4 * inch

	checkRoom    = 13 // what bars and note take, the note at the right
	narrowCheck  = 26 // and with the note below
	checkBesides = 55 // the least room of a note at the right
)

// checkHeight is what the bars and their note take in a width.
func checkHeight(width float64) float64 {
	if width < fourInches+12+checkBesides {
		return narrowCheck
	}
	return checkRoom
}

// checkBar draws a bar of 100 mm and one of 4 in, what they must measure, and a box to
// tick once they have been measured.
func checkBar(doc *pdf.Document, x, y, width float64, words func(string, ...any) string) {
	p := pen{doc}
	bar := func(y, length float64, label string) {
		p.line(x+gaugeEdge, y, x+gaugeEdge+length, y, thin, black)
		p.line(x+gaugeEdge, y-2, x+gaugeEdge, y+2, hair, black)
		p.line(x+gaugeEdge+length, y-2, x+gaugeEdge+length, y+2, hair, black)
		p.word(x+gaugeEdge+length/2, y-1, captionSize, centred, label)
	}
	doc.In(pdf.Figure, func() {
		bar(y+4, 100, "100 mm")
		bar(y+10, fourInches, "4 in")
	}, pdf.Alt(words("check-bars")), doc.Around(x, y, fourInches+1, checkRoom))
	boxX, boxY, note := x+fourInches+6, y+1.0, width-fourInches-12
	if checkHeight(width) == narrowCheck {
		boxX, boxY, note = x+gaugeEdge, y+14, width-7
	}
	doc.In(pdf.P, func() {
		p.rect(boxX, boxY, 4, 4, 0.25, black)
		p.note(boxX+6, boxY+3, note, smallest, 4, words("must-measure"))
	})
	p.down()
}
