package generator_test

// A lesson's pages and sheets are drawn from outlines of all other lessons, which must hold all that these show.

import (
	"bytes"
	"os"
	"testing"

	"trundle/generator"
	"trundle/site"
)

func TestAPageShowsOfOtherLessonsWhatTheirOutlinesHold(t *testing.T) {
	proved, err := generator.Prove(t.Context(), os.DirFS("../lessons"))
	if err != nil {
		t.Fatal(err)
	}
	s, err := site.New(proved.Pack.Language)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range proved.Lessons {
		for _, e := range site.Editions {
			whole, err := s.Lesson(proved.Pack, l, e)
			if err != nil {
				t.Fatal(err)
			}
			outlined, err := s.Lesson(proved.Pack.Outlined(), l, e)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(whole, outlined) {
				t.Errorf("%s/%s.html: from outlines of the others it is another page", e, l.Slug)
			}
		}
	}
}
