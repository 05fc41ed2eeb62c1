package pdf_test

// Documents as other programs read them: sound files, their structure and text, what they say of themselves.

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"trundle/testdata/pdfua"
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

// made is the sample as a file.
func made(t testing.TB) []byte {
	t.Helper()
	file, err := sample(letters(t)).Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// run runs a program on a file, whose name is put for FILE, and gives what it says.
func run(t *testing.T, file []byte, name string, args ...string) string {
	t.Helper()
	at := filepath.Join(t.TempDir(), "sample.pdf")
	if err := os.WriteFile(at, file, 0o600); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		if a == "FILE" {
			args[i] = at
		}
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %s: %v\n%s", name, strings.Join(args, " "), err, out)
	}
	return string(out)
}

func TestADocumentIsASoundFile(t *testing.T) {
	said := run(t, made(t), "qpdf", "--check", "FILE")
	if !strings.Contains(said, "No syntax or stream encoding errors") || strings.Contains(said, "WARNING") {
		t.Error(said)
	}
}

func TestADocumentMeetsTheRulesOfAccessibility(t *testing.T) {
	file, err := pdfua.Read(made(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range file.Faults() {
		t.Error(f)
	}
}

func TestTheStructureIsReadAsItWasDrawn(t *testing.T) {
	want, err := os.ReadFile("testdata/structure.txt")
	if err != nil {
		t.Fatal(err)
	}
	got := run(t, made(t), "pdfinfo", "-struct-text", "FILE")
	if got = regexp.MustCompile(`Object \d+ 0`).ReplaceAllString(got, "Object"); got != string(want) {
		t.Errorf("the structure is\n%s\nand not\n%s", got, want)
	}
}

func TestTextComesOutAsItWasMeant(t *testing.T) {
	text := regexp.MustCompile(`\s+`).ReplaceAllString(run(t, made(t), "pdftotext", "-layout", "FILE", "-"), " ")
	for _, want := range []string{"1/2", "Measure π × d.", "5 ⅛ − 2 ½", "“inches”", "18 ± 3", "It goes on"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in %q", want, text)
		}
	}
}

func TestADocumentSaysWhatItIs(t *testing.T) {
	file, err := pdfua.Read(made(t))
	if err != nil {
		t.Fatal(err)
	}
	catalogs := file.Find(func(d map[string]any) bool { return d["/Type"] == "/Catalog" })
	if len(catalogs) != 1 {
		t.Fatalf("%d catalogues", len(catalogs))
	}
	preferences, _ := catalogs[0]["/ViewerPreferences"].(map[string]any)
	if catalogs[0]["/Lang"] != "u:en" || preferences["/DisplayDocTitle"] != true ||
		preferences["/PrintScaling"] != "/None" {
		t.Errorf("the catalogue is %v", catalogs[0])
	}
	info := run(t, made(t), "pdfinfo", "FILE")
	for _, want := range []string{"Rotations – a sample (1 of 2) \\", "Author:          Canal Day", "Tagged:          yes",
		"Pages:           2", "Page size:       595.276 x 841.89 pts (A4)"} {
		if !strings.Contains(info, want) {
			t.Errorf("%q is missing:\n%s", want, info)
		}
	}
	if strings.Contains(info, "CreationDate") {
		t.Errorf("a document has a time:\n%s", info)
	}
}

// Each bookmark is below the one before it of a lesser level, whatever levels there are.
func TestBookmarksNestAndPagesHaveLabels(t *testing.T) {
	said := run(t, made(t), "qpdf", "--json", "--json-key=outlines", "--json-key=pagelabels", "FILE")
	depth := 0
	var got strings.Builder
	for line := range strings.Lines(said) {
		line = strings.TrimSpace(line)
		switch name, value, _ := strings.Cut(line, ": "); {
		case strings.HasPrefix(line, `"kids": [`) && !strings.Contains(line, "]"):
			depth++
		case name == `"title"`:
			got.WriteString(strings.Trim(value, `",`) + "\n")
		}
	}
	// qpdf writes an entry's kids before its title.
	if want := "A part of a part\nSteps\nTable\nRotations\nAgain\nFigure\n"; got.String() != want || depth != 3 {
		t.Errorf("the bookmarks are, %d deep,\n%s", depth, got.String())
	}
	if !strings.Contains(said, `"/P": "u:3-"`) {
		t.Errorf("the pages' labels are\n%s", said)
	}
}

func TestALinkLeadsToItsAddress(t *testing.T) {
	said := run(t, made(t), "pdfinfo", "-url", "FILE")
	if !strings.Contains(said, "https://canal.example/3.html") {
		t.Error(said)
	}
}

func TestFontsAreEmbeddedAsSubsets(t *testing.T) {
	said := run(t, made(t), "pdffonts", "FILE")
	if n := strings.Count(said, "CID TrueType      Identity-H       yes yes yes"); n != 2 { // no italic is used
		t.Errorf("%d fonts of two are embedded with their Unicode:\n%s", n, said)
	}
}

func TestTheSameCallsGiveTheSameBytes(t *testing.T) {
	if !bytes.Equal(made(t), made(t)) {
		t.Error("the second time gives other bytes")
	}
}

// A draft takes the same calls, so that a layout can be tried out with it.
func TestADraftHasPagesAndWidthsAndNoFile(t *testing.T) {
	all := letters(t)
	draft, whole := pdf.NewDraft(all), pdf.New(pdf.Info{}, all)
	draw(draft)
	draw(whole)
	if draft.PageCount() != whole.PageCount() || draft.Width("π × d") != whole.Width("π × d") {
		t.Errorf("%d pages of %d, width %g of %g", draft.PageCount(), whole.PageCount(), draft.Width("π × d"),
			whole.Width("π × d"))
	}
	if _, err := draft.Bytes(); err == nil {
		t.Error("a draft becomes a file")
	}
}
