package words

// How numbers are written in a language.

import (
	"regexp"
	"strings"
	"testing"

	"trundle/generator/locale"
	"trundle/generator/typography"
)

func TestALimitIsSaidInTheLanguage(t *testing.T) {
	for _, c := range [][3]string{
		{"en", "56 mm within 0.5 mm", "56 mm within 0.5 mm"},
		{"es", "56 mm within 0.5 mm", "56 mm, con un margen de 0,5 mm"},
		{"fr", "56 mm within 0.5 mm", "56 mm à 0,5 mm près"},
		{"de", "within 0.02 rotations", "auf 0,02 Umdrehungen genau"},
		{"de", "s within 0.5 of 3", "s within 0,5 of 3"}, // a comparison, which has its words elsewhere
	} {
		w, err := Load(c[0])
		if err != nil {
			t.Fatal(err)
		}
		if got := w.Number(c[1]); got != c[2] {
			t.Errorf("%s: %q is %q, not %q", c[0], c[1], got, c[2])
		}
	}
}

// TestMarksHaveTheirBlanks is about languages such as French: each text has the blanks that belong beside its marks, so
// that no line of a page or sheet ends there.
func TestMarksHaveTheirBlanks(t *testing.T) {
	seen := 0
	for _, tag := range locale.Tags() {
		w, err := Load(tag)
		if err != nil {
			t.Fatal(err)
		}
		for _, pair := range w.Forms().Unbroken {
			two := []rune(pair)
			bare := regexp.MustCompile(regexp.QuoteMeta(string(two[0])) + `([^` + string(two[1]) + `]|$)`)
			if two[0] == typography.NoBreak || two[0] == typography.NarrowNoBreak {
				bare = regexp.MustCompile(`([^` + string(two[0]) + `\d]|^)` + regexp.QuoteMeta(string(two[1])))
			}
			for name, text := range w {
				if strings.HasPrefix(name, "form-") || strings.HasSuffix(name, "-headings") {
					continue
				}
				set := typography.In(w.Forms()).Text(text)
				if seen++; bare.MatchString(set) {
					t.Errorf("%s/words.yaml: %s lacks the blank beside %s: %s", tag, name, strings.TrimSpace(pair), set)
				}
			}
		}
	}
	if seen < 1000 {
		t.Errorf("%d texts with such marks", seen)
	}
}
