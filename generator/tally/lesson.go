package tally

// This file finds the lesson of a pack that files of runs are of, and what their teams and bases have to do with each
// other.

import (
	"slices"
	"strings"

	"trundle/generator/source"
	"trundle/generator/table"
)

// lesson finds the lesson that the files are of, unless it was named, and makes tables of saved work.
func (t *tallying) lesson() {
	p := t.options.Pack
	if p == nil || len(t.teams)+len(t.tables)+len(t.ofClass) == 0 {
		return
	}
	if t.options.Lesson == nil {
		var fit []string
		for i, l := range p.Lessons {
			if t.fits(&p.Lessons[i]) {
				t.options.Lesson, fit = &p.Lessons[i], append(fit, l.Slug)
			}
		}
		if len(fit) != 1 {
			t.options.Lesson = nil
			t.whichLesson(fit)
			return
		}
	}
	for i, read := range t.tables {
		t.tables[i] = t.options.Lesson.inItsUnits(read)
	}
	t.tablesOfClass()
	t.tablesOfTeams()
	t.reportOutdated()
}

// whichLesson says that the files may be of several lessons, or of none. Tables can do without; saved work cannot, nor
// can a class, which has tables of many lessons.
func (t *tallying) whichLesson(fit []string) {
	what, hint := "no lesson of the pack has all these records", "is it the right pack?"
	if len(fit) > 0 {
		what, hint = "these files may be of "+strings.Join(fit, ", "), "name one with --lesson"
	}
	switch {
	case len(t.teams) > 0:
		t.problems.Error(t.teams[0].last.file, source.Span{}, "which-lesson", what, hint)
	case len(t.ofClass) > 0:
		t.problems.Error(t.ofClass[0].File, source.Span{}, "which-lesson", what, hint)
	default:
		t.problems.Caution(t.tables[0].File, source.Span{}, "which-lesson", what+"; no target is taken from it", hint)
	}
}

// fits tells whether files can be of a lesson: it has all measured columns of the tables, and runs in some saved work
// or in a table of a class.
func (t *tallying) fits(l *Lesson) bool {
	for _, read := range t.tables {
		if !l.hasAll(read) {
			return false
		}
	}
	return len(l.Records) > 0 && (len(t.teams)+len(t.ofClass) == 0 ||
		slices.ContainsFunc(t.teams, func(w *teamWork) bool { return w.lessons[l.Key].hasRuns(l) }) ||
		slices.ContainsFunc(t.ofClass, func(read *table.Table) bool { return t.options.Pack.lessonOf(read) == l }))
}

// inOrder brings tables into the order in which their files were named, whatever their form, and lists those files.
func (t *tallying) inOrder() {
	place := func(read *table.Table) int { return t.places[read.File] }
	slices.SortStableFunc(t.tables, func(a, b *table.Table) int { return place(a) - place(b) })
	last := -1
	for _, read := range t.tables {
		if i := place(read); i != last { // a class file has many tables
			t.report.Files, last = append(t.report.Files, t.files[i].Name), i
		}
		t.report.Runs += read.Rows
	}
}

// teamsOfGroups looks how many teams drove each base. Runs without a team say nothing.
func (t *tallying) teamsOfGroups() {
	if !strings.EqualFold(t.report.By, "base") || !t.has("team") || len(t.groups) == 0 {
		return
	}
	byBase, alone := make([]map[string]bool, len(t.groups)), len(t.groups) > 1
	for i, g := range t.groups {
		byBase[i] = map[string]bool{}
		for _, at := range g.rows {
			c, _ := t.tables[at[0]].Column("team")
			byBase[i][c.Cells[at[1]].Text] = true
		}
		alone = alone && len(byBase[i]) == 1 && !byBase[i][""]
		t.report.Pooled = t.report.Pooled || len(byBase[i]) > 1
	}
	t.report.Confounded = alone
}
