package chart

// The letters that the pages' typeface has, which widths.go is made from.

import (
	"strings"
	"testing"
	"unicode"

	"trundle/generator/locale"
	"trundle/site/words"
)

// TestThePagesTypefaceHasEveryLetterOfEveryLanguage looks at all texts of the interface, and at quotation marks.
func TestThePagesTypefaceHasEveryLetterOfEveryLanguage(t *testing.T) {
	var all strings.Builder
	all.WriteString("✗") // of the page of the class alone, which takes it from a face of the device
	for _, letters := range letterWidths {
		all.WriteString(letters)
	}
	for _, tag := range locale.Tags() {
		w, err := words.Load(tag)
		if err != nil {
			t.Fatal(err)
		}
		for name, text := range w {
			for _, r := range text {
				if !unicode.IsSpace(r) && !strings.ContainsRune(all.String(), r) {
					t.Errorf("pages lack %c (U+%04X) of %s in %s", r, r, name, tag)
				}
			}
		}
	}
}
