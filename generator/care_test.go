package generator_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// careFact finds temperatures, times, limits and properties of substances, strengths, and telephone
// numbers. Of a lesson only properties count; its times are its plan.
var (
	careFact     = regexp.MustCompile(`(?:\d[\d.]*|\b(?:one|two|three|five|ten|twenty)) (?:°C|°F|ppm|minutes?|hours?|g/mL|g/mol|%|mg/m³|kPa)|\b1-\d{3}-\d{3}-\d{4}`)
	propertyFact = regexp.MustCompile(`\d[\d.]* (?:g/mL|g/mol|kPa|mg/m³|°C|°F)`)
)

// TestEveryFactOfCareHasItsSource holds what care cards, and the lesson with an estimate of vapour, say of
// substances and of first aid against testdata/outside/care-facts.csv, which names a source for each.
func TestEveryFactOfCareHasItsSource(t *testing.T) {
	facts := map[string][]string{} // by file
	for _, row := range outsideTable(t, "care-facts.csv") {
		if len(row) != 5 || slices.Contains(row, "") {
			t.Errorf("a fact without what, source or status: %q", row)
			continue
		}
		facts[row[0]] = append(facts[row[0]], row[1])
	}
	files, err := filepath.Glob("../lessons/care/*.md")
	if err != nil {
		t.Fatal(err)
	}
	files = append(files, "../cmd/trundle/starter/pack/care/damp-cloth.md",
		"../lessons/11-speed-and-stopping.md")
	for _, file := range files {
		name := strings.TrimPrefix(filepath.ToSlash(filepath.Join("generator", file)), "generator/../")
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		pattern := careFact
		if !strings.Contains(file, "care/") {
			pattern = propertyFact
		}
		said := pattern.FindAllString(oneLine(string(text)), -1)
		for _, fact := range said {
			if !slices.Contains(facts[name], fact) {
				t.Errorf("%s says %q, and no source is named for it", name, fact)
			}
		}
		for _, fact := range facts[name] {
			if !slices.Contains(said, fact) {
				t.Errorf("%s does not say %q", name, fact)
			}
		}
		delete(facts, name)
	}
	for name := range facts {
		t.Errorf("there are facts for %s, which was not looked at", name)
	}
}
