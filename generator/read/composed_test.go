package read_test

// Places in a file whose letters with accents are several signs on the disk.

import (
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"trundle/generator/parse"
	"trundle/generator/read"
)

func TestAPlaceOnTheDiskCountsTheSignsThatAreThere(t *testing.T) {
	text := norm.NFD.String("Señal\n\naño á! é, 가 “x” ! fin !\nlast é!") + "e\u0301!\u0344!"
	pack := fstest.MapFS{"01-a.md": {Data: []byte("\ufeff" + strings.ReplaceAll(text, "\n", "\r\n"))}}
	for _, whole := range []int{1, 0} { // lessons of which the texts stay in memory
		m := read.Memory{Once: true, Whole: whole}
		files, problems, err := m.Pack(pack, parse.IsLessonName)
		if err != nil || problems.Count() > 0 {
			t.Fatal(err, problems.Sorted())
		}
		f, seen := files.Lessons[0], 0
		if !norm.NFC.IsNormal(f.Text()) {
			t.Fatalf("the text is %q", f.Text())
		}
		for i, line := range strings.Split(text, "\n") {
			start := f.LineStart(i + 1)
			marks := strings.Count(line, "!")
			for range marks {
				at := start + strings.IndexByte(string(f.Text()[start:]), '!')
				start, seen = at+1, seen+1
			}
			// The last mark of a line is as far in as it is on the disk.
			want := utf8.RuneCountInString(line[:strings.LastIndexByte(line, '!')+1])
			if got := f.OnDisk(start - 1); marks > 0 && (got.Line != i+1 || got.Column != want) {
				t.Errorf("the mark of line %d is at %+v, want column %d", i+1, got, want)
			}
		}
		if seen != 6 {
			t.Errorf("%d marks were looked at", seen)
		}
	}
}
