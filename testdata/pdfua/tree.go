package pdfua

// The structure tree, and the ways between it and the pages (ISO 32000-1, 14.7).

import "maps"

// An element of the structure.
type element struct {
	object string
	tag    string // a standard one, if there is a role for it
	dict   map[string]any
	above  *element
	kids   []*element
	marks  []mark
	links  []string // annotations that are part of it
}

func (e *element) String() string {
	if e == nil {
		return "the root"
	}
	return e.tag + " (" + e.object + ")"
}

// attribute is an entry of the attributes with an owner.
func (j *judge) attribute(e *element, owner, name string) any {
	for _, a := range j.list(e.dict["/A"]) {
		if d := j.dict(a); j.name(d["/O"]) == owner && d[name] != nil {
			return j.value(d[name])
		}
	}
	return nil
}

// standard are the types of ISO 32000-1, 14.8.4.
var standard = set("Document", "Part", "Art", "Sect", "Div", "BlockQuote", "Caption", "TOC", "TOCI", "Index",
	"NonStruct", "Private", "P", "H", "H1", "H2", "H3", "H4", "H5", "H6", "L", "LI", "Lbl", "LBody", "Table",
	"TR", "TH", "TD", "THead",
	"TBody", "TFoot", "Span", "Quote", "Note", "Reference", "BibEntry", "Code", "Link", "Annot", "Ruby", "RB", "RT", "RP",
	"Warichu", "WT", "WP", "Figure", "Formula", "Form")

func set(names ...string) map[string]bool {
	all := map[string]bool{}
	for _, n := range names {
		all[n] = true
	}
	return all
}

// readTree reads the elements.
func (j *judge) readTree() {
	tree := j.catalog["/StructTreeRoot"]
	j.root = &element{object: reference(tree), tag: "root", dict: j.dict(tree)}
	for _, kid := range j.list(j.root.dict["/K"]) {
		j.kid(j.root, kid, "")
	}
	j.parents = map[int]any{}
	j.numbers(j.root.dict["/ParentTree"])
}

// kid reads a part of an element: an element, a sequence of marked content, or an annotation.
func (j *judge) kid(of *element, kid any, page string) {
	if id, ok := j.number(kid); ok {
		j.claim(of, mark{page, int(id)})
		return
	}
	dict := j.dict(kid)
	if own := reference(dict["/Pg"]); own != "" {
		page = own
	}
	switch j.name(dict["/Type"]) {
	case "MCR":
		id, _ := j.number(dict["/MCID"])
		j.claim(of, mark{page, int(id)})
		return
	case "OBJR":
		of.links = append(of.links, reference(dict["/Obj"]))
		return
	}
	e := &element{object: reference(kid), tag: j.name(dict["/S"]), dict: dict, above: of}
	if role := j.name(j.dict(j.root.dict["/RoleMap"])[("/" + e.tag)]); role != "" {
		e.tag = role
	}
	switch {
	case j.elements[e.object] != nil:
		j.fault("above", "%s is in the tree twice", e)
		return
	case reference(dict["/P"]) != of.object:
		j.fault("above", "%s is below %s and says %v", e, of, dict["/P"])
	}
	if !standard[e.tag] {
		j.fault("02-001", "%s", e)
	}
	j.elements[e.object] = e
	j.order = append(j.order, e)
	of.kids = append(of.kids, e)
	for _, k := range j.list(dict["/K"]) {
		j.kid(e, k, page)
	}
}

// claim notes that an element says it has a sequence of marked content.
func (j *judge) claim(e *element, m mark) {
	if other := j.marks[m]; other != nil {
		j.fault("twice", "%s and %s both have number %d of page %s", other, e, m.id, m.page)
	}
	j.marks[m] = e
	e.marks = append(e.marks, m)
}

// numbers reads a number tree.
func (j *judge) numbers(node any) {
	d := j.dict(node)
	for _, kid := range j.array(d["/Kids"]) {
		j.numbers(kid)
	}
	pairs := j.array(d["/Nums"])
	last := -1.0
	for i := 0; i+1 < len(pairs); i += 2 {
		key, _ := j.number(pairs[i])
		if key <= last {
			j.fault("parent-tree", "key %g comes after %g", key, last)
		}
		last = key
		j.parents[int(key)] = pairs[i+1]
	}
}

// parentTree checks that content and annotations lead to the elements that have them, and nothing else does.
func (j *judge) parentTree() {
	left := maps.Clone(j.parents)
	found := map[mark]bool{}
	for _, page := range j.pageNames(j.catalog["/Pages"]) {
		key, ok := j.number(j.dict(page)["/StructParents"])
		if !ok {
			continue
		}
		for id, entry := range j.array(left[int(key)]) {
			m := mark{page, id}
			found[m] = true
			if e := j.marks[m]; !j.onPage[m] || e == nil || e.object != reference(entry) {
				j.fault("parent-tree", "number %d of page %s leads to %v, and %s has it", id, page, entry, e)
			}
		}
		delete(left, int(key))
	}
	for m := range j.onPage {
		if !found[m] {
			j.fault("parent-tree", "number %d of page %s leads nowhere", m.id, m.page)
		}
	}
	for _, l := range j.links {
		key, ok := j.number(l.dict["/StructParent"])
		e := j.elements[reference(left[int(key)])]
		if !ok || e == nil || e != l.of {
			j.fault("parent-tree", "annotation %s leads to %s and is in %s", l.object, e, l.of)
		}
		delete(left, int(key))
	}
	for key := range left {
		j.fault("parent-tree", "key %d is of nothing", key)
	}
	j.nextKey()
}

func (j *judge) nextKey() {
	next, _ := j.number(j.root.dict["/ParentTreeNextKey"])
	for key := range j.parents {
		if key >= int(next) {
			j.fault("parent-tree", "key %d is not below the next key, %v", key, next)
		}
	}
}

// pageNames are the objects of the pages in order.
func (j *judge) pageNames(tree any) []string {
	if j.name(j.dict(tree)["/Type"]) == "Page" {
		return []string{reference(tree)}
	}
	var all []string
	for _, kid := range j.array(j.dict(tree)["/Kids"]) {
		all = append(all, j.pageNames(kid)...)
	}
	return all
}

// contents checks that what elements say they have is there, and that each has something.
func (j *judge) contents() {
	for _, e := range j.order {
		for _, m := range e.marks {
			if !j.onPage[m] {
				j.fault("dangling", "%s has number %d of page %s", e, m.id, m.page)
			}
		}
		if len(e.kids)+len(e.marks)+len(e.links) == 0 && e.tag != "TD" && e.tag != "TH" {
			j.fault("empty", "%s", e)
		}
	}
}
