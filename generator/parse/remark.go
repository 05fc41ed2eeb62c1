package parse

// Remarks to trundle, <!-- trundle: … -->, which are on no page. What they say is read in package check.

import (
	"github.com/yuin/goldmark/ast"

	"trundle/generator/wording"
)

// remarkForm is a remark and nothing else.
var remarkForm = wording.New(`^\s*<!--\s*trundle:[^\n]*?-->\s*$`)

// removeRemarks takes remarks out of the tree, so that no page and no check takes them for text.
func removeRemarks(root ast.Node, src []byte) {
	var remarks []ast.Node
	_ = ast.Walk(root, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.RawHTML:
			if remarkForm.Match(n.Segments.Value(src)) {
				remarks = append(remarks, n)
			}
		case *ast.HTMLBlock:
			text := n.Lines().Value(src)
			if n.HasClosure() {
				text = append(text[:len(text):len(text)], n.ClosureLine.Value(src)...)
			}
			if remarkForm.Match(text) {
				remarks = append(remarks, n)
			}
		}
		return ast.WalkContinue, nil
	})
	for _, n := range remarks {
		n.Parent().RemoveChild(n.Parent(), n)
	}
}
