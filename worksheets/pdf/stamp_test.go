package pdf_test

// Stamps, which stand alike on many pages, and text with bytes that strings in a file cannot have as they are.

import (
	"strings"
	"testing"

	"trundle/testdata/pdfua"
	"trundle/worksheets/pdf"
)

func TestAStampIsOnEachOfItsPagesAndOnceInTheFile(t *testing.T) {
	face := letters(t)
	stamp := pdf.NewStamp(face, 210, 297, func(d *pdf.Document) {
		d.SetFont(pdf.Bold, 9)
		d.Text(100, 100, "stamped")
		d.LineWidth(3)
	})
	d := pdf.New(pdf.Info{Title: "T", Language: "en"}, face)
	for range 3 {
		d.AddPage(210, 297)
		d.Stamp(stamp)
		d.In(pdf.H1, func() { d.Text(20, 20, "heading") })
	}
	one, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	for pages, file := range map[int][]byte{3: one, 6: bound(t, face, d, d)} {
		if n := strings.Count(run(t, file, "pdftotext", "FILE", "-"), "stamped"); n != pages {
			t.Errorf("%d of %d pages are stamped", n, pages)
		}
		read, err := pdfua.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range read.Faults() {
			t.Error(fault)
		}
		widths := 0
		for _, stream := range read.Streams {
			widths += strings.Count(string(stream), " 8.504 w\n")
		}
		if widths != 1 {
			t.Errorf("the stamp is in the file %d times", widths)
		}
	}
}

func TestEveryLetterOfASCIIComesOutAsItWentIn(t *testing.T) {
	var all strings.Builder
	for r := '!'; r <= '~'; r++ {
		all.WriteRune(r)
	}
	d := pdf.New(pdf.Info{Title: "T", Language: "en"}, letters(t))
	d.AddPage(400, 100)
	d.SetFont(pdf.Regular, 8)
	d.In(pdf.P, func() { d.Text(10, 20, all.String()) })
	file, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.TrimSpace(run(t, file, "pdftotext", "FILE", "-")); got != all.String() {
		t.Errorf("it comes out as %s", got)
	}
	read, err := pdfua.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, stream := range read.Streams {
		if drawn := string(stream); strings.Contains(drawn, " Tj") && strings.Contains(drawn, "\r") {
			t.Error("a carriage return stands as it is: some readers take it for the end of a line")
		}
	}
}
