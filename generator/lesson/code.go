package lesson

// Which code of a lesson is coloured.

import "strings"

// What is coloured is short, since the patterns that tell words of a program apart may take a time that is square in
// the length of a line or a block; and it must not be a clock that decides how far they come.
const (
	MaxColoured     = 10 << 10 // bytes of a block
	MaxColouredLine = 300      // bytes
)

// CodeLanguage gives the usual name of a programming language that is coloured, by the names that authors use. They
// are few on purpose: each is one more that must end on every text.
func CodeLanguage(written string) (name string, known bool) {
	switch name = strings.ToLower(written); name {
	case "py":
		return "python", true
	case "c++":
		return "cpp", true
	case "js":
		return "javascript", true
	case "sh":
		return "bash", true
	case "python", "c", "cpp", "java", "javascript", "json", "yaml", "bash", "html", "css", "go", "lua", "rust":
		return name, true
	}
	return "", false
}

// ShortEnoughToColour tells whether code is coloured, if its language is.
func ShortEnoughToColour(code string) bool {
	if len(code) > MaxColoured {
		return false
	}
	for line := range strings.Lines(code) {
		if len(line) > MaxColouredLine {
			return false
		}
	}
	return true
}
