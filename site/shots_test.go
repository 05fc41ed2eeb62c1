package site_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestShotsOfASheetInUse leaves pictures of filled sheets for a person to look at, with
// -shots DIR; without it, it only fills them in.
func TestShotsOfASheetInUse(t *testing.T) {
	t.Parallel()
	built := demoSite(t)
	tab := openBrowser(t)
	root := "file://" + filepath.ToSlash(built.dir) + "/"
	for _, l := range built.lessons {
		name := "students/" + l.Slug + ".html"
		startOver(t, tab, root, name)
		fill(t, tab, samples(l))
		for i, find := range studentsFinds(l) {
			text := []string{l.Of(find).Text(), "3 kg", "123.4"}[i%3]
			fill(t, tab, [][2]string{{find.Name, text}})
		}
		tab.report(t)
		if *shots == "" {
			continue
		}
		for screen, width := range map[string]int64{"narrowest": narrowest, "tablet": tablet} {
			for _, s := range []scheme{light, dark} {
				tab.view(t, width, s)
				save(t, l.Slug+"-filled-"+screen+"-"+string(s)+".png", run(t, tab, chromedp.FullScreenshot(100)))
			}
		}
		tab.view(t, tablet, light)
		save(t, l.Slug+"-print.pdf", printedPage(t, tab))
	}
}

func save(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(*shots, name), data, 0o644); err != nil {
		t.Fatal(err)
	}
}
