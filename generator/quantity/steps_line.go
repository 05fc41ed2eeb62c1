package quantity

// This file makes one line of worked steps: what a page shows at once, the other steps being a touch away.

import "slices"

// lineRoom is how many characters a part of the line may have before it is left to the steps.
const lineRoom = 52

// OneLine picks the steps that lead from a name to its result in one line: the formula, the numbers as they were
// first put in, the result and its rounding. Conversions stay out. So does what is too long for a line; a long
// sum that is divided is shown as what it comes to. The first step has the left side of the first one given.
func OneLine(steps []WorkedStep) []WorkedStep {
	var line []WorkedStep
	seen := map[StepKind]bool{}
	var left Math
	for _, s := range steps {
		if s.Kind == ConversionStep || s.Kind == NumbersStep && seen[NumbersStep] {
			continue
		}
		seen[s.Kind] = true
		if left == nil {
			left = s.Left
		}
		s.Left = nil
		if s.Kind == NumbersStep {
			short := totals(s.Right)
			if short.Text() != s.Right.Text() { // then the formula's sum would say less than this
				line = slices.DeleteFunc(line, func(s WorkedStep) bool { return s.Kind == FormulaStep })
			}
			s.Right = short
		}
		if s.Kind == ResultStep { // only the last, in the unit that was asked for
			line = slices.DeleteFunc(line, func(s WorkedStep) bool { return s.Kind == ResultStep })
		}
		line = append(line, s)
	}
	line = slices.DeleteFunc(line, func(s WorkedStep) bool {
		isLong := len([]rune(s.Right.Text())) > lineRoom
		return isLong && (s.Kind == FormulaStep || s.Kind == NumbersStep)
	})
	if len(line) > 0 {
		line[0].Left = left
	}
	return line
}

// totals writes a sum of more than three readings that is divided as one number.
func totals(m Math) Math {
	switch m := m.(type) {
	case Fraction:
		if sum, ok := totalOf(m.Over); ok {
			return Fraction{sum, m.Under}
		}
		return Fraction{totals(m.Over), totals(m.Under)}
	case Row:
		parts := make([]Math, len(m.Parts))
		for i, p := range m.Parts {
			parts[i] = totals(p)
		}
		return Row{parts}
	case Bars:
		return Bars{totals(m.Of)}
	case Parens:
		return Parens{totals(m.Of)}
	}
	return m
}

// totalOf is the sum of the readings of one record, if that is what is written out.
func totalOf(m Math) (Slot, bool) {
	row, ok := m.(Row)
	if !ok {
		return Slot{}, false
	}
	var all []Slot
	for _, p := range row.Parts {
		switch p := p.(type) {
		case Slot:
			all = append(all, p)
		case Sign:
			if p.Sign != "+" {
				return Slot{}, false
			}
		default:
			return Slot{}, false
		}
	}
	for i, s := range all {
		if s.Index != i+1 || s.Program != all[0].Program {
			return Slot{}, false
		}
	}
	if len(all) <= 3 {
		return Slot{}, false
	}
	return Slot{Program: all[0].Program + " sum:1", Unit: all[0].Unit}, true
}
