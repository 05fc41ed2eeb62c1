package worksheets

// Sizes of paper, and the typeface that everything on it is set in.

import (
	_ "embed"
	"sync"

	"trundle/worksheets/pdf"
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
	regular = pdf.Regular
	bold    = pdf.Bold
	italic  = pdf.Italic
)

// The pages' typeface for paper, with more letters. .ci/fonts makes it; its licence is in site/assets/fonts.txt.
var (
	//go:embed fonts/regular.ttf
	regularFile []byte
	//go:embed fonts/bold.ttf
	boldFile []byte
	//go:embed fonts/italic.ttf
	italicFile []byte
)

// letters is the typeface, read when the first sheet is wanted and shared by all.
var letters = sync.OnceValue(func() pdf.Typeface {
	var all pdf.Typeface
	for style, file := range [][]byte{regular: regularFile, bold: boldFile, italic: italicFile} {
		face, err := pdf.NewFace(file)
		if err != nil {
			panic("worksheets: " + err.Error()) // the font is part of the program
		}
		all[style] = face
	}
	return all
})

// newDocument makes an empty document. Only the letters that are used end up in the file.
func newDocument(title, author, language string) *pdf.Document {
	return pdf.New(information(title, author, language), letters())
}

// information is what a file says of itself.
func information(title, author, language string) pdf.Info {
	return pdf.Info{Title: title, Author: author, Language: language, Producer: "trundle"}
}

// newDraft makes a document for trying a layout out.
func newDraft() *pdf.Document { return pdf.NewDraft(letters()) }
