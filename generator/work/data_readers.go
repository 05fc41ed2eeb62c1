package work

// The readers block: several people measure the same things several times each.

import (
	"cmp"
	"math"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
)

// Study is what the readings of several people come to, in the unit of Line.
type Study struct {
	runs.Study
	Line  *lesson.DataLine
	Title string
	Unit  quantity.Unit

	ThingAnswer, PersonAnswer, ReadingAnswer *Answer // finds that ask for the standard deviations
}

// readersBlock puts the readings into a box for each thing and reader.
func (w *worker) readersBlock(d *Data, t *dataTable) {
	l := d.Line("reading")
	values, u, ok := w.numbers(t, l)
	who := w.column(t.Table, d.Line("reader"))
	if !ok || who == nil {
		return
	}
	if thing := d.Line("thing"); thing.Column == d.Line("reader").Column {
		w.problems.Error(w.out.File, d.Line("reader").ColumnAt, "readers-uneven",
			"the column "+who.Name+" cannot say both what was read and who read it", "name the column of names")
		return
	}
	people, found := t.Groups(who)
	if w.problems.Join(found); found.HasErrors() {
		return
	}
	if len(people) > MaxGroups {
		w.problems.Error(w.out.File, d.Line("reader").ColumnAt, "too-many-groups",
			"the column "+who.Name+" names "+itoa(len(people))+" readers; "+itoa(MaxGroups)+" are the most",
			"is this the column that says who read?")
		return
	}
	reader := map[int]int{}
	for j, p := range people {
		for _, row := range p.Rows {
			reader[row] = j
		}
	}
	readings := make([][][]float64, len(t.groups))
	for i, g := range t.groups {
		readings[i] = make([][]float64, len(people))
		for _, row := range g.Rows {
			if j, known := reader[row]; known && !math.IsNaN(values[row]) {
				readings[i][j] = append(readings[i][j], values[row])
			}
		}
	}
	most := 0
	for i := range readings {
		for j := range people {
			most = max(most, len(readings[i][j]))
		}
	}
	for i, g := range t.groups {
		for j, p := range people {
			if n := len(readings[i][j]); n < max(most, 2) {
				w.problems.Error(w.out.File, l.At, "readers-uneven",
					p.Name+" has read "+g.Name+" "+times(n)+"; everybody must read each thing equally often, here "+
						times(max(most, 2)),
					"fill in what is missing, or take the thing or the reader out of the file")
				return
			}
		}
	}
	s, ok := runs.StudyOf(readings)
	if !ok {
		w.problems.Error(w.out.File, l.At, "readers-uneven", "it takes at least two things and two readers",
			"let somebody else read the same things")
		return
	}
	d.Study = &Study{Study: s, Line: l, Title: cmp.Or(l.Text, l.Column), Unit: u}
	w.showStudy(d, readings)
}

// times is how often, in words.
func times(n int) string {
	switch n {
	case 0:
		return "never"
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return itoa(n) + " times"
}

// showStudy notes how the standard deviations are made.
func (w *worker) showStudy(d *Data, readings [][][]float64) {
	s := d.Study
	show := func(what string, slot **Answer, of func(runs.Study) float64) {
		w.show(d, s.Line, "standard deviation of "+what, s.Unit, func(n nudge) float64 {
			moved := make([][][]float64, len(readings))
			for i := range readings {
				for _, cell := range readings[i] {
					moved[i] = append(moved[i], n.all(cell, s.Unit))
				}
			}
			again, _ := runs.StudyOf(moved)
			return of(again)
		}, func(a *Answer) { *slot = a })
	}
	show("the things", &s.ThingAnswer, func(s runs.Study) float64 { return s.Thing })
	show("who reads", &s.PersonAnswer, func(s runs.Study) float64 { return s.Person })
	show("the reading", &s.ReadingAnswer, func(s runs.Study) float64 { return s.Reading })
}
