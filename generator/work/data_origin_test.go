package work_test

import (
	"strings"
	"testing"

	"trundle/generator/parse"
	"trundle/generator/source"
	"trundle/generator/table"
	"trundle/generator/work"
)

// Readings of Gull: 121, 119, 123 cm, and 10, -10, 30 mm; a target of 120 cm.
const (
	gullRuns = "base,run,stop (cm),drift (mm)\nGull,1,121,10\nGull,2,119,-10\nGull,3,123,30\nTern,1,110,100\n" +
		"Tern,2,130.5,300\n"
	gullBlock = "```runs data/bases.csv\ngroup base\nalong stop in cm = 120 cm\nacross drift in mm\nlength 100 cm\n```\n"
)

// askedOf works a lesson out whose finds come after a block, and lists what they ask for.
func askedOf(t *testing.T, csv, block, finds string) (*work.Data, map[string]*work.Answer, []string) {
	t.Helper()
	kits, _ := parse.Kits(source.NewFile("kits.yaml",
		[]byte("heron: {title: Heron, wheel: 65 mm, track: 112 mm, gear: 1}\n")))
	text := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n" + block + "\n```work\n" + finds + "\n```\n"
	l, found := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(text)))
	file, more := table.Read(source.NewFile("data/bases.csv", []byte(csv)), nil)
	found.Join(more)
	w, more := work.ForKit(l, kits[0], map[string]*table.Table{"data/bases.csv": file})
	found.Join(more)
	var cautions []string
	for _, p := range found.Sorted() {
		if p.Slug != "key-in-figure" {
			t.Fatalf("%d: %s", p.File.Position(p.Span.Start).Line, p.What)
		}
		cautions = append(cautions, p.What)
	}
	return w.Data[0], answersIn(w.Data[0]), cautions
}

// answersIn lists the hidden numbers of a block: "Gull along mean".
func answersIn(d *work.Data) map[string]*work.Answer {
	all := map[string]*work.Answer{}
	add := func(name string, a *work.Answer) {
		if a != nil {
			all[name] = a
		}
	}
	for _, m := range d.Measured {
		for i, a := range m.Answers {
			name := m.Groups[i].Name + " " + m.Line.Column + " "
			add(name+"mean", a.Mean)
			add(name+"without", a.Without)
			add(name+"s", a.SD)
			add(name+"least", a.Least)
			add(name+"most", a.Most)
			add(name+"error", a.Bias)
			add(name+"percent", a.Percent)
			add(name+"angle", a.Angle)
		}
	}
	for i, p := range d.Poses {
		add(d.Measured[0].Groups[i].Name+" accuracy", p.AccuracyAnswer)
		add(d.Measured[0].Groups[i].Name+" repeatability", p.RepeatabilityAnswer)
	}
	for i, c := range d.CycleAnswers {
		for k, a := range c {
			add(d.Cycles[i].Name+[]string{" built", " swapped"}[k]+" mean", a.Mean)
			add(d.Cycles[i].Name+[]string{" built", " swapped"}[k]+" s", a.SD)
			add(d.Cycles[i].Name+[]string{" built", " swapped"}[k]+" mismatch", a.Mismatch)
		}
	}
	return all
}

// TestAStatisticIsHiddenWhereAFindAsksForItInWhateverForm goes through the statistics of a group: the
// same readings in another unit, order, sign or formula are the same statistic.
func TestAStatisticIsHiddenWhereAFindAsksForItInWhateverForm(t *testing.T) {
	for _, c := range []struct{ name, finds, hidden, program string }{
		{"a mean of typed readings", `find m in cm to 0.1 = mean(121 cm, 119 cm, 123 cm) "Mean"`, "Gull stop mean", "m"},
		{"in another unit", `find m in in to 0.1 = mean(1210 mm, 1.19 m, 123 cm) "Mean"`, "Gull stop mean", "m 127 * 50 /"},
		{"rounded to whole metres", `find m in m to 1 = mean(121 cm, 119 cm, 123 cm) "Mean"`, "Gull stop mean", "m 100 *"},
		{"in another order", `find m in cm to 0.1 = mean(123 cm, 121 cm, 119 cm) "Mean"`, "Gull stop mean", "m"},
		{"as a sum over a count", `find m in cm to 0.1 = (121 cm + 119 cm + 123 cm) / 3 "Mean"`, "Gull stop mean", "m"},
		{"of a record", "record r[3] in cm to 1 = 121, 119, 123 \"Stops\"\nfind m in cm to 0.1 = mean(r) \"Mean\"",
			"Gull stop mean", "m"},
		{"of givens", "given a = 121 cm \"A\"\ngiven b = 119 cm \"B\"\ngiven c = 1.23 m \"C\"\n" +
			"find m in cm to 0.1 = mean(a, b, c) \"Mean\"", "Gull stop mean", "m"},
		{"with its sign turned", `find m in cm to 0.1 = -mean(121 cm, 119 cm, 123 cm) "Mean"`, "Gull stop mean", "m ~"},
		{"a standard deviation", `find s in mm to 1 = stdev(121 cm, 119 cm, 123 cm) "s"`, "Gull stop s", "s 10 /"},
		{"an error", `find e in mm to 1 = mean(121 cm, 119 cm, 123 cm) - 1.2 m "Error"`, "Gull stop error", "e 10 /"},
		{"an error the other way round", `find e in mm to 1 = 120 cm - mean(121 cm, 119 cm, 123 cm) "Error"`,
			"Gull stop error", "e 10 / ~"},
		{"a percent error", `find p in % to 0.1 = percent_error(mean(121 cm, 119 cm, 123 cm), 120 cm) "Percent"`,
			"Gull stop percent", "p 100 /"},
		{"a mean sideways", `find d in cm to 0.1 = mean(10 mm, -10 mm, 30 mm) "Drift"`, "Gull drift mean", "d 10 *"},
		{"a drift angle", `find a in deg to 0.1 = drift_angle(mean(10 mm, -10 mm, 30 mm), 1 m) "Angle"`,
			"Gull drift angle", "a"},
		{"an accuracy", `find q in mm to 1 = sqrt((mean(121 cm, 119 cm, 123 cm) - 120 cm)^2 + mean(10 mm, -10 mm, ` +
			`30 mm)^2) "AP"`, "Gull accuracy", "q 10 /"},
		{"other readings", `find m in cm to 0.1 = mean(121 cm, 119 cm, 123.1 cm) "Mean"`, "", ""},
		{"fewer readings", `find m in cm to 0.1 = mean(121 cm, 120 cm) "Mean"`, "", ""},
		{"another statistic that comes to the same", `find m in cm to 0.1 = median(121 cm, 119 cm, 123 cm) "Median"`, "", ""},
		{"the same number from other things", `find m in cm to 0.1 = 2 * 60.5 cm "Twice"`, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, answers, _ := askedOf(t, gullRuns, gullBlock, c.finds)
			var got []string
			for name := range answers {
				got = append(got, name)
			}
			if strings.Join(got, ", ") != c.hidden {
				t.Fatalf("hidden: %q, want %q", got, c.hidden)
			}
			if c.hidden != "" && string(answers[c.hidden].Program) != c.program {
				t.Errorf("it opens with %q, want %q", answers[c.hidden].Program, c.program)
			}
		})
	}
}

// TestOddRunsAndCyclesAreHiddenToo: a mean without odd runs, a mismatch and a drift per cycle.
func TestOddRunsAndCyclesAreHiddenToo(t *testing.T) {
	const odd = "base,stop (cm)\nGull,100\nGull,101\nGull,102\nGull,103\nGull,104\nGull,250\n"
	_, answers, _ := askedOf(t, odd, "```runs data/bases.csv\ngroup base\nalong stop\n```\n",
		`find m in cm to 1 = mean(100 cm, 101 cm, 102 cm, 103 cm, 104 cm) "Without the odd one"`)
	if len(answers) != 1 || answers["Gull stop without"] == nil {
		t.Errorf("odd runs: %v", answers)
	}
	const cycles = "base,cycle,off (mm)\nGull,1,10\nGull,2,21\nGull,3,29\n"
	_, answers, _ = askedOf(t, cycles,
		"```runs data/bases.csv\ngroup base\ncycle cycle\nacross off in mm\nlength 1 m\ntrack 112 mm\n```\n",
		"find d in mm to 0.1 = mean(10 mm, 21 mm - 10 mm, 29 mm - 21 mm) \"Mean step\"\n"+
			`find s in mm to 0.1 = stdev(10 mm, 21 mm - 10 mm, 29 mm - 21 mm) "How much steps scatter"`)
	if len(answers) != 2 || answers["Gull built mean"] == nil || answers["Gull built s"] == nil {
		t.Errorf("cycles: %v", answers)
	}
}

// TestTwoFindsThatAskForOneNumberMustBothBeRight: else the one would give the other away.
func TestTwoFindsThatAskForOneNumberMustBothBeRight(t *testing.T) {
	_, answers, _ := askedOf(t, gullRuns, gullBlock,
		"find m in cm to 0.1 = mean(121 cm, 119 cm, 123 cm) \"Mean\"\nfind k in mm to 1 = mean(121 cm, 119 cm, 123 "+
			"cm) \"Again\"")
	a := answers["Gull stop mean"]
	if a == nil || strings.Join(a.Finds, " ") != "m k" {
		t.Errorf("the mean is hidden by %+v", a)
	}
}

// TestAnEqualNumberOfUnknownOriginIsShownWithACaution: in the find's unit and to its last digit only,
// and not where the answer is each team's own.
func TestAnEqualNumberOfUnknownOriginIsShownWithACaution(t *testing.T) {
	for _, c := range []struct {
		name, finds, caution string
	}{
		{"typed means", `find m in cm to 0.1 = 2 * 60.5 cm "Twice"`,
			"students see the mean of Gull here, and it is the same number as the answer to m on line 15"},
		{"to the find's last digit", `find m in cm to 1 = 2 * 60.3 cm "Twice"`,
			"students see the mean of Gull here, and it is the same number as the answer to m on line 15"},
		{"in another unit", `find m in mm to 1 = 2 * 605 mm "Twice"`, ""},
		{"of another kind", `find m in s to 0.1 = 2 * 60.5 s "Twice"`, ""},
		{"of what a team measures", "measure a = 60.5 cm \"A\"\nfind m in cm to 0.1 = 2 * a \"Twice\"", ""},
		{"of the target", `find m in cm to 0.1 = 2 * 60 cm "Twice"`,
			"students see the target here, and it is the same number as the answer to m on line 15"},
		{"of a target that the lesson gives", "given L = 1.2 m \"L\"\nfind m in cm to 0.1 = 2 * 60 cm \"Twice\"", ""},
		{"that is tied", `find m in cm to 0.1 = mean(121 cm, 119 cm, 123 cm) "Mean"`, ""},
	} {
		_, _, cautions := askedOf(t, gullRuns, gullBlock, c.finds)
		if got := strings.Join(cautions, "; "); got != c.caution {
			t.Errorf("%s: the caution is %q, want %q", c.name, got, c.caution)
		}
	}
}

// TestALineThroughAllRunsHasAName: it has no group whose name could stand there.
func TestALineThroughAllRunsHasAName(t *testing.T) {
	_, _, cautions := askedOf(t, "turns (rot),stop (cm)\n1,21\n2,41\n3,61\n",
		"```chart data/bases.csv\ntitle \"T\"\nfitted stop in cm over turns\n```\n",
		"find k in cm/rot to 0.1 = 2 * 10 cm / (1 rot) \"Slope\"")
	const want = "students see the slope of all runs here"
	if len(cautions) == 0 || !strings.HasPrefix(cautions[0], want) {
		t.Errorf("the cautions are %q, want one that begins %q", cautions, want)
	}
}

// TestACriterionIsHiddenWhereAFindAsksForIt: how far off, and the points for it.
func TestACriterionIsHiddenWhereAFindAsksForIt(t *testing.T) {
	const block = "```compare data/bases.csv\ngroup base\nnear stop = 120 cm within 6 cm \"Near\"\n" +
		"steady stop within 30 cm \"Steady\"\n```\n"
	for finds, want := range map[string]string{
		`find e in cm to 0.1 = mean(121 cm, 119 cm, 123 cm) - 120 cm "Off"`:                          "off",
		`find s in % to 1 = (6 cm - (mean(121 cm, 119 cm, 123 cm) - 120 cm)) / (6 cm) "Share"`:       "score",
		`find e in cm to 0.1 = mean(121 cm, 119 cm, 123 cm) - 121 cm + 1 cm * (1 - 1) "Another aim"`: "",
	} {
		d, _, _ := askedOf(t, gullRuns, block, finds)
		near, got := d.Comparison.Criteria[0], ""
		if near.Answers[0] != nil {
			got += "off"
		}
		if near.ScoreAnswers[0] != nil {
			got += "score"
		}
		if got != want {
			t.Errorf("%s hides %q, want %q", finds, got, want)
		}
		if near.Answers[1] != nil || d.Comparison.Criteria[1].Answers[0] != nil {
			t.Errorf("%s hides what it does not ask for", finds)
		}
	}
}

// TestWhatMentorsFindHidesNothing: students do not see those finds, and no name of theirs may show.
func TestWhatMentorsFindHidesNothing(t *testing.T) {
	_, answers, _ := askedOf(t, gullRuns, gullBlock, "given x = 1 cm \"X\"\n```\n\n> Mentor: Look.\n>\n> ```work\n"+
		"> find m in cm to 0.1 = mean(121 cm, 119 cm, 123 cm) \"Mean\"\n> ```\n\n```work\ngiven y = 1 cm \"Y\"")
	if len(answers) != 0 {
		t.Errorf("hidden: %v", answers)
	}
}

// TestANumberThatNoReadingMovesIsNoCalculation: no points at all are not the answer to a difference that
// happens to be nothing.
func TestANumberThatNoReadingMovesIsNoCalculation(t *testing.T) {
	const block = "```compare data/bases.csv\ngroup base\nnear stop = 120 cm within 1 mm \"Near\"\n```\n"
	d, _, _ := askedOf(t, gullRuns, block, `find z in % to 1 = (5 cm - 5 cm) / (2 cm) "Nothing"`)
	for i, a := range d.Comparison.Criteria[0].ScoreAnswers {
		if a != nil {
			t.Errorf("the points of group %d are hidden", i)
		}
	}
}
