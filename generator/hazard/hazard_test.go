package hazard

import (
	"strings"
	"testing"

	"trundle/testdata/outside"
)

func published(t *testing.T, name string) [][]string {
	t.Helper()
	_, rows := outside.Table(t, name)
	return rows
}

// TestEveryStatementIsThePublishedOne holds each H and P statement against the published
// table, and the table against ours. The source of each row is in the row.
func TestEveryStatementIsThePublishedOne(t *testing.T) {
	texts := map[string]string{}
	for _, row := range published(t, "ghs-statements.csv") {
		if row[2] == "" {
			t.Errorf("%s has no source", row[0])
		}
		texts[row[0]] = row[1]
	}
	hazards, precautions := 0, 0
	statements, _ := tables()
	for _, s := range statements {
		if want, ok := texts[s.Code]; !ok || s.Text != want {
			t.Errorf("%s reads %q; published is %q", s.Code, s.Text, want)
		}
		delete(texts, s.Code)
		if isPrecaution(s.Code) {
			precautions++
		} else {
			hazards++
		}
	}
	for code := range texts {
		t.Errorf("%s is published and missing in our table", code)
	}
	t.Logf("%d hazard and %d precautionary statements", hazards, precautions)
	if hazards < 140 || precautions < 145 {
		t.Errorf("only %d hazard and %d precautionary statements", hazards, precautions)
	}
}

// TestOtherWordingsAreThoseThatWerePublished looks at the codes whose two published lists
// differ: ours is always the wording of one of them, but where both have a slip of the pen.
func TestOtherWordingsAreThoseThatWerePublished(t *testing.T) {
	wordings, slip := map[string][]string{}, map[string]bool{}
	for _, row := range published(t, "ghs-variants.csv") {
		wordings[row[0]] = append(wordings[row[0]], row[2])
		slip[row[0]] = slip[row[0]] || strings.Contains(row[3], "typing")
	}
	held := 0
	statements, _ := tables()
	for _, s := range statements {
		all, ok := wordings[s.Code]
		if !ok || slip[s.Code] {
			continue
		}
		found := false
		for _, text := range all {
			found = found || squeezed(text) == squeezed(s.Text)
		}
		if !found {
			t.Errorf("%s reads %q; published are %q", s.Code, s.Text, all)
		}
		held++
	}
	if held < 50 {
		t.Errorf("only %d codes with several wordings were looked at", held)
	}
}

// TestASecondCollectionAgrees compares each statement with a collection that other people made. Its differences are
// listed, each with its reason; where it has nothing, the code must be one that the Regulation has not.
func TestASecondCollectionAgrees(t *testing.T) {
	differs := map[string]struct{ text, reason string }{
		"P336": {"Thaw frosted parts with lukewarm water. Do no rub affected area.",
			"“Do no” is a slip of the pen in the Regulation; the UN's list has “Do not”"},
		"P410+P412": {"Protect from sunlight. Do no expose to temperatures exceeding 50 °C/122°F.",
			"the same slip, and no blank in 122°F"},
		"P412": {"Do not expose to temperatures exceeding 50 °C/122°F.", "no blank in 122°F"},
	}
	unOnly := map[string]bool{}
	for _, row := range published(t, "ghs-statements.csv") {
		unOnly[row[0]] = strings.Contains(row[3], "UN only, not in CLP")
	}
	second := map[string]string{}
	for _, row := range published(t, "ghs-statements-second.csv") {
		if row[2] == "" {
			t.Errorf("%s has no source", row[0])
		}
		second[row[0]] = row[1]
	}
	compared := 0
	statements, _ := tables()
	for _, s := range statements {
		text, ok := second[s.Code]
		if other, known := differs[s.Code]; known {
			if text != other.text {
				t.Errorf("%s reads %q in the second collection; listed is %q (%s)", s.Code, text, other.text, other.reason)
			}
			text = s.Text
		}
		switch {
		case !ok && !unOnly[s.Code]:
			t.Errorf("%s is missing in the second collection, and not of the UN's list alone", s.Code)
		case ok && text != s.Text:
			t.Errorf("%s reads %q; the second collection has %q", s.Code, s.Text, text)
		case ok:
			compared++
		}
		delete(second, s.Code)
	}
	for code := range second {
		t.Errorf("%s is in the second collection and not in our table", code)
	}
	if compared < 250 {
		t.Errorf("only %d statements were compared", compared)
	}
}

// squeezed leaves out what the lists write differently: blanks, the final stop, dots.
func squeezed(s string) string {
	return strings.NewReplacer(" ", "", "...", "…", ".", "").Replace(s)
}

func TestStatementsAreFoundAsLabelsWriteThem(t *testing.T) {
	for _, c := range []struct{ written, code string }{
		{"P210", "P210"}, {"P305+P351+P338", "P305+P351+P338"}, {"P305 + P351 + P338", "P305+P351+P338"},
		{"P370+P380+P375+P378", "P370+P380+P375[+P378]"}, {"P370+P380+P375", "P370+P380+P375"},
		{"p210", ""}, {"H222", ""}, {"P351+P305+P338", ""}, {"", ""},
	} {
		if s, ok := Precaution(c.written); ok != (c.code != "") || ok && s.Code != c.code {
			t.Errorf("%q finds %q, %v", c.written, s.Code, ok)
		}
	}
	if _, ok := Hazard("P210"); ok {
		t.Error("P210 is taken for a hazard statement")
	}
	if s, ok := Hazard("H300 + H310"); !ok || s.Code != "H300+H310" {
		t.Errorf("H300 + H310 finds %q, %v", s.Code, ok)
	}
}

func TestBlanksAreKeptAsPublishedAndKnown(t *testing.T) {
	for _, c := range []struct {
		code, has string
		gaps      bool
	}{
		{"P501", "Dispose of contents/container to …", true}, {"P302+P352", "water/…", true}, {"P353", "[or shower]",
			true}, {"P280", "gloves/protective", true},
		{"P410+P412", "50 °C/122 °F", false}, {"P210", "No smoking.", false}, {"P503", "supplier...", true},
	} {
		s, ok := Precaution(c.code)
		if !ok || !strings.Contains(s.Text, c.has) || s.HasGaps() != c.gaps {
			t.Errorf("%s is %q, gaps %v; want %q, %v", c.code, s.Text, s.HasGaps(), c.has, c.gaps)
		}
	}
}
