package worksheets

// Gauges that stand at the left of the first page, beside its text, so that they need no page of their own.

const (
	widestStrip = 60  // millimetres of the first page at most
	lowGauge    = 110 // what is lower finds room below a text
)

// standsOnFirst tells whether the first page has the upright gauges: if nothing else needs a page with gauges, on which
// they could stand.
func (s *sheet) standsOnFirst(all []fitted) bool {
	wide := 0.0
	for _, g := range all {
		switch {
		case s.isEdge(g):
		case g.Upright:
			wide += g.Height + gaugeGap
		case g.least() > lowGauge:
			return false
		}
	}
	return wide > 0 && wide <= widestStrip
}

// leaveStrip leaves room for them on the first page.
func (s *sheet) leaveStrip() {
	all := s.wanted()
	if !s.standsOnFirst(all) {
		return
	}
	for _, g := range all {
		if g.Upright && !s.isEdge(g) {
			s.beside += g.Height + gaugeGap
		}
	}
	s.bars = gaugeHead + checkHeight(s.width())
	s.stands = true
}

// fillStrip draws them, once all that comes before them is drawn, and gives the others.
func (s *sheet) fillStrip(all []fitted) []fitted {
	y, strip, bars := s.y, s.beside, s.bars
	last := s.doc.PageCount()
	s.doc.SetPage(1)
	upright, others := parted(all, func(g fitted) bool { return g.Upright })
	s.beside, s.bars = 0, 0
	x, foot := s.left(), s.foot()
	s.leaveStrip()
	top := foot - s.bars
	s.gaugeHeading(place{X: s.left(), Y: top + 2, Width: s.width()})
	for _, g := range upright {
		g.stand(s.doc, x, Margin, sized(g.Width, g.Height))
		x += g.Height + gaugeGap
	}
	checkBar(s.doc, s.left(), top+gaugeHead, s.width(), s.about.Words)
	s.doc.SetPage(last)
	s.y, s.beside, s.bars = y, strip, bars
	return others
}
