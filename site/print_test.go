package site_test

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"trundle/generator/lesson"
)

// TestThePrintedPageAndTheSheetAgree prints each students' lesson from the browser and
// looks for the same goals, materials and questions, in the same order, as the sheet has.
func TestThePrintedPageAndTheSheetAgree(t *testing.T) {
	t.Parallel()
	built := demoSite(t)
	tab := openBrowser(t)
	for _, l := range built.lessons {
		tab.open(t, "file://"+filepath.ToSlash(built.dir)+"/", "students/"+l.Slug+".html")
		printed := printedPage(t, tab)
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
		for what, pdf := range map[string][]byte{"the printed page": printed, "the sheet": built.files["students/sheets/"+l.Slug+"-a4.pdf"]} {
			rest := lettersOf(t, pdf)
			for _, w := range wanted {
				_, after, found := strings.Cut(rest, withoutBlanks(w))
				if !found {
					t.Errorf("%s: on %s %q does not come, or not in its place", l.Slug, what, w)
					continue
				}
				rest = after
			}
		}
	}
}

// TestNothingIsCutOffOnPaper lays every lesson out as for a printer, and looks for what goes on beyond its box:
// paper does not scroll.
func TestNothingIsCutOffOnPaper(t *testing.T) {
	t.Parallel()
	built := demoSite(t)
	tab := openBrowser(t)
	const sheet = 680 // pixels of CSS, between the margins of A4
	for _, name := range built.pages {
		tab.open(t, "file://"+filepath.ToSlash(built.dir)+"/", name)
		tab.view(t, sheet, light)
		order(t, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
		for _, cut := range ask[[]string](t, tab, `[...document.querySelectorAll("pre")].filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => e.textContent.slice(0, 60))`) {
			t.Errorf("%s: a program goes on beyond the paper: %s", name, cut)
		}
		order(t, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: ""})
	}
}

// printedPage prints the page that is open, as a PDF.
func printedPage(t *testing.T, tab *tab) []byte {
	t.Helper()
	yes := true
	return run(t, tab, func(ctx context.Context, target *chromedp.Target) (page.PrintToPDFResult, error) {
		return cdp.Call(ctx, target, page.PrintToPDF, page.PrintToPDFParams{PreferCSSPageSize: &yes})
	}).Data
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
	return withoutBlanks(string(out))
}

func withoutBlanks(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}
