package work_test

import (
	"strings"
	"testing"
)

// TestOneLikeItHasOtherNumbersAndGivesNothingAway looks at what the example shows of samples, givens and answers.
func TestOneLikeItHasOtherNumbersAndGivesNothingAway(t *testing.T) {
	w, problems := worked(t, block(
		`measure d = 65 mm "Wheel"`, `given L = 48 in "Gate"`, `given back = -20 mm "Back"`,
		`record s[5] in cm to 0.1 = 121.1, 122.6, 121.4, 121.9, 121.4 "Stops"`,
		`find n in rot to 0.01 = rotations(L, d)`, `find avg in cm to 0.1 = mean(s)`, `find miss in cm to 0.1 = avg - L`,
		`find bare in cm to 0.1 = circumference(70 mm)`, `find shift in mm to 1 = back * 3`,
		`find ten in cm to 1 = 12 cm`,
	))
	for _, p := range problems {
		t.Error(p.What)
	}
	for name, want := range map[string]string{
		"n": "= 38 in ÷ (π × 53 mm)", "avg": "= (96.9 cm + 98.1 cm + 97.1 cm + 97.5 cm + 97.1 cm) ÷ 5",
		"miss": "= 97.3 cm − 39 in", "bare": "= π × 56 mm", "shift": "= (−16 mm) × 3", "ten": "9.6 cm",
	} {
		found := ""
		for _, f := range w.Fields {
			for _, step := range f.Another {
				if f.Statement.Name == name {
					found += step.Text() + "\n"
				}
			}
		}
		found = strings.ReplaceAll(found, "\u00a0", " ")
		if !strings.Contains(found, want) {
			t.Errorf("the example of %s is\n%s\nwant %q", name, found, want)
		}
		for _, secret := range []string{"65 mm", "48 in", "121.1", "121.7", "5.97", "22.0 cm", "−60 mm"} {
			if strings.Contains(found, secret) {
				t.Errorf("the example of %s shows %s:\n%s", name, secret, found)
			}
		}
	}
}

// TestAnExampleThatWouldComeToTheAnswerTakesOtherNumbers: a part of a whole is the same part at any size.
func TestAnExampleThatWouldComeToTheAnswerTakesOtherNumbers(t *testing.T) {
	w, _ := worked(t, block(`given a = 50 cm`, `given b = 60 cm`, `find part in % to 10 = a / (a + b)`, `find q = a - a`,
		`find r = 2 + 3`))
	for _, f := range w.Fields {
		for _, step := range f.Another {
			if text := step.Text(); strings.Contains(text, "50\u00a0%") || f.Statement.Name != "part" {
				t.Errorf("%s: %s", f.Statement.Name, text)
			}
		}
	}
}
