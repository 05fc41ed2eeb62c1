package work

// Sizes of the measuring aids that are printed. What each looks like, and whether it fits, is known to worksheets.

import (
	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Gauge is a measuring aid with its size.
type Gauge struct {
	*lesson.Gauge
	Size     quantity.Quantity // in millimetres
	SizeText string            // as the lesson gives it, such as 48 in
	Inches   bool              // asked for in inches, feet or yards
	Mentors  bool              // for mentors only
}

// gauge works out how large a gauge is to be. It is printed before anybody has measured.
func (w *worker) gauge(g *lesson.Gauge, mentors bool) {
	if g.Broken {
		return
	}
	if w.restsOnStudents(g.Expr) {
		w.problems.Error(w.out.File, source.Span(g.Expr.Span()), "gauge-of-students",
			"this "+string(g.Kind)+" depends on what students measure, and is printed before they do",
			"give it a size of its own, or one from a given or the kit")
		return
	}
	v := w.eval(g.Expr, g.Target)
	q, ok := v.(quantity.Quantity)
	if !ok {
		if _, record := v.(quantity.Record); record {
			w.problems.Error(w.out.File, source.Span(g.Expr.Span()), "record-as-number", "a record is not a size", "write a length")
		}
		return
	}
	mm, _ := quantity.LookupUnit("mm")
	size, ok := q.In(mm)
	if !ok {
		w.problems.Error(w.out.File, source.Span(g.Expr.Span()), "gauge-size",
			"the size of a "+string(g.Kind)+" must be a length; this is "+q.Unit.Dimension().String(),
			"write it with a unit, such as 25 cm")
		return
	}
	out := &Gauge{Gauge: g, Size: size, SizeText: written(g.Expr), Mentors: mentors}
	if out.SizeText == "" || g.Target.HasUnit {
		out.SizeText = quantity.ShowText(q, g.Target)
	}
	// A name alone is written as where it is defined: 48 in stays 48 in.
	if n, ok := g.Expr.(*quantity.Name); ok && !g.Target.HasUnit {
		if bound := w.bound[n.Text]; bound != nil && w.out.results[bound].Written != "" {
			out.SizeText = w.out.results[bound].Written
		}
	}
	switch q.Unit.String() {
	case "in", "ft", "yd":
		out.Inches = true
	}
	if w.out.gauges == nil {
		w.out.gauges = map[*lesson.Gauge]*Gauge{}
	}
	w.out.gauges[g] = out
	w.out.Gauges = append(w.out.Gauges, out)
}

// OfGauge gives a gauge's size, nil if it has a problem.
func (l *Lesson) OfGauge(g *lesson.Gauge) *Gauge { return l.gauges[g] }
