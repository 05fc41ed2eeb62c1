package prose_test

// Phrases are found as one and as many, whatever stands between their words.

import (
	"testing"

	"trundle/generator/prose"
)

func TestAFinderKnowsOneAndManyOfAPhrase(t *testing.T) {
	for _, c := range []struct {
		language, phrase, text string
		want                   bool
	}{
		{"en", "Knife", "both knives are sharp", true},
		{"en", "battery", "charge the batteries.", true},
		{"en", "batteries", "a battery", true},
		{"en", "glass", "glasses on", true},
		{"en", "contact cleaner", "contact-cleaners", true},
		{"en", "contact cleaner", "contacts, cleaner", false},
		{"en", "contact cleaner", "a cleaner", false},
		{"en", "saw", "we sawed", false},
		{"en", " - ", "a - b", false},
		{"de", "Messer", "mit den messern", true},
		{"de", "Säge", "zwei sägen", true},
		{"de", "Säge", "wir sagen", false},
		{"de", "Reiniger", "den kontaktreiniger schütteln", true},
		{"de", "Kontaktreiniger", "der reiniger", false},
		{"de", "Kies", "diese kiese", true},
		{"de", "Kies", "wir ließen es", false},
		{"es", "Batería", "las baterias nuevas", true},
		{"es", "limpiador de contactos", "limpiadores de contactos", true},
		{"es", "limpiador de contactos", "limpiador, de contactos", false},
		{"fr", "couteau", "deux couteaux", true},
		{"fr", "ciseaux", "un ciseau à bois", true},
		{"fr", "knife", "two knives", false},
		{"fr", " - ", "a - b", false},
	} {
		if got := prose.In(c.language).Finder(c.phrase)([]byte(c.text)); got != c.want {
			t.Errorf("%q in %q: %t", c.phrase, c.text, got)
		}
	}
}
