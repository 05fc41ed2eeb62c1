package worksheets

// Sizes of paper, and the PDF library behind a layer that rounds: whatever is drawn goes through it, so that the same
// sheet has the same bytes on every processor.

import (
	_ "embed"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// Paper is a size of paper held upright, in millimetres.
type Paper struct {
	Name          string // as in file names
	Width, Height float64
}

// Papers are the sizes that sheets are made in (ISO 216; ANSI/ASME Y14.1).
var Papers = []Paper{{"a4", 210, 297}, {"letter", 215.9, 279.4}}

// The faces of the font: regular, bold, and italic for symbols of one letter.
const (
	family  = "Trundle Sheet"
	regular = ""
	bold    = "B"
	italic  = "I"
)

// The pages' typeface for paper, with more letters. .ci/fonts makes it; its licence is in site/assets/fonts.txt.
var (
	//go:embed fonts/regular.ttf
	regularFace []byte
	//go:embed fonts/bold.ttf
	boldFace []byte
	//go:embed fonts/italic.ttf
	italicFace []byte
)

// A page draws on a grid of a thousandth of a millimetre. Processors differ in the last bits of a sum (some
// round once where others round twice), and what comes near a half of the last digit written must not.
type page struct{ *fpdf.Fpdf }

// thousandths rounds a length to the grid.
func thousandths(mm float64) float64 { return math.Round(mm*1000) / 1000 }

// Text writes a text with its base line at y.
func (p page) Text(x, y float64, text string) { p.Fpdf.Text(thousandths(x), thousandths(y), text) }

// Line draws a straight line.
func (p page) Line(x1, y1, x2, y2 float64) {
	p.Fpdf.Line(thousandths(x1), thousandths(y1), thousandths(x2), thousandths(y2))
}

// Rect draws a rectangle.
func (p page) Rect(x, y, w, h float64, style string) {
	p.Fpdf.Rect(thousandths(x), thousandths(y), thousandths(w), thousandths(h), style)
}

// Curve draws a Bézier curve of one control point.
func (p page) Curve(x0, y0, cx, cy, x1, y1 float64, style string) {
	p.Fpdf.Curve(thousandths(x0), thousandths(y0), thousandths(cx), thousandths(cy),
		thousandths(x1), thousandths(y1), style)
}

// Image puts a picture that was registered by its name.
func (p page) Image(name string, x, y, w, h float64, kind fpdf.ImageOptions) {
	p.ImageOptions(name, thousandths(x), thousandths(y), thousandths(w), thousandths(h), false, kind, 0, "")
}

// LinkString makes a place lead to an address.
func (p page) LinkString(x, y, w, h float64, address string) {
	p.Fpdf.LinkString(thousandths(x), thousandths(y), thousandths(w), thousandths(h), address)
}

// newPDF makes an empty document in millimetres, with its fonts. Only the glyphs that
// are used end up in the file. Nothing in it depends on the clock.
func newPDF(p Paper, title, author, language string) page {
	pdf := page{fpdf.NewCustom(&fpdf.InitType{
		OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: p.Width, Ht: p.Height},
	})}
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(time.Unix(0, 0).UTC())
	pdf.SetModificationDate(time.Unix(0, 0).UTC())
	pdf.SetProducer("trundle", true)
	pdf.SetTitle(title, true)
	pdf.SetAuthor(author, true)
	pdf.SetLang(language)
	pdf.SetMargins(Margin, Margin, Margin)
	// Pages break between blocks, and only the sheet knows what a block is.
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetCellMargin(0)
	pdf.AddUTF8FontFromBytes(family, regular, regularFace)
	pdf.AddUTF8FontFromBytes(family, bold, boldFace)
	pdf.AddUTF8FontFromBytes(family, italic, italicFace)
	pdf.SetFont(family, regular, 10)
	return pdf
}
