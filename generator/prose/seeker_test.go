package prose_test

// Phrases are found as one and as many, whatever stands between their words.

import (
	"testing"

	"trundle/generator/prose"
)

func TestAFinderKnowsOneAndManyOfAPhrase(t *testing.T) {
	for _, c := range []struct {
		phrase, text string
		want         bool
	}{
		{"Knife", "both knives are sharp", true},
		{"battery", "charge the batteries.", true},
		{"batteries", "a battery", true},
		{"glass", "glasses on", true},
		{"contact cleaner", "contact-cleaners", true},
		{"contact cleaner", "contacts, cleaner", false},
		{"contact cleaner", "a cleaner", false},
		{"saw", "we sawed", false},
		{" - ", "a - b", false},
	} {
		if got := prose.Finder(c.phrase)(c.text); got != c.want {
			t.Errorf("%q in %q: %t", c.phrase, c.text, got)
		}
	}
}
