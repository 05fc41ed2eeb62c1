package pdf_test

// Files bound into one, and what becomes of each of them.

import (
	"bytes"
	"strings"
	"sync"
	"testing"

	"trundle/testdata/pdfua"
	"trundle/worksheets/pdf"
)

func TestBoundDocumentsMeetTheRulesAndKeepTheirText(t *testing.T) {
	face := letters(t)
	file := bound(t, face, sample(face), sample(face))
	read, err := pdfua.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range read.Faults() {
		t.Error(fault)
	}
	one := run(t, made(t), "pdftotext", "-raw", "FILE", "-")
	if both := run(t, file, "pdftotext", "-raw", "FILE", "-"); both != one+one {
		t.Errorf("the two come out as\n%s", both)
	}
	structure := run(t, file, "pdfinfo", "-struct", "FILE")
	if strings.Count(structure, "\n  Part") != 2 || strings.Count(structure, "\n    H1") != 2 {
		t.Errorf("the structure is\n%s", structure)
	}
	if urls := run(t, file, "pdfinfo", "-url", "FILE"); strings.Count(urls, "canal.example") != 2 {
		t.Errorf("the links are\n%s", urls)
	}
}

// bound binds documents into a file.
func bound(t *testing.T, face pdf.Typeface, documents ...*pdf.Document) []byte {
	t.Helper()
	var file bytes.Buffer
	err := pdf.Bind(&file, pdf.Info{Title: "Both", Language: "en"}, face, func(yield func([]byte, error) bool) {
		for _, d := range documents {
			if !yield(d.Bytes()) {
				return
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

func TestADocumentIsTheSameFileEachTime(t *testing.T) {
	d := sample(letters(t))
	var files [4][]byte
	var all sync.WaitGroup
	for i := range files { // as a build does: several at a time
		all.Go(func() {
			files[i], _ = d.Bytes()
		})
	}
	all.Wait()
	for _, file := range files {
		if !bytes.Equal(file, made(t)) {
			t.Error("it is another file")
		}
	}
}

func TestWhatIsDrawnAfterAFileWasMadeIsInTheNext(t *testing.T) {
	d := sample(letters(t))
	if _, err := d.Bytes(); err != nil {
		t.Fatal(err)
	}
	d.In(pdf.P, func() { d.Text(12, 200, "Afterthought") })
	file, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	if text := run(t, file, "pdftotext", "FILE", "-"); !strings.Contains(text, "Afterthought") {
		t.Errorf("the text is\n%s", text)
	}
}
