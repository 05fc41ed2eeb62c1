package generator_test

// A whole build of the demo pack beside the libraries' own calls on the same work: what a build could not do without.

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/alecthomas/chroma/v2/styles"
	"github.com/carlos7ags/folio/content"
	"github.com/carlos7ags/folio/core"
	"github.com/carlos7ags/folio/font"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"

	"trundle/generator"
)

// libraryWork is what a build asks of libraries: each page's Markdown and listings, each sheet's text by line, and how
// many charts pages have.
type libraryWork struct {
	pages    [][]byte
	listings [][2]string // language and text
	sheets   [][]string
	charts   int
}

// BenchmarkBuildOverLibraries gives the processor time of both and their ratio. No library proves a pack, binds the
// season's files or draws rules, boxes and figures on sheets: these count for the build alone.
func BenchmarkBuildOverLibraries(b *testing.B) {
	pack := season(b, 13)
	var proving, drawing, libraries time.Duration
	var asked libraryWork
	for b.Loop() {
		began := processorTime(b)
		proved, err := generator.Prove(b.Context(), pack)
		if err != nil {
			b.Fatal(err)
		}
		proving += processorTime(b) - began
		began = processorTime(b)
		files, err := generator.Draw(b.Context(), proved)
		if err != nil {
			b.Fatal(err)
		}
		drawing += processorTime(b) - began
		if asked.pages == nil {
			asked = askedOfLibraries(b, proved, files)
		}
		began = processorTime(b)
		for _, do := range []func() error{asked.render, asked.highlight, asked.print, asked.plot} {
			if err := do(); err != nil {
				b.Fatal(err)
			}
		}
		libraries += processorTime(b) - began
	}
	b.ReportMetric(float64(proving.Milliseconds())/float64(b.N), "prove-cpu-ms")
	b.ReportMetric(float64(drawing.Milliseconds())/float64(b.N), "draw-cpu-ms")
	b.ReportMetric(float64(libraries.Milliseconds())/float64(b.N), "libraries-cpu-ms")
	b.ReportMetric(float64(proving+drawing)/float64(libraries), "build/libraries")
	b.ReportMetric(float64(drawing)/float64(libraries), "draw/libraries")
	b.ReportMetric(float64(len(asked.sheets)), "sheets")
	b.ReportMetric(float64(asked.charts), "charts")
}

var listing = regexp.MustCompile("(?ms)^```([a-z]+)[^\n]*\n(.*?)^```$")

func askedOfLibraries(b *testing.B, proved *generator.Proved, files map[string][]byte) (asked libraryWork) {
	b.Helper()
	for _, l := range proved.Lessons {
		for range 2 { // editions
			asked.pages = append(asked.pages, l.Markdown)
			for _, m := range listing.FindAllSubmatch(l.Markdown, -1) {
				if name := string(m[1]); lexers.Get(name) != nil {
					asked.listings = append(asked.listings, [2]string{name, string(m[2])})
				}
			}
		}
	}
	for name, data := range files {
		switch path.Ext(name) {
		case ".html":
			asked.charts += bytes.Count(data, []byte(`class="chart"`))
		case ".pdf":
			if strings.Contains(name, "season-") {
				continue
			}
			c := exec.CommandContext(b.Context(), "pdftotext", "-raw", "-", "-")
			c.Stdin = bytes.NewReader(data)
			text, err := c.Output()
			if err != nil {
				b.Fatal(err)
			}
			asked.sheets = append(asked.sheets, strings.Split(string(text), "\n"))
		}
	}
	return asked
}

func (w libraryWork) render() error {
	md := goldmark.New(goldmark.WithExtensions(extension.Table))
	for _, page := range w.pages {
		if err := md.Convert(page, io.Discard); err != nil {
			return err
		}
	}
	return nil
}

func (w libraryWork) highlight() error {
	formatter := html.New(html.WithClasses(true))
	for _, one := range w.listings {
		tokens, err := lexers.Get(one[0]).Tokenise(nil, one[1])
		if err != nil {
			return err
		}
		if err := formatter.Format(io.Discard, styles.Fallback, tokens); err != nil {
			return err
		}
	}
	return nil
}

// print sets the text of each sheet in the regular face: words are measured, as for a column, lines are encoded, and
// the face is embedded with the letters that it has. The face itself is read once.
func (w libraryWork) print() error {
	data, err := os.ReadFile(filepath.Join("..", "worksheets", "fonts", "regular.ttf"))
	if err != nil {
		return err
	}
	face, err := font.ParseTTF(data)
	if err != nil {
		return err
	}
	for _, lines := range w.sheets {
		set, page := font.NewEmbeddedFont(face), content.NewStream()
		page.BeginText()
		page.SetFont("F1", 10)
		for _, line := range lines {
			for word := range strings.FieldsSeq(line) {
				set.MeasureString(word, 10)
			}
			page.ShowTextHex(set.EncodeString(line))
			page.MoveToNextLine()
		}
		page.EndText()
		objects := []core.PdfObject{page.ToPdfStream()}
		add := func(made core.PdfObject) *core.PdfIndirectReference {
			objects = append(objects, made)
			return core.NewPdfIndirectReference(len(objects), 0)
		}
		add(set.BuildObjects(add))
		for _, o := range objects {
			if _, err := o.WriteTo(io.Discard); err != nil {
				return err
			}
		}
	}
	return nil
}

func (w libraryWork) plot() error {
	for range w.charts {
		p := plot.New()
		points := make(plotter.XYs, 20)
		for i := range points {
			points[i].X, points[i].Y = float64(i), float64(i*i%7)
		}
		dots, err := plotter.NewScatter(points)
		if err != nil {
			return err
		}
		p.Add(dots)
		p.X.Label.Text, p.Y.Label.Text = "turns", "distance (cm)"
		canvas := vgsvg.New(12*vg.Centimeter, 8*vg.Centimeter)
		p.Draw(draw.New(canvas))
		if _, err := canvas.WriteTo(io.Discard); err != nil {
			return fmt.Errorf("a chart: %w", err)
		}
	}
	return nil
}

// processorTime is how much this program has used.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		b.Fatal(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
