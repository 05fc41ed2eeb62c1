package site

// How the facts of a kit are called on pages.

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"trundle/generator/lesson"
	"trundle/site/words"
)

// factLabel is what stands beside a box for a fact of the kit. One that the pack names itself has its own name.
func factLabel(w words.Words, name string) string {
	for _, usual := range lesson.KitFields {
		if usual.Name == name {
			return w.Say("kit-" + name)
		}
	}
	first, size := utf8.DecodeRuneInString(name)
	return string(unicode.ToUpper(first)) + withBlanks(name[size:])
}

// withBlanks writes a name as words.
func withBlanks(name string) string { return strings.ReplaceAll(name, "_", " ") }
