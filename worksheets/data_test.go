package worksheets_test

// Pictures and data of the demo pack on paper, without the rest of their sheets.

import (
	"os"
	"path/filepath"
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
	pictures := map[string][]byte{}
	for name, p := range proved.Pack.Pictures {
		pictures[name] = p.Data
	}
	return worksheets.About{Pack: "Canal Day", Words: s.Say, Shown: worksheets.NewIllustrations(pictures, s.Figure)}
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
