package answers_test

// Sheets in use, with all kinds of answers at the same time.

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"trundle/generator/work"
	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// With -shots DIR TestEveryAnswerPath and the tests of figures also leave pictures for a person to look at.
var shots = flag.String("shots", "", "a `folder` for screenshots of sheets and figures in use")

// takeShots fills the rest of a lesson's sheet that is open with answers of all kinds, and leaves pictures of it.
func takeShots(t *testing.T, tab *browser.Tab, l *work.Lesson) {
	t.Helper()
	for i, find := range browser.Finds(l) {
		text := []string{l.Of(find).Text(), "3 kg", "123.4"}[i%3]
		browser.Fill(t, tab, [][2]string{{find.Name, text}})
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

func save(t *testing.T, name string, data []byte) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(*shots, name), data, 0o644); err != nil {
		t.Fatal(err)
	}
}
