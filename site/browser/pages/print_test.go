package pages_test

// Pages on paper, printed by the browser; TestEveryPage has each looked at while it is open.

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// testAgreesWithItsSheet looks for the same goals, materials and questions, in the same order, in the students' lesson
// as the browser has printed it and on the sheet.
func testAgreesWithItsSheet(t *testing.T, built browser.Built, l *work.Lesson, printed []byte) {
	t.Helper()
	var wanted []string
	for _, g := range l.Lesson.Goals {
		wanted = append(wanted, g[1:]) // the page starts them with a small letter
	}
	wanted = append(wanted, l.Materials...)
	for _, f := range l.Fields {
		if f.Statement.Kind != lesson.Given {
			wanted = append(wanted, f.Statement.Prompt)
		}
	}
	for what, pdf := range map[string][]byte{
		"the printed page": printed, "the sheet": built.Files["students/sheets/"+l.Slug+"-a4.pdf"],
	} {
		rest := lettersOf(t, pdf)
		for _, w := range wanted {
			_, after, found := strings.Cut(rest, withoutBlanks(browser.AsTyped(w)))
			if !found {
				t.Errorf("%s: on %s %q does not come, or not in its place", l.Slug, what, w)
				continue
			}
			rest = after
		}
	}
}

// testNothingIsCutOff lays the page that is open out as for a printer, and looks for what goes on beyond its
// box: paper does not scroll.
func testNothingIsCutOff(t *testing.T, tab *browser.Tab) {
	t.Helper()
	const sheet = 680 // pixels of CSS, between the margins of A4
	tab.View(t, sheet, browser.Light)
	browser.Order(t, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	for _, cut := range browser.Ask[[]string](t, tab, `[...document.querySelectorAll("pre")]
		.filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => e.textContent.slice(0, 60))`) {
		t.Errorf("a program goes on beyond the paper: %s", cut)
	}
	browser.Order(t, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: ""})
}

// lettersOf gives the text of a PDF without blanks.
func lettersOf(t *testing.T, pdf []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "printed.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-raw", file, "-").Output()
	if err != nil {
		t.Fatalf("this test needs pdftotext, of poppler-utils: %v", err)
	}
	return withoutBlanks(browser.AsTyped(string(out)))
}

func withoutBlanks(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}
