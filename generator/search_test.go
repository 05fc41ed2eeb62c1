package generator

// The order of what mentors search, which lessons do not come in.

import (
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/site"
)

func TestLessonsAreSearchedInTheirOrderWhicheverIsDrawnFirst(t *testing.T) {
	s, err := site.New("en")
	if err != nil {
		t.Fatal(err)
	}
	files := &inMemory{all: map[string][]byte{}}
	texts := &searchTexts{pack: &lesson.Pack{}, site: s, files: files, waiting: map[int][]byte{}}
	for _, at := range []int{3, 1, 0, 4, 2} {
		text := `"` + strings.Repeat("x", at) + `"`
		if at == 1 { // has nothing to be searched
			text = ""
		}
		if err := texts.add(at, []byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if len(texts.waiting) > 0 {
		t.Errorf("%d lessons are held that had their turn", len(texts.waiting))
	}
	if err := texts.end(); err != nil {
		t.Fatal(err)
	}
	if got := string(files.all[searchTextsName]); !strings.HasSuffix(got, `["","xx","xxx","xxxx"]`+"\n") {
		t.Errorf("the script is %s", got)
	}
}
