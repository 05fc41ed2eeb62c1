package pdf_test

// A document with one of everything.

import (
	"image"
	"image/color"

	"trundle/worksheets/pdf"
)

func sample(letters pdf.Typeface) *pdf.Document {
	d := pdf.New(pdf.Info{Title: `Rotations – a sample (1 of 2) \`, Author: "Canal Day", Language: "en",
		Producer: "trundle"}, letters)
	draw(d)
	return d
}

func draw(d *pdf.Document) {
	d.AddPage(210, 297)
	d.Label("3-")
	d.Apart(func() {
		d.SetFont(pdf.Regular, 8)
		d.Text(12, 290, "page 1")
	})
	d.Bookmark(1, "Rotations", 12)
	d.In(pdf.H1, func() {
		d.SetFont(pdf.Bold, 17)
		d.Text(12, 20, "Rotations")
	})
	d.Bookmark(2, "Steps", 30)
	d.In(pdf.H2, func() { d.Text(12, 30, "Steps (π)") })
	d.SetFont(pdf.Regular, 12)
	steps(d)
	d.Apart(func() { d.Line(12, 60, 198, 60) })
	d.Bookmark(4, "A part of a part", 62)
	d.Bookmark(2, "Table", 65)
	roles(d)
	d.Bookmark(1, "Figure", 100)
	figures(d)
	d.Bookmark(3, "Again", 120)
	d.In(pdf.P, func() {
		d.Text(12, 130, "see")
		d.Link(20, 126, 30, 6, "https://canal.example/3.html?a=(b", "The lesson's page",
			func() { d.Text(20, 130, "canal.example") })
	})
	d.In(pdf.P, func() {
		d.Text(12, 280, "It goes on")
		d.AddPage(297, 210)
		d.Upwards(20, 100, func() { d.Text(20, 100, "over the page.") })
	})
	d.SetPage(1)
	d.In(pdf.P, func() { d.Text(12, 285, "18\u00a0± 3, back on the first page") })
}

// steps is a list of two numbered items.
func steps(d *pdf.Document) {
	d.In(pdf.L, func() {
		for i, step := range []string{"Measure π × d.", "Write 5 ⅛ − 2 ½ in “inches”."} {
			y := 40 + float64(i)*6
			d.In(pdf.LI, func() {
				d.In(pdf.Lbl, func() { d.Text(12, y, []string{"1.", "2."}[i]) })
				d.In(pdf.LBody, func() { d.Text(20, y, step) })
			})
		}
	}, pdf.Ordered)
}

// roles is a table with heads above its columns.
func roles(d *pdf.Document) {
	d.In(pdf.Table, func() {
		for row, cells := range [][]string{{"Role", "Job"}, {"Skipper", "starts it"}} {
			d.In(pdf.TR, func() {
				for column, cell := range cells {
					tag, details := pdf.TD, []pdf.Detail(nil)
					if row == 0 {
						tag, details = pdf.TH, []pdf.Detail{pdf.Scope(pdf.Column)}
					}
					d.In(tag, func() { d.Text(12+float64(column)*40, 70+float64(row)*6, cell) }, details...)
				}
			})
		}
	})
}

// figures are a fraction, a box to write in, a drawing and a picture.
func figures(d *pdf.Document) {
	d.In(pdf.Formula, func() {
		d.Text(14, 90, "1")
		d.Line(12, 92, 18, 92)
		d.Text(14, 97, "2")
	}, pdf.Alt("one half"), pdf.Actual("1/2"))
	d.In(pdf.Form, func() { d.Rect(12, 100, 30, 8, pdf.Stroke) }, pdf.Alt("Answer in cm"))
	d.In(pdf.Figure, func() {
		d.Dashes(1, 2)
		d.LineWidth(0.2)
		d.Rect(12, 110, 40, 10, pdf.Stroke)
		d.Dashes()
		d.Bow(12, 110, 20, 90, 52, 110)
	}, pdf.Alt("a box below a bow"), d.Around(12, 105, 40, 15))
	pixels := image.NewRGBA(image.Rect(0, 0, 2, 2))
	pixels.Set(1, 1, color.RGBA{200, 10, 10, 255})
	d.In(pdf.Figure, func() { d.Image(pdf.PictureOf(pixels), 60, 105, 10, 10) }, pdf.Alt("four dots"),
		d.Around(60, 105, 10, 10))
}
