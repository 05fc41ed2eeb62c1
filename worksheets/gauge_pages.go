package worksheets

// From the gauges of a lesson to places on pages: below the text that a page has, beside each other, on pages of
// their own.

import (
	"slices"
	"strings"

	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// Of makes a gauge that a lesson asks for ready to be printed.
func Of(g *work.Gauge, about About) Gauge {
	words := about.Words
	if words != nil {
		words = func(name string, args ...any) string { return about.Marks.Text(about.Words(name, args...)) }
	}
	out := Gauge{
		Kind: GaugeKind(g.Kind), Size: g.Size.Number, SizeText: g.SizeText, Inches: g.Inches,
		Text: about.Marks.Text(g.Text), Words: words, Forms: about.Forms,
	}
	if out.Kind == Squares { // what stands along the foot / along the side
		foot, side, _ := strings.Cut(out.Text, " / ")
		out.Text, out.Up = strings.TrimSpace(foot), strings.TrimSpace(side)
	}
	return out
}

// A fitted gauge is one with what it takes of a page of its own.
type fitted struct {
	Gauge
	Fit
}

// least is the height below which it is not put into a place.
func (f fitted) least() float64 {
	if least := shapes[f.Kind].least; least != nil {
		return least(f.Gauge)
	}
	return f.Height
}

// gauges puts the lesson's gauges below what there is, then on new pages, each page with bars to check that it was
// printed at true scale.
func (s *sheet) gauges() {
	rulers, drawn := parted(s.wanted(), s.isEdge)
	lying, waiting := parted(drawn, func(g fitted) bool { return g.Lying })
	if s.stands {
		waiting = s.fillStrip(waiting)
	}
	waiting = s.besides(waiting)
	for tried := false; len(waiting) > 0; tried = true {
		if tried || waiting[0].Upright && s.y > Margin {
			s.newPage()
		}
		fresh, before := s.y == Margin, len(waiting)
		if waiting = s.gaugesHere(waiting); fresh && len(waiting) == before {
			waiting = waiting[1:] // no page has room for it, which was reported when the pack was checked
		}
	}
	s.edgeRulers(rulers)
	for _, g := range lying {
		s.lyingPage(g)
	}
}

// parted gives those that are so, and the others.
func parted(all []fitted, is func(fitted) bool) (these, others []fitted) {
	for _, g := range all {
		if is(g) {
			these = append(these, g)
		} else {
			others = append(others, g)
		}
	}
	return these, others
}

// wanted are the gauges that the edition prints. What does not fit was reported when the pack was checked.
func (s *sheet) wanted() []fitted {
	var all []fitted
	for _, wanted := range s.lesson.Gauges {
		if wanted.Mentors && !s.mentors {
			continue
		}
		g := Of(wanted, s.about)
		g.Signed = g.Kind == Squares && s.signed(g.Up)
		if fit, err := g.Room(s.paper); err == nil {
			all = append(all, fitted{g, fit})
		}
	}
	return all
}

// besides puts below the text what has no room beside gauges that stand upright, which need a page of their own
// anyway, and gives the others.
func (s *sheet) besides(waiting []fitted) []fitted {
	if s.y == Margin || !slices.ContainsFunc(waiting, func(g fitted) bool { return g.Upright }) {
		return waiting
	}
	level, upright, free := s.alongTheSide(waiting, place{s.left(), Margin, s.width(), s.foot() - Margin})
	inner := place{Width: free.Width, Height: free.Height - gaugeHead - checkHeight(free.Width)}
	beside, rest := choose(level, inner)
	return slices.Concat(upright, beside, s.gaugesHere(rest))
}

// gaugesHere puts what has room on the rest of this page, and gives what has not.
func (s *sheet) gaugesHere(waiting []fitted) []fitted {
	fresh := s.y == Margin
	free := place{s.left(), s.y, s.width(), s.foot() - s.y}
	var upright []fitted
	if fresh {
		waiting, upright, free = s.alongTheSide(waiting, free)
	} else {
		free.Y, free.Height = free.Y+gaugeGap, free.Height-gaugeGap
	}
	check := checkHeight(free.Width)
	inner := place{free.X, free.Y + gaugeHead, free.Width, free.Height - gaugeHead - check}
	chosen, left := choose(waiting, inner)
	if len(chosen)+len(upright) == 0 {
		return left
	}
	s.gaugeHeading(free)
	x := s.left()
	for _, g := range upright {
		g.stand(s.doc, x, Margin, sized(g.Width, g.Height))
		x += g.Height + gaugeGap
		s.y = max(s.y, Margin+g.Width)
	}
	y := s.stack(chosen, inner)
	checkBar(s.doc, free.X, y, free.Width, s.about.Words)
	s.y = max(s.y, y+check)
	return left
}

// alongTheSide takes the gauges that stand upright, and gives what is free at their right. What is too wide for that
// stands beside them if it can.
func (s *sheet) alongTheSide(waiting []fitted, free place) (left, upright []fitted, rest place) {
	take := func(g fitted) bool {
		if !shapes[g.Kind].stands || g.Width > sideRoom(s.paper).Width || free.Width-g.Height-gaugeGap < fourInches {
			return false
		}
		upright = append(upright, g)
		free.X, free.Width = free.X+g.Height+gaugeGap, free.Width-g.Height-gaugeGap
		return true
	}
	left = slices.DeleteFunc(slices.Clone(waiting), func(g fitted) bool { return g.Upright && take(g) })
	if len(upright) > 0 {
		left = slices.DeleteFunc(left, func(g fitted) bool { return g.Width > free.Width && take(g) })
	}
	return left, upright, free
}

// choose takes from the first on what has room in a place one below the other, each no lower than is worth having.
func choose(waiting []fitted, in place) (chosen, left []fitted) {
	for _, g := range waiting {
		room := in
		wide := shapes[g.Kind].room(g.Gauge, room).Width > in.Width+nearly
		if g.Upright || g.Lying || wide || g.least() > in.Height+nearly {
			left = append(left, g)
			continue
		}
		chosen = append(chosen, g)
		in.Height -= g.least() + gaugeGap
	}
	return chosen, left
}

// stack draws gauges one below the other, what height is left over shared among those that can use it, and gives where
// the last ends.
func (s *sheet) stack(chosen []fitted, in place) float64 {
	spare, y := in.Height, in.Y
	for _, g := range chosen {
		spare -= g.least() + gaugeGap
	}
	for i, g := range chosen {
		share := g.least() + max(0, spare+gaugeGap)/float64(len(chosen)-i)
		at := shapes[g.Kind].room(g.Gauge, sized(in.Width, share))
		at.X, at.Y = in.X+(in.Width-at.Width)/2, y
		g.draw(s.doc, at)
		spare -= at.Height - g.least()
		y += at.Height + gaugeGap
	}
	return min(y, s.foot()-checkHeight(in.Width))
}

// gaugeHeading says above gauges how to print them.
func (s *sheet) gaugeHeading(free place) {
	line := s.font(bold, 10)
	text := short(s.wrap(s.say("gauge-page"), free.Width), 1)
	s.doc.PrintOneSide()
	s.doc.Bookmark(3, s.say("gauges"), free.Y)
	s.doc.In(pdf.P, func() { s.lines(free.X, free.Y, text, line) })
}

// lyingPage puts a gauge that fits no other way on a page on its side.
func (s *sheet) lyingPage(g fitted) {
	if s.lying == nil {
		s.lying = map[int]bool{}
	}
	s.doc.SetPage(s.doc.PageCount())
	s.lying[s.doc.PageCount()+1] = true
	s.doc.AddPage(s.paper.Height, s.paper.Width)
	free := place{Margin, Margin, s.paper.Height - 2*Margin, s.paper.Width - 2*Margin}
	s.gaugeHeading(free)
	g.draw(s.doc, place{free.X + (free.Width-g.Width)/2, free.Y + gaugeHead, g.Width, g.Height})
	checkBar(s.doc, free.X, free.Y+gaugeHead+g.Height, free.Width, s.about.Words)
	s.y = s.foot()
}
