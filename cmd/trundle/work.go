package main

import (
	"encoding/json"
	"fmt"
	"strings"

	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

type workCommand struct {
	Expr string `arg:"" help:"The sum, in quotes."`
	In   string `placeholder:"UNIT" help:"Unit of the result."`
	To   string `placeholder:"STEP" help:"Round the result to this step, such as 0.01 or 1/16."`
	JSON bool   `name:"json" help:"Print one object: value, unit, u."`
}

// worked is a sum as work --json prints it.
type worked struct {
	Value float64 `json:"value"`
	Unit  string  `json:"unit"`
	U     float64 `json:"u"`
}

func (c *workCommand) Run(p *program) error {
	// The unit and the step are read as in a lesson: EXPR in UNIT to STEP.
	text := c.Expr
	if c.In != "" {
		text += " in " + c.In
	}
	if c.To != "" {
		text += " to " + c.To
	}
	f := source.NewFile("sum", []byte(text))
	var list problem.List
	e, target, q := c.work(text, f, &list)
	if list.HasErrors() {
		if err := problem.Print(p.stderr, "", list.Sorted()); err != nil {
			return err
		}
		return codeError(misused)
	}
	if c.JSON {
		return json.NewEncoder(p.stdout).Encode(worked{q.Number, q.Unit.String(), q.Uncertainty()})
	}
	var b strings.Builder
	if _, alone := e.(*quantity.Name); !alone {
		for _, s := range quantity.Worked("", e, quantity.Env{}, target) {
			aside := "  "
			if s.Kind == quantity.ConversionStep {
				aside = "      "
			}
			fmt.Fprintf(&b, "%s%s\n", aside, s.Text())
		}
	}
	fmt.Fprintln(&b, quantity.ShowText(q, target))
	if u := q.Uncertainty(); u > 0 {
		value, uncertainty := quantity.FormatUncertain(q.Number, u)
		fmt.Fprintln(&b, quantity.Shown{Number: "(" + value + " ± " + uncertainty + ")", Unit: q.Unit.Symbol()}.Text())
	}
	_, err := fmt.Fprint(p.stdout, b.String())
	return err
}

// work reads and works the sum out.
func (c *workCommand) work(text string, f *source.File, list *problem.List) (quantity.Expr, quantity.Target, quantity.Quantity) {
	parser := quantity.NewParser(text, func(i int) int { return i })
	e, err := parser.Expr()
	var target quantity.Target
	if err == nil {
		target, err = parser.Target()
	}
	if err == nil {
		err = parser.End()
	}
	if err != nil {
		list.FromQuantity(f, err)
		return nil, target, quantity.Quantity{}
	}
	v, errs := quantity.Eval(e, quantity.Env{})
	for _, err := range errs {
		list.FromQuantity(f, err)
	}
	q, _ := v.(quantity.Quantity)
	if len(errs) > 0 || !target.HasUnit {
		return e, target, q
	}
	converted, ok := q.In(target.Unit)
	if !ok {
		list.Error(f, source.Span(target.UnitAt), "mixed-dimensions",
			"this comes out as "+q.Unit.Dimension().String()+" and cannot be given in "+target.Unit.String(),
			"ask for one of "+strings.Join(quantity.UnitsOf(q.Unit.Dimension()), " "))
	}
	return e, target, converted
}
