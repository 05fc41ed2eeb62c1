package site_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/tally"
	"trundle/site"
)

// sentences gives the sentences of one column, s in cm, of runs written as in a file.
func sentences(t *testing.T, target string, rows ...string) []string {
	t.Helper()
	s, err := site.New("en")
	if err != nil {
		t.Fatal(err)
	}
	o := tally.Options{Targets: map[string]quantity.Quantity{}}
	if target != "" {
		e, problem := quantity.ParseExpr(target)
		if problem != nil {
			t.Fatal(problem.What)
		}
		v, _ := quantity.Eval(e, quantity.Env{})
		o.Targets["s"] = v.(quantity.Quantity)
	}
	report, problems := tally.Of([]*source.File{source.NewFile("a.csv",
		[]byte("base,s (cm)\n"+strings.Join(rows, "\n")+"\n"))}, o)
	if problems.HasErrors() {
		t.Fatal(problems.Sorted()[0].What)
	}
	table := s.TallyTables(report)[0]
	return slices.Concat(table.Look, table.Says)
}

// TestWhatIsSaidOfTwoGroups works each chance out by another way: for two groups of two with
// equal spreads the degrees of freedom are 2, where p = 1 − t ÷ √(2 + t²) (closed form).
func TestWhatIsSaidOfTwoGroups(t *testing.T) {
	closed := func(t float64) float64 { return 1 - t/math.Sqrt(2+t*t) }
	// Means 1 and 21, s = √2 each, so that t = 20 ÷ √2 and p is about 1 in 201: 1 in 200.
	if p := closed(20 / math.Sqrt2); math.Abs(1/p-201) > 1 {
		t.Fatalf("by hand it is 1 in %g", 1/p)
	}
	// With s = 1.258 each and 4 degrees of freedom, where p = 1 − t·(6 + t²) ÷ (4 + t²)^(3/2), the means
	// 0.333 and 21.167 from 100 have t = 20.2777 and 1 in 28,637 (worked out to 50 digits).
	for _, c := range []struct {
		name, target string
		rows         []string
		want         []string
	}{
		{"apart", "0 cm", []string{"Heron,0", "Heron,2", "Coot,20", "Coot,22"},
			[]string{"On average, Heron comes nearer to the target than Coot; that is more than chance (about 1 in 200)."}},
		{"apart from a place", "100 cm", []string{"Heron,99", "Heron,101.5", "Coot,120", "Coot,122.5", "Coot,121",
			"Heron,100.5"},
			[]string{"On average, Heron stops nearer than Coot; that is more than chance (about 1 in 30,000)."}},
		{"more", "", []string{"Heron,0", "Heron,2", "Coot,20", "Coot,22"},
			[]string{"On average, Coot has larger values than Heron; that is more than chance (about 1 in 200)."}},
		{"together", "0 cm", []string{"Heron,1", "Heron,5", "Heron,1", "Heron,5", "Coot,2.5", "Coot,6.5",
			"Coot,2.5", "Coot,6.5"},
			[]string{"4 runs each are not enough to tell Heron and Coot apart; it would take about 39 each."}},
		{"never", "0 cm", []string{"Heron,1", "Heron,5", "Coot,1.01", "Coot,5.01", "Coot,3"},
			[]string{"2 and 3 runs are not enough to tell Heron and Coot apart; even 1,000 each would not be enough."}},
		{"the same", "0 cm", []string{"Heron,1", "Heron,5", "Coot,1", "Coot,5"},
			[]string{"Heron and Coot come out the same."}},
		{"no spread", "0 cm", []string{"Heron,1", "Heron,1", "Coot,2", "Coot,2"}, []string{
			"Heron: all runs are equal. Were they measured finely enough?",
			"Coot: all runs are equal. Were they measured finely enough?",
			"Heron and Coot: all runs of a group are equal, so there is nothing to judge chance by. Measure to a finer step."}},
		{"one run", "0 cm", []string{"Heron,1", "Coot,2", "Coot,3"}, []string{
			"Heron: one run has no spread.",
			"Heron and Coot cannot be compared yet: fewer than two runs of Heron, so there is no spread to judge by."}},
		{"odd and empty", "", []string{"Heron,10.1", "Heron,10.2", "Heron,10.4", "Heron,10.3", "Heron,14", "Heron,"},
			[]string{
				"Heron: the run of 14.0\u00a0cm (a.csv:6) is far from the others. Look at it before you believe it. It is " +
					"still counted.",
				"Heron: mean 11.0\u00a0cm with all runs, 10.3\u00a0cm without the ones far off.",
				"Heron: runs without a number: 1"}},
		{"surely apart", "", []string{"Heron,1", "Heron,1.0001", "Heron,1.0002", "Heron,1.0001", "Coot,900",
			"Coot,900.0001", "Coot,900.0002", "Coot,900"},
			[]string{"On average, Coot has larger values than Heron; that is more than chance (less than 1 in a million)."}},
	} {
		got := sentences(t, c.target, c.rows...)
		for i := range got {
			got[i] = strings.ReplaceAll(got[i], " cm", "\u00a0cm")
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s:\ngot  %q\nwant %q", c.name, got, c.want)
		}
	}
}

// TestWhatIsSaidHoldsForEitherSideAndEitherNumber has means on both sides of the target, and
// groups of unequal size.
func TestWhatIsSaidHoldsForEitherSideAndEitherNumber(t *testing.T) {
	for _, c := range []struct {
		target, want string
		rows         []string
	}{
		{"100 cm", "Heron and Coot come out equally far from the target, on opposite sides of it.",
			[]string{"Heron,99.8", "Heron,100", "Coot,100", "Coot,100.2"}},
		{"100 cm", "5 and 3 runs are not enough to tell Heron and Coot apart",
			[]string{"Heron,99", "Heron,101", "Heron,100.2", "Heron,99.4", "Heron,100.8", "Coot,101", "Coot,97", "Coot,104"}},
	} {
		if got := strings.Join(sentences(t, c.target, c.rows...), "\n"); !strings.Contains(got, c.want) {
			t.Errorf("it says %q, want %q", got, c.want)
		}
	}
}
