// Package tally puts the files of runs of several teams together and works out which groups
// can be told from which. Files may differ in their units and in their columns.
package tally

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/source"
	"trundle/generator/table"
)

// Options say how files are put together. The zero Options are the usual ones.
type Options struct {
	By      string                       // the column that splits runs into groups; "" for base, else team
	Targets map[string]quantity.Quantity // of measured columns, by name
	Pack    *Pack                        // whose lesson the runs are of; nil if nobody says
	Lesson  *Lesson                      // of the pack; nil for the one that has such records
}

// Report is what the files come to.
type Report struct {
	Files   []string
	Teams   int // as many as name themselves
	Runs    int
	By      string
	Columns []Column

	// Confounded is true if runs are grouped by base and each base was driven by one team only, so that nothing tells
	// whether a difference is the base's or the team's. Pooled is true if a base was driven by several teams, whose
	// runs are taken together.
	Confounded, Pooled bool
}

// Column is a measured column of all files, in the unit of the lesson's record, as on the page of the class; without a
// lesson in that of the first file that has it. Teams may measure in inches and in centimetres, and one table has one
// unit.
type Column struct {
	runs.Column
	Name   string
	Unit   quantity.Unit
	Target quantity.Quantity
	Aimed  bool    // there is a target
	Places []Place // of every row of all files; the rows of a group count through them
}

// Place is where a run is written.
type Place struct {
	File string
	Line int
}

// about are columns that say something of a run and are not measured, although their cells may be numbers. A
// column of another name can be given a unit, or named with --by.
var about = []string{"team", "base", "run", "cycle", "swapped"}

// MaxGroups are as many as one report compares. Pairs grow with the square of it, and a mistaken column such as the
// number of the run makes a group of every row.
const MaxGroups = 40

// Of reads files and puts them together. It goes on after a mistake as long as the next one can be found without the
// last, so that one call reports as many as possible.
func Of(files []*source.File, o Options) (*Report, problem.List) {
	var problems problem.List
	t := &tallying{options: o, problems: &problems, report: &Report{}, files: files,
		places: map[*source.File]int{}, seen: map[string]*source.File{}}
	for i, f := range files {
		t.places[f] = i
		t.read(f)
	}
	if !problems.HasErrors() {
		t.lesson()
	}
	t.inOrder()
	if problems.HasErrors() {
		return t.report, problems
	}
	if len(t.tables) == 0 {
		if len(files) > 0 {
			problems.Error(files[0], source.Span{}, "no-runs", "no file has runs that can be counted",
				"name files of runs, or teams' saved work with runs of one lesson")
		}
		return t.report, problems
	}
	t.group()
	if !problems.HasErrors() {
		t.columns()
	}
	return t.report, problems
}

// tallying is files being put together.
type tallying struct {
	options  Options
	problems *problem.List
	report   *Report
	files    []*source.File
	places   map[*source.File]int // of files among those that were named; a table in a class file has the class's
	seen     map[string]*source.File
	teams    []*teamWork
	outdated []outdated
	ofClass  []*table.Table // tables in class files, of whatever lesson
	tables   []*table.Table
	groups   []group
}

// read reads a file of any kind.
func (t *tallying) read(f *source.File) {
	// Twice the same runs would make every interval look narrower than it is.
	if same := t.seen[string(f.Text())]; same != nil {
		t.problems.Caution(f, source.Span{}, "same-file",
			"this file is the same as "+same.Name+" and is left out", "name every file once")
		return
	}
	t.seen[string(f.Text())] = f
	switch {
	case isClass(f):
		t.class(f)
	case isJSON(f):
		if work := t.savedWork(f, source.Span{End: len(f.Text())}, t.problems); work != nil {
			t.merge(work)
		}
	default:
		read, found := table.Read(f, t.words())
		t.problems.Join(found)
		if len(read.Columns) > 0 {
			t.tables = append(t.tables, read)
		}
		if len(read.Columns) > 0 && read.Rows == 0 {
			t.problems.Error(f, read.Columns[0].At, "no-runs", "this file has no runs",
				"write a row for each run below the row of names")
		}
	}
}

// words are a pack's own units, and its mark before decimals.
func (t *tallying) words() *quantity.Vocabulary {
	if t.options.Pack == nil {
		return nil
	}
	return t.options.Pack.Words
}

// group is a group's rows: for each the place of its table, and its row there.
type group struct {
	name string
	rows [][2]int
}

// group finds the column that splits the runs, and splits them. Groups keep the order in which the files name them
// first, so that a report does not change when a file gets more rows at its end.
func (t *tallying) group() {
	by := t.options.By
	if by == "" {
		if by = "base"; !t.full(by) && t.has("team") {
			by = "team"
		}
	}
	t.report.By = by
	place := map[string]int{}
	teams := map[string]bool{}
	for i, read := range t.tables {
		if c, ok := read.Column("team"); ok {
			for _, cell := range c.Cells {
				teams[cell.Text] = cell.Text != ""
			}
		}
		c, ok := read.Column(by)
		if !ok {
			t.problems.Error(read.File, read.Columns[0].At, "unknown-column",
				"this file has no column "+by+" to group its runs by",
				"its columns are "+columnNames(read)+"; name one of them with --by")
			continue
		}
		for _, g := range t.groupsOf(read, c) {
			k, known := place[g.Name]
			if !known {
				k = len(t.groups)
				place[g.Name] = k
				t.groups = append(t.groups, group{name: g.Name})
			}
			for _, row := range g.Rows {
				t.groups[k].rows = append(t.groups[k].rows, [2]int{i, row})
			}
		}
	}
	t.teamsOfGroups()
	delete(teams, "") // runs without a team are still runs
	t.report.Teams = len(teams)
	t.alike()
	if len(t.groups) > MaxGroups {
		t.problems.Error(t.tables[0].File, source.Span{}, "too-many-groups",
			"the column "+by+" splits the runs into "+strconv.Itoa(len(t.groups))+" groups; "+
				strconv.Itoa(MaxGroups)+" are the most",
			"name another column with --by")
	}
}

// groupsOf puts the rows of a table together. In saved work and in a class file nobody can fill in whose a run is, so
// that runs without a name are a group there, as on the page of the class.
func (t *tallying) groupsOf(read *table.Table, by *table.Column) []table.Group {
	if isJSON(t.files[t.places[read.File]]) {
		return read.GroupsAndRest(by)
	}
	groups, found := read.Groups(by)
	t.problems.Join(found)
	return groups
}

// alike warns of names that differ only in capitals or blanks: each team types its base's name for itself.
func (t *tallying) alike() {
	seen := map[string]string{}
	for _, g := range t.groups {
		plain := strings.ToLower(strings.Join(strings.Fields(g.name), " "))
		if other, ok := seen[plain]; ok {
			t.problems.Caution(t.tables[g.rows[0][0]].File, source.Span{}, "names-alike",
				"“"+other+"” and “"+g.name+"” are taken for two groups",
				"if they are one group, write its name the same way in all files")
		}
		seen[plain] = g.name
	}
}

// full tells whether every run has a text in a column. Runs without one would be left out of every group.
func (t *tallying) full(name string) bool {
	for _, read := range t.tables {
		c, ok := read.Column(name)
		if !ok || slices.ContainsFunc(c.Cells, func(cell table.Cell) bool { return cell.Text == "" }) {
			return false
		}
	}
	return true
}

// has is true if every file has a column.
func (t *tallying) has(name string) bool {
	for _, read := range t.tables {
		if _, ok := read.Column(name); !ok {
			return false
		}
	}
	return true
}

// columnNames lists the columns of a file.
func columnNames(t *table.Table) string {
	names := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		names[i] = c.Name
	}
	return strings.Join(names, ", ")
}

// columns works out every measured column, in the order in which the files name them.
func (t *tallying) columns() {
	var names, seen []string // measured ones, and all that were looked at
	for _, read := range t.tables {
		for _, c := range read.Columns {
			if contains(seen, c.Name) || strings.EqualFold(c.Name, t.report.By) || contains(about, c.Name) {
				continue
			}
			seen = append(seen, c.Name)
			if t.isNote(c.Name) {
				t.problems.Caution(read.File, c.At, "not-measured",
					"the column "+c.Name+" has no numbers and is left out",
					"nothing has to be done if it has notes or dates")
				continue
			}
			names = append(names, c.Name)
		}
	}
	for _, name := range names {
		if !t.isEmpty(name) {
			t.column(name)
		}
	}
	for name := range t.options.Targets {
		if !contains(names, name) {
			hint := "the measured columns are " + strings.Join(names, ", ")
			t.problems.Error(t.tables[0].File, t.tables[0].Columns[0].At, "unknown-column",
				"no file has a measured column "+name+" for the target", hint)
		}
	}
	if len(names) == 0 {
		t.problems.Error(t.tables[0].File, t.tables[0].Columns[0].At, "nothing-measured",
			"no column of these files is measured", "name a column with its unit, as in  stop (cm)")
	}
}

// isEmpty tells whether nobody has filled a measured column in, and says so: its tables and charts would be of nothing.
func (t *tallying) isEmpty(name string) bool {
	var at *table.Column
	var file *source.File
	for _, read := range t.tables {
		c, ok := read.Column(name)
		if !ok {
			continue
		}
		if slices.ContainsFunc(c.Cells, func(cell table.Cell) bool { return cell.Text != "" }) {
			return false
		}
		if at == nil {
			at, file = c, read.File
		}
	}
	t.problems.Caution(file, at.At, "empty-record", name+" has no number in any file, and is left out",
		"nothing has to be done if nobody was to fill it in")
	return true
}

// contains tells whether a name is among others, capitals or not.
func contains(names []string, name string) bool {
	return slices.ContainsFunc(names, func(other string) bool { return strings.EqualFold(other, name) })
}

// isNote tells whether a column has no unit anywhere and no cell that is a number. One number makes it a measured
// column, whose other cells are then mistakes.
func (t *tallying) isNote(name string) bool {
	for _, read := range t.tables {
		c, ok := read.Column(name)
		if ok && (c.HasUnit || read.HasNumber(c)) {
			return false
		}
	}
	return true
}

// column brings the numbers of all files into one unit, and works the groups out. A file without the
// column takes part with empty cells, so that rows keep their numbers in all columns.
func (t *tallying) column(name string) {
	out := Column{Name: name}
	numbers := make([][]float64, len(t.tables))
	named, starts := false, make([]int, len(t.tables))
	if l := t.options.Lesson; l != nil && l.record(name) != nil {
		out.Unit, named = l.record(name).Unit, true
	}
	for i, read := range t.tables {
		starts[i] = len(out.Places)
		for row := range read.Rows {
			out.Places = append(out.Places, Place{read.File.Name, line(read, row)})
		}
		c, ok := read.Column(name)
		if !ok {
			continue
		}
		if !named { // the first file that has the column
			out.Unit, named = c.Unit, true
		}
		if c.HasUnit != !out.Unit.IsNumber() {
			t.problems.Error(read.File, c.At, "unit-missing",
				"the column "+name+" has a unit in one file and none in another",
				"write the unit after the name in all files, as in  "+name+" (cm)")
			continue
		}
		var found problem.List
		numbers[i], found = read.Numbers(c, out.Unit)
		t.problems.Join(found)
	}
	finest := math.Inf(1) // 0, that of one file is not known, is the least
	for _, read := range t.tables {
		if c, ok := read.Column(name); ok {
			finest = min(finest, read.Finest(c, out.Unit))
		}
	}
	target := math.NaN()
	if q, ok := t.target(name); ok {
		in, alike := q.In(out.Unit)
		if !alike {
			t.problems.Error(t.tables[0].File, t.tables[0].Columns[0].At, "mixed-dimensions",
				"the target of "+name+" is "+q.Unit.Dimension().String()+
					", and the column is "+out.Unit.Dimension().String(),
				"give the target a unit of that kind")
			return
		}
		out.Target, out.Aimed, target = in, true, in.Number
	}
	out.Column = runs.NewColumn(t.series(numbers, starts), target, finest)
	t.report.Columns = append(t.report.Columns, out)
}

// target gives the target of a column, what was typed before what the lesson says; capitals do not matter, as for
// columns.
func (t *tallying) target(name string) (quantity.Quantity, bool) {
	for other, q := range t.options.Targets {
		if strings.EqualFold(other, name) {
			return q, true
		}
	}
	if l := t.options.Lesson; l != nil {
		if r := l.record(name); r != nil && r.Target != nil {
			return *r.Target, true
		}
	}
	return quantity.Quantity{}, false
}

// series gives the numbers of every group; a row's number counts through all files.
func (t *tallying) series(numbers [][]float64, starts []int) []runs.Series {
	var all []runs.Series
	for _, g := range t.groups {
		s := runs.Series{Name: g.name}
		for _, at := range g.rows {
			x := math.NaN()
			if n := numbers[at[0]]; at[1] < len(n) {
				x = n[at[1]]
			}
			s.Rows, s.Numbers = append(s.Rows, starts[at[0]]+at[1]), append(s.Numbers, x)
		}
		all = append(all, s)
	}
	return all
}

// line is the line of the file that a row is on.
func line(t *table.Table, row int) int {
	return t.File.Position(t.Columns[0].Cells[row].At.Start).Line
}
