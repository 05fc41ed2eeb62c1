package hostile

// Blocks of a lesson: work, runs and what reads them, gauges.

import (
	"fmt"
	"strings"
)

// all writes n of a text with # for each number, joined.
func all(n int, format, joint string) string {
	return strings.TrimSuffix(numbered(n, format+joint), joint)
}

func work(l *list) {
	for name, text := range map[string]string{
		"chained 150 long":         "given f0 = 1\n" + chain(150, "f%[2]d + 1"),
		"chained 480 long":         "given f0 = 1\n" + chain(480, "f%[2]d + 1"),
		"doubled 60 long":          "given f0 = 1\n" + chain(60, "f%[2]d + f%[2]d"),
		"squared 60 long":          "given f0 = 2\n" + chain(60, "f%[2]d * f%[2]d"),
		"each of all before":       "given g0 = 1\n" + sums(100),
		"of itself":                "find q = q + 1\n",
		"of each other":            "find q = r\nfind r = q\n",
		"a circle of a measure":    "measure q = q\n",
		"too many":                 numbered(700, "given z# = #\n"),
		"8,000":                    numbered(8000, "given z# = #\n"),
		"a name twice":             "given C = 1\n",
		"a name that scripts know": "find constructor = L \"a\"\nfind __proto__ = L \"b\"\n",
		"brackets 400 deep":        "find q = " + strings.Repeat("(", 400) + "1" + strings.Repeat(")", 400) + "\n",
		"signs 400 long":           "find q = " + strings.Repeat("-", 400) + "1\n",
		"a line of 12 kB":          "find q = " + all(2500, "L", " + ") + "\n",
		"a block of 12 kB":         "find q =\n" + strings.Repeat("  + L\n", 2000),
		"a vast power":             "find q = 10^10^10\n",
		"nothing divided":          "find q = L / 0\n",
		"a vast unit":              "find q = (1 km)^200 * 1 s\n",
		"a number of 4,000 digits": "given q = " + strings.Repeat("9", 4000) + "\n",
		"a record of 10,000":       "record q[10000] in cm to 0.1 = " + strings.Repeat("1, ", 10) + "2 \"Q\"\n",
		"a record of few":          "record q[3] in cm to 0.1 = 1 \"Q\"\n",
		"a record of samples":      "record q[3000] in cm = " + strings.Repeat("1, ", 2999) + "2 \"Q\"\n",
		"a prompt of 10 kB":        "find q = L \"" + strings.Repeat("a ", 5000) + "\"\n",
		"a prompt without an end":  "find q = L \"a\n",
		"choices of 500":           "choose q \"Which?\"\n" + numbered(500, "  \"a#\" no \"b\"\n"),
		"unknown words":            strings.Repeat("fnd q = 1\n", 400),
		"noise":                    strings.Repeat("=\"#,;:[](){}±²³½ \n", 400),
		"a key of another unit":    "find q = L \"a\"\nkey q = 3 s\n",
		"a key far off":            "find q = L \"a\"\nkey q = 3 km\n",
		"varied by 10^27":          "vary L 1 cm to 1e27 cm by 1 cm\n",
		"nothing":                  "",
		"functions of nothing":     "find q = mean() + sqrt() + nope(1)\n",
		"roots below nothing":      "find q = sqrt(0 - 1)\n",
		"a unit that is not":       "given q = 3 blips\n", "no break": "given q = 1 given r = 2\n",
		"rounded to 10^-300": "find q in cm to 1e-300 = L \"a\"\n",
		"rounded to nothing": "find q in cm to 0 = L \"a\"\n",
	} {
		l.block("work blocks", name, "work", text)
	}
	l.body("work blocks", "500 blocks", strings.Repeat("```work\n# a\n```\n\n", 500))
}

// chain finds names, each of the one before.
func chain(n int, format string) string {
	var b strings.Builder
	for i := 1; i < n; i++ {
		fmt.Fprintf(&b, "find f%[1]d = "+format+" \"a\"\n", i, i-1)
	}
	return b.String()
}

// sums finds names, each the sum of all before.
func sums(n int) string {
	var b strings.Builder
	for i := 1; i < n; i++ {
		fmt.Fprintf(&b, "find g%d =", i)
		for j := range i {
			if j > 0 {
				b.WriteString(" +")
			}
			fmt.Fprintf(&b, " g%d", j)
		}
		b.WriteString(" \"a\"\n")
	}
	return b.String()
}

func dataBlocks(l *list) {
	for _, kind := range []string{"runs", "chart", "compare", "readers", "show"} {
		for name, text := range map[string]string{
			"nothing":                    "",
			"noise":                      strings.Repeat("=\"#,;:[](){}±²³½ \n", 400),
			"a column that is not there": "group nope\nalong nope in cm \"a\"",
			"the same line 500 times":    strings.Repeat("group base\n", 500),
			"a tolerance of nothing":     "group base\nnear stop = 120 cm within 0 cm",
		} {
			l.block(kind, name, kind+" data/a.csv", text)
		}
		l.block(kind, "a file that leads out", kind+" ../../etc/passwd", "group base")
		l.block(kind, "a file that is not there", kind+" data/nope.csv", "group base")
		l.block(kind, "no file", kind, "group base")
	}
	for name, text := range map[string]string{
		"dots from 10^300": "title \"T\"\ngroup base\ndots stop in cm = 1e300 cm \"S\"",
		"no title":         "group base\ndots stop in cm \"S\"",
		"a wrong unit":     "title \"T\"\ngroup base\ndots stop in s \"S\"",
	} {
		l.block("chart", name, "chart data/a.csv", text)
	}
	for name, text := range map[string]string{
		"of 400 figures":     strings.Repeat("laps L by C until C \"How many?\"\n", 400),
		"magnified by 10^9":  "path s over L times 1000000000 \"Seen\"",
		"of an unknown name": "unroll nope until C \"x\"", "until what is not found": "unroll d until L \"x\"",
	} {
		l.block("show", name, "show", text)
	}
	l.body("chart", "40 charts",
		strings.Repeat("```chart data/a.csv\ntitle \"T\"\ngroup base\ndots stop in cm \"S\"\n```\n\n", 40))
}

func gauges(l *list) {
	for _, gauge := range []string{"ruler 1e-9 mm \"x\"", "ruler 0 cm \"x\"", "ruler -5 cm \"x\"",
		"ruler 1e300 cm \"x\"", "fan 0 \"F\"",
		"target nope \"T\"", "rose 11 s \"R\"", "ruler 12 in to 1/4096 \"R\"", "squares 12 cm \"\"",
		"squares 12 cm \"a / b / c\"", "wrap 9 km \"W\"",
		"nope 1 cm \"N\"", "ruler", "ruler 16 cm \"", "ruler C \"own\"", "ruler kit.nope \"x\""} {
		l.block("gauges", fmt.Sprintf("%.40q", gauge), "gauge", gauge)
	}
	l.block("gauges", "a caption of 10 kB", "gauge", "ruler 16 cm \""+strings.Repeat("a ", 5000)+"\"")
	l.block("gauges", "400 in a block", "gauge", strings.Repeat("ruler 16 cm \"x\"\n", 400))
	l.body("gauges", "400 blocks", strings.Repeat("```gauge\nruler 16 cm \"x\"\n```\n\n", 400))
}
