package worksheets_test

// How long sheets take, of one lesson and of the whole demo pack, once it has been read and worked out; and pages, to
// compare.

import (
	"strings"
	"testing"

	"trundle/generator"
	"trundle/site"
	"trundle/testdata/used"
)

func BenchmarkSheetsOfALesson(b *testing.B) {
	makes(b, func(name string) bool {
		return strings.Contains(name, "/03-") && strings.HasSuffix(name, ".pdf")
	})
}

func BenchmarkSheetsOfThePack(b *testing.B) {
	makes(b, func(name string) bool { return strings.HasSuffix(name, ".pdf") })
}

// BenchmarkLessonSheets makes the sheets of the lessons in both editions, without run sheets and the season's files.
func BenchmarkLessonSheets(b *testing.B) {
	makes(b, func(name string) bool {
		return strings.HasSuffix(name, ".pdf") && !strings.Contains(name, "-mentor-") && !strings.Contains(name, "/season-")
	})
}

func BenchmarkWhatIsNoSheet(b *testing.B) {
	makes(b, func(name string) bool { return !strings.HasSuffix(name, ".pdf") })
}

// makes makes the files with certain names over and over.
func makes(b *testing.B, wanted func(name string) bool) {
	proved, err := generator.Prove(b.Context(), demo())
	if err != nil {
		b.Fatal(err)
	}
	s, err := site.New(proved.Pack.Language)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	files, size, began := 0, 0, used.Processor()
	for b.Loop() {
		files, size = 0, 0
		for _, job := range generator.Jobs(proved, s) {
			if !wanted(job.Name) {
				continue
			}
			made, err := job.Make()
			if err != nil {
				b.Fatal(err)
			}
			files, size = files+1, size+len(made)
		}
	}
	b.ReportMetric(float64((used.Processor()-began).Microseconds())/1000/float64(b.N), "cpu-ms/op")
	b.ReportMetric(float64(files), "files")
	b.ReportMetric(float64(size)/float64(files), "bytes/file")
}
