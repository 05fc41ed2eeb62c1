package prose

// Where each part of a text that checks read is in the file.

import (
	"testing"
	"unicode/utf8"

	"trundle/generator/source"
)

// characters are those of a run with what stands for each in the file.
func characters(r Run, src []byte) [][2]string {
	var all [][2]string
	for i := 0; i < len(r.Text); {
		_, size := utf8.DecodeRune(r.Text[i:])
		at := r.Span(i, i+size)
		all = append(all, [2]string{string(r.Text[i : i+size]), string(src[at.Start:at.End])})
		i += size
	}
	return all
}

func TestEachCharacterOfATextLeadsToWhatStandsForItInTheFile(t *testing.T) {
	src := []byte("é a&amp;b\\*c\u00a0 –\u00addé")
	want := [][2]string{
		{"é", "é"}, {" ", " "}, {"a", "a"}, {"&", "&amp;"}, {"b", "b"}, {"*", `\*`}, {"c", "c"}, {" ", "\u00a0"},
		{"–", "–"}, {"d", "d"}, {"é", "é"},
	}
	var r Run
	r.markdown(src, source.Span{End: len(src)})
	for from := range want {
		part := r.From(len(r.Text) - len(textOf(want[from:])))
		got := characters(part, src)
		for i, c := range got {
			if c != want[from+i] {
				t.Errorf("from the character %d on, character %d is %q, want %q", from, i, c, want[from+i])
			}
		}
		if whole := part.Whole(); len(got) != len(want)-from || whole.End != len(src) {
			t.Errorf("%d characters up to %d", len(got), whole.End)
		}
	}
}

// textOf is the text of characters.
func textOf(all [][2]string) string {
	text := ""
	for _, c := range all {
		text += c[0]
	}
	return text
}

func TestEachCharacterOfATextWithoutPlacesStandsForTheWhole(t *testing.T) {
	for _, at := range []source.Span{{Start: 3, End: 4}, {Start: 3, End: 9}, {Start: 3, End: 6}} {
		r := At("a wheel – é", at)
		for i := 0; i < len(r.Text); {
			_, size := utf8.DecodeRune(r.Text[i:])
			if got := r.Span(i, i+size); got != at {
				t.Errorf("%q of a text at %v is at %v", r.Text[i:i+size], at, got)
			}
			i += size
		}
	}
}

func TestWhatStandsForWhatWasNamedIsFound(t *testing.T) {
	knife, cleaner := Named{Phrase: "craft knife"}, Named{Phrase: "contact cleaner", Substance: true}
	for _, c := range []struct {
		text  string
		named []Named
		want  string // "" for nothing
	}{
		{"then lay the knives down.", []Named{knife}, "the knives"},
		{"wipe with that same  knife", []Named{cleaner, knife}, "that same  knife"},
		{"open the little bottle", []Named{knife, cleaner}, "the little bottle"},
		{"open the little bottle", []Named{knife}, ""},
		{"lathe knife", []Named{knife}, ""},
		{"the, knife", []Named{knife}, ""},
		{"the knifelike edge", []Named{knife}, ""},
		{"a knife", []Named{knife}, ""},
	} {
		part, ok := headOf([]byte(c.text), c.named)
		if got := c.text[part.Start:part.End]; got != c.want || ok != (c.want != "") {
			t.Errorf("in %q %q is found, want %q", c.text, got, c.want)
		}
	}
}
