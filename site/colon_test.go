package site_test

// Colons after texts of the interface: French has a blank before them, so no template writes its own.

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"
)

func TestNoTemplateWritesAColonAfterAText(t *testing.T) {
	own := regexp.MustCompile(`\}\}(?:</a>)?:[ <].{0,20}`)
	names, err := filepath.Glob("templates/*.html")
	if err != nil || len(names) < 10 {
		t.Fatalf("%d templates: %v", len(names), err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, found := range own.FindAll(text, -1) {
			t.Errorf(`%s: %s: write {{say "colon"}}`, name, found)
		}
	}
}
