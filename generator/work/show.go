package work

// The show block: what each of its figures is drawn of, as a program for the page and with the lesson's numbers, and
// which finds must be right before it may have numbers.

import (
	"math"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/source"
)

// Figure is one line of a show block.
type Figure struct {
	*lesson.DataLine
	Kind   lesson.FigureKind
	Unit   quantity.Unit // of its numbers
	Inches bool          // its tape has inches and sixteenths, else centimetres and millimetres
	Values []FigureValue // in the order of the line
	Heaps  []runs.Series // of shuffle, the two that are dealt anew
	Gap    float64       // of shuffle, how far apart their means are
	opens  []string      // finds that ask for what it shows
}

// FigureValue is what a figure is drawn of. Numbers and Text are not for students if they have to come of their own
// work: the page then has the program.
type FigureValue struct {
	Numbers    []float64     // in the figure's unit; several of a record
	Text       string        // as the lesson writes it
	Unit       quantity.Unit // that people read it in
	Program    quantity.Program
	Record     string   // the name, of a record
	Names      []string // of the boxes that it comes of, or of finds
	OfStudents bool
	Varies     bool // with the kit or the team
}

// OfStudents tells whether a figure rests on what students do.
func (f *Figure) OfStudents() bool {
	return slices.ContainsFunc(f.Values, func(v FigureValue) bool { return v.OfStudents })
}

// noteFigures notes the kit's facts that a show block uses, as the page must know them.
func (w *worker) noteFigures(b *lesson.DataBlock) {
	for _, l := range b.Entries {
		for _, e := range []quantity.Expr{l.Expr, l.Second} {
			if e == nil {
				continue
			}
			for _, name := range quantity.Names(e) {
				w.usesKit[name] = true
			}
		}
	}
}

// showBlock works the figures out, each whatever becomes of the others, for the sake of their problems.
func (w *worker) showBlock(d *Data, t *dataTable) {
	for _, l := range d.Entries {
		f := &Figure{DataLine: l, Kind: lesson.FigureKind(l.Keyword)}
		ok := true
		switch f.Kind {
		case lesson.UnrollFigure:
			ok = w.lengths(d, f, false)
		case lesson.LapsFigure:
			ok = w.lengths(d, f, false)
		case lesson.TapeFigure, lesson.PathFigure:
			ok = w.lengths(d, f, true)
		case lesson.ReadFigure:
			ok = w.lengths(d, f, false) && w.readable(f)
		case lesson.PartFigure:
			ok = w.partOf(d, f)
		case lesson.ShuffleFigure:
			ok = w.heaps(d, t, f)
		}
		if ok {
			w.showFigure(d, f)
			d.Figures = append(d.Figures, f)
		}
	}
}

// A figure's value by what it must be.
type wanted struct {
	unit     quantity.Unit // that of the figure
	record   bool          // it may be a record
	positive bool
}

// inInches tells whether a length is one of people who measure in inches.
func inInches(u quantity.Unit) bool {
	return slices.Contains([]string{"in", "ft", "yd"}, u.String())
}

// lengths works out a figure of lengths, in the unit of a tape: that of what is measured, in centimetres or inches. A
// distance that is only compared with is brought to it. several lets the first be a record.
func (w *worker) lengths(d *Data, f *Figure, several bool) bool {
	main := f.Expr
	if f.Kind == lesson.LapsFigure {
		main = f.Second // its laps are numbered, and the distance is cut into them
	}
	unit, ok := w.unitOf(main)
	if f.Target.HasUnit {
		unit, ok = f.Target.Unit, true
	}
	f.Inches = ok && inInches(unit)
	f.Unit = tapeUnit(f.Inches)
	first := w.figureValue(d, f, f.Expr, wanted{f.Unit, several, !several || f.Kind == lesson.TapeFigure})
	if f.Second == nil {
		return first
	}
	return w.figureValue(d, f, f.Second, wanted{f.Unit, false, true}) && first
}

func tapeUnit(inches bool) quantity.Unit {
	name := "cm"
	if inches {
		name = "in"
	}
	u, _ := quantity.LookupUnit(name)
	return u
}

// unitOf is the unit that an expression comes out in. Its problems are reported where its value is asked for.
func (w *worker) unitOf(e quantity.Expr) (quantity.Unit, bool) {
	v, _ := quantity.Eval(e, w.out.Env)
	switch v := v.(type) {
	case quantity.Quantity:
		return v.Unit, true
	case quantity.Record:
		return v.Unit, true
	}
	return quantity.Unit{}, false
}

// partOf works out a bar: a part, of either sign, and the whole, in the unit of the part.
func (w *worker) partOf(d *Data, f *Figure) bool {
	f.Unit, _ = w.unitOf(f.Expr)
	first := w.figureValue(d, f, f.Expr, wanted{f.Unit, false, false})
	return w.figureValue(d, f, f.Second, wanted{f.Unit, false, true}) && first
}

// mostDrawn bounds what a figure is drawn of, in its unit, and how small a length may be: one over it. Ten thousand
// kilometres are more than any tape has, and what a figure works out of two such numbers can still be written.
const mostDrawn = 1e9

func isDrawable(x float64) bool { return math.Abs(x) < mostDrawn }

// figureValue adds what one expression of a figure's line comes to. It is false if that cannot be drawn.
func (w *worker) figureValue(d *Data, f *Figure, e quantity.Expr, want wanted) bool {
	refuse := func(what, hint string) bool {
		w.problems.Error(w.out.File, source.Span(e.Span()), "figure-value", what, hint)
		return false
	}
	if name := w.mentorsName(e); name != "" && !d.Mentors {
		w.problems.Error(w.out.File, source.Span(e.Span()), "mentors-name",
			"this depends on "+name+", which students do not see",
			"define "+name+" in a part that students see, or move the figure to the mentors' part")
		return false
	}
	v := FigureValue{OfStudents: w.dependsOnStudents(e), Varies: w.dependsOnVarying(e), Names: w.boxesOf(e)}
	switch q := w.eval(e, quantity.Target{}).(type) {
	case quantity.Quantity:
		in, ok := q.In(want.unit)
		if !ok {
			return refuse("this is "+q.Unit.Dimension().String()+", and "+f.Keyword+" draws "+want.unit.Dimension().String(),
				"write a value of that kind, such as  "+exampleOf(f.Kind))
		}
		if want.positive && !(in.Number > 0) {
			return refuse("what "+f.Keyword+" draws here must be more than zero", "write a length, such as  "+exampleOf(f.Kind))
		}
		if !isDrawable(in.Number) || want.positive && in.Number < 1/mostDrawn {
			return refuse("this is too large or too small to draw", "write a length, such as  "+exampleOf(f.Kind))
		}
		v.Numbers, v.Unit, v.Text = []float64{in.Number}, q.Unit, w.textOf(e, q.Unit)
	case quantity.Record:
		name, named := e.(*quantity.Name)
		if !want.record || !named {
			return refuse("a record is a list of readings, and "+f.Keyword+" draws one value here",
				"take one value of it, such as its mean")
		}
		v.Record, v.Unit = name.Text, q.Unit
		for _, x := range q.Numbers {
			in, ok := quantity.New(x, q.Unit).In(want.unit)
			if !ok {
				return refuse("these readings are "+q.Unit.Dimension().String()+", and "+f.Keyword+" draws lengths",
					"name a record of lengths, as in  "+exampleOf(f.Kind))
			}
			if !isDrawable(in.Number) {
				return refuse("a reading of this is too large to draw", "name a record of lengths, as in  "+exampleOf(f.Kind))
			}
			v.Numbers = append(v.Numbers, in.Number)
		}
	default:
		return false // reported
	}
	v.Program = w.program(e, quantity.Target{Unit: want.unit, HasUnit: true})
	f.Values = append(f.Values, v)
	return true
}

// exampleOf is a line that works.
func exampleOf(kind lesson.FigureKind) string {
	switch kind {
	case lesson.UnrollFigure:
		return "unroll 65 mm"
	case lesson.LapsFigure:
		return "laps 120 cm by 20.4 cm"
	case lesson.TapeFigure:
		return "tape stop = 120 cm"
	case lesson.PathFigure:
		return "path drift over 100 cm times 10"
	case lesson.ReadFigure:
		return "read 120 cm to 0.1"
	case lesson.PartFigure:
		return "part 1.2 cm of 120 cm"
	case lesson.ShuffleFigure:
	}
	return "shuffle stop by base of Heron, Coot"
}

// readable refuses a step that no tape has.
func (w *worker) readable(f *Figure) bool {
	step := f.Target.Step.Float()
	steps, hint := []float64{0.1, 0.5, 1}, "a tape in cm is read to 0.1, 0.5 or 1"
	if f.Inches {
		steps, hint = []float64{1. / 16, 1. / 8, 1. / 4, 1. / 2, 1}, "a tape in inches is read to 1/16, 1/8, 1/4, 1/2 or 1"
	}
	if slices.Contains(steps, step) {
		return true
	}
	w.problems.Error(w.out.File, f.At, "figure-step",
		"no tape has a mark at each "+f.Target.Step.String()+" "+f.Unit.String(), hint)
	return false
}

// heaps finds the two groups of runs that shuffle deals anew.
func (w *worker) heaps(d *Data, t *dataTable, f *Figure) bool {
	if t == nil {
		return false
	}
	numbers, u, ok := w.numbers(t, f.DataLine)
	by := w.column(t.Table, f.Over)
	if !ok || by == nil {
		return false
	}
	groups, found := t.Groups(by)
	if w.problems.Join(found); found.HasErrors() {
		return false
	}
	f.Unit = u
	var names []string
	for _, g := range groups {
		names = append(names, g.Name)
	}
	pair := f.Groups
	if len(pair) == 0 && len(names) == 2 {
		pair = []lesson.Text{{Value: names[0]}, {Value: names[1]}}
	}
	if len(pair) == 0 {
		w.problems.Error(w.out.File, f.Over.ColumnAt, "figure-groups",
			"the runs of two groups are dealt anew, and "+by.Name+" has "+itoa(len(names)),
			"name the two, as in  of Heron, Coot")
		return false
	}
	for _, one := range pair {
		i := slices.Index(names, one.Value)
		if i < 0 {
			w.problems.Error(w.out.File, one.At, "figure-groups", "no run is of “"+one.Value+"”",
				"the groups are "+strings.Join(names, ", "))
			return false
		}
		s := runs.Series{Name: one.Value}
		for _, row := range groups[i].Rows {
			if !math.IsNaN(numbers[row]) {
				s.Numbers = append(s.Numbers, numbers[row])
			}
		}
		if len(s.Numbers) < 2 {
			w.problems.Error(w.out.File, f.At, "figure-groups", one.Value+" has fewer than two runs with a number",
				"write them in, or choose another group")
			return false
		}
		f.Heaps = append(f.Heaps, s)
	}
	all := slices.Concat(f.Heaps[0].Numbers, f.Heaps[1].Numbers)
	if least, most := slices.Min(all), slices.Max(all); least == most || !isDrawable(least) || !isDrawable(most) {
		w.problems.Error(w.out.File, f.At, "figure-groups",
			"the runs of "+f.Heaps[0].Name+" and "+f.Heaps[1].Name+" are all the same, or too large to draw",
			"choose groups whose runs differ")
		return false
	}
	f.Gap = apart(f.Heaps[0].Numbers, f.Heaps[1].Numbers)
	return true
}

// apart is how far apart the means of two groups are.
func apart(a, b []float64) float64 {
	mean := func(all []float64) (sum float64) {
		for _, x := range all {
			sum += x
		}
		return sum / float64(len(all))
	}
	return math.Abs(mean(a) - mean(b))
}

// showFigure notes what a figure shows, for the finds that ask for it.
func (w *worker) showFigure(d *Data, f *Figure) {
	value := func(e quantity.Expr, n nudge, u quantity.Unit) float64 {
		q, ok := view{w: w, nudge: n, env: quantity.Env{}}.eval(e, deepest)
		in, alike := q.In(u)
		if !ok || !alike {
			return math.NaN()
		}
		return in.Number
	}
	note := func(u quantity.Unit, made func(nudge) float64) {
		w.showUnseen(d, f.DataLine, u, made, func(a *Answer) { f.opens = append(f.opens, a.Finds...) })
	}
	for i, e := range []quantity.Expr{f.Expr, f.Second} {
		if e == nil || f.Values[i].OfStudents || f.Values[i].Program == "" {
			continue
		}
		if _, named := e.(*quantity.Name); !named && written(e) == "" { // worked out, and then shown
			note(f.Unit, func(n nudge) float64 { return value(e, n, f.Unit) })
		}
	}
	switch f.Kind {
	case lesson.UnrollFigure:
		note(f.Unit, func(n nudge) float64 { return math.Pi * value(f.Expr, n, f.Unit) })
	case lesson.LapsFigure, lesson.PartFigure:
		note(quantity.Unit{}, func(n nudge) float64 { return value(f.Expr, n, f.Unit) / value(f.Second, n, f.Unit) })
	case lesson.ShuffleFigure:
		note(f.Unit, func(n nudge) float64 {
			return apart(n.all(f.Heaps[0].Numbers, f.Unit), n.all(f.Heaps[1].Numbers, f.Unit))
		})
	case lesson.TapeFigure, lesson.PathFigure, lesson.ReadFigure:
		// They show readings and places; the page keeps mean and spread back until those are found.
	}
}

// untils sees to it that each figure waits for a find that students can answer, and that none shows what a find asks
// for before that is right. It runs at the end, when all finds are known.
func (w *worker) untils() {
	finds := map[string]bool{}
	for _, s := range w.studentsFinds() {
		finds[s.Name] = true
	}
	for _, d := range w.out.Data {
		for _, f := range d.Figures {
			w.until(d, f, finds)
		}
	}
}

func (w *worker) until(d *Data, f *Figure, finds map[string]bool) {
	if name := f.Until.Value; name != "" && !finds[name] && !d.Mentors {
		hint := "write the name of a find that students answer"
		if near := quantity.DidYouMean(name, sortedNames(finds)); near != "" {
			hint = near
		}
		w.problems.Error(w.out.File, f.Until.At, "figure-until", "“"+name+"” is not a find that students answer", hint)
		return
	}
	closed := map[string]bool{f.Until.Value: true} // finds that are right once the figure has its numbers
	for _, e := range []quantity.Expr{f.Expr, f.Second} {
		w.restsOn(e, closed)
	}
	for _, find := range f.opens {
		if !closed[find] {
			w.problems.Error(w.out.File, f.At, "figure-until", "this figure shows what "+find+" asks for",
				"let it wait: write  until "+find+"  before the text in quotes")
			return
		}
	}
}

func sortedNames(all map[string]bool) []string {
	var names []string
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
