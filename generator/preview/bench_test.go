package preview_test

// How long a save takes in a pack of many lessons, without a browser.

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strconv"
	"testing"
	"testing/fstest"
	"time"

	"trundle/generator/preview"
	"trundle/testdata/used"
)

// many is how many times the benchmarks have the demo's lessons at most.
var many = flag.Int("many", 25, "how many `times` a large pack has the demo's lessons; 77 are 1,001 lessons")

// BenchmarkUpdate changes one lesson of the demo pack, and of one with its lessons many times, and draws its page.
func BenchmarkUpdate(b *testing.B) {
	for _, times := range []int{1, *many} {
		files := copies(b, times)
		b.Run(fmt.Sprintf("times=%d", times), func(b *testing.B) {
			pages := newPreview(b)
			update(b, pages, held{files})
			const name = "00003-rotations-for-a-distance"
			text := files[name+".md"].Data
			var all []float64
			began := used.Processor()
			for b.Loop() {
				files[name+".md"] = &fstest.MapFile{Data: fmt.Appendf(slices.Clip(text), "\nSave %d.\n", len(all))}
				start := time.Now()
				update(b, pages, held{files})
				if _, ok, err := pages.File("mentors/" + name + ".html"); err != nil || !ok {
					b.Fatal(ok, err)
				}
				all = append(all, float64(time.Since(start).Microseconds())/1000)
			}
			b.ReportMetric(float64((used.Processor()-began).Microseconds())/1000/float64(len(all)), "ms-CPU")
			slices.Sort(all)
			b.ReportMetric(all[len(all)/2], "ms-p50")
			b.ReportMetric(all[len(all)*95/100], "ms-p95")
		})
	}
}

var (
	idLine   = regexp.MustCompile(`(?m)^id: .*$`)
	linkedTo = regexp.MustCompile(`\]\(([0-9]{2})-([\w-]+)\.md`)
)

// copies is the demo pack with its lessons many times, each time with ids and links of their own.
func copies(b *testing.B, times int) fstest.MapFS {
	b.Helper()
	files := fstest.MapFS{}
	demo := os.DirFS("../../lessons")
	if err := fs.WalkDir(demo, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(demo, name)
		files[name] = &fstest.MapFile{Data: data}
		return err
	}); err != nil {
		b.Fatal(err)
	}
	names, _ := fs.Glob(demo, "[0-9]*.md")
	for i := range times * len(names) {
		name, time := names[i%len(names)], i/len(names)
		data := idLine.ReplaceAll(files[name].Data, fmt.Appendf(nil, "${0}-%d", time))
		data = linkedTo.ReplaceAllFunc(data, func(link []byte) []byte {
			n, _ := strconv.Atoi(string(link[2:4]))
			return fmt.Appendf(nil, "](%05d%s", time*len(names)+n, link[4:])
		})
		files[fmt.Sprintf("%05d%s", i+1, name[2:])] = &fstest.MapFile{Data: data}
	}
	for _, name := range names {
		delete(files, name)
	}
	return files
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
		b.Fatal(err, proved.Problems)
	}
}
