package work_test

import (
	"math"
	"testing"

	"trundle/generator/parse"
	"trundle/generator/source"
	"trundle/generator/table"
	"trundle/generator/work"
)

const bases = "base,run,stop (cm),drift (mm)\nHeron,1,121,10\nHeron,2,119,-10\nHeron,3,123,30\nCoot,1,110,100\n" +
	"Coot,2,130,300\n"

// data works a lesson out that has one file of runs, and gives its blocks.
func data(t *testing.T, body string) []*work.Data {
	t.Helper()
	return dataOf(t, bases, body)
}

func dataOf(t *testing.T, csv, body string) []*work.Data {
	t.Helper()
	kits, _ := parse.Kits(source.NewFile("kits.yaml",
		[]byte("heron: {title: Heron, wheel: 65 mm, track: 112 mm, gear: 1}\n")))
	text := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n" + body
	l, found := parse.Lesson(parse.NewMarkdown(), source.NewFile("01-t.md", []byte(text)))
	file, more := table.Read(source.NewFile("data/bases.csv", []byte(csv)), nil)
	found.Join(more)
	w, more := work.ForKit(l, kits[0], map[string]*table.Table{"data/bases.csv": file})
	found.Join(more)
	for _, p := range found.Sorted() {
		t.Fatalf("%d: %s", p.File.Position(p.Span.Start).Line, p.What)
	}
	return w.Data
}

func close(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*math.Max(1, math.Abs(want))) {
		t.Errorf("%s: got %.15g, want %.15g", what, got, want)
	}
}

// TestRunsAreWorkedInTheUnitAskedFor works by hand: Heron's stops 121, 119 and 123 cm have the
// mean 121 and s = 2; the target 48 in is 121.92 cm.
func TestRunsAreWorkedInTheUnitAskedFor(t *testing.T) {
	d := data(t, "```runs data/bases.csv\ngroup base\nalong stop in mm = 48 in\nacross drift in cm\n```\n")[0]
	along, across := d.Measured[0], d.Measured[1]
	heron := along.Groups[0]
	close(t, "mean", heron.Mean, 1210)
	close(t, "spread", heron.SD, 20)
	close(t, "bias", heron.Bias, 1210-1219.2)
	close(t, "percent error", heron.Percent, 9.2/1219.2)
	t2 := 0.95 * math.Sqrt(2/(1-0.95*0.95))                                              // of 2 degrees, closed form
	close(t, "interval", heron.High-heron.Mean, t2*math.Sqrt(400+100.0/12)/math.Sqrt(3)) // read to whole centimetres
	close(t, "drift", across.Groups[0].Mean, 1)
	close(t, "angle", across.Angles[0], math.Atan(1.0/121)*180/math.Pi)
	if along.TargetText != "48\u00a0in" && along.TargetText != "48 in" {
		t.Errorf("the target reads %q", along.TargetText)
	}
	// Accuracy: from (1219.2, 0) to the mean (1210, 10). Repeatability: distances to the mean are 0, √800 and √800.
	close(t, "accuracy", d.Poses[0].Accuracy, math.Hypot(9.2, 10))
	l := math.Sqrt(800)
	close(t, "repeatability", d.Poses[0].Repeatability, 2*l/3+3*math.Sqrt((4*l*l/9+2*l*l/9)/2))
	if along.Lines[3] != 5 {
		t.Errorf("the fourth run stands in line %d", along.Lines[3])
	}
}

// TestAChoiceIsScoredByHowFarOff works by hand: Heron is 1 cm off of 4, so 0.75; Coot 0 off, so 1;
// spreads 2 and √200 of 20.
func TestAChoiceIsScoredByHowFarOff(t *testing.T) {
	c := data(t, "```compare data/bases.csv\ngroup base\nnear stop = 120 cm within 40 mm weight 2 \"Near\"\n"+
		"steady stop within 20 cm \"Steady\"\n"+
		"judged Heron 1, Coot 3.5 of 5 weight 0.5 \"Room\"\nby \"Us\"\n```\n")[0].Comparison
	want := [][2]float64{{0.75, 1}, {0.9, 1 - math.Sqrt(200)/20}, {0.2, 0.7}}
	for k, row := range want {
		for i, s := range row {
			close(t, c.Criteria[k].Line.Text, c.Criteria[k].Scores[i], s)
		}
	}
	close(t, "points", c.Points[0], (2*0.75+0.9+0.5*0.2)/3.5)
}

// TestAPathIsTheArcOfItsMismatch ends where 1 % over 2 m takes a track of 112 mm: an angle of
// 0.01·2000 ÷ 112, by circle geometry.
func TestAPathIsTheArcOfItsMismatch(t *testing.T) {
	d := data(t, "```chart\ntitle \"P\"\nlength 2 m\ntrack kit.track\npath 1 % \"Left\"\n```\n")[0]
	angle := 0.01 * 2000 / 112.0
	curve := d.Chart.Curves[0]
	last := len(curve.X) - 1
	close(t, "forward in m", curve.X[last], 11.2*math.Sin(angle))
	close(t, "sideways in mm", curve.Y[last], 11200*(1-math.Cos(angle)))
	if !d.Varies {
		t.Error("a path of the kit's track is not said to be the kit's")
	}
}

func TestALineOfStudentsNumbersIsMarkedAsTheirs(t *testing.T) {
	d := data(t, "```work\ngiven w = 48 mm \"W\"\nmeasure d = 65 mm \"D\"\nfind n in rot = rotations(1 m, d) \"N\"\n```\n"+
		"```chart\ntitle \"T\"\nvary x from 0 m to 2 m \"X\"\nline rotations(x, w) in rot \"Given\"\n"+
		"line rotations(x, d) \"Theirs\"\nmark 1 m \"One\"\nmark n * 1 cm \"Found\"\n```\n")[0]
	c := d.Chart
	if c.Curves[0].OfStudents || !c.Curves[1].OfStudents || c.Marks[0].OfStudents || !c.Marks[1].OfStudents {
		t.Errorf("curves %v %v, marks %v %v", c.Curves[0].OfStudents, c.Curves[1].OfStudents, c.Marks[0].OfStudents,
			c.Marks[1].OfStudents)
	}
	if len(d.Asked) != 1 || d.Asked[0] != "n" {
		t.Errorf("it opens after %v", d.Asked)
	}
	close(t, "marked", c.Marks[0].Y[0], 1000/(48*math.Pi))
}

// TestALineMayHaveNoValueInPlaces divides by zero at its start.
func TestALineMayHaveNoValueInPlaces(t *testing.T) {
	c := data(t, "```chart\ntitle \"T\"\nvary v from 0 cm/s to 10 cm/s \"Speed\"\n"+
		"line travel_time(1 m, v) in s \"Time\"\n```\n")[0].Chart
	if !math.IsNaN(c.Curves[0].Y[0]) {
		t.Errorf("at no speed it takes %g s", c.Curves[0].Y[0])
	}
	close(t, "at 10 cm/s", c.Curves[0].Y[len(c.Curves[0].Y)-1], 10)
}

func TestOnlyBlocksRightBelowAreAskedFirst(t *testing.T) {
	all := data(t, "```work\nfind n in cm = 1 cm + 1 in \"N\"\n```\n```chart data/bases.csv\ntitle \"T\"\ngroup base\n"+
		"dots stop\n```\n```runs data/bases.csv\ngroup base\nalong stop\n```\n\nText.\n\n"+
		"```chart data/bases.csv\ntitle \"T\"\ngroup base\nbars stop\n```\n")
	for i, want := range []int{1, 1, 0} {
		if len(all[i].Asked) != want {
			t.Errorf("block %d opens after %v", i, all[i].Asked)
		}
	}
}

// TestAGroupWithoutForwardRunsHasNoAngle leaves one group's distance out; nothing may be shifted.
func TestAGroupWithoutForwardRunsHasNoAngle(t *testing.T) {
	d := dataOf(t, "base,stop (cm),drift (mm)\nHeron,,10\nHeron,,12\nCoot,100,10\nCoot,100,10\n",
		"```runs data/bases.csv\ngroup base\nalong stop\nacross drift\n```\n")[0]
	angles := d.Measured[1].Angles
	if len(angles) != 2 || !math.IsNaN(angles[0]) || math.Abs(angles[1]-math.Atan(0.01)*180/math.Pi) > 1e-12 {
		t.Errorf("the angles are %v", angles)
	}
}

func TestPlainNumbersMayStandBeforeAWord(t *testing.T) {
	c := dataOf(t, "base,score\nHeron,1\nCoot,3\n",
		"```compare data/bases.csv\ngroup base\nnear score = 5 within 8 weight 2 \"Near\"\n```\n")[0].Comparison
	if c.Criteria[0].Line.Weight != 2 {
		t.Errorf("the weight is %g", c.Criteria[0].Line.Weight)
	}
	close(t, "score", c.Criteria[0].Scores[1], 1-2.0/8)
}

// TestAPathThatGoesRoundLooksRound: no two points of it lie further apart than a fiftieth of a turn.
func TestAPathThatGoesRoundLooksRound(t *testing.T) {
	// Four turns: 200 cm with a mismatch of 1.4 and a track of 112 mm turn by 25 rad.
	c := data(t, "```chart\ntitle \"T\"\nlength 200 cm\ntrack 112 mm\npath 1.4 \"Round\"\n```\n")[0].Chart.Curves[0]
	for i := 1; i < len(c.X); i++ {
		// The radius is 112 mm ÷ 1.4 = 80 mm; x is in cm, y in mm.
		if step := math.Hypot(10*(c.X[i]-c.X[i-1]), c.Y[i]-c.Y[i-1]); step > 80*2*math.Pi/50 {
			t.Fatalf("points %d and %d are %g mm apart", i-1, i, step)
		}
	}
}
