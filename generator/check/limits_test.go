package check_test

// What limits bring: a slip that a key's limit takes in, and the words of what would matter.

import (
	"strings"
	"testing"
)

func TestWhatMattersIsReadLikeOtherTexts(t *testing.T) {
	got := slugs(checked(t, keyed+"```runs data/x.csv\ngroup g\nalong s = 3 cm\n"+
		"matters 1 cm \"a solvent, 20.4 cm\"\n```\n"))
	for _, want := range []string{"given-away", "card-missing"} {
		if !strings.Contains(got, want) {
			t.Errorf("problems are %q, without %s", got, want)
		}
	}
}

func TestASlipInTheLimitOfAKeyIsToldSo(t *testing.T) {
	for limit, told := range map[string]bool{" within 0.5 cm": true, "": false} {
		got := checked(t, "```work\nmeasure d = 65 mm \"Wheel\"\nfind C in cm to 0.1 = circumference(d)\nkey C = 20.4 cm"+
			limit+"\nslip circumference(d) + 0.3 cm \"Look again.\"\nslip pi * d \"Look.\"\n```\n")
		if len(got) == 0 || strings.Contains(got[0].Hint, "narrow it") != told {
			t.Errorf("limit %q: problems are %v", limit, got)
		}
	}
}
