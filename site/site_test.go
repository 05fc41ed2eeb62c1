package site

import (
	"slices"
	"testing"

	"trundle/generator/prose"
)

func TestAGoalGoesOnAfterItsLeadIn(t *testing.T) {
	for goal, want := range map[string]string{
		"Work out how many rotations it takes.": "work out how many rotations it takes.",
		"Élan of the robot explained.":          "élan of the robot explained.",
		"Ähnlichkeit":                           "ähnlichkeit",
		"SI units: use them.":                   "SI units: use them.",
		"A robot that stops":                    "A robot that stops",
		"É alone":                               "É alone",
		"":                                      "",
		"\xff broken":                           "\xff broken",
	} {
		if got := lowerFirst(goal); got != want {
			t.Errorf("%q goes on as %q; %q was expected", goal, got, want)
		}
	}
}

// TestACardIsNamedByTheShortWordToo covers "the cleaner", which may be the contact cleaner of the sentence before.
func TestACardIsNamedByTheShortWordToo(t *testing.T) {
	for _, c := range []struct{ language, phrase, want string }{
		{"en", "contact cleaner", "cleaner"}, {"en", "Isopropyl Alcohol", "alcohol"}, {"en", "alcohol wipes", "alcohol wipe"},
		{"en", "damp cloth", ""}, {"de", "Kontaktreiniger", "reiniger"}, {"de", "feuchtes Tuch", ""},
		{"fr", "nettoyant pour contacts", "nettoyant"}, {"es", "limpiador de contactos", "limpiador"},
	} {
		got := shortFor(prose.In(c.language), c.phrase)
		if (c.want == "") != (len(got) == 0) || c.want != "" && !slices.Contains(got, c.want) {
			t.Errorf("short for %q are %q; %q was expected", c.phrase, got, c.want)
		}
	}
}
