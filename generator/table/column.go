package table

// How columns are found, by their own names and by those that a lesson gives them, and cells that hold more than a
// plain number: 75 1/4, ½, –4, 47.5 in.

import (
	"strings"

	"trundle/generator/quantity"
)

// Column finds a column by its name; capitals, and whether a blank or a _ parts its words, do not matter if no other
// is called just so.
func (t *Table) Column(name string) (*Column, bool) {
	for _, same := range []func(c *Column) bool{
		func(c *Column) bool { return c.Name == name },
		func(c *Column) bool { return strings.EqualFold(c.Name, name) },
		func(c *Column) bool { return folded(c.Name) == folded(name) },
	} {
		for _, c := range t.Columns {
			if same(c) {
				return c, true
			}
		}
	}
	return nil, false
}

// ColumnWritten finds a column by its name with the unit, as in the file's first row.
func (t *Table) ColumnWritten(text string) (*Column, bool) {
	for _, c := range t.Columns {
		if folded(c.Written) == folded(text) {
			return c, true
		}
	}
	return t.Column(text)
}

// folded is a name without what makes no difference.
func folded(name string) string {
	return strings.ToLower(strings.Join(strings.Fields(strings.ReplaceAll(name, "_", " ")), " "))
}

// Called gives a table with the same cells in which a column has another name, and perhaps a unit. The table itself
// stays as it is, since other blocks and lessons read it, too.
func (t *Table) Called(c *Column, name string, unit quantity.Target) *Table {
	called := *t
	called.Columns = make([]*Column, len(t.Columns))
	for i, column := range t.Columns {
		if called.Columns[i] = column; column == c {
			same := *c
			if same.Name = name; unit.HasUnit {
				same.Unit, same.HasUnit = unit.Unit, true
			}
			called.Columns[i] = &same
		}
	}
	return &called
}

// spelledOut reads a cell that is no plain number, as students write into a box: with fractions, a dash for a minus, or
// a unit. It gives the number in the column's unit; what cannot be read is reported.
func (t *Table) spelledOut(c *Column, cell Cell, report *Reporter) (float64, bool) {
	a, err := t.answer(cell.Text)
	if err != nil {
		report.Error(cell.At, "not-a-number",
			"“"+cell.Text+"” is not a number, and "+c.Name+" is a column of numbers",
			"write a number, or leave the cell empty if there was no run")
		return 0, false
	}
	x := a.Number.Float()
	if a.Negative {
		x = -x
	}
	if !a.HasUnit {
		return x, true
	}
	if !c.HasUnit {
		report.Error(cell.At, "cell-unit", "“"+cell.Text+"” has a unit, and the column "+c.Name+" has none",
			"write the unit after the column's name, as in  "+c.Name+" ("+a.Unit.String()+")")
		return 0, false
	}
	in, ok := quantity.New(x, a.Unit).In(c.Unit)
	if !ok {
		report.Error(cell.At, "cell-unit", "“"+cell.Text+"” is "+a.Unit.Dimension().String()+", and the column "+c.Name+
			" is in "+c.Unit.String(), "write it in "+c.Unit.String()+", or in another unit of that kind")
	}
	return in.Number, ok
}

// answer reads a cell as an answer of a student is read. Commas in a file's other numbers tell what one means here.
func (t *Table) answer(text string) (quantity.Answer, *quantity.Error) {
	isOther := t.decimal == commas
	if t.words.HasCommas() {
		isOther = t.decimal == points
	}
	return t.words.ReadAnswer(text, isOther)
}
