package pdf

// The structure tree as objects (ISO 32000-1, 14.7.2 to 14.7.4).

import (
	"strconv"
	"strings"
)

// structure adds the elements, and what leads from the pages' content back to them.
func (w *writer) structure() int {
	tree := w.reserve()
	w.number(w.Document.root)
	w.element(w.Document.root, tree)
	var nums strings.Builder
	for i, p := range w.Document.pages {
		var all []string
		for _, e := range p.marks {
			all = append(all, ref(e.object))
		}
		nums.WriteString(" " + strconv.Itoa(i) + " [" + strings.Join(all, " ") + "]")
	}
	key := len(w.Document.pages)
	for _, p := range w.Document.pages {
		for _, link := range p.links {
			nums.WriteString(" " + strconv.Itoa(link.key) + " " + ref(link.object))
			key++
		}
	}
	w.set(tree, "<</Type /StructTreeRoot /K ["+ref(w.Document.root.object)+"] /ParentTree <</Nums ["+nums.String()+
		"]>> /ParentTreeNextKey "+strconv.Itoa(key)+">>")
	return tree
}

// number gives each element its object's number, and each link its own and its key in the parent tree.
func (w *writer) number(e *Element) {
	e.object = w.reserve()
	if e.address != "" {
		e.annotation, e.key = w.reserve(), len(w.Document.pages)+w.linkKeys
		w.linkKeys++
	}
	for _, p := range e.parts {
		if p.element != nil {
			w.number(p.element)
		}
	}
}

// element writes an element, what it is part of, and what it is made of.
func (w *writer) element(e *Element, above int) {
	var b strings.Builder
	b.WriteString("<</S /" + string(e.tag) + " /P " + ref(above))
	if e.alt != "" {
		b.WriteString(" /Alt " + textString(e.alt))
	}
	if e.actual != "" {
		b.WriteString(" /ActualText " + textString(e.actual))
	}
	switch {
	case e.scope != "":
		b.WriteString(" /A <</O /Table /Scope /" + e.scope + ">>")
	case e.ordered:
		b.WriteString(" /A <</O /List /ListNumbering /Decimal>>")
	case e.box != nil:
		b.WriteString(" /A <</O /Layout /Placement /Block /BBox [" + numbers(e.box[:]) + "]>>")
	}
	page := firstPage(e)
	if page != nil {
		b.WriteString(" /Pg " + ref(w.pages[page.number]))
	}
	b.WriteString(" /K [")
	for _, p := range e.parts {
		b.WriteString(" " + w.part(e, p, page))
	}
	b.WriteString("]>>")
	w.set(e.object, b.String())
}

// part writes a part of an element, and what is below it.
func (w *writer) part(of *Element, p part, page *page) string {
	switch {
	case p.element != nil:
		w.element(p.element, of.object)
		return ref(p.element.object)
	case p.link:
		w.set(of.annotation, "<</Type /Annot /Subtype /Link /Rect ["+numbers(of.area[:])+"] /Border [0 0 0] /F 4 /Contents "+
			textString(of.alt)+" /A <</S /URI /URI "+textString(of.address)+">> /StructParent "+strconv.Itoa(of.key)+">>")
		return "<</Type /OBJR /Obj " + ref(of.annotation) + " /Pg " + ref(w.pages[p.page.number]) + ">>"
	case p.page == page:
		return strconv.Itoa(p.mark)
	}
	return "<</Type /MCR /Pg " + ref(w.pages[p.page.number]) + " /MCID " + strconv.Itoa(p.mark) + ">>"
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

func numbers(all []float64) string {
	texts := make([]string, len(all))
	for i, x := range all {
		texts[i] = number(x)
	}
	return strings.Join(texts, " ")
}
