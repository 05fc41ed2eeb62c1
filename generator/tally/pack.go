package tally

// This file holds what a pack says of its lessons' records, as far as putting runs together needs it.

import (
	"path"
	"slices"
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/table"
)

// Pack is what a pack says of its records.
type Pack struct {
	Language string
	Keys     []string          // the names under which its entries are kept, without the season
	Season   string            // of which saved work has to be; "" if the pack names none
	Kits     map[string]string // titles by key
	Words    *quantity.Vocabulary
	Lessons  []Lesson

	// LessonsNow and BoxesNow have the present names of lessons, and of boxes by lesson, by the earlier ones.
	LessonsNow map[string]string
	BoxesNow   map[string]map[string]string
}

// Lesson is a lesson with records.
type Lesson struct {
	Slug    string
	Key     string // under which its entries are kept
	Records []Record
}

// Record is a record of a lesson.
type Record struct {
	Name   string
	Unit   quantity.Unit
	Runs   int                // as many as the lesson asks for
	Target *quantity.Quantity // what its runs are compared with; nil if that is no one place for all teams
}

// Named finds a lesson by its file's name, its id, or the number that its file's name starts with.
func (p *Pack) Named(name string) *Lesson {
	for i, l := range p.Lessons {
		number, _, _ := strings.Cut(l.Slug, "-")
		if name == l.Key || name == l.Slug || name == number || name == strings.TrimLeft(number, "0") {
			return &p.Lessons[i]
		}
	}
	return nil
}

// lessonOf finds the lesson that a table of a class file is of, as the page of the class does: all columns with a unit
// are records there. If that is so of several lessons, it is the one that the table's name names, else the first.
func (p *Pack) lessonOf(read *table.Table) *Lesson {
	var first *Lesson
	for i := range p.Lessons {
		l := &p.Lessons[i]
		switch {
		case !l.hasColumns(read):
		case strings.Contains(path.Base(read.File.Name), l.Slug):
			return l
		case first == nil:
			first = l
		}
	}
	return first
}

// hasColumns tells whether a table has columns with a unit, and all of them are records of the lesson.
func (l *Lesson) hasColumns(read *table.Table) bool {
	isMeasured := func(c *table.Column) bool { return c.HasUnit }
	return slices.ContainsFunc(read.Columns, isMeasured) && l.hasAll(read)
}

// hasAll tells whether all columns of a table that have a unit are records of the lesson.
func (l *Lesson) hasAll(read *table.Table) bool {
	return !slices.ContainsFunc(read.Columns, func(c *table.Column) bool {
		return c.HasUnit && l.record(c.Name) == nil
	})
}

// record finds a record of the lesson by a column's name, nil if there is none.
func (l *Lesson) record(name string) *Record {
	for i, r := range l.Records {
		if strings.EqualFold(r.Name, name) {
			return &l.Records[i]
		}
	}
	return nil
}

// inItsUnits is a table in which a record's column without a unit has that of the lesson, as a number without one has
// on its page.
func (l *Lesson) inItsUnits(read *table.Table) *table.Table {
	for _, c := range read.Columns {
		if r := l.record(c.Name); r != nil && !c.HasUnit && !c.Broken && !r.Unit.IsNumber() {
			read = read.Called(c, c.Name, quantity.Target{Unit: r.Unit, HasUnit: true})
		}
	}
	return read
}
