package worksheets

// From the gauges of a lesson to pages of them.

import (
	"strings"

	"trundle/generator/work"
)

// Of makes a gauge that a lesson asks for ready to be printed.
func Of(g *work.Gauge, words func(name string, args ...any) string) Gauge {
	out := Gauge{
		Kind: GaugeKind(g.Kind), Size: g.Size.Number, SizeText: g.SizeText, Inches: g.Inches,
		Text: g.Text, Words: words,
	}
	if out.Kind == Squares { // what stands along the foot / along the side
		foot, side, _ := strings.Cut(g.Text, " / ")
		out.Text, out.Up = strings.TrimSpace(foot), strings.TrimSpace(side)
	}
	return out
}

// checkRoom is what the check bar takes at the foot of a page with gauges.
const checkRoom = 18

// gauges puts the lesson's gauges on pages of their own, several on one where they have
// room, each page with a bar to check that it was printed at true scale.
func (s *sheet) gauges() {
	var current gaugePage
	for _, wanted := range s.lesson.Gauges {
		if wanted.Mentors && !s.mentors {
			continue
		}
		g := Of(wanted, s.about.Words)
		fit, err := g.Room(s.paper)
		if err != nil {
			continue // reported when the pack was checked
		}
		if !current.fits(fit) {
			current = s.gaugePage(fit.Lying)
		}
		g.draw(s.doc, (current.width-fit.Width)/2, current.y)
		current.y += fit.Height + 6
	}
}

// A gaugePage is the page that gauges are being put on.
type gaugePage struct {
	open    bool
	lying   bool
	width   float64
	y, foot float64
}

// fits tells whether a gauge has room on the page. One that could stand upright may lie.
func (p gaugePage) fits(g Fit) bool {
	return p.open && (p.lying || !g.Lying) && g.Width <= p.width-2*Margin && p.y+g.Height <= p.foot+0.01
}

// gaugePage opens a page for gauges, with its heading and check bar.
func (s *sheet) gaugePage(lying bool) gaugePage {
	width, height := s.paper.Width, s.paper.Height
	if lying {
		width, height = height, width
		if s.lying == nil {
			s.lying = map[int]bool{}
		}
		s.lying[s.doc.PageCount()+1] = true
	}
	s.doc.AddPage(width, height)
	line := s.font(bold, 10)
	s.lines(Margin, Margin, []string{printable(s.say("gauge-page"))}, line)
	foot := height - Margin - footerHeight
	checkBar(s.doc, Margin, foot-checkRoom, s.about.Words)
	return gaugePage{true, lying, width, Margin + 8, foot - checkRoom}
}
