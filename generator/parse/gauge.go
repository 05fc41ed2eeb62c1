package parse

// Gauge blocks: measuring aids to be printed at true scale.

import (
	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// gaugeKeywords are the lines of a gauge block, which all have the same grammar.
var gaugeKeywords = func() []keyword[lesson.Gauge] {
	var all []keyword[lesson.Gauge]
	for _, kind := range lesson.GaugeKinds {
		all = append(all, keyword[lesson.Gauge]{word: string(kind), read: (*reader).size})
	}
	return all
}()

// gauges reads a gauge block, and leaves out lines whose meaning nobody can tell.
// block = { line }, line = kind size ["text"].
func gauges(doc *document, lines []sourceLine) []*lesson.Gauge {
	var all []*lesson.Gauge
	for _, lexemes := range statementsOf(lines) {
		r := reader{file: doc.file, problems: doc.problems, words: doc.words}
		if g := r.gauge(lexemes); g != nil {
			all = append(all, g)
		}
	}
	return all
}

// gauge reads one line; nil if its keyword is none. A broken gauge is kept, and skipped by
// whoever sizes or draws gauges.
func (r *reader) gauge(lexemes []lexeme) *lesson.Gauge {
	h := r.head(lexemes)
	g := &lesson.Gauge{Kind: lesson.GaugeKind(h.word), At: h.at, Text: r.prompt, TextAt: r.promptAt}
	k := keywordNamed(gaugeKeywords, h.word)
	if k == nil {
		r.unknownKeyword("unknown-gauge", "gauge", h, wordsOf(gaugeKeywords))
		return nil
	}
	err := k.read(r, g)
	if err == nil {
		err = r.p.End()
	}
	if err != nil {
		r.problems.FromQuantity(r.file, err)
	}
	g.Broken = err != nil || !h.quoted
	return g
}

// size = expr ["in" unit] ["to" step]
func (r *reader) size(g *lesson.Gauge) (err *quantity.Error) {
	if g.Expr, err = r.p.Expr(); err == nil {
		g.Target, err = r.p.Target()
	}
	return err
}
