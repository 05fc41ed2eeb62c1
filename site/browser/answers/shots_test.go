package answers_test

// Sheets in use, with all kinds of answers at the same time.

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// With -shots DIR the test also leaves pictures for a person to look at.
var shots = flag.String("shots", "", "a `folder` for screenshots of sheets in use")

// TestShotsOfASheetInUse leaves pictures of filled sheets for a person to look at, with
// -shots DIR; without it, it only fills them in.
func TestShotsOfASheetInUse(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	tab := browser.Open(t)
	root := built.Root()
	for _, l := range built.Lessons {
		name := "students/" + l.Slug + ".html"
		browser.StartOver(t, tab, root, name)
		browser.Fill(t, tab, browser.Samples(l))
		for i, find := range browser.Finds(l) {
			text := []string{l.Of(find).Text(), "3 kg", "123.4"}[i%3]
			browser.Fill(t, tab, [][2]string{{find.Name, text}})
		}
		tab.Report(t)
		if *shots == "" {
			continue
		}
		for screen, width := range map[string]int64{"narrowest": browser.Narrowest, "tablet": browser.Tablet} {
			for _, s := range []browser.Scheme{browser.Light, browser.Dark} {
				tab.View(t, width, s)
				save(t, l.Slug+"-filled-"+screen+"-"+string(s)+".png", browser.Run(t, tab, chromedp.FullScreenshot(100)))
			}
		}
		tab.View(t, browser.Tablet, browser.Light)
		save(t, l.Slug+"-print.pdf", browser.Printed(t, tab))
	}
}

func save(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(*shots, name), data, 0o644); err != nil {
		t.Fatal(err)
	}
}
