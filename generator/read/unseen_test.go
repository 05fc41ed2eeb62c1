package read_test

// Tests of what is said about characters that nobody sees.

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator/problem"
	"trundle/generator/read"
)

// foundIn gives what is said of a pack's file, a line for each problem.
func foundIn(t *testing.T, name, text string) []string {
	t.Helper()
	pack := fstest.MapFS{"pack.yaml": {Data: []byte("title: T\n")}, name: {Data: []byte(text)}}
	isLesson := func(name string) bool { return strings.HasPrefix(name, "0") }
	_, problems, err := (&read.Memory{}).Pack(pack, isLesson)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, p := range problems.Sorted() {
		at := p.File.Position(p.Span.Start)
		all = append(all, fmt.Sprintf("%s:%d:%d %s %s", p.File.Name, at.Line, at.Column, p.Severity, p.Slug))
	}
	return all
}

func TestEveryUnseenCharacterIsReportedWithItsPlace(t *testing.T) {
	var all []rune
	for _, bounds := range [][2]rune{{1, 8}, {0x0b, 0x0c}, {0x0e, 0x1f}, {0x7f, 0x9f}, {0x061c, 0x061c}, {0x200b, 0x200f},
		{0x2028, 0x2029}, {0x202a, 0x202e}, {0x2061, 0x2064}, {0x2066, 0x206f}, {0xfeff, 0xfeff}, {0xfff9, 0xfffb},
		{0x115f, 0x1160}, {0x3164, 0x3164}, {0xffa0, 0xffa0}, {0xe0001, 0xe0001}, {0xe0061, 0xe0061}} {
		for c := bounds[0]; c <= bounds[1]; c++ {
			all = append(all, c)
		}
	}
	for _, c := range all {
		severity := "caution"
		if c >= 0x202a && c <= 0x202e || c >= 0x2066 && c <= 0x2069 {
			severity = "error"
		}
		for _, name := range []string{"pack.yaml", "kits.yaml", "renamed.yaml", "formulas.yaml", "words.md", "01-a.md",
			"parts/p.md", "care/c.md"} {
			want := fmt.Sprintf("%s:2:3 %s hidden-characters", name, severity)
			if got := foundIn(t, name, "Ä\nbä"+string(c)+"d\n"); !slices.Equal(got, []string{want}) {
				t.Errorf("%U: %q, want %q", c, got, want)
			}
		}
	}
}

func TestWhatIsUnseenAndHasItsUseIsLeftAlone(t *testing.T) {
	for _, c := range []struct {
		name, text string
		reported   bool
	}{
		{"01-a.md", "\ufeffa\n", false},                                                       // tells the encoding
		{"01-a.md", "Um\u00adfang\n", false},                                                  // where a line may end
		{"01-a.md", "km\u2060/\u2060h\n", false},                                              // where it may not
		{"01-a.md", "\u00adUmfang\n", true},                                                   // nowhere
		{"01-a.md", "```python\nspe\u00aded = 3\n```\n", true},                                // another name in a program
		{"01-a.md", "> ~~~\n> spe\u2060ed = 3\n> ~~~\n", true},                                // the same in a quote
		{"01-a.md", "```\na\n```\nUm\u00adfang\n", false},                                     // after a program
		{"kits.yaml", "he\u00adron: {}\n", true},                                              // another kit
		{"01-a.md", "👩\u200d🔧 👩🏽\u200d🚀 🏴\u200d☠\ufe0f 🙂\u200d↔\ufe0f\n", false},              // emoji of several
		{"01-a.md", "🏴\U000e0067\U000e0062\U000e0065\U000e006e\U000e0067\U000e007f\n", false}, // a flag
		{"01-a.md", "می\u200cخواهم क्\u200dष\n", false},                                       // letters that join
		{"01-a.md", "wh\u200deel\n", true},                                                    // letters that do not
		{"01-a.md", "wheel \u200c\n", true},                                                   // nothing to part
		{"01-a.md", "10\u00a0cm, 5\u202fm, 3\u2009s, \u0601\n", false},                        // blanks; a mark with a shape
		{"data/a.csv", "a\u200b,b\n", false},                                                  // for those who read tables
	} {
		if got := foundIn(t, c.name, c.text); (len(got) > 0) != c.reported {
			t.Errorf("%q in %s: %q", c.text, c.name, got)
		}
	}
}

func TestOneLineIsOneProblemAndTheTurningCharacterComesFirst(t *testing.T) {
	got := foundIn(t, "01-a.md", "a\u200bb\u200bc\nd\u200be\u202ef\n")
	want := []string{"01-a.md:1:2 caution hidden-characters", "01-a.md:2:4 error hidden-characters"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// heldFS is a folder whose files are the very same bytes each time.
type heldFS struct{ fstest.MapFS }

func (heldFS) Held() {}

func (h heldFS) ReadFile(name string) ([]byte, error) { return h.MapFS[name].Data, nil }

func TestUnseenCharactersAreReportedAgainFromMemory(t *testing.T) {
	pack := heldFS{fstest.MapFS{"pack.yaml": {Data: []byte("title: a\u200bb\n")}}}
	var memory read.Memory
	for range 2 {
		_, problems, err := memory.Pack(pack, func(string) bool { return false })
		if err != nil || problems.Count() != 1 {
			t.Errorf("%v, %d problems: %v", err, problems.Count(), problems.Sorted())
		}
	}
}

func TestWhatIsUnseenIsSeenWhereItIsPrinted(t *testing.T) {
	if got := problem.Printable("a\u200bb\u202ec\ufeff"); got != "a�b�c�" {
		t.Errorf("%q", got)
	}
}
