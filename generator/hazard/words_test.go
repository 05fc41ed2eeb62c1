package hazard_test

import (
	"strings"
	"testing"

	"trundle/generator/hazard"
)

// TestEachWordHasItsKindAndItsSource reads the table as a whole.
func TestEachWordHasItsKindAndItsSource(t *testing.T) {
	seen, calling := map[string]bool{}, 0
	for _, w := range hazard.Words() {
		if w.Text == "" || w.Source == "" || seen[w.Text] || strings.ToLower(w.Text) != w.Text {
			t.Errorf("%+v is a word without its source, twice there, or not in small letters", w)
		}
		seen[w.Text] = true
		switch w.Alarm {
		case hazard.Stop, hazard.Compare, hazard.Ask:
			calling++
			if w.Is() == "" {
				t.Errorf("%s is of no known kind: %q", w.Text, w.Kind)
			}
		case hazard.Pass:
		default:
			t.Errorf("%s has the alarm %q", w.Text, w.Alarm)
		}
	}
	if calling < 120 {
		t.Errorf("only %d words call for a card", calling)
	}
	for _, word := range strings.Split("petrol,gasoline,white spirit,turpentine,thinner,acetone,nail polish "+
		"remover,ethanol,spirit,window cleaner,"+
		"glass cleaner,oven cleaner,bleach,super glue,soldering iron,craft knife", ",") {
		if !seen[word] {
			t.Errorf("%s is missing", word)
		}
	}
}
