package parse

import (
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// gauges reads a gauge block. block = { line }, line = kind expr ["in" unit] ["text"].
func gauges(f *source.File, lines []line, problems *problem.List) []*lesson.Gauge {
	var all []*lesson.Gauge
	for _, group := range groups(lines) {
		r := reader{file: f, problems: problems}
		if g := r.gauge(group); g != nil {
			all = append(all, g)
		}
	}
	return all
}

func (r *reader) gauge(group []line) *lesson.Gauge {
	h := r.head(group)
	g := &lesson.Gauge{Kind: h.word, At: h.at, Text: r.prompt}
	if !slices.Contains(lesson.GaugeKinds, h.word) {
		hint := "a line starts with " + strings.Join(lesson.GaugeKinds, ", ")
		if near := quantity.Nearest(h.word, lesson.GaugeKinds); len(near) == 1 {
			hint = "did you mean " + near[0] + "?"
		}
		what := "“" + h.word + "” is no gauge"
		if h.word == "" {
			what = "a line of a gauge block starts with the gauge"
		}
		r.problems.Error(r.file, source.Span{Start: h.at.Start, End: h.at.Start + max(1, len(h.word))}, "unknown-gauge", what, hint)
		return nil
	}
	var err *quantity.Error
	if g.Expr, err = r.p.Expr(); err == nil {
		if g.Target, err = r.p.Target(); err == nil {
			err = r.p.End()
		}
	}
	if err != nil {
		r.problems.FromQuantity(r.file, err)
	}
	g.Broken = err != nil || !h.quoted
	return g
}
