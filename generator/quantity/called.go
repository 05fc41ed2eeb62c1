package quantity

// This file says what functions are called here that people know by another name.

// calledHere has names in small letters, from schoolbooks and calculators, and what to write instead.
var calledHere = map[string]string{
	"average": "mean", "avg": "mean", "total": "sum", "minimum": "min", "maximum": "max", "spread": "range",
	"std": "stdev, or population_stdev for all there are", "sd": "stdev, or population_stdev for all there are",
	"stddev": "stdev, or population_stdev for all there are", "stdevp": "population_stdev",
	"variance": "stdev(…) ^ 2", "var": "stdev(…) ^ 2", "sem": "stderr", "mad": "mean_absolute_deviation",
	"q1": "lower_quartile", "quartile1": "lower_quartile", "first_quartile": "lower_quartile",
	"q3": "upper_quartile", "quartile3": "upper_quartile", "third_quartile": "upper_quartile",
	"quartile": "lower_quartile or upper_quartile", "iqr": "upper_quartile(…) − lower_quartile(…)",
	"interquartile_range": "upper_quartile(…) − lower_quartile(…)",
	"int":                 "floor", "trunc": "floor", "rounddown": "floor", "round_down": "floor",
	"ceiling": "ceil", "roundup": "ceil", "round_up": "ceil",
	"remainder": "mod", "modulo": "mod", "rem": "mod",
	"countif": "count with a comparison, as in count(s within 2 cm of L)",
	"slope":   "fit_slope(y, x)", "intercept": "fit_intercept(y, x)", "root": "sqrt", "arctan": "atan",
	"and": "if, as in if(a < b, c < d, no)", "or": "if, as in if(a < b, yes, c < d)",
	"not": "if, as in if(a < b, no, yes)",
}
