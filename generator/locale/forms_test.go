package locale

import (
	"slices"
	"strings"
	"testing"
)

func formsIn(t *testing.T, tag string) Forms {
	t.Helper()
	f, err := FormsOf(tag)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestALanguageWritesNumbersInItsForms(t *testing.T) {
	for _, c := range []struct {
		tag, number string
		counts      [3]string // of 999, 1000 and −1234567
	}{
		{"en", "20.4 cm · 8 1/32 in · 1:02.5 · kit.wheel · a. 5", [3]string{"999", "1,000", "−1,234,567"}},
		{"es", "20,4 cm · 8 1/32 in · 1:02,5 · kit.wheel · a. 5", [3]string{"999", "1000", "−1\u202f234\u202f567"}},
		{"fr", "20,4 cm · 8 1/32 in · 1:02,5 · kit.wheel · a. 5", [3]string{"999", "1\u202f000", "−1\u202f234\u202f567"}},
		{"de", "20,4 cm · 8 1/32 in · 1:02,5 · kit.wheel · a. 5", [3]string{"999", "1.000", "−1.234.567"}},
	} {
		f := formsIn(t, c.tag)
		if got := f.Number("20.4 cm · 8 1/32 in · 1:02.5 · kit.wheel · a. 5"); got != c.number {
			t.Errorf("%s writes %s, not %s", c.tag, got, c.number)
		}
		for i, n := range []int{999, 1000, -1234567} {
			if got := f.Count(n); got != c.counts[i] {
				t.Errorf("%s writes %d as %s, not %s", c.tag, n, got, c.counts[i])
			}
		}
	}
}

// TestEveryLanguageHasForms covers those that have words.
func TestEveryLanguageHasForms(t *testing.T) {
	for _, tag := range Tags() {
		formsIn(t, tag)
	}
	if _, err := FormsOf("xx"); err == nil {
		t.Error("a language that is not there has forms")
	}
}

func TestListsAreInTheOrderOfTheAlphabet(t *testing.T) {
	for tag, want := range map[string]string{
		"de": "Achse Ähre Akku älter Öl Ölkanne Rad Strasse Straße Straßen Übersetzung Zange",
		"es": "ángulo año nube número nutria ñandú oruga rueda",
		"fr": "Écart égal Eté Été étés œil ombre roue",
		"en": "Arc arc axle cloth Wheel",
	} {
		words := strings.Fields(want)
		for _, order := range []func([]string){slices.Sort[[]string], slices.Reverse[[]string]} {
			got := slices.Clone(words)
			order(got)
			slices.SortFunc(got, formsIn(t, tag).Compare)
			if !slices.Equal(got, words) {
				t.Errorf("%s: %s", tag, got)
			}
		}
	}
}
