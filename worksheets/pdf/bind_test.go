package pdf_test

// Files bound into one, and what becomes of each of them.

import (
	"bytes"
	"regexp"
	"strconv"
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

// TestAFileOfManyMayHaveMoreObjectsThanAStreamCanCount is for seasons of hundreds of lessons: an object's place in an
// object stream has two bytes.
func TestAFileOfManyMayHaveMoreObjectsThanAStreamCanCount(t *testing.T) {
	face := letters(t)
	d := sample(face)
	many := make([]*pdf.Document, 2000)
	for i := range many {
		many[i] = d
	}
	file := bound(t, face, many...)
	size := regexp.MustCompile(`/Type /XRef /W \[1 4 2\] /Size (\d+)`).FindSubmatch(file)
	if n, _ := strconv.Atoi(string(size[1])); n < 1<<16 {
		t.Fatalf("there are only %d objects", n)
	}
	if said := run(t, file, "qpdf", "--show-npages", "FILE"); said != strconv.Itoa(len(many)*d.PageCount())+"\n" {
		t.Errorf("the pages are %s", said)
	}
}
