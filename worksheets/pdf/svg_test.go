package pdf_test

import (
	"os"
	"testing"

	"trundle/worksheets/pdf"
)

func TestTry(t *testing.T) {
	out := os.Getenv("TRY")
	if out == "" {
		return
	}
	var all pdf.Typeface
	for i, n := range []string{"regular", "bold", "italic"} {
		f, _ := os.ReadFile("../fonts/" + n + ".ttf")
		all[i], _ = pdf.NewFace(f)
	}
	d := pdf.New(pdf.Info{Title: "x", Language: "en"}, all)
	d.AddPage(210, 297)
	y := 10.0
	for _, n := range []string{"setup-turn", "setup-roll", "setup-route", "setup-gate"} {
		f, _ := os.ReadFile("../../lessons/pictures/" + n + ".svg")
		g, err := pdf.NewDrawing(f, nil)
		if err != nil {
			t.Fatal(err)
		}
		d.In(pdf.Figure, func() { d.Drawing(g, 10, y, 177, 60) }, pdf.Alt("x"))
		y += 65
	}
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	os.WriteFile(out, b, 0o600)
}
