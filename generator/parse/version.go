package parse

// The pack's version, which is part of the names of what is handed out.

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxVersion is in characters; a date with a word has fewer.
const MaxVersion = 40

// version reads the version. What bundles cannot have in their names is refused, and not left out of them: versions
// that differ in nothing else would replace each other.
func (fs *fields) version() string {
	written := fs.text("version", true)
	text := strings.TrimSpace(written.Value)
	const hint = "write digits, letters, points and hyphens, as in  version: 1.2.0"
	switch {
	case text == "":
	case strings.ContainsAny(text, `/\:*?"<>|`) || strings.ContainsFunc(text, unicode.IsControl):
		fs.error(written.At, "bad-version",
			`bundles have the version in their names, and no name can have / \ : * ? " < > or | in it`, hint)
	case !strings.ContainsFunc(text, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }):
		fs.error(written.At, "bad-version", "the version has neither a digit nor a letter", hint)
	case utf8.RuneCountInString(text) > MaxVersion:
		fs.error(written.At, "bad-version", "the version is longer than 40 characters", hint)
	}
	return written.Value
}
