package generator_test

// A whole build of the demo pack beside the libraries' own calls on the same work: what a build could not do without.

import (
	"bytes"
	"errors"
	"fmt"
	"html"
	"io"
	"math"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	formatters "github.com/alecthomas/chroma/v2/formatters/html"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/alecthomas/chroma/v2/styles"
	"github.com/carlos7ags/folio/core"
	"github.com/carlos7ags/folio/font"
	"github.com/carlos7ags/folio/layout"
	"github.com/klauspost/compress/zlib"
	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/js"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"

	"trundle/generator"
	"trundle/generator/work"
	"trundle/site"
	"trundle/testdata/used"
)

// libraryWork is what a build asks of libraries: each lesson's Markdown and listings for both editions, each sheet's
// text in its faces, line by line, each chart of a page with its points, and scripts and style sheets to be made small.
type libraryWork struct {
	lessons  [][]byte
	listings [][2]string // language and text
	sheets   [][][]faced
	charts   []libraryChart
	scripts  map[string][]byte
}

// A faced text is in one face of the typeface.
type faced struct{ face, text string }

// BenchmarkBuildOverLibraries gives the processor time of both and their ratio. The libraries get the same number of
// documents, lines, faces, charts and points, and do each in their own way, with streams packed as lightly as ours. No
// library proves a pack, binds the season's files, fills pages in around lessons, tries how a sheet fits on few pages,
// or draws rules, boxes and figures on it; these count for the build alone.
func BenchmarkBuildOverLibraries(b *testing.B) {
	pack := season(b, 13)
	var proving, drawing, libraries time.Duration
	var asked libraryWork
	parts := map[string]time.Duration{}
	for b.Loop() {
		began := used.Processor()
		proved, err := generator.Prove(b.Context(), pack)
		if err != nil {
			b.Fatal(err)
		}
		proving += used.Processor() - began
		began = used.Processor()
		files, err := generator.Draw(b.Context(), proved)
		if err != nil {
			b.Fatal(err)
		}
		drawing += used.Processor() - began
		if asked.lessons == nil {
			asked = askedOfLibraries(b, proved, files)
		}
		for name, do := range map[string]func() error{"render": asked.render, "highlight": asked.highlight,
			"print": asked.print, "plot": asked.plot, "shrink": asked.shrink} {
			runtime.GC() // so that none pays for what another left
			began = used.Processor()
			if err := do(); err != nil {
				b.Fatal(err)
			}
			parts[name] += used.Processor() - began
		}
	}
	for name, took := range parts {
		libraries += took
		b.ReportMetric(float64(took.Milliseconds())/float64(b.N), name+"-cpu-ms")
	}
	b.ReportMetric(float64(proving.Milliseconds())/float64(b.N), "prove-cpu-ms")
	b.ReportMetric(float64(drawing.Milliseconds())/float64(b.N), "draw-cpu-ms")
	b.ReportMetric(float64(libraries.Milliseconds())/float64(b.N), "libraries-cpu-ms")
	b.ReportMetric(float64(proving+drawing)/float64(libraries), "build/libraries")
	b.ReportMetric(float64(drawing)/float64(libraries), "draw/libraries")
	b.ReportMetric(float64(proving+drawing)/float64(proving), "build/prove")
	b.ReportMetric(float64(len(asked.sheets)), "sheets")
	b.ReportMetric(float64(len(asked.charts)), "charts")
}

var listing = regexp.MustCompile("(?ms)^```([a-z]+)[^\n]*\n(.*?)^```$")

func askedOfLibraries(b *testing.B, proved *generator.Proved, files map[string][]byte) (asked libraryWork) {
	b.Helper()
	for _, l := range proved.Lessons {
		asked.lessons = append(asked.lessons, l.Markdown)
		for range site.Editions {
			for _, m := range listing.FindAllSubmatch(l.Markdown, -1) {
				if name := string(m[1]); lexers.Get(name) != nil {
					asked.listings = append(asked.listings, [2]string{name, string(m[2])})
				}
			}
			for _, d := range l.Data {
				if d.Chart != nil {
					asked.charts = append(asked.charts, chartOf(d))
				}
			}
		}
	}
	asked.scripts = map[string][]byte{}
	for _, pattern := range []string{"scripts/*.js", "scripts/*/*.js", "styles/*.css"} {
		names, _ := filepath.Glob(filepath.Join("..", "site", pattern))
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				b.Fatal(err)
			}
			asked.scripts[name] = data
		}
	}
	for name, data := range files {
		if path.Ext(name) == ".pdf" && !strings.Contains(name, "season-") {
			asked.sheets = append(asked.sheets, linesOf(b, data))
		}
	}
	return asked
}

var (
	xmlLine = regexp.MustCompile(`(?m)^<text [^>]*>(.*)</text>$`)
	xmlRun  = regexp.MustCompile(`<b>(.*?)</b>|<i>(.*?)</i>|([^<]+)`)
)

// linesOf reads the lines of a sheet, each in runs of one face.
func linesOf(b *testing.B, sheet []byte) (lines [][]faced) {
	b.Helper()
	name := filepath.Join(b.TempDir(), "sheet.pdf")
	if err := os.WriteFile(name, sheet, 0o644); err != nil {
		b.Fatal(err)
	}
	text, err := exec.CommandContext(b.Context(), "pdftohtml", "-xml", "-i", "-stdout", name).Output()
	if err != nil {
		b.Fatal(err)
	}
	for _, line := range xmlLine.FindAllSubmatch(text, -1) {
		var runs []faced
		for _, m := range xmlRun.FindAllSubmatch(line[1], -1) {
			for i, face := range []string{"bold", "italic", "regular"} {
				if said := m[i+1]; said != nil {
					runs = append(runs, faced{face, html.UnescapeString(string(said))})
				}
			}
		}
		if runs != nil {
			lines = append(lines, runs)
		}
	}
	return lines
}

// A libraryChart is a chart as the library has it: titles, and the points of its series, joined or not.
type libraryChart struct {
	title, x, y string
	series      []librarySeries
}

type librarySeries struct {
	points plotter.XYs
	joined bool
}

// chartOf is the chart of a block.
func chartOf(d *work.Data) libraryChart {
	c := libraryChart{title: d.Chart.Title, x: d.Chart.XTitle, y: d.Chart.YTitle}
	add := func(joined bool, x, y []float64) {
		var points plotter.XYs
		for i := range y {
			if !math.IsNaN(y[i]) {
				points = append(points, plotter.XY{X: x[i], Y: y[i]})
			}
		}
		if points != nil {
			c.series = append(c.series, librarySeries{points, joined})
		}
	}
	for _, curve := range d.Chart.Curves {
		add(true, curve.X, curve.Y)
	}
	for _, fit := range d.Chart.Fits {
		add(false, fit.X, fit.Y)
	}
	for _, cycles := range d.Cycles {
		add(true, cycles.Built.Cycles, cycles.Built.Offsets)
		add(true, cycles.Swapped.Cycles, cycles.Swapped.Offsets)
	}
	for _, m := range d.Measured {
		for i, g := range m.Groups {
			add(false, slices.Repeat([]float64{float64(i)}, len(g.Values)), g.Values)
		}
	}
	return c
}

func (s librarySeries) addTo(p *plot.Plot) error {
	var drawn plot.Plotter
	var err error
	if s.joined {
		drawn, err = plotter.NewLine(s.points)
	} else {
		drawn, err = plotter.NewScatter(s.points)
	}
	p.Add(drawn)
	return err
}

// render reads each lesson once, with the extensions that we have, and writes it once for each edition.
func (w libraryWork) render() error {
	md := goldmark.New(goldmark.WithExtensions(extension.Table))
	for _, lesson := range w.lessons {
		tree := md.Parser().Parse(text.NewReader(lesson))
		for range site.Editions {
			if err := md.Renderer().Render(io.Discard, lesson, tree); err != nil {
				return err
			}
		}
	}
	return nil
}

// shrink makes scripts and style sheets small.
func (w libraryWork) shrink() error {
	m := minify.New()
	m.AddFunc(".js", js.Minify)
	m.AddFunc(".css", css.Minify)
	for name, data := range w.scripts {
		if _, err := m.Bytes(filepath.Ext(name), slices.Clone(data)); err != nil { // it writes into its input
			return err
		}
	}
	return nil
}

func (w libraryWork) highlight() error {
	formatter := formatters.New(formatters.WithClasses(true))
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

// print sets each sheet's lines on tagged pages, in the faces that they are in on the sheet: words are measured and
// broken into lines, each line is an element of the structure, of which our sheets have about as many, and each
// document has the letters that it uses. Elements are packed all in one, as ours are. The faces are read once.
func (w libraryWork) print() error {
	faces, err := readFaces()
	if err != nil {
		return err
	}
	packer, err := zlib.NewWriterLevel(io.Discard, zlib.BestSpeed)
	if err != nil {
		return err
	}
	for _, lines := range w.sheets {
		sheet := layout.NewRenderer(595, 842, layout.Margins{Top: 30, Right: 30, Bottom: 30, Left: 30})
		sheet.SetTagged(true)
		set := map[string]*font.EmbeddedFont{}
		for _, line := range lines {
			var runs []layout.TextRun
			for _, run := range line {
				if set[run.face] == nil {
					set[run.face] = font.NewEmbeddedFont(faces[run.face])
				}
				runs = append(runs, layout.NewRunEmbedded(run.text, set[run.face], 10))
			}
			sheet.Add(layout.NewStyledParagraph(runs...))
		}
		var objects []core.PdfObject
		add := func(made core.PdfObject) *core.PdfIndirectReference {
			objects = append(objects, made)
			return core.NewPdfIndirectReference(len(objects), 0)
		}
		for _, page := range sheet.Render() {
			add(page.Stream.ToPdfStream())
		}
		var structure bytes.Buffer
		for _, tag := range sheet.StructTags() {
			element := core.NewPdfDictionary()
			element.Set("S", core.NewPdfName(tag.Tag))
			element.Set("K", core.NewPdfInteger(tag.MCID))
			if _, err := element.WriteTo(&structure); err != nil {
				return err
			}
		}
		add(core.NewPdfStreamCompressed(structure.Bytes()))
		for _, face := range set {
			add(face.BuildObjects(add))
		}
		if err := packed(packer, objects); err != nil {
			return err
		}
	}
	return nil
}

// packed writes objects. The library packs streams as hard as can be, which would take as long as all the rest; here
// they are packed as lightly as ours, and by the same library.
func packed(packer *zlib.Writer, objects []core.PdfObject) error {
	for _, o := range objects {
		if stream, ok := o.(*core.PdfStream); ok {
			packer.Reset(io.Discard)
			_, err := packer.Write(stream.Data)
			if err := errors.Join(err, packer.Close()); err != nil {
				return err
			}
			continue
		}
		if _, err := o.WriteTo(io.Discard); err != nil {
			return err
		}
	}
	return nil
}

func readFaces() (map[string]font.Face, error) {
	faces := map[string]font.Face{}
	for _, name := range []string{"regular", "bold", "italic"} {
		data, err := os.ReadFile(filepath.Join("..", "worksheets", "fonts", name+".ttf"))
		if err != nil {
			return nil, err
		}
		if faces[name], err = font.ParseTTF(data); err != nil {
			return nil, err
		}
	}
	return faces, nil
}

// plot draws each chart once for each edition, with its own points, and its axes under their titles.
func (w libraryWork) plot() error {
	for _, chart := range w.charts {
		p := plot.New()
		p.Title.Text, p.X.Label.Text, p.Y.Label.Text = chart.title, chart.x, chart.y
		for _, one := range chart.series {
			if err := one.addTo(p); err != nil {
				return err
			}
		}
		canvas := vgsvg.New(12*vg.Centimeter, 8*vg.Centimeter)
		p.Draw(draw.New(canvas))
		if _, err := canvas.WriteTo(io.Discard); err != nil {
			return fmt.Errorf("a chart: %w", err)
		}
	}
	return nil
}
