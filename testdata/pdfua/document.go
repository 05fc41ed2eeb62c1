package pdfua

// What a file says of itself, its annotations, and its bookmarks.

import (
	"encoding/xml"
	"strings"
)

// document judges the catalogue and the metadata.
func (j *judge) document() {
	is := func(value any) bool { b, ok := j.value(value).(bool); return ok && b }
	info := j.dict(j.catalog["/MarkInfo"])
	for _, c := range []struct {
		wrong bool
		rule  string
	}{
		{!is(info["/Marked"]) || j.dict(j.catalog["/StructTreeRoot"]) == nil, "marked"},
		{is(info["/Suspects"]), "01-007"},
		{!is(j.dict(j.catalog["/ViewerPreferences"])["/DisplayDocTitle"]), "07-001"},
		{strings.TrimSpace(j.text(j.catalog["/Lang"])) == "", "11-001"},
		{j.trailer["/Encrypt"] != nil, "26-001"},
	} {
		if c.wrong {
			j.fault(c.rule, "the catalogue")
		}
	}
	j.metadata()
}

// properties are the metadata in use.
type properties struct {
	Part  []string `xml:"RDF>Description>part"`
	Title []string `xml:"RDF>Description>title>Alt>li"`
}

func (j *judge) metadata() {
	data, ok := j.Streams[reference(j.catalog["/Metadata"])]
	if !ok {
		j.fault("06-001", "the catalogue")
		return
	}
	var p properties
	if err := xml.Unmarshal(data, &p); err != nil {
		j.fault("06-001", "%v", err)
		return
	}
	if len(p.Part) != 1 || p.Part[0] != "1" || !strings.Contains(string(data), `"http://www.aiim.org/pdfua/ns/id/"`) {
		j.fault("06-002", "part %q", p.Part)
	}
	title := strings.TrimSpace(strings.Join(p.Title, ""))
	if title == "" {
		j.fault("06-003", "the metadata")
	}
	if told := j.text(j.dict(j.trailer["/Info"])["/Title"]); told != title {
		j.fault("titles", "%q and %q", told, title)
	}
}

// A link is an annotation, and the element that it is part of.
type link struct {
	object string
	dict   map[string]any
	of     *element
}

// kinds are the elements that annotations are part of; the others are in Annot.
var kinds = map[string]struct{ tag, rule string }{"Link": {"Link", "28-011"}, "Widget": {"Form", "28-010"}}

// annotations judges those of a page.
func (j *judge) annotations(name string, page map[string]any) {
	all := j.array(page["/Annots"])
	if len(all) > 0 && j.name(page["/Tabs"]) != "S" {
		j.fault("28-008", "page %s", name)
	}
	for _, a := range all {
		l := link{object: reference(a), dict: j.dict(a)}
		for _, e := range j.order {
			for _, object := range e.links {
				if object == l.object {
					l.of = e
				}
			}
		}
		j.links = append(j.links, l)
		j.annotation(l)
	}
}

func (j *judge) annotation(l link) {
	subtype := j.name(l.dict["/Subtype"])
	kind, ok := kinds[subtype]
	if !ok {
		kind.tag, kind.rule = "Annot", "28-002"
	}
	if l.of == nil || l.of.tag != kind.tag {
		j.fault(kind.rule, "%s is in %s", l.object, l.of)
	}
	if subtype == "Widget" && strings.TrimSpace(j.text(l.dict["/TU"])) == "" {
		j.fault("28-005", "%s", l.object)
	}
	if subtype == "Link" && strings.TrimSpace(j.text(l.dict["/Contents"])) == "" {
		j.fault("28-012", "%s", l.object)
	}
}

// outline judges the bookmarks: each has words, a page of the file, and leads back to the one before.
func (j *judge) outline() {
	pages := set(j.pageNames(j.catalog["/Pages"])...)
	if outlines := reference(j.catalog["/Outlines"]); outlines != "" {
		j.bookmarks(outlines, pages)
	}
}

func (j *judge) bookmarks(above string, pages map[string]bool) {
	before := ""
	seen := map[string]bool{}
	for at := reference(j.dict(above)["/First"]); at != ""; at = reference(j.dict(at)["/Next"]) {
		b := j.dict(at)
		place := j.array(b["/Dest"])
		if strings.TrimSpace(j.text(b["/Title"])) == "" || len(place) == 0 || !pages[reference(place[0])] ||
			reference(b["/Parent"]) != above || reference(b["/Prev"]) != before || seen[at] {
			j.fault("outline", "%s below %s", at, above)
			return
		}
		seen[at] = true
		j.bookmarks(at, pages)
		before = at
	}
	if last := reference(j.dict(above)["/Last"]); last != before {
		j.fault("outline", "%s ends at %q and not at %q", above, before, last)
	}
}
