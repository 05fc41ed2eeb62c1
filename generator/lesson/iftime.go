package lesson

// Parts of a lesson that a meeting has only if there is time: the mark at the end of their headings, and what the
// lesson takes without them.

import "github.com/yuin/goldmark/ast"

// ifTimeAttribute is the attribute of a heading that says so. No renderer writes it.
const ifTimeAttribute = "if-time"

// SetIfTime notes whether a heading's part is for when there is time.
func SetIfTime(h *ast.Heading, is bool) { h.SetAttributeString(ifTimeAttribute, is) }

// IfTime tells whether a heading's part is for when there is time.
func IfTime(h *ast.Heading) bool {
	value, _ := h.AttributeString(ifTimeAttribute)
	is, _ := value.(bool)
	return is
}

// SpareMinutes are those of a lesson's plan that are for when there is time.
func SpareMinutes(l *Lesson) int {
	sum := 0
	for _, part := range TimedParts(l) {
		sum += part.Spare
	}
	return sum
}
