package worksheets

// A care card in short, in a frame. Which of its statements there are is decided by the caller.

import "strings"

// card puts a care card's short form into a frame: who may do it, the signal word, what
// it can do, what to wear, and who decides.
func (s *sheet) card(c Card) {
	type text struct {
		style string
		size  float64
		lines []string
	}
	const pad = 3
	var all []text
	height := 2.0 * pad
	// All is measured before anything is drawn, since the frame comes first.
	add := func(style string, size float64, words string) {
		line := s.font(style, size)
		t := text{style, size, wrap(s.pdf, words, s.width()-2*pad)}
		height += line * float64(len(t.lines))
		all = append(all, t)
	}
	add(bold, 10.5, s.say("care")+": "+c.Title)
	who := s.say("for-students")
	if c.Adults {
		who = s.say("for-adults")
	}
	add(bold, 10, who+".")
	if c.SignalWord != "" {
		add(bold, 10, strings.ToUpper(s.say("signal-"+strings.ToLower(c.SignalWord))))
	}
	for _, st := range c.Statements {
		add(regular, 9.5, st)
	}
	if len(c.Precautions) > 0 {
		add(bold, 9.5, s.say("precautions"))
	}
	for _, st := range c.Precautions {
		add(regular, 9.5, st)
	}
	if c.Gaps {
		add(regular, 9.5, s.say("precautions-gaps"))
	}
	if len(c.Wear) > 0 {
		add(regular, 9.5, s.say("wear")+": "+strings.Join(c.Wear, "; "))
	}
	add(regular, 9.5, s.say("authority"))
	s.gap(4)
	// A card that is longer than a page goes without its frame rather than without its end.
	if height > s.foot()-Margin {
		for _, t := range all {
			s.paragraph(t.style, t.size, 0, strings.Join(t.lines, " "))
		}
		return
	}
	s.put(height, func(y float64) {
		s.pdf.SetLineWidth(0.5)
		s.pdf.Rect(s.left(), y, s.width(), height, "D")
		y += pad
		for _, t := range all {
			line := s.font(t.style, t.size)
			s.lines(s.left()+pad, y, t.lines, line)
			y += line * float64(len(t.lines))
		}
	})
}
