package pages_test

// How much a browser fetches before it shows a lesson.

import (
	"bytes"
	"compress/gzip"
	"regexp"
	"testing"

	"trundle/site"
	"trundle/testdata/browser"
)

// TestALessonFitsTheFirstFlight weighs what a browser fetches before it shows a lesson,
// its charts and what is said of runs aside: at most ten segments of 1460 bytes, the initial
// window of RFC 6928. Style sheets for print, and those that the text asks for further down, do not hold it up.
func TestALessonFitsTheFirstFlight(t *testing.T) {
	const firstFlight = 10 * 1460
	built := browser.Demo(t)
	figures := regexp.MustCompile(`(?s)<figure .*?</figure>`)
	refers := regexp.MustCompile(`(?:src|href)="(assets/[^"?]*\.(?:js|css))[^"]*"`)
	for _, l := range built.Lessons {
		html := built.Files["students/"+l.Slug+".html"]
		sum := zipped(t, figures.ReplaceAll(html, nil))
		head, _, _ := bytes.Cut(html, []byte("</head>"))
		for _, ref := range refers.FindAllSubmatch(head, -1) {
			if string(ref[1]) == site.PrintSheet {
				continue
			}
			sum += zipped(t, built.Files["students/"+string(ref[1])])
		}
		later := zipped(t, built.Files["students/assets/check.js"]) + zipped(t, built.Files["students/steps/"+l.Slug+".js"])
		t.Logf("%s: %d bytes at first, %d more when somebody begins to fill it in", l.Slug, sum, later)
		if sum > firstFlight {
			t.Errorf("%s takes %d bytes, more than %d", l.Slug, sum, firstFlight)
		}
	}
}

func zipped(t *testing.T, data []byte) int {
	t.Helper()
	var out bytes.Buffer
	w, _ := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if _, err := w.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Len()
}
