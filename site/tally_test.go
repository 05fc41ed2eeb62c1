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

// TestWhatIsSaidOfTwoGroups works the chance out by another way: for two groups of three with equal spreads the degrees
// of freedom are 4, where p = 1 − t·(6 + t²) ÷ (4 + t²)^(3/2) (closed form). Means 1 and 21 with s = 1 each have
// t = 20 ÷ √(2/3), so that p is 1 in 60,668.
func TestWhatIsSaidOfTwoGroups(t *testing.T) {
	square := 20 * 20 * 1.5
	if p := 1 - math.Sqrt(square)*(6+square)/math.Pow(4+square, 1.5); math.Abs(1/p-60668) > 1 {
		t.Fatalf("by hand it is 1 in %g", 1/p)
	}
	const aimed = "Aim: the mean of Heron is nearer to the target than that of Coot; that is more than chance " +
		"(about 1 in 60,000)."
	const coarse = ": all runs are equal. Chance is never that small: the reading was too coarse to see it. " +
		"Measure to a finer step."
	for _, c := range []struct {
		name, target string
		rows         []string
		want         []string
	}{
		{"apart", "0 cm", []string{"Heron,0", "Heron,1", "Heron,2", "Coot,20", "Coot,21", "Coot,22.000"},
			[]string{"On average, a run of Heron comes nearer to the target than a run of Coot; that is more than chance " +
				"(about 1 in 60,000).", aimed}},
		{"apart from a place", "100 cm", []string{"Heron,100", "Heron,101", "Heron,102", "Coot,120", "Coot,121",
			"Coot,122.000"},
			[]string{"On average, a run of Heron ends nearer than a run of Coot; that is more than chance (about 1 in 60,000).",
				aimed}},
		{"more", "", []string{"Heron,0", "Heron,1", "Heron,2", "Coot,20", "Coot,21", "Coot,22.000"},
			[]string{"On average, Coot has larger values than Heron; that is more than chance (about 1 in 60,000)."}},
		{"together", "0 cm", []string{"Heron,1", "Heron,5", "Heron,1", "Heron,5", "Coot,2.5", "Coot,6.5",
			"Coot,2.5", "Coot,6.5"},
			[]string{"Whose run comes nearer to the target, Heron's or Coot's: these runs cannot tell. That does not say that " +
				"they are equal.", "Aim: whose mean is nearer to the target, Heron's or Coot's, these runs cannot tell."}},
		{"equal means", "", []string{"Heron,1", "Heron,5", "Heron,3", "Coot,1", "Coot,5", "Coot,3"},
			[]string{"Whose values are larger, Heron's or Coot's: these runs cannot tell. That does not say that they " +
				"are equal."}},
		{"no spread", "", []string{"Heron,1", "Heron,1", "Heron,1", "Coot,2", "Coot,2", "Coot,2"}, []string{
			"Heron" + coarse,
			"Coot" + coarse,
			"On average, Coot has larger values than Heron; that is more than chance (about 1 in 76)."}},
		{"two runs", "0 cm", []string{"Heron,1", "Coot,2", "Coot,3"}, []string{
			"Heron: one run has no spread.",
			"Heron and Coot cannot be compared yet: fewer than three runs of Heron and Coot. With so few, chance looks like a " +
				"difference too often."}},
		{"odd and empty", "", []string{"Heron,10.1", "Heron,10.2", "Heron,10.4", "Heron,10.3", "Heron,14", "Heron,",
			"Heron,10.2"},
			[]string{
				"Heron: the run of 14.0\u00a0cm (a.csv:6) is far from the others. Look at it before you believe it. It is " +
					"still counted.",
				"Heron: mean 10.9\u00a0cm with all runs, 10.2\u00a0cm without the ones far off.",
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

// TestNearAndAimAreToldApart has a base that is right on average and scatters widely, and one that is always a little
// off.
func TestNearAndAimAreToldApart(t *testing.T) {
	got := strings.Join(sentences(t, "100 cm", "Wide,94", "Wide,106", "Wide,95", "Wide,105", "Wide,93", "Wide,107",
		"Off,101", "Off,101.3", "Off,100.8", "Off,101.1", "Off,100.9", "Off,101.2"), "\n")
	for _, want := range []string{"On average, a run of Off ends nearer than a run of Wide; that is more than chance",
		"Aim: whose mean is nearer to the target, Wide's or Off's, these runs cannot tell."} {
		if !strings.Contains(got, want) {
			t.Errorf("it says %q, want %q", got, want)
		}
	}
}
