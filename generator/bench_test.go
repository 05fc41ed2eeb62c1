package generator_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"testing"
	"testing/fstest"

	"trundle/generator"
)

// season is the demo pack with so many more copies of its third lesson.
func season(b *testing.B, lessons int) fstest.MapFS {
	pack := fstest.MapFS{}
	demo := os.DirFS("../lessons")
	err := fs.WalkDir(demo, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(demo, name)
		pack[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		b.Fatal(err)
	}
	third := pack["03-rotations-for-a-distance.md"].Data
	for i := range lessons {
		copied := bytes.Replace(third, []byte("\nid: "), fmt.Appendf(nil, "\nid: %d-", i), 1)
		pack[fmt.Sprintf("%05d-lesson.md", i+100)] = &fstest.MapFile{Data: copied}
	}
	return pack
}

func BenchmarkBuild(b *testing.B) {
	for _, lessons := range []int{1, 100, 1000, 10000} {
		b.Run(fmt.Sprintf("lessons=%d", lessons), func(b *testing.B) {
			pack := season(b, lessons)
			for b.Loop() {
				proved, err := generator.Prove(b.Context(), pack)
				if err != nil {
					b.Fatal(err)
				}
				if proved.HasErrors() {
					b.Fatal(proved.Problems[0].What)
				}
				if _, err := generator.Draw(b.Context(), proved); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
