package worksheets

import (
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/goregular"
)

// Paper is a size of paper held upright, in millimetres.
type Paper struct {
	Name          string // as in file names
	Width, Height float64
}

// Papers are the sizes that sheets are made in (ISO 216; ANSI/ASME Y14.1).
var Papers = []Paper{{"a4", 210, 297}, {"letter", 215.9, 279.4}}

// The faces of the font: regular, bold, and italic for symbols.
const (
	family  = "Go"
	regular = ""
	bold    = "B"
	italic  = "I"
)

// newPDF makes an empty document in millimetres, with its fonts. Only the glyphs that
// are used end up in the file. Nothing in it depends on the clock.
func newPDF(p Paper, title, author, language string) *fpdf.Fpdf {
	pdf := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: p.Width, Ht: p.Height}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(time.Unix(0, 0).UTC())
	pdf.SetModificationDate(time.Unix(0, 0).UTC())
	pdf.SetProducer("trundle", true)
	pdf.SetTitle(title, true)
	pdf.SetAuthor(author, true)
	pdf.SetLang(language)
	pdf.SetMargins(Margin, Margin, Margin)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetCellMargin(0)
	pdf.AddUTF8FontFromBytes(family, regular, goregular.TTF)
	pdf.AddUTF8FontFromBytes(family, bold, gobold.TTF)
	pdf.AddUTF8FontFromBytes(family, italic, goitalic.TTF)
	pdf.SetFont(family, regular, 10)
	return pdf
}
