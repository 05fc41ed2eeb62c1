package table

// The groups of a file's rows, and names among them that were probably not meant.

import (
	"slices"
	"strings"

	"trundle/generator/problem"
)

// Group is the rows of one group.
type Group struct {
	Name string
	Rows []int
}

// Groups puts the rows together by a column's text, in the order of the file.
func (t *Table) Groups(by *Column) ([]Group, problem.List) {
	var problems problem.List
	report := t.Reporter(by, &problems)
	groups := slices.DeleteFunc(t.GroupsAndRest(by), func(g Group) bool {
		if g.Name != "" {
			return false
		}
		for _, row := range g.Rows {
			report.Error(by.Cells[row].At, "empty-group", "this run does not say which "+by.Name+" it is of", "fill the cell in")
		}
		return true
	})
	report.Rest("runs that do not say which " + by.Name + " they are of")
	return groups, problems
}

// GroupsAndRest is Groups with one more for the rows without a text; it has no name.
func (t *Table) GroupsAndRest(by *Column) []Group {
	var groups []Group
	place := map[string]int{}
	for row, cell := range by.Cells {
		i, known := place[cell.Text]
		if !known {
			i = len(groups)
			place[cell.Text] = i
			groups = append(groups, Group{Name: cell.Text})
		}
		groups[i].Rows = append(groups[i].Rows, row)
	}
	return groups
}

// totals are what spreadsheets and coaches call a row that is no run, in small letters; the list is from memory.
// Names that a robot may have, such as max, are not in it.
var totals = []string{"mean", "means", "average", "averages", "avg", "median", "total", "totals", "sum", "stdev",
	"std dev", "standard deviation", "durchschnitt", "mittelwert", "mittel", "summe", "gesamt", "moyenne",
	"total général", "somme", "écart type", "media", "promedio", "suma", "totale", "somma", "gemiddelde", "totaal",
	"som", "média", "soma"}

// Unlikely reports groups whose names differ only in capitals or blanks, and those that are called as a row below
// a table is.
func (t *Table) Unlikely(by *Column, groups []Group) problem.List {
	var problems problem.List
	seen := map[string]string{}
	for _, g := range groups {
		cell := by.Cells[g.Rows[0]]
		plain := strings.ToLower(strings.Join(strings.Fields(g.Name), " "))
		if other, taken := seen[plain]; taken {
			problems.Caution(t.File, cell.At, "names-alike", "“"+other+"” and “"+g.Name+"” are taken for two groups",
				"write the name the same way in all rows if they are one group")
		} else {
			seen[plain] = g.Name
		}
		if slices.Contains(totals, strings.Trim(plain, " :.=()")) {
			problems.Caution(t.File, cell.At, "total-row",
				"“"+g.Name+"” is taken for a group of runs of the column "+by.Name,
				"delete the row if it only says what the others come to; trundle works that out")
		}
	}
	return problems
}
