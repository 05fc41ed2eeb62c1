package site

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
)

// TestSetUpPicturesCanBeReadOnAPhoneAndInTheDark wants 24 units of text in 560, and colours for a dark page.
func TestSetUpPicturesCanBeReadOnAPhoneAndInTheDark(t *testing.T) {
	names, err := filepath.Glob("../lessons/pictures/setup-*.svg")
	if err != nil || len(names) == 0 {
		t.Fatalf("there are %d pictures (%v)", len(names), err)
	}
	sizes := regexp.MustCompile(`viewBox="0 0 (\d+) \d+"[^>]* font-size="(\d+)"`)
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		found := sizes.FindSubmatch(data)
		if found == nil {
			t.Fatalf("%s does not say how large its text is", name)
		}
		width, _ := strconv.Atoi(string(found[1]))
		text, _ := strconv.Atoi(string(found[2]))
		if text*560 < 24*width || !regexp.MustCompile(`@media \(prefers-color-scheme: dark\)`).Match(data) ||
			len(regexp.MustCompile(`font-size`).FindAll(data, -1)) > 1 {
			t.Errorf("%s has text of %d in %d, or no colours for the dark", name, text, width)
		}
	}
}
