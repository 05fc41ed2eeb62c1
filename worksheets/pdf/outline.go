package pdf

// Bookmarks (ISO 32000-1, 12.3.3).

import "strconv"

// A bookmark leads to a place.
type bookmark struct {
	level int
	title string
	page  *page
	y     float64 // points from the bottom

	object int // its number in the file
	below  []*bookmark
}

// Bookmark puts a line into the document's outline that leads to a height on the current page. Level 1 is the
// outermost; a bookmark is below the last one of a lesser level.
func (d *Document) Bookmark(level int, title string, y float64) {
	if d.draft {
		return
	}
	d.bookmarks = append(d.bookmarks, bookmark{level: level, title: title, page: d.current, y: d.up(y)})
}

// outline adds the bookmarks; 0 if there are none.
func (w *writer) outline() int {
	if len(w.bookmarks) == 0 {
		return 0
	}
	top := &bookmark{object: w.reserve()}
	w.set(top.object, "<</Type /Outlines"+w.children(nest(top, w.bookmarks))+">>")
	return top.object
}

// nest puts bookmarks below each other by their levels, all of them below one.
func nest(top *bookmark, all []bookmark) *bookmark {
	open := []*bookmark{top}
	for _, b := range all {
		for len(open) > 1 && open[len(open)-1].level >= b.level {
			open = open[:len(open)-1]
		}
		above := open[len(open)-1]
		above.below = append(above.below, &b)
		open = append(open, &b)
	}
	return top
}

// children writes the bookmarks below one, and gives what that says of them.
func (w *writer) children(of *bookmark) string {
	if len(of.below) == 0 {
		return ""
	}
	for _, b := range of.below {
		b.object = w.reserve()
	}
	for i, b := range of.below {
		text := "<</Title " + textString(b.title) + " /Parent " + ref(of.object) + " /Dest [" + ref(w.sheets[b.page.number]) +
			" /XYZ null " + decimal(b.y) + " null]"
		if i > 0 {
			text += " /Prev " + ref(of.below[i-1].object)
		}
		if i+1 < len(of.below) {
			text += " /Next " + ref(of.below[i+1].object)
		}
		w.set(b.object, text+w.children(b)+">>")
	}
	return " /First " + ref(of.below[0].object) + " /Last " + ref(of.below[len(of.below)-1].object) +
		" /Count " + strconv.Itoa(of.count())
}

// count is how many bookmarks can be seen below one, all being open.
func (b *bookmark) count() int {
	n := len(b.below)
	for _, kid := range b.below {
		n += kid.count()
	}
	return n
}
