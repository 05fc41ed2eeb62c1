package worksheets

// Words that no line has room for.

import (
	"strings"
	"testing"

	"trundle/generator/locale"
	"trundle/generator/typography"
)

// marksOf are those of a language.
func marksOf(t *testing.T, tag string) typography.Marks {
	t.Helper()
	forms, err := locale.FormsOf(tag)
	if err != nil {
		t.Fatal(err)
	}
	return typography.In(forms)
}

func TestALongWordIsPartedBetweenSyllables(t *testing.T) {
	doc := newDocument("", "", "de")
	doc.SetFont(regular, 10)
	for _, c := range []struct{ tag, word, want string }{
		{"de", "Geschwindigkeitsmessungsprotokoll", "Geschwin- digkeitsmes- sungsproto- koll"},
		{"de", "Sicherheitsdatenblattangaben", "Sicherheits- datenblat- tangaben"},
		{"de", "Protokollierungsstreifen", "Protokollie- rungsstrei- fen"},
		{"es", "Desarrollaremospronto", "Desarrolla- remospronto"},
		{"de", "Aufwärmen", "Aufwärmen"},
		{"fr", "Anticonstitutionnellement,", "Anticonsti- tutionnelle- ment,"},
		{"es", "Electroencefalografista", "Electroence- falografista"},
		{"de", "Wasserfall-Geschwindigkeit", "Wasserfall- Geschwin- digkeit"},
		{"de", "drive_for_rotations_of_the_wheel", "drive_for_ro tations_of_t he_wheel"}, // code has no hyphens
		{"de", "driveForRotationsOfTheWheel", "driveForRot ationsOfThe Wheel"},
		{"de", "https://canal.example/a-long-way", "https:// canal.examp le/a-long- way"},
		{"de", "122,1678345678923456789", "122,167834 5678923456 789"},
	} {
		if got := strings.Join(partedOf(marksOf(t, c.tag), c.word).wrap(doc, 21), " "); got != c.want {
			t.Errorf("%s is parted as %s", c.word, got)
		}
		for _, line := range partedOf(marksOf(t, c.tag), c.word).wrap(doc, 21) {
			if doc.Width(line) > 21 {
				t.Errorf("%s is wider than its line", line)
			}
		}
	}
}

// TestWhatIsLongerThanAnyWordIsCutAnywhere since its syllables are looked for as often as it has lines.
func TestWhatIsLongerThanAnyWordIsCutAnywhere(t *testing.T) {
	doc := newDocument("", "", "de")
	doc.SetFont(regular, 10)
	word := strings.Repeat("banane", 40)
	for text, want := range map[string]bool{word: false, word[:mostOfWord]: true} {
		_, line := hyphenated(doc, marksOf(t, "de"), text, 21)
		if got := strings.HasSuffix(line, "-"); got != want {
			t.Errorf("%d letters begin with the line %s", len(text), line)
		}
	}
}
