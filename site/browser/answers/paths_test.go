package answers_test

// Every way of answering every find of the demo pack.

import (
	"strings"
	"sync"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/site/words"
)

// TestEveryAnswerPath goes through every find of the demo pack: an input missing, right
// in several units, each slip, each common mistake; and then looks at the lines of steps, and moves the figures, which
// are drawn by then with every box empty and with every box full. With -shots DIR it also leaves pictures of figures,
// and of the sheets with all kinds of answers side by side.
func TestEveryAnswerPath(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	words, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	tabs := browser.Two(t)
	var lock sync.Mutex
	all, seen := map[string]int{}, 0
	t.Run("lessons", func(t *testing.T) {
		for _, l := range built.Lessons {
			t.Run(l.Slug, func(t *testing.T) {
				t.Parallel()
				tab := <-tabs
				defer func() { tabs <- tab }()
				name := "students/" + l.Slug + ".html"
				browser.StartOver(t, tab, built.Root(), name)
				if hasFigures(built, name) {
					near(t, tab, ".show")
				}
				var met map[string]int
				browser.Unseen(t, tab, func() { met = answerAll(t, tab, words, l) })
				lines := testLines(t, tab, l)
				moveFigures(t, tab)
				tab.Report(t)
				if *shots != "" {
					takeShots(t, tab, l)
					if hasFigures(built, name) {
						shootFigures(t, tab, built.Root(), name, l)
					}
				}
				lock.Lock()
				defer lock.Unlock()
				seen += lines
				for path, n := range met {
					all[path] += n
				}
			})
		}
	})
	for _, path := range []string{"missing", "right", "slip", "ten", "inch", "twice", "half", "inverse", "sign", "unit",
		"other-unit", "kind", "places", "not-yet"} {
		if all[path] == 0 {
			t.Errorf("no find of the demo pack was tried with %q", path)
		}
	}
	if seen < 110 {
		t.Errorf("only the lines of %d finds were looked at", seen)
	}
	t.Logf("paths: %v", all)
}

// answerAll tries every answer of a lesson and counts the paths that were met.
func answerAll(t *testing.T, tab *browser.Tab, words map[string]string, l *work.Lesson) map[string]int {
	t.Helper()
	// What is kept is tested elsewhere; two thousand writes to the disk are spared here.
	browser.Ask[chromedp.Void](t, tab, `void (trundle.sheet.store.put = async () => ({ kept: true }))`)
	met := map[string]int{}
	for _, find := range browser.Finds(l) {
		if needsInputs(l, find) {
			met["missing"]++
			got := browser.Fill(t, tab, [][2]string{{find.Name, "1"}})[0]
			if !strings.Contains(got.Text, "first") {
				t.Errorf("%s with nothing measured: %q", find.Name, got.Text)
			}
		}
	}
	browser.Fill(t, tab, browser.Samples(l))
	for _, find := range browser.Finds(l) {
		testFind(t, tab, words, l, find, met)
	}
	return met
}

// needsInputs tells whether a find needs something measured first.
func needsInputs(l *work.Lesson, find *lesson.Statement) bool {
	for _, name := range quantity.Names(find.Expr) {
		for _, f := range l.Fields {
			if f.Statement.Name != name {
				continue
			}
			if k := f.Statement.Kind; k == lesson.Measure || k == lesson.Record ||
				k == lesson.Find && needsInputs(l, f.Statement) {
				return true
			}
		}
	}
	return false
}

func testFind(t *testing.T, tab *browser.Tab, words map[string]string, l *work.Lesson, find *lesson.Statement,
	met map[string]int) {
	tries := browser.Tries(words, l, find)
	typed := make([][2]string, len(tries))
	for i, try := range tries {
		typed[i] = [2]string{find.Name, try.Text}
	}
	for i, got := range browser.Fill(t, tab, typed) {
		try := tries[i]
		met[try.Path]++
		if try.Right {
			if got.State != "right" || got.Text != words["check-right"] {
				t.Errorf("%s = %s (%s): %q", find.Name, try.Text, try.Path, got.Text)
			}
			continue
		}
		fits := false
		for _, w := range try.Want {
			before, after, _ := strings.Cut(w, "{}")
			fits = fits || strings.HasPrefix(got.Text, before) &&
				(after == "" || strings.HasSuffix(got.Text, after[strings.LastIndex(after, "}")+1:]))
		}
		if !fits || got.State == "right" {
			t.Errorf("%s = %s (%s): told %q, want one of %q", find.Name, try.Text, try.Path, got.Text, try.Want)
		}
	}
	// Whatever was tried last, the right answer must still be right, for the finds below.
	browser.Fill(t, tab, [][2]string{{find.Name, tries[0].Text}})
}
