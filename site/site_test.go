package site

import (
	"slices"
	"testing"
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
	for phrase, want := range map[string]string{
		"contact cleaner": "cleaner", "Isopropyl Alcohol": "alcohol", "alcohol wipes": "", "damp cloth": "",
	} {
		got := shortFor(phrase)
		if (want == "") != (len(got) == 0) || want != "" && !slices.Contains(got, want) {
			t.Errorf("short for %q are %q; %q was expected", phrase, got, want)
		}
	}
}
