package worksheets

// The ways in which a sheet is laid out until it has few pages and fills them, and which of them is taken.

import "slices"

// mostPages is how many pages a sheet has at most, if it can be had.
const mostPages = 4

// fit is what gives way so that a sheet fills its pages well. Millimetres.
type fit struct {
	room    float64 // of squares below a question, in whole squares of 5 mm
	picture float64 // how high a picture is at most
	leading float64 // height of a line of prose by its size
	columns bool    // narrow blocks stand side by side
	terse   bool    // head, log and boxes are as small as they serve
	brief   bool    // what explains more than it says stays on the page
}

// fits are the ways in which a sheet is laid out, from roomy to tight.
var fits = []fit{
	{room: 30, picture: 60, leading: 1.35},
	{room: 25, picture: 50, leading: 1.3},
	{room: 20, picture: 50, leading: 1.3, columns: true},
	{room: 20, picture: 50, leading: 1.28, columns: true, terse: true},
	{room: 15, picture: 45, leading: 1.25, columns: true, terse: true},
	{room: 15, picture: 40, leading: 1.2, columns: true, terse: true},
	{room: 10, picture: 34, leading: 1.15, columns: true, terse: true, brief: true},
	{room: 10, picture: 30, leading: 1.1, columns: true, terse: true, brief: true},
}

// An outcome is what a way of laying a sheet out comes to.
type outcome struct {
	fit   fit
	pages int
	full  bool // at least a third of the last page is used
	sheet *sheet
}

// bestOn finds the best fit on a paper. A smaller paper begins with what was good on the first one, as whatever is
// roomier has too many pages there already.
func bestOn(p Paper, lay func(Paper, fit) (outcome, error), found map[Paper]outcome) (outcome, error) {
	if o, ok := found[p]; ok {
		return o, nil
	}
	ways := fits
	if first := Papers[0]; p.Width*p.Height < first.Width*first.Height {
		o, err := bestOn(first, lay, found)
		if err != nil {
			return o, err
		}
		if o.isGood() {
			ways = fits[slices.Index(fits, o.fit):]
		}
	}
	o, err := bestOf(ways, func(f fit) (outcome, error) { return lay(p, f) })
	if err == nil {
		found[p] = o
	}
	return o, err
}

// bestOf tries ways in their order and takes the first with few pages of which the last is full enough, else the one
// that comes nearest. Where there are far too many pages, a way that is hardly tighter is not worth its time.
func bestOf(ways []fit, lay func(fit) (outcome, error)) (outcome, error) {
	const farthest = 3
	var best outcome
	for i := 0; i < len(ways); {
		o, err := lay(ways[i])
		if err != nil {
			return outcome{}, err
		}
		if o.isGood() {
			return o, nil
		}
		if best.pages == 0 || o.isBetter(best) {
			best = o
		}
		step := max(1, min(o.pages-mostPages, farthest))
		if i+step >= len(ways) && i+1 < len(ways) { // the tightest is always tried
			step = len(ways) - 1 - i
		}
		i += step
	}
	return best, nil
}

// isGood tells whether a sheet has few pages and the last of them is full enough.
func (o outcome) isGood() bool { return o.pages <= mostPages && o.full }

// isBetter tells which of two that are not good is the better one.
func (o outcome) isBetter(other outcome) bool {
	if o.pages != other.pages {
		return o.pages < other.pages
	}
	return o.full && !other.full
}

// lastIsFull tells whether at least a third of the last page is used.
func (s *sheet) lastIsFull() bool { return s.y-Margin >= (s.foot()-Margin)/3 }
