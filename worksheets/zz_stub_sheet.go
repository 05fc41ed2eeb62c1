package worksheets

// Stand-ins for what other branches bring.

import (
	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
)

func (s *sheet) data(*lesson.DataBlock) {}

func (s *sheet) picture(*ast.Image) bool {
	s.put(s.fit.picture, func(y float64) { s.doc.Apart(func() { s.doc.Rect(s.left(), y, s.width(), s.fit.picture, "S") }) })
	return true
}

type workRow struct {
	draw func()
	wide bool
}

func (s *sheet) rows(b *lesson.WorkBlock) []workRow { return []workRow{{func() { s.block(b) }, true}} }
