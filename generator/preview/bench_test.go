package preview_test

import (
	"fmt"
	"io/fs"
	"os"
	"testing"
	"testing/fstest"

	"trundle/generator/preview"
)

// BenchmarkUpdate changes one lesson of the demo pack with so many lessons more.
func BenchmarkUpdate(b *testing.B) {
	for _, more := range []int{0, 1000} {
		b.Run(fmt.Sprintf("lessons=%d", more), func(b *testing.B) {
			files := fstest.MapFS{}
			demo := os.DirFS("../../lessons")
			err := fs.WalkDir(demo, ".", func(name string, e fs.DirEntry, err error) error {
				if err != nil || e.IsDir() {
					return err
				}
				data, err := fs.ReadFile(demo, name)
				files[name] = &fstest.MapFile{Data: data}
				return err
			})
			if err != nil {
				b.Fatal(err)
			}
			names, _ := fs.Glob(demo, "[0-9]*.md")
			for i := range more {
				files[fmt.Sprintf("%05d-more.md", i+100)] = files[names[i%len(names)]]
			}
			pages := newPreview(b)
			update(b, pages, held{files})
			text := files["03-rotations-for-a-distance.md"].Data
			n := 0
			for b.Loop() {
				n++
				files["03-rotations-for-a-distance.md"] = &fstest.MapFile{Data: fmt.Appendf(text[:len(text):len(text)],
					"\nSave %d.\n", n)}
				update(b, pages, held{files})
			}
		})
	}
}

// held gives out its files as they are, as the mirror of a folder does.
type held struct{ fstest.MapFS }

func (h held) Held() {}

func (h held) ReadFile(name string) ([]byte, error) {
	f, ok := h.MapFS[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return f.Data, nil
}

func update(b *testing.B, pages *preview.Preview, files fs.FS) {
	b.Helper()
	proved, err := pages.Update(b.Context(), files, "")
	if err != nil || proved.HasErrors() {
		b.Fatal(err, proved)
	}
}
