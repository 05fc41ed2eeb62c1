package quantity

// This file tells what units, formulas and functions there are, for whoever lists them to people.

import (
	"slices"
	"strings"
)

// A Description is a word of the language as a list shows it.
type Description struct{ Name, Form, Meaning string }

// DescribeUnits lists the units that have a name of their own.
func DescribeUnits() []Description {
	var all []Description
	for _, a := range atoms {
		meaning := a.dim.String()
		words := slices.DeleteFunc(slices.Concat(a.aliases, a.spoken), func(name string) bool { return readable(name) != a })
		if len(words) > 0 { // what only prose may say would be an error in a block
			meaning += "; also written " + strings.Join(words, ", ")
		}
		all = append(all, Description{a.symbol, a.symbol, meaning})
	}
	return all
}

// DescribeFormulas lists the formulas of the trade, each with its definition.
func DescribeFormulas() []Description {
	var all []Description
	for _, f := range formulas {
		d := f.describe()
		d.Meaning += ". It is " + f.Body
		all = append(all, d)
	}
	return all
}

// DescribeFunctions lists the functions of mathematics, those of a record or several values, and those of two records.
func DescribeFunctions() []Description {
	var all []Description
	for _, f := range slices.Concat(mathematics, stepped, choices, statistics, spreads, fits) {
		all = append(all, f.describe())
	}
	return all
}

// describe writes a call with the names of its values; those in brackets may be left out.
func (f *Formula) describe() Description {
	params := ""
	for i, p := range f.Params {
		name := p.Name
		if i > 0 {
			name = ", " + name
		}
		if p.Optional {
			name = " [" + name + "]"
		}
		params += name
	}
	switch { // these check their values themselves, and have no parameters
	case f.statistic != nil:
		params = "record or values"
	case f.fit != nil:
		params = "y, x"
	}
	return Description{f.Name, f.Name + "(" + params + ")", f.Doc}
}
