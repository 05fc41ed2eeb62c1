package picture

// Here: how much an SVG comes to when each element is counted as often as it is drawn. A few lines in which each is
// used twice by the next can draw more than any computer does.

// root stands for the whole picture among ids; it can be no id, since it has a blank.
const root = "the picture"

// references are, by id, how many elements lie in one, and which others lie in it or are referred to from it. What
// lies in an element with an id is counted there, and not once more in what is around it.
type references struct {
	sizes map[string]int
	uses  map[string][]string
	all   int
}

// nearest gives the id that something in the innermost of the open elements is counted under.
func nearest(open []svgElement) string {
	for i := len(open) - 1; i >= 0; i-- {
		if open[i].id != "" {
			return open[i].id
		}
	}
	return root
}

// count counts the innermost of the open elements, and what it refers to.
func (f *references) count(open []svgElement, to []string) {
	f.all++
	within := nearest(open)
	f.sizes[within]++
	f.uses[within] = append(f.uses[within], to...)
	if innermost := len(open) - 1; open[innermost].id != "" {
		around := nearest(open[:innermost])
		f.uses[around] = append(f.uses[around], within)
	}
}

// check refuses a picture that comes to too much, or that draws itself.
func (f *references) check(r *svgReader) {
	total := map[string]int{}
	if n := f.total(root, total); n < 0 {
		r.refuseFrom("picture-too-much", 0, "something in this picture refers to itself, round in a circle",
			"save the picture anew, or as PNG")
	} else if n > MaxElements {
		r.refuseFrom("picture-too-much", 0, "this picture draws more elements than trundle lets a browser draw",
			"make it simpler, or save it as PNG")
	}
}

// total counts what an element comes to, −1 if it is in itself. Beyond the limit it stops counting.
func (f *references) total(id string, known map[string]int) int {
	const looking = -1 // further up
	if n, ok := known[id]; ok {
		return n
	}
	known[id] = looking
	n := f.sizes[id]
	for _, to := range f.uses[id] {
		below := f.total(to, known)
		if below < 0 {
			return -1
		}
		n = min(n+below, MaxElements+1)
	}
	known[id] = n
	return n
}
