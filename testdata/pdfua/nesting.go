package pdfua

// What elements are within others, and what they say of themselves.

import (
	"strconv"
	"strings"
)

// places are the elements that a part of a list or a table may be in (ISO 32000-1, tables 336 and 337).
var places = map[string]map[string]bool{
	"LI": set("L"), "LBody": set("LI"),
	"TR": set("Table", "THead", "TBody", "TFoot"), "TH": set("TR"), "TD": set("TR"),
	"THead": set("Table"), "TBody": set("Table"), "TFoot": set("Table"),
}

// parts are the elements that a list or a table may consist of.
var parts = map[string]map[string]bool{
	"L": set("LI", "L", "Caption"), "LI": set("Lbl", "LBody"),
	"Table": set("TR", "THead", "TBody", "TFoot", "Caption"), "TR": set("TH", "TD"),
	"THead": set("TR"), "TBody": set("TR"), "TFoot": set("TR"),
}

func ruleOf(tag string) string {
	if strings.HasPrefix(tag, "L") {
		return "09-005"
	}
	return "09-004"
}

// nesting judges an element and what is below it.
func (j *judge) nesting(e *element) {
	if in := places[e.tag]; in != nil && !in[e.above.tag] {
		j.fault(ruleOf(e.tag), "%s is in %s", e, e.above)
	}
	if of := parts[e.tag]; of != nil {
		if len(e.marks) > 0 {
			j.fault(ruleOf(e.tag), "%s has content of its own", e)
		}
		for _, kid := range e.kids {
			if !of[kid.tag] {
				j.fault(ruleOf(e.tag), "%s is made of %s", e, kid)
			}
		}
	}
	j.says(e)
	for _, kid := range e.kids {
		j.nesting(kid)
	}
}

// says judges what an element says of itself.
func (j *judge) says(e *element) {
	alternative := j.text(e.dict["/Alt"]) + j.text(e.dict["/ActualText"])
	without := map[string]string{"Figure": "13-004", "Formula": "17-002", "Form": "form-alt"}[e.tag]
	if without != "" && strings.TrimSpace(alternative) == "" {
		j.fault(without, "%s", e)
	}
	switch e.tag {
	case "Figure":
		if box, _ := j.attribute(e, "Layout", "/BBox").([]any); len(box) != 4 {
			j.fault("figure-box", "%s", e)
		}
	case "L":
		j.numbered(e)
	case "LI":
		if !has(e, "LBody") {
			j.fault("list-item", "%s", e)
		}
	case "TH":
		if scope, _ := j.attribute(e, "Table", "/Scope").(string); !set("/Row", "/Column", "/Both")[scope] {
			j.fault("15-003", "%s", e)
		}
	case "Table":
		j.regular(e)
	}
}

func has(e *element, tag string) bool {
	for _, kid := range e.kids {
		if kid.tag == tag {
			return true
		}
	}
	return false
}

// numbered judges a list whose labels are numbers.
func (j *judge) numbered(e *element) {
	if kind, _ := j.attribute(e, "List", "/ListNumbering").(string); kind != "" && kind != "/None" {
		return
	}
	for _, item := range e.kids {
		for _, label := range item.kids {
			text := strings.TrimRight(j.shown(label), ".)")
			if _, err := strconv.Atoi(text); label.tag == "Lbl" && err == nil {
				j.fault("16-001", "%s has the item %s", e, text)
				return
			}
		}
	}
}

// regular judges whether a table's rows have as many cells each.
func (j *judge) regular(table *element) {
	want, rest := 0, []int(nil) // how many rows a column is still taken from above
	for _, row := range rows(table) {
		cells := 0
		for i, n := range rest {
			if n > 0 {
				rest[i]--
				cells++
			}
		}
		for _, cell := range row.kids {
			across, down := j.span(cell, "/ColSpan"), j.span(cell, "/RowSpan")
			cells += across
			for range across {
				rest = append(rest, down-1)
			}
		}
		if want == 0 {
			want = cells
		}
		if cells != want {
			j.fault("regular", "%s has %d cells in %s and %d before", table, cells, row, want)
			return
		}
	}
}

func (j *judge) span(cell *element, name string) int {
	if n, ok := j.attribute(cell, "Table", name).(float64); ok && n >= 1 {
		return int(n)
	}
	return 1
}

func rows(of *element) []*element {
	var all []*element
	for _, kid := range of.kids {
		switch kid.tag {
		case "TR":
			all = append(all, kid)
		case "THead", "TBody", "TFoot":
			all = append(all, rows(kid)...)
		}
	}
	return all
}

// headings judges the levels of headings in the order in which they are read.
func (j *judge) headings() {
	last, plain := 0, false
	for _, e := range j.order {
		plain = plain || e.tag == "H"
		level, err := strconv.Atoi(strings.TrimPrefix(e.tag, "H"))
		if err != nil || !strings.HasPrefix(e.tag, "H") {
			continue
		}
		switch {
		case last == 0 && level != 1:
			j.fault("14-002", "%s", e)
		case last > 0 && level > last+1:
			j.fault("14-003", "%s comes after a heading of level %d", e, last)
		}
		last = level
	}
	if plain && last > 0 {
		j.fault("14-007", "H beside H%d", last)
	}
}
