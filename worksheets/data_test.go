package worksheets_test

// Pictures and data of the demo pack on paper, without the rest of their sheets.

import (
	"fmt"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"trundle/generator/work"
	"trundle/site"
	"trundle/worksheets"
)

// illustrated are a lesson's pictures and data on A4, for students and for mentors.
func illustrated(t *testing.T, about worksheets.About, l *work.Lesson) (students, mentors []byte) {
	t.Helper()
	var made [2][]byte
	for i := range made {
		var err error
		if made[i], err = worksheets.Illustrated(worksheets.Papers[0], about, l, i == 1); err != nil {
			t.Fatal(err)
		}
	}
	if folder := os.Getenv("SHEETS"); folder != "" { // to look at them
		for i, edition := range []string{"students", "mentors"} {
			if err := os.WriteFile(filepath.Join(folder, l.Slug+"-"+edition+".pdf"), made[i], 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
	return made[0], made[1]
}

// aboutDemo is what the demo pack's sheets share.
func aboutDemo(t *testing.T) worksheets.About {
	t.Helper()
	proved, _ := builtDemo(t)
	s, err := site.New("en")
	if err != nil {
		t.Fatal(err)
	}
	picture := func(name string) []byte {
		if p := proved.Pack.Pictures[name]; p != nil { // not one of another pack's name
			return p.Handed()
		}
		return nil
	}
	return worksheets.About{Pack: "Canal Day", Words: s.Say, Shown: worksheets.NewIllustrations(picture, s.Figure)}
}

func TestDataOnPaperHoldsNoKeyAndBothEditionsAreAlike(t *testing.T) {
	t.Parallel()
	proved, _ := builtDemo(t)
	about := aboutDemo(t)
	for _, l := range proved.Lessons {
		students, mentors := illustrated(t, about, l)
		said := withoutFigures(t, students)
		for _, find := range l.Finds {
			if key := l.Of(find).Key; key != nil && holds(said, key.Amount()) {
				t.Errorf("%s holds the key %s = %s", l.Slug, find.Name, key.Amount())
			}
		}
		if s, m := pagesOf(t, students), pagesOf(t, mentors); s != m {
			t.Errorf("%s: %s pages for students, %s for mentors", l.Slug, s, m)
		}
	}
}

func pagesOf(t *testing.T, pdf []byte) string {
	t.Helper()
	_, after, _ := strings.Cut(tool(t, pdf, "pdfinfo", "FILE"), "Pages:")
	pages, _, _ := strings.Cut(strings.TrimSpace(after), "\n")
	return pages
}

var (
	pictureOf = regexp.MustCompile(`!\[([^\]]*)\]\((pictures/[^)]*\.svg)\)`)
	textOfSVG = regexp.MustCompile(`<text[^>]*>([^<]*)</text>`)
)

// TestAPictureIsOnPaperWithItsTextAndInWords finds what is written in each picture, in the sheets' own typeface, and
// the words that stand for it.
func TestAPictureIsOnPaperWithItsTextAndInWords(t *testing.T) {
	t.Parallel()
	proved, _ := builtDemo(t)
	about, found := aboutDemo(t), 0
	for _, l := range proved.Lessons {
		m := pictureOf.FindSubmatch(l.Markdown)
		if m == nil {
			continue
		}
		found++
		students, _ := illustrated(t, about, l)
		said := letters(text(t, students))
		for _, label := range textOfSVG.FindAllSubmatch(proved.Pack.Pictures[string(m[2])].Handed(), -1) {
			if !strings.Contains(said, letters(html.UnescapeString(string(label[1])))) {
				t.Errorf("%s: %q of its picture is not on paper", l.Slug, label[1])
			}
		}
		words, wide := string(m[1])[:40], ""
		for _, r := range words {
			wide += fmt.Sprintf("%04x", r) // in UTF-16, if a letter of the whole needs that
		}
		file := tool(t, students, "qpdf", "--qdf", "FILE", "-")
		if !strings.Contains(file, "/Alt ("+words) && !strings.Contains(file, "/Alt <feff"+wide) {
			t.Errorf("%s: %q stands for no figure", l.Slug, words)
		}
	}
	if found < 10 {
		t.Errorf("only %d lessons have a picture; the test sees little", found)
	}
}

// TestDataIsOnPaper looks for what questions of the lessons refer to.
func TestDataIsOnPaper(t *testing.T) {
	t.Parallel()
	proved, _ := builtDemo(t)
	about := aboutDemo(t)
	for slug, wanted := range map[string][]string{
		"06-calibration": {"How many rotations for a distance?", "A wheel that acts like 60 mm", "Lock gate"},
		"07-choosing-a-base": {"Where did they stop?", "118.7 … 119.8", "cannot tell", "16 to 44 runs",
			"Your points", "Dipper: 7.7 points"},
		"08-finding-the-cause":  {"Before and after the cloth", "_____", "target 0 mm"},
		"11-speed-and-stopping": {"Standard deviation s", "132.2", "1.1"},
	} {
		for _, l := range proved.Lessons {
			if l.Slug != slug {
				continue
			}
			students, _ := illustrated(t, about, l)
			said := letters(text(t, students))
			for _, w := range wanted {
				if !strings.Contains(said, letters(w)) {
					t.Errorf("%s: %q is not on paper", slug, w)
				}
			}
		}
	}
}
