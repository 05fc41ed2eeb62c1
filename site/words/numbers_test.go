package words

// How numbers are written in a language.

import "testing"

func TestALimitIsSaidInTheLanguage(t *testing.T) {
	for _, c := range [][3]string{
		{"en", "56 mm within 0.5 mm", "56 mm within 0.5 mm"},
		{"es", "56 mm within 0.5 mm", "56 mm, a lo sumo 0,5 mm"},
		{"fr", "56 mm within 0.5 mm", "56 mm à 0,5 mm près"},
		{"de", "within 0.02 rotations", "höchstens 0,02 Umdrehungen daneben"},
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
