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
		out.Notes = append(out.Notes, b.words.Say("vapour-doubt", quantity.FormatPlain(v.PPM)))
	}
	if b.limited == nil {
		out.Verdict = b.words.Say("vapour-no-limit")
		return out
	}
	limit := b.limited.Limit
	out.Notes = append(out.Notes, b.words.Say("vapour-limit", limit.Text, b.limited.Title, limit.Source))
	tenth := quantity.FormatPlain(limit.PPM / 10)
	if v.BelowTenth(limit.PPM) {
		out.Verdict = b.words.Say("vapour-below", tenth)
	} else {
		out.Warning = b.words.Say("vapour-above", tenth)
	}
	for _, c := range b.unlimited {
		out.Notes = append(out.Notes, b.words.Say("vapour-unlimited", c.Title))
	}
	return out
}
