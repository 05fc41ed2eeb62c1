package lesson

// Which code of a lesson is coloured.

import "strings"

// What is coloured is short, since the patterns that tell words of a program apart may take a time that is square in
// the length of a line or a block; and it must not be a clock that decides how far they come. With these limits no
// block of the kinds that were tried takes much more than half a second of a processor, and no page more than three.
const (
	MaxColoured     = 4 << 10 // bytes of a block
	MaxColouredSlow = 2 << 10 // the same in Go, Java and HTML, whose patterns look further ahead
	MaxColouredLine = 200     // bytes
	MaxColouredPage = 16 << 10
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

// Colouring says which code of a page is coloured, as long as it is asked about each in order. The zero Colouring is
// ready.
type Colouring struct{ used int }

// Takes tells whether code is coloured.
func (c *Colouring) Takes(language, code string) bool {
	name, known := CodeLanguage(language)
	if !known || !shortEnough(name, code) || c.used+len(code) > MaxColouredPage {
		return false
	}
	c.used += len(code)
	return true
}

// shortEnough tells whether code in a language that is coloured is short enough for that.
func shortEnough(name, code string) bool {
	most := MaxColoured
	if name == "go" || name == "java" || name == "html" {
		most = MaxColouredSlow
	}
	if len(code) > most {
		return false
	}
	for line := range strings.Lines(code) {
		if len(line) > MaxColouredLine {
			return false
		}
	}
	return true
}
