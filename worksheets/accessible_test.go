package worksheets_test

// Every sheet of the demo pack by the rules of accessibility that a machine can check, and how readers open and print
// it.

import (
	"path"
	"strings"
	"testing"

	"trundle/testdata/pdfua"
	"trundle/worksheets"
)

// sheetsIn are the names of all sheets among the files of a site.
func sheetsIn(files map[string][]byte) []string {
	var all []string
	for name := range files {
		if is, _ := path.Match("*/sheets/*.pdf", name); is {
			all = append(all, name)
		}
	}
	return all
}

func TestEverySheetMeetsTheRulesOfAccessibility(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	names := sheetsIn(files)
	if least := 4 * len(proved.Lessons); len(names) < least {
		t.Errorf("%d sheets are made, and not %d at least", len(names), least)
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			accessible(t, files[name])
		})
	}
}

// accessible judges a sheet, which has headings and is printed at its true size.
func accessible(t *testing.T, sheet []byte) {
	t.Helper()
	f, err := pdfua.Read(sheet)
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range f.Faults() {
		t.Error(fault)
	}
	typed := func(key, value string) []map[string]any {
		return f.Find(func(d map[string]any) bool { return d[key] == value })
	}
	catalog := typed("/Type", "/Catalog")[0]
	if catalog["/Outlines"] == nil || catalog["/PageLabels"] == nil {
		t.Errorf("it has no bookmarks or its pages no labels: %v", catalog)
	}
	if preferences, _ := catalog["/ViewerPreferences"].(map[string]any); preferences["/PrintScaling"] != "/None" {
		t.Errorf("it is not printed at its true size: %v", preferences)
	}
	if len(typed("/S", "/H1")) == 0 || len(typed("/S", "/H2")) == 0 {
		t.Error("it has no headings of two levels")
	}
}

func TestASheetThatALayoutMayBreakOnMeetsTheRulesOfAccessibility(t *testing.T) {
	t.Parallel()
	_, files := built(t, hostile())
	for _, name := range sheetsIn(files) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			accessible(t, files[name])
		})
	}
	if n := len(sheetsIn(files)); n < 2*len(worksheets.Papers) {
		t.Errorf("%d sheets", n)
	}
}

// What is cut out has a page on its back if both sides are printed.
func TestASheetWithAGaugeIsPrintedOnOneSide(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	gauges := 0
	for _, l := range proved.Lessons {
		for _, name := range sheetsOf("students", l) {
			file := drawing(t, files[name])
			asked := strings.Contains(oneLine(text(t, files[name])), "Print on one side, at true size")
			if is := strings.Contains(file, "/Duplex /Simplex"); is != asked {
				t.Errorf("%s: one side is asked for: %t, and said: %t", name, is, asked)
			}
			if asked {
				gauges++
			}
		}
	}
	if gauges < 8 {
		t.Errorf("only %d sheets have gauges", gauges)
	}
}
