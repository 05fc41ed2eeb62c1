package worksheets

// Pictures of a lesson on its sheets.

import (
	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/worksheets/pdf"
)

// picture puts a picture in the middle of the column, and tells whether there is one that paper can show.
func (s *sheet) picture(image *ast.Image) bool {
	w, h, ok := s.pictureSize(image, s.width())
	if !ok {
		return false
	}
	s.gap(2)
	s.put(h+2, func(y float64) { s.pictureAt(image, s.left()+(s.width()-w)/2, y, w, h) })
	return true
}

// pictureSize is how large a picture is on this sheet, no wider than there is room; false if paper cannot show it.
func (s *sheet) pictureSize(image *ast.Image, room float64) (w, h float64, ok bool) {
	i := s.about.Shown.picture(lesson.PictureName(s.lesson.File.Name, string(image.Destination)))
	if i == nil {
		return 0, 0, false
	}
	scale := min(1, room/i.width, s.fit.picture/i.height)
	return i.width * scale, i.height * scale, true
}

// pictureAt draws a picture at a place, such as beside a text.
func (s *sheet) pictureAt(image *ast.Image, x, y, w, h float64) {
	i := s.about.Shown.picture(lesson.PictureName(s.lesson.File.Name, string(image.Destination)))
	s.doc.In(pdf.Figure, func() { i.draw(s.doc, x, y, w, h) },
		pdf.Alt(s.plain(image)), s.doc.Around(x, y, w, h))
}
