package work

// What runs, chart, compare, readers and show blocks share: the file of runs with its groups, the columns as numbers
// in one unit, and the amounts of a block's lines. What is particular to one kind of block is in data_*.go and show.go.

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/source"
	"trundle/generator/table"
)

// Data is what a runs, chart, compare, readers or show block comes to.
type Data struct {
	*lesson.DataBlock
	Asked   []string // finds that students answer before they see it
	Mentors bool     // it stands in a part for mentors only
	Varies  bool     // it is worked out for the default kit

	GroupTitle   string
	Measured     []*Measured       // the columns of runs, dots and bars
	Cycles       []runs.Cycled     // of runs with a cycle line, and of steps
	CycleAnswers [][2]CycleAnswers // of each of them: as built, and with the wheels swapped
	Poses        []Pose            // of runs with both along and across, a group each
	Leg, Track   quantity.Quantity
	Chart        *Chart
	Comparison   *Comparison
	Study        *Study    // of readers
	Figures      []*Figure // of show
}

// Pose is a group's accuracy and repeatability after ISO 9283, in the unit of along; OK is
// false below two runs.
type Pose struct {
	runs.Pose
	OK bool

	AccuracyAnswer, RepeatabilityAnswer *Answer
}

// Measured is a measured column, in Unit.
type Measured struct {
	runs.Column
	Line       *lesson.DataLine
	Title      string
	Unit       quantity.Unit
	Step       quantity.Rounding
	TargetText string       // as the lesson writes it; "" without a target
	Angles     []float64    // of across: each group's mean drift angle, degrees; nil without a forward distance
	AngleEnds  [][2]float64 // of them: the 95 % interval of the mean sideways, as angles
	Lines      []int        // of each row of the table, its line in the file
	Answers    []GroupAnswers
	Matters    *Matter // what the coach says would matter; nil if nothing is said
}

// Matter is how many runs it takes to tell the smallest difference that matters from chance.
type Matter struct {
	Text         string // the difference, as the lesson writes it
	Why          string
	Fewest, Most int // for each group; 0 for more than a thousand
}

// MaxGroups are as many as one block tells apart.
const MaxGroups = 12

// MaxData bounds the work of one lesson; see also table's own limit.
const MaxData = 40

// OfData gives what a block comes to, nil if it has a problem.
func (l *Lesson) OfData(b *lesson.DataBlock) *Data { return l.data[b] }

// dataBlock works out a runs, chart, compare, readers or show block. One with an error comes to
// nothing, and is not shown.
func (w *worker) dataBlock(b *lesson.DataBlock) {
	if b.Broken {
		return
	}
	if !w.noGuesses(b) {
		return
	}
	if len(w.out.data) >= MaxData {
		w.problems.Error(w.out.File, b.At, "too-many-blocks",
			"a lesson has at most "+itoa(MaxData)+" runs, chart, compare, readers and show blocks", "split the lesson")
		return
	}
	// All lines are worked out before it is decided whether there was an error, so that all are reported together.
	before, keptBack := w.problems.Count(), w.keptBack
	d := &Data{DataBlock: b, Mentors: lesson.ForMentors(b)}
	// A find that only mentors see cannot be answered by students, and would keep the block shut for ever.
	for _, s := range lesson.AskedFirst(b) {
		if !w.mentors[s.Name] {
			d.Asked = append(d.Asked, s.Name)
		}
	}
	var t *dataTable
	if b.File.Value != "" {
		if t = w.table(b); t == nil {
			return
		}
		d.GroupTitle = cmp.Or(textOf(b.Line("group")), columnOf(b.Line("group")))
	}
	switch b.Name {
	case lesson.RunsBlock:
		w.runsBlock(d, t)
	case lesson.CompareBlock:
		w.compareBlock(d, t)
	case lesson.ChartBlock:
		w.chartBlock(d, t)
	case lesson.ReadersBlock:
		w.readersBlock(d, t)
	case lesson.ShowBlock:
		w.showBlock(d, t)
	}
	if w.problems.ErrorsSince(before) || w.keptBack > keptBack {
		return
	}
	if w.out.data == nil {
		w.out.data = map[*lesson.DataBlock]*Data{}
	}
	w.out.data[b] = d
	w.out.Data = append(w.out.Data, d)
}

// textOf is a line's text in quotes, "" without a line.
func textOf(l *lesson.DataLine) string {
	if l == nil {
		return ""
	}
	return l.Text
}

// columnOf is the column that a line names, "" without a line.
func columnOf(l *lesson.DataLine) string {
	if l == nil {
		return ""
	}
	return l.Column
}

// dataTable is a block's file with its groups; none if the block names no column that parts the runs.
type dataTable struct {
	*table.Table
	groups []table.Group
}

// table finds a block's file and groups; nil if there is a problem.
func (w *worker) table(b *lesson.DataBlock) *dataTable {
	t, ok := w.data[b.File.Value]
	if !ok {
		names := make([]string, 0, len(w.data))
		for name := range w.data {
			names = append(names, name)
		}
		slices.Sort(names)
		hint := "put it into the pack's folder data"
		if len(names) > 0 {
			hint = "the pack has " + strings.Join(names[:min(len(names), 8)], ", ")
		}
		meant := quantity.DidYouMean(b.File.Value, names)
		if i := strings.LastIndexByte(b.File.Value, '.'); i > 0 && slices.Contains(names, b.File.Value[:i]+".csv") {
			meant = "did you mean " + b.File.Value[:i] + ".csv?"
		} else if i > 0 && strings.EqualFold(b.File.Value[i:], ".xlsx") {
			meant = "save the sheet as CSV in the folder data, and write  " + b.File.Value[:i] + ".csv"
		}
		if _, there := w.data["data/"+b.File.Value]; there {
			meant = "did you mean data/" + b.File.Value + "?"
		}
		hint = cmp.Or(meant, hint)
		if meant == "" && !w.once("file "+b.File.Value) {
			return nil
		}
		w.problems.Error(w.out.File, b.File.At, "unknown-data", "there is no file "+b.File.Value+" in the pack", hint)
		return nil
	}
	if len(t.Columns) == 0 {
		return nil // reported where the file is
	}
	if t = w.called(t, b); t == nil {
		return nil
	}
	line := b.Line("group")
	if b.Name == lesson.ReadersBlock {
		line = b.Line("thing")
	}
	if line == nil {
		return &dataTable{Table: t}
	}
	c := w.column(t, line)
	if c == nil {
		return nil
	}
	groups, found := t.Groups(c)
	w.problems.Join(found)
	unlikely := t.Unlikely(c, groups)
	if b.Name == lesson.CompareBlock && b.Line("judged") != nil && unlikely.Count() > 0 {
		w.wrongGroups(unlikely) // else its scores would be said to be missing
		return nil
	}
	w.problems.Join(unlikely)
	switch {
	case found.HasErrors():
		for _, l := range b.Entries {
			if l.Numbers {
				w.numbers(&dataTable{Table: t}, l) // for its problems, so that all are reported in one go
			}
		}
		return nil
	case len(groups) == 0:
		if !w.once("runs of " + b.File.Value) {
			return nil
		}
		w.problems.Error(w.out.File, b.File.At, "no-runs",
			"the file "+b.File.Value+" has no runs", "write a row for each run below the row of names")
		return nil
	case len(groups) > MaxGroups:
		w.problems.Error(w.out.File, line.ColumnAt, "too-many-groups",
			"the column "+c.Name+" splits the runs into "+itoa(len(groups))+" groups; "+
				itoa(MaxGroups)+" are the most that can be compared",
			"is this the column that says which group a run is of?")
		return nil
	}
	if alone := len(groups) == t.Rows && t.Rows > 2; alone && b.Name == lesson.RunsBlock && b.Line("cycle") == nil {
		w.problems.Caution(w.out.File, line.ColumnAt, "too-few-runs",
			"each group of the column "+c.Name+" has one run only, and nothing can be told from one run",
			"is this the column that says which group a run is of?")
	}
	return &dataTable{t, groups}
}

// wrongGroups makes errors of groups that are probably none.
func (w *worker) wrongGroups(unlikely problem.List) {
	for _, p := range unlikely.Sorted() {
		p.Severity = problem.Error
		w.problems.Add(p)
	}
}

// called gives a block's table with the names and units that the block's own lines give to columns; nil if there is a
// problem.
func (w *worker) called(t *table.Table, b *lesson.DataBlock) *table.Table {
	before := w.problems.Count()
	for _, l := range b.Columns {
		c, ok := t.ColumnWritten(l.Text)
		switch {
		case !ok:
			w.problems.Error(w.out.File, l.TextAt[0], "unknown-column",
				"the file "+t.File.Name+" has no column “"+l.Text+"”", writtenColumns(t, l.Text))
		case l.Target.HasUnit && c.HasUnit && l.Target.Unit.String() != c.Unit.String():
			w.problems.Error(w.out.File, source.Span(l.Target.UnitAt), "column-unit",
				"the file gives “"+c.Written+"” in "+c.Unit.String()+", and this line in "+l.Target.Unit.String(),
				"leave  in "+l.Target.Unit.String()+"  out here; the line that uses the column can ask for it")
		default:
			t = t.Called(c, l.Column, l.Target)
		}
	}
	if w.problems.ErrorsSince(before) {
		return nil
	}
	return t
}

// writtenColumns is the hint for a column that is not in the file by its full name.
func writtenColumns(t *table.Table, name string) string {
	names := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		names[i] = c.Written
	}
	return cmp.Or(quantity.DidYouMean(name, names), "its columns are "+strings.Join(names, ", "))
}

// column finds the column that a line names.
func (w *worker) column(t *table.Table, l *lesson.DataLine) *table.Column {
	if c, ok := t.Column(l.Column); ok {
		return c
	}
	names := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		names[i] = c.Name
	}
	hint := cmp.Or(quantity.DidYouMean(l.Column, names), "its columns are "+strings.Join(names, ", "))
	for i, name := range names { // a line reads a column's name up to the first blank
		if !strings.HasPrefix(name, l.Column) || l.Column == "" {
			continue
		}
		if c := t.Columns[i]; c.Meant != "" {
			words := strings.Fields(c.Meant)
			hint = "write the unit in brackets in the file's first row,  " + c.Meant + ", or add a line here:  column " +
				l.Column + " in " + strings.Trim(words[len(words)-1], "()") + " = \"" + c.Written + "\""
		} else if strings.ContainsAny(name, " \"=") {
			hint = "add a line here:  column " + l.Column + " = \"" + c.Written + "\""
		}
	}
	if !w.once("column " + l.Column + " of " + t.File.Name) {
		return nil
	}
	w.problems.Error(w.out.File, l.ColumnAt, "unknown-column", "the file "+t.File.Name+" has no column "+l.Column, hint)
	return nil
}

// numbers gives a line's column as numbers in the unit that the line asks for, else the column's own.
func (w *worker) numbers(t *dataTable, l *lesson.DataLine) ([]float64, quantity.Unit, bool) {
	c := w.column(t.Table, l)
	if c == nil {
		return nil, l.Target.Unit, false
	}
	if c.Broken { // reported where the file is
		w.keptBack++
		return nil, l.Target.Unit, false
	}
	u := c.Unit
	if l.Target.HasUnit {
		u = l.Target.Unit
		if !quantity.Alike(c.Unit, u) {
			w.problems.Error(w.out.File, source.Span(l.Target.UnitAt), "mixed-dimensions",
				"the column "+c.Name+" of "+t.File.Name+" is "+c.Unit.Dimension().String()+
					" and cannot be given in "+u.String()+", which is "+u.Dimension().String(),
				"ask for a unit of that kind, or write the column's unit after its name, as in  "+c.Name+" (cm)")
			return nil, u, false
		}
	}
	numbers, found := t.Numbers(c, u)
	w.problems.Join(found)
	return numbers, u, !found.HasErrors()
}

// ofStudents reports a value that depends on what students do; of another it notes whether it
// is the default kit's.
func (w *worker) ofStudents(d *Data, e quantity.Expr) bool {
	if w.dependsOnStudents(e) {
		w.problems.Error(w.out.File, source.Span(e.Span()), "data-of-students",
			"this depends on what students measure, and the block is drawn before they do",
			"write a number of its own, or one from a given or the kit")
		return true
	}
	d.Varies = d.Varies || w.dependsOnVarying(e)
	return false
}

// amount works out a line's value in a unit; ok is false if there is a problem, which is reported.
func (w *worker) amount(d *Data, e quantity.Expr, u quantity.Unit) (float64, bool) {
	if w.ofStudents(d, e) {
		return math.NaN(), false
	}
	q, ok := w.eval(e, quantity.Target{}).(quantity.Quantity)
	if !ok {
		return math.NaN(), false
	}
	in, ok := q.In(u)
	if !ok {
		w.problems.Error(w.out.File, source.Span(e.Span()), "mixed-dimensions",
			"this comes out as "+q.Unit.Dimension().String()+" where "+u.Dimension().String()+" is needed",
			"write it with a unit of that kind")
		return math.NaN(), false
	}
	return in.Number, true
}

// measuredColumn works a line's column out, against the line's target, or 0 if there must be one.
func (w *worker) measuredColumn(d *Data, t *dataTable, l *lesson.DataLine, zero bool) *Measured {
	numbers, u, ok := w.numbers(t, l)
	if ok && len(t.groups) > 0 && !slices.ContainsFunc(numbers, func(x float64) bool { return !math.IsNaN(x) }) {
		w.problems.Error(w.out.File, l.ColumnAt, "no-runs",
			"no run of "+t.File.Name+" has a number in the column "+l.Column, "write them in, or leave the line out")
		ok = false
	}
	if _, there := t.Table.Column(l.Column); l.Expr != nil && !ok && (there || l.Target.HasUnit) {
		w.amount(d, l.Expr, u) // for its problems, so that all are reported together
	}
	if !ok {
		return nil
	}
	m := &Measured{Line: l, Title: cmp.Or(l.Text, l.Column), Unit: u, Step: l.Target.Step}
	target := math.NaN()
	if zero {
		target = 0
	}
	if l.Expr != nil {
		if target, ok = w.amount(d, l.Expr, u); !ok {
			return nil
		}
		m.TargetText = w.textOf(l.Expr, u)
		w.show(d, l, "target", u, func(n nudge) float64 { return n(target, u) }, nil)
	}
	var series []runs.Series
	for _, g := range t.groups {
		s := runs.Series{Name: g.Name, Rows: g.Rows}
		for _, row := range g.Rows {
			s.Numbers = append(s.Numbers, numbers[row])
		}
		series = append(series, s)
	}
	c, _ := t.Table.Column(l.Column)
	m.Column = runs.NewColumn(series, target, t.Finest(c, u))
	for _, cell := range c.Cells {
		m.Lines = append(m.Lines, t.File.Position(cell.At.Start).Line)
	}
	return m
}

// matters works out how many runs it takes, from how much these scatter. Without any scatter nothing is known.
func (w *worker) matters(d *Data, m *Measured) {
	l := m.Line.Matters
	if l == nil {
		return
	}
	difference, ok := w.amount(d, l.Expr, m.Unit)
	if !ok {
		return
	}
	if !(difference > 0) {
		w.problems.Error(w.out.File, source.Span(l.Expr.Span()), "bad-matters",
			"what matters is a difference of more than zero", "write it as in  matters 1 cm \"the width of the gate\"")
		return
	}
	if spread, degrees := m.Spread(); spread > 0 {
		fewest, most := runs.RunsRange(difference, spread, degrees, len(m.Near))
		m.Matters = &Matter{w.textOf(l.Expr, m.Unit), l.Text, fewest, most}
	}
}

// textOf writes a value as the lesson does, where it does, else in a unit.
func (w *worker) textOf(e quantity.Expr, u quantity.Unit) string {
	if text := written(e); text != "" {
		return text
	}
	if n, ok := e.(*quantity.Name); ok {
		if s := w.defined[n.Text]; s != nil && w.out.results[s].Text() != "" {
			return w.out.results[s].Text()
		}
	}
	if q, ok := w.eval(e, quantity.Target{}).(quantity.Quantity); ok {
		in, _ := q.In(u)
		return quantity.ShowText(in, quantity.Target{Unit: u, HasUnit: true})
	}
	return ""
}
