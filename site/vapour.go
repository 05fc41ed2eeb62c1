package site

// What mentors read beside an estimate of vapour in a room. The bound and the comparison with the limit are made
// by work; here is only which sentences say so.

import (
	"math"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// vapour is what a mentor reads beside an estimate of vapour in a room.
type vapour struct {
	Notes   []string // what the number is, and what it is compared with
	Warning string   // "" below a tenth of the limit, and without a limit
	Verdict string   // instead of a warning; it reassures nobody
	Last    string   // what the calculation does not replace
}

// vapour says what an estimate means, nil of a find that is none. It is a warning unless
// the bound is below a tenth of the limit.
func (b *body) vapour(s *lesson.Statement) *vapour {
	if !s.IsVapour() {
		return nil
	}
	v, ok := b.lesson.Vapour(s)
	if !ok {
		return nil
	}
	out := &vapour{Notes: []string{b.words.Say("vapour-bound")}, Last: b.words.Say("vapour-replaces")}
	switch {
	case math.IsInf(v.PPM, 1):
		out.Notes = append(out.Notes, b.words.Say("vapour-unknown"))
	case v.Doubted:
		out.Notes = append(out.Notes, b.words.Say("vapour-doubt", b.words.Number(quantity.FormatPlain(v.PPM))))
	}
	if b.limited == nil {
		out.Verdict = b.words.Say("vapour-no-limit")
		return out
	}
	limit := b.limited.Lowest()
	out.Notes = append(out.Notes, b.limits()...)
	tenth := b.words.Number(quantity.FormatPlain(limit.PPM / 10))
	switch {
	case v.BelowTenth(limit.PPM):
		out.Verdict = b.words.Say("vapour-below", tenth)
	case v.PPM < limit.PPM:
		out.Warning = b.words.Say("vapour-above", tenth)
	default:
		out.Warning = b.words.Say("vapour-above", tenth) + " " + b.words.Say("vapour-over", b.words.Number(limit.Text))
	}
	for _, c := range b.unlimited {
		out.Notes = append(out.Notes, b.words.Say("vapour-unlimited", c.Title))
	}
	return out
}

// limits says which limits the card gives, for whom each is, and which of them counts: the lowest, since a lesson
// has children in it, and nobody knows who is sensitive.
func (b *body) limits() []string {
	c := b.limited
	var all []string
	if c.Limit != nil {
		all = append(all, b.words.Say("vapour-limit", b.words.Number(c.Limit.Text), c.Title, c.Limit.Source))
	}
	if c.Everybody == nil {
		return append(all, b.words.Say("vapour-workers-only"))
	}
	all = append(all, b.words.Say("vapour-limit-everybody", b.words.Number(c.Everybody.Text), c.Title, c.Everybody.Source))
	if c.Lowest() == c.Everybody {
		return append(all, b.words.Say("vapour-counts-everybody", b.words.Number(c.Everybody.Text)))
	}
	return append(all, b.words.Say("vapour-counts-workers", b.words.Number(c.Limit.Text)))
}
