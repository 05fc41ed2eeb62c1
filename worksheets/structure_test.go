package worksheets_test

// What a sheet says, without what is drawn.

import (
	"strings"
	"testing"
)

// withoutFigures is the text of a document without its figures and what is no part of it: a ruler has every number on
// it.
func withoutFigures(t *testing.T, pdf []byte) string {
	t.Helper()
	var all strings.Builder
	figure := -1 // how far in the figure stands that is being left out
	for line := range strings.Lines(tool(t, pdf, "pdfinfo", "-struct-text", "FILE")) {
		in := len(line) - len(strings.TrimLeft(line, " "))
		if figure >= 0 && in > figure {
			continue
		}
		figure = -1
		if strings.HasPrefix(strings.TrimSpace(line), "Figure") {
			figure = in
			continue
		}
		all.WriteString(line)
	}
	return all.String()
}
