package pdf

// Faces within a file (ISO 32000-1, 9.6 to 9.9): the glyphs that are used, their widths, and the letters that they are.

import (
	"fmt"
	"strings"
	"sync"

	"github.com/carlos7ags/folio/core"
	"github.com/carlos7ags/folio/font"
)

// perFace is how many objects a face takes. Those of a style have the same numbers in every file, so that documents
// with the same letters share them.
const perFace = 5

// fontNumber is the number of a style's font object.
func fontNumber(style int) int { return (style + 1) * perFace }

// mostShared is how many sets of letters are remembered: more than a pack has, fewer than would be missed.
const mostShared = 200

// shared are the objects of a face by the letters that are used.
type shared struct {
	lock sync.Mutex
	by   map[string]func() ([]object, error)
}

// embedded gives the objects of a face as a style, with some letters.
func (f *Face) embedded(style int, letters string) ([]object, error) {
	key := string(rune(style)) + letters
	f.shared.lock.Lock()
	objects := f.shared.by[key]
	if objects == nil {
		objects = sync.OnceValues(func() ([]object, error) { return f.embed(style, letters) })
		if f.shared.by == nil || len(f.shared.by) >= mostShared {
			f.shared.by = map[string]func() ([]object, error){}
		}
		f.shared.by[key] = objects
	}
	f.shared.lock.Unlock()
	return objects()
}

// embed makes the objects.
func (f *Face) embed(style int, letters string) ([]object, error) {
	program := font.NewEmbeddedFont(f.file)
	program.EncodeString(letters)
	var objects []object
	var failed error
	add := func(made core.PdfObject) *core.PdfIndirectReference {
		if dict, ok := made.(*core.PdfDictionary); ok && dict.Get("W") != nil {
			dict.Set("W", prewritten(f.widthsOf(letters)))
		}
		o, err := objectOf(made)
		if failed == nil {
			failed = err
		}
		objects = append(objects, o)
		return core.NewPdfIndirectReference(style*perFace+len(objects), 0)
	}
	add(program.BuildObjects(add))
	if failed == nil && len(objects) != perFace {
		failed = fmt.Errorf("a font has %d objects, not %d", len(objects), perFace)
	}
	return objects, failed
}

// widthsOf are the widths of the glyphs of letters in thousandths of the type's size. The library cuts fractions off,
// which would add up over a line.
func (f *Face) widthsOf(letters string) string {
	widths := map[uint16]float64{}
	for _, r := range letters {
		g := f.glyph(r)
		widths[g] = f.widths[g] * 1000
	}
	var all strings.Builder
	all.WriteString("[")
	for g := range f.widths {
		if w, ok := widths[uint16(g)]; ok {
			all.WriteString(decimal(float64(g)) + "[" + decimal(w) + "]")
		}
	}
	return all.String() + "]"
}
