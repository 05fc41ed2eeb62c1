package parse

import (
	"testing"

	"trundle/generator/source"
)

// TestAKitNeedsAName has what is left when somebody forgets the name: its lessons' sheets would not start.
func TestAKitNeedsAName(t *testing.T) {
	for key, want := range map[string]string{
		`""`: "kit-unnamed", "~": "kit-unnamed", "null": "kit-unnamed", `"  "`: "kit-unnamed", "__proto__": "kit-unnamed",
		"heron": "", "1": "", "constructor": "",
	} {
		_, problems := Kits(source.NewFile("kits.yaml", []byte(key+": {title: Heron, wheel: 65 mm}\n")))
		found := ""
		for _, p := range problems.Sorted() {
			found += p.Slug
		}
		if found != want {
			t.Errorf("%s: problems are %q, want %q", key, found, want)
		}
	}
}
