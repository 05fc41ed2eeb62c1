package worksheets

// The plan of a run sheet: when each part begins, what it is, and a box for when it really began.

import (
	"trundle/generator/lesson"
	"trundle/worksheets/pdf"
)

// planBox is how wide the box is, and planGap what lies between the columns, in millimetres.
const planBox, planGap = 12.5, 2.0

// mostOfPlan is what the plan takes at most of the width beside other sections.
const mostOfPlan = 0.42

// mostOfLabel is how many lines a part has at most.
const mostOfLabel = 2

// times is how wide the column of times is.
func (r *runSheet) times() float64 {
	most := 0.0
	for _, p := range r.parts {
		most = max(most, r.widthOf(bold, r.size, r.until(p.From, p.To)))
	}
	return most
}

// planNeeds is how wide the plan has to be, up to a limit, so that no word of a part is parted and no part takes more
// than two lines.
func (r *runSheet) planNeeds(most float64) float64 {
	const step = 1.0
	other := r.times() + planBox + 2*planGap
	word := r.widthOf(regular, r.size, printable(r.say("part")))
	labels := make([]*partedText, len(r.parts))
	for i, p := range r.parts {
		label, _ := r.labelled(p)
		labels[i] = r.partedOf(label)
		r.doc.SetFont(regular, r.size)
		for _, ems := range labels[i].widths(r.doc) {
			word = max(word, r.doc.Across(ems)+0.1) // what is as wide as its line fits it
		}
	}
	for _, label := range labels {
		for word+other < most && len(label.hang(r.doc, word, word)) > mostOfLabel {
			word += step
		}
	}
	return min(word+other, most)
}

// withPlan gives the widths of sections of which the last is the plan, in parts of all: it gets what it needs, and the
// others share what is left.
func (r *runSheet) withPlan(parts []float64, room float64) []float64 {
	last := len(parts) - 1
	plan := r.planNeeds(mostOfPlan*room) / room
	if len(r.parts) == 0 || last == 0 || parts[last] >= plan {
		return parts
	}
	out := make([]float64, len(parts))
	for i, part := range parts {
		out[i] = part * (1 - plan) / (1 - parts[last])
	}
	out[last] = plan
	return out
}

// clock is the plan, with boxes for when each part really began.
func (r *runSheet) clock(c *column) {
	const high, box, gap = 6.2, planBox, planGap
	c.heading(r.say("plan"))
	at := []float64{c.x, c.x + r.times() + gap, c.x + c.width - box}
	c.in(pdf.Table, func() {
		c.heads(at, []string{r.say("start-at"), r.say("part"), r.say("run-began")})
		for _, p := range r.parts {
			line, width := c.leadingOf(r.size), at[2]-at[1]-gap
			label, minutes := r.labelled(p)
			title := r.wrap(regular, r.size, label+" ("+minutes+")", width)
			if len(title) > 1 { // the times say the same
				title = c.cut(r.wrap(regular, r.size, label, width), mostOfLabel, width)
			}
			height := max(high, line*float64(len(title))+1)
			c.put(height, func(y float64) {
				r.doc.In(pdf.TR, func() {
					middle := y + (height-line)/2
					r.doc.In(pdf.TH, func() { c.written(bold, r.size, at[0], middle, r.until(p.From, p.To)) }, pdf.Scope(pdf.Row))
					r.doc.In(pdf.TD, func() {
						c.font(regular, r.size)
						r.lines(at[1], y+(height-line*float64(len(title)))/2, title, line)
					})
					r.doc.In(pdf.TD, func() {
						r.doc.In(pdf.Form, func() {
							r.doc.LineWidth(0.3)
							r.doc.Rect(at[2], y+0.4, box, height-0.8, pdf.Stroke)
						}, pdf.Alt(r.led("run-began")+p.Label))
					})
				})
			})
		}
	})
}

// labelled is what a part is called and how long it is, and whether it, or some of it, is for when there is time.
func (r *runSheet) labelled(p lesson.TimedPart) (label, minutes string) {
	label, minutes = p.Label, r.say("min", p.Minutes)
	switch {
	case p.IfTime:
		label += ", " + r.say("if-time")
	case p.Spare > 0:
		minutes += ", " + r.say("if-time-some", p.Spare)
	}
	return label, minutes
}
