package figure

// The readers block: how much of the scatter is the things, who reads, and the reading.

import (
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/work"
)

// readers shows a study of readers.
func (w *writer) readers(f *Figure, d *work.Data) {
	s := d.Study
	f.Title, f.Source = w.Say("readers-title"), d.File.Value
	a := w.axis(s.Unit)
	if s.Reading > 0 {
		a.places = twoDigits(s.Reading)
	} else if most := max(s.Thing, s.Person); most > 0 {
		a.places = twoDigits(most)
	}
	t := Numbers{
		Caption: titled(s.Title, w.Unit(a.in.Symbol())),
		Heads:   []string{w.Say("readers-part"), w.Say("readers-sd"), w.Say("readers-share")},
		Says:    []string{w.Say("readers-head", s.Readers, s.Things, s.Times)},
	}
	thing, person, reading := w.asks(s.ThingAnswer), w.asks(s.PersonAnswer), w.asks(s.ReadingAnswer)
	together := s.Thing*s.Thing + s.Person*s.Person + s.Reading*s.Reading
	for _, part := range []struct {
		name  string
		sd    float64
		asked *work.Answer
	}{{"thing", s.Thing, thing}, {"person", s.Person, person}, {"reading", s.Reading, reading}} {
		share := missingNumber // of a number that is asked for, it would give away what is missing
		if together > 0 && thing == nil && person == nil && reading == nil {
			share = w.percentOf(part.sd * part.sd / together)
		}
		t.Rows = append(t.Rows, []string{w.Say("readers-" + part.name), a.numberOf(part.sd, part.asked), share})
	}
	if s.P < runs.Level {
		t.Says = append(t.Says, w.Say("readers-differ", w.oneIn(s.P)))
	} else {
		t.Says = append(t.Says, w.Say("readers-alike"))
	}
	switch {
	case s.Reading == 0:
		t.Says = append(t.Says, w.Say("readers-coarse"))
	case reading == nil && person == nil:
		t.Says = append(t.Says, w.Say("readers-same", a.size(s.SameLimit)), w.Say("readers-other", a.size(s.OtherLimit)))
	}
	f.Tables, f.Note = append(f.Tables, t), w.Say("readers-note")
}

// percentOf writes a share to whole percent.
func (w *writer) percentOf(x float64) string {
	return w.Number(quantity.FormatPlaces(100*x, 0)) + " %"
}
