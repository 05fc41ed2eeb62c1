package pdf_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"trundle/worksheets/pdf"
)

// letters is the sheets' typeface.
func letters(t testing.TB) pdf.Typeface {
	t.Helper()
	var all pdf.Typeface
	for style, name := range []string{"regular", "bold", "italic"} {
		file, err := os.ReadFile("../fonts/" + name + ".ttf")
		if err != nil {
			t.Fatal(err)
		}
		if all[style], err = pdf.NewFace(file); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// sample has one of everything.
func sample(letters pdf.Typeface) *pdf.Document {
	d := pdf.New(pdf.Info{Title: "Rotations – a sample", Author: "Canal Day", Language: "en", Producer: "trundle"}, letters)
	d.AddPage(210, 297)
	d.Label("3-")
	d.Bookmark(1, "Rotations", 12)
	d.In(pdf.H1, func() {
		d.SetFont(pdf.Bold, 17)
		d.Text(12, 20, "Rotations")
	})
	d.Bookmark(2, "Steps", 30)
	d.In(pdf.L, func() {
		for i, step := range []string{"Measure π × d.", "Write 5 ⅛ − 2 ½ in “inches”."} {
			d.In(pdf.LI, func() {
				d.In(pdf.Lbl, func() {
					d.SetFont(pdf.Regular, 12)
					d.Text(12, 40+float64(i)*6, []string{"1.", "2."}[i])
				})
				d.In(pdf.LBody, func() { d.Text(20, 40+float64(i)*6, step) })
			})
		}
	}, pdf.Ordered)
	d.Apart(func() { d.Line(12, 60, 198, 60) })
	d.In(pdf.Table, func() {
		for row, cells := range [][]string{{"Role", "Job"}, {"Skipper", "starts it"}} {
			d.In(pdf.TR, func() {
				for column, cell := range cells {
					tag, details := pdf.TD, []pdf.Detail(nil)
					if row == 0 {
						tag, details = pdf.TH, []pdf.Detail{pdf.Scope(pdf.Column)}
					}
					d.In(tag, func() { d.Text(12+float64(column)*40, 70+float64(row)*6, cell) }, details...)
				}
			})
		}
	})
	d.In(pdf.Formula, func() {
		d.Text(14, 90, "1")
		d.Line(12, 92, 18, 92)
		d.Text(14, 97, "2")
	}, pdf.Alt("one half"), pdf.Actual("1/2"))
	d.In(pdf.Figure, func() { d.Rect(12, 110, 40, 10, pdf.Stroke) }, pdf.Alt("a box"), d.Around(12, 110, 40, 10))
	d.In(pdf.P, func() {
		d.Text(12, 130, "see")
		d.Link(20, 126, 30, 6, "https://canal.example/3.html", "The lesson's page", func() { d.Text(20, 130, "canal.example") })
	})
	d.In(pdf.P, func() {
		d.Text(12, 280, "It goes on")
		d.AddPage(297, 210)
		d.Upwards(20, 100, func() { d.Text(20, 100, "over the page.") })
	})
	return d
}

func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}

func TestDocument(t *testing.T) {
	made, err := sample(letters(t)).Bytes()
	if err != nil {
		t.Fatal(err)
	}
	again, _ := sample(letters(t)).Bytes()
	if !bytes.Equal(made, again) {
		t.Error("the same calls give other bytes")
	}
	name := filepath.Join(t.TempDir(), "sample.pdf")
	if err := os.WriteFile(name, made, 0o644); err != nil {
		t.Fatal(err)
	}
	t.Log(run(t, "qpdf", "--check", name))
	t.Log(run(t, "pdfinfo", "-struct-text", name))
	t.Log(run(t, "pdfinfo", name))
	t.Log(run(t, "pdffonts", name))
	t.Log(run(t, "pdftotext", "-layout", name, "-"))
	t.Log(len(made))
}

func BenchmarkDocument(b *testing.B) {
	all := letters(b)
	for b.Loop() {
		if _, err := sample(all).Bytes(); err != nil {
			b.Fatal(err)
		}
	}
}
