package pdf

// The structure tree as objects (ISO 32000-1, 14.7.2 to 14.7.4).

import (
	"strconv"
	"strings"
)

// structure adds the elements, and what leads from the pages' content back to them.
func (w *writer) structure() int {
	tree := w.reserve()
	w.reserveObjects(w.root)
	w.element(w.root, tree)
	var ways strings.Builder
	for i, p := range w.pages {
		elements := make([]int, len(p.marks))
		for n, e := range p.marks {
			elements[n] = e.object
		}
		ways.WriteString(" " + strconv.Itoa(i) + " " + refs(elements))
	}
	w.linkWays(w.root, &ways)
	w.set(tree, "<</Type /StructTreeRoot /K "+refs([]int{w.root.object})+" /ParentTree <</Nums ["+ways.String()+
		"]>> /ParentTreeNextKey "+strconv.Itoa(len(w.pages)+w.linkKeys)+">>")
	return tree
}

// linkWays writes what leads from links to their elements. A number tree has its keys in order, and links have got
// theirs in the order of the tree.
func (w *writer) linkWays(e *Element, ways *strings.Builder) {
	if e.address != "" {
		ways.WriteString(" " + strconv.Itoa(e.key) + " " + ref(e.object))
	}
	for _, p := range e.parts {
		if p.element != nil {
			w.linkWays(p.element, ways)
		}
	}
}

// reserveObjects gives each element its number, and each link that of its annotation and its key in the parent tree.
func (w *writer) reserveObjects(e *Element) {
	e.object = w.reserve()
	if e.address != "" {
		e.annotation, e.key = w.reserve(), len(w.pages)+w.linkKeys
		w.linkKeys++
	}
	for _, p := range e.parts {
		if p.element != nil {
			w.reserveObjects(p.element)
		}
	}
}

// element writes an element, what it is part of, and what it is made of.
func (w *writer) element(e *Element, above int) {
	b := append(append(w.scratch[:0], "<</S /"...), e.tag...)
	b = appendRef(append(b, " /P "...), above)
	if e.alt != "" {
		b = appendText(append(b, " /Alt "...), e.alt)
	}
	if e.actual != "" {
		b = appendText(append(b, " /ActualText "...), e.actual)
	}
	b = append(b, e.attributes()...)
	page := firstPage(e)
	if page != nil {
		b = appendRef(append(b, " /Pg "...), w.sheets[page.number])
	}
	b = append(b, " /K ["...)
	for _, p := range e.parts {
		b = w.part(append(b, ' '), e, p, page)
	}
	w.scratch = append(b, "]>>"...)
	w.set(e.object, string(w.scratch))
	for _, p := range e.parts {
		if p.element != nil {
			w.element(p.element, e.object)
		}
	}
}

// attributes are what an element says beside its texts (14.8.5).
func (e *Element) attributes() string {
	switch {
	case e.scope != "":
		return " /A <</O /Table /Scope /" + e.scope + ">>"
	case e.ordered:
		return " /A <</O /List /ListNumbering /Decimal>>"
	case e.box != nil:
		return " /A <</O /Layout /Placement /Block /BBox " + decimals(e.box[:]) + ">>"
	}
	return ""
}

// part writes a part of an element.
func (w *writer) part(to []byte, of *Element, p part, page *page) []byte {
	switch {
	case p.element != nil:
		return appendRef(to, p.element.object)
	case p.link:
		w.set(of.annotation, "<</Type /Annot /Subtype /Link /Rect "+decimals(of.area[:])+" /Border [0 0 0] /F 4 /Contents "+
			textString(of.alt)+" /A <</S /URI /URI "+textString(of.address)+">> /StructParent "+strconv.Itoa(of.key)+">>")
		return append(to, "<</Type /OBJR /Obj "+ref(of.annotation)+" /Pg "+ref(w.sheets[p.page.number])+">>"...)
	case p.page == page:
		return strconv.AppendInt(to, int64(p.mark), 10)
	}
	return append(to, "<</Type /MCR /Pg "+ref(w.sheets[p.page.number])+" /MCID "+strconv.Itoa(p.mark)+">>"...)
}

// firstPage is the page of an element's first marked content, nil if it has none of its own.
func firstPage(e *Element) *page {
	for _, p := range e.parts {
		if p.page != nil {
			return p.page
		}
	}
	return nil
}
