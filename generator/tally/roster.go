package tally

// This file tells whose work counts: of a team's lesson what it saved last, and runs that are in its saved work do not
// count again from a table. roster.js and rows.js of the class's page have the same rules.

import (
	"maps"
	"slices"

	"trundle/generator/source"
	"trundle/generator/table"
)

// teamWork is what counts of a team's work, by lesson; "" has what it says of its robot.
type teamWork struct {
	team    string
	last    *savedWork // that was read last
	lessons map[string]counted
}

// counted are the entries of a lesson that count, and the work that they are from.
type counted struct {
	entries
	from *savedWork
}

// outdated is work in a lesson of which a team has saved a newer state.
type outdated struct {
	work   *savedWork
	lesson string
}

// merge takes saved work: of each lesson the work with more saves counts, and of equals the one that was read last.
func (t *tallying) merge(work *savedWork) {
	own := t.teamCalled(work.team)
	own.last = work
	for _, lesson := range slices.Sorted(maps.Keys(work.lessons)) {
		now, before := work.lessons[lesson], own.lessons[lesson]
		older := before.from
		if older != nil && older.saves > work.saves {
			older = work
		} else {
			own.lessons[lesson] = counted{now, work}
		}
		if older != nil && !maps.Equal(now.texts, before.texts) {
			t.outdated = append(t.outdated, outdated{older, lesson})
		}
	}
}

// teamCalled finds a team, or adds it.
func (t *tallying) teamCalled(name string) *teamWork {
	i := slices.IndexFunc(t.teams, func(w *teamWork) bool { return w.team == name })
	if i < 0 {
		i = len(t.teams)
		t.teams = append(t.teams, &teamWork{team: name, lessons: map[string]counted{}})
	}
	return t.teams[i]
}

// reportOutdated says which files have work in the lesson that does not count. What a class file holds is meant to be
// followed by newer files.
func (t *tallying) reportOutdated() {
	for _, o := range t.outdated {
		if o.lesson != t.options.Lesson.Key || o.work.inClass {
			continue
		}
		newer := t.teamCalled(o.work.team).lessons[o.lesson].from
		what, hint := "the work of "+o.work.team+" was saved again later, in "+newer.file.Name, "nothing has to be done"
		switch {
		case o.work.team == "":
			what = "work without a team's name is taken for one team's, and that in " + newer.file.Name + " counts"
			hint = "have each team write its name on its page, and save again"
		case newer.saves == o.work.saves:
			what = newer.file.Name + " has work of " + o.work.team + ", too, and counts, since it was named later"
			hint = "name the file last that was saved last"
		}
		t.problems.Caution(o.work.file, source.Span{}, "older-work", what+"; the runs in this file are left out", hint)
	}
}

// tablesOfTeams makes tables of saved work, and takes out of the others what those have.
func (t *tallying) tablesOfTeams() {
	l, given := t.options.Lesson, t.tables
	t.tables = nil
	inWork, inTables := map[string]bool{}, teamsIn(given)
	for _, w := range t.teams {
		read := &table.Table{}
		if w.lessons[l.Key].from != nil {
			read = t.options.Pack.table(l, w, t.problems)
		}
		if read.Rows == 0 {
			if inTables[w.team] {
				continue // its runs were dropped as a table
			}
			t.problems.Caution(w.last.file, source.Span{Start: w.last.at.Start, End: w.last.at.Start}, "no-runs",
				"the work of "+teamNamed(w.team)+" has no runs of "+l.Slug+", and is left out",
				"nothing has to be done if the team was away")
			continue
		}
		t.tables, inWork[w.team] = append(t.tables, read), true
	}
	for _, read := range given {
		if l.hasColumns(read) {
			read = t.withoutTeams(read, inWork)
		}
		if read.Rows > 0 {
			t.tables = append(t.tables, read)
		}
	}
}

// teamsIn are the teams that tables have runs of.
func teamsIn(tables []*table.Table) map[string]bool {
	teams := map[string]bool{}
	for _, read := range tables {
		if c, ok := read.Column("team"); ok {
			for _, cell := range c.Cells {
				teams[cell.Text] = true
			}
		}
	}
	return teams
}

// teamNamed is a team in a sentence.
func teamNamed(team string) string {
	if team == "" {
		return "a team without a name"
	}
	return team
}

// withoutTeams gives a table without the runs of some teams, which would count twice.
func (t *tallying) withoutTeams(read *table.Table, teams map[string]bool) *table.Table {
	team := func(row int) string {
		if c, ok := read.Column("team"); ok {
			return c.Cells[row].Text
		}
		return ""
	}
	said := map[string]bool{}
	var kept []int
	for row := range read.Rows {
		name := team(row)
		if !teams[name] {
			kept = append(kept, row)
			continue
		}
		if !said[name] {
			said[name] = true
			t.problems.Caution(read.File, read.Columns[0].Cells[row].At, "counted-twice",
				"the runs of "+teamNamed(name)+", whose saved work has runs of this lesson, are left out: they would count twice",
				"nothing has to be done; if the table is right, leave the saved work out")
		}
	}
	if len(kept) == read.Rows {
		return read
	}
	return read.Only(kept)
}
