package quantity

// What each formula says, in the words that a class calls its parts by: for whoever has paper and no steps to look at.

import "strings"

// relations are written in the language of formulas; _ stands for a blank. Of two, the second is the one with the
// optional parameter. A function of mathematics has none: what it is applied to is the author's own calculation, and to
// write that down would be to solve it.
var relations = map[string][]string{
	"circumference":      {"circumference = pi * diameter"},
	"rotations":          {"rotations = distance / circumference", "rotations = distance / circumference * gear_ratio"},
	"distance":           {"distance = rotations * circumference", "distance = rotations * circumference / gear_ratio"},
	"percent_error":      {"percent_error = abs(measured - expected) / expected * 100 %"},
	"effective_diameter": {"effective_diameter = distance / (pi * rotations)"},
	"correction":         {"correction = commanded / measured"},
	"drift_angle":        {"drift_angle = atan(sideways / forward)"},
	"wheel_mismatch":     {"wheel_mismatch = 2 * track * sideways / (forward ^ 2 + sideways ^ 2)"},
	"spin_turn":          {"rotations = angle / (360 deg) * (track / wheel_diameter)"},
	"pivot_turn":         {"rotations = angle / (360 deg) * (2 * track / wheel_diameter)"},
	"arc":                {"arc = angle / (360 deg) * (2 * pi * radius)"},
	"speed":              {"speed = distance / time"},
	"travel_time":        {"time = distance / speed"},
	"vapour_ppm":         {"vapour = mass / molar_mass * 24450 mL/mol / room"},

	"mean":   {"mean = sum_of_all_values / how_many_there_are"},
	"median": {"median = the_middle_one_of_the_values_in_order"},
	"stdev":  {"standard_deviation = sqrt(sum_of_all_distances_from_the_mean_squared / (how_many_there_are - 1))"},
	"stderr": {"standard_error = standard_deviation / sqrt(how_many_there_are)"},
	"range":  {"spread = largest - smallest"},
	"min":    {"least = the_smallest_of_the_values"},
	"max":    {"most = the_largest_of_the_values"},
	"sum":    {"sum = all_values_added_up"},
	"count":  {"number = how_many_there_are"},

	"lower_quartile": {"lower_quartile = the_middle_one_of_the_lower_half_of_the_values"},
	"upper_quartile": {"upper_quartile = the_middle_one_of_the_upper_half_of_the_values"},
	"mode":           {"mode = the_value_that_comes_most_often"},
	"population_stdev": {
		"standard_deviation = sqrt(sum_of_all_distances_from_the_mean_squared / how_many_there_are)"},
	"mean_absolute_deviation": {"mean_absolute_deviation = sum_of_all_distances_from_the_mean / how_many_there_are"},

	"fit_slope":          {"slope = rise_of_the_line / step_across"},
	"fit_intercept":      {"start = height_of_the_line_where_across_is_0"},
	"fit_through_origin": {"slope = height_of_the_line_through_0 / distance_across"},
}

// RelationOf gives what the formula of a call says: rotations = distance ÷ circumference. It has none of the call's own
// values. Anything else than a single call is the author's own calculation, of which nothing is said.
func RelationOf(e Expr) (WorkedStep, bool) {
	call, ok := e.(*Call)
	if !ok {
		return WorkedStep{}, false
	}
	f := call.Formula()
	if f != nil && f.own {
		return f.relation(), true
	}
	said := relations[call.Name]
	if f == nil || len(said) == 0 {
		return WorkedStep{}, false
	}
	text := said[0]
	if f.optional() > 0 && len(call.Args) == len(f.Params) {
		text = said[len(said)-1]
	}
	if len(call.Args) > 0 && call.Name == "count" {
		if _, compares := call.Args[0].(*Comparison); compares {
			text = "number = how_often_that_is_so"
		}
	}
	left, right, _ := strings.Cut(text, " = ")
	words := layout{leaf: wordLeaf, env: Env{}}
	meant := words.math(mustParse(right))
	return WorkedStep{Kind: FormulaStep, Left: Word{blanks(left)}, Relation: "=", Right: meant}, true
}

// wordLeaf writes names as words.
func wordLeaf(e Expr) Math {
	switch e := e.(type) {
	case *Name:
		if e.Text == "pi" {
			return SymbolOf(e.Text)
		}
		return Word{blanks(e.Text)}
	case *Literal:
		return Shown{e.Number.Text, e.Unit.Symbol()}
	}
	return Word{e.String()}
}

func blanks(name string) string { return strings.ReplaceAll(name, "_", " ") }
