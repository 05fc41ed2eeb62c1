package runs

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"trundle/testdata/outside"
)

// studyIn reads a file with the columns thing, reader, time, value in which nothing is missing.
func studyIn(t *testing.T, name string) [][][]float64 {
	t.Helper()
	_, rows := outside.Table(t, name)
	var all [][][]float64
	for _, row := range rows {
		thing, reader := int(number(t, row[0]))-1, int(number(t, row[1]))-1
		for len(all) <= thing {
			all = append(all, nil)
		}
		for len(all[thing]) <= reader {
			all[thing] = append(all[thing], nil)
		}
		all[thing][reader] = append(all[thing][reader], number(t, row[3]))
	}
	return all
}

// Source: Automotive Industry Action Group, Measurement Systems Analysis, 4th ed. 2010, III.B, the example of ten
// parts, three appraisers and three trials, with its table of the analysis of variance: repeatability 0.199933,
// reproducibility 0.226838, part variation 1.042327 (values from memory; that the printed results come out of them
// speaks for them).
func TestAStudyOfReadersIsAsPublished(t *testing.T) {
	s, ok := StudyOf(studyIn(t, "runs/readers.csv"))
	if !ok || s.Things != 10 || s.Readers != 3 || s.Times != 3 {
		t.Fatalf("the study is %+v", s)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{{"reading", s.Reading, 0.199933}, {"person", s.Person, 0.226838}, {"thing", s.Thing, 1.042327}} {
		if math.Abs(c.got-c.want) > 1e-6 {
			t.Errorf("%s: %.7f, published %.6f", c.what, c.got, c.want)
		}
	}
	if s.P > 1e-6 {
		t.Errorf("the appraisers differ, and the chance of it is %v", s.P)
	}
}

// By hand: things 0 and 10, readers 0 and 2, readings ±1 about that. Within: 8·1 = 8 with 4 degrees, both 0 with 1,
// pooled 8/5 = 1.6; things: 4·25·2 = 200, (200 − 1.6)/4 = 49.6; readers: 4·1·2 = 8, (8 − 1.6)/4 = 1.6.
func TestAStudyIsAsWorkedByHand(t *testing.T) {
	s, ok := StudyOf([][][]float64{{{-1, 1}, {1, 3}}, {{9, 11}, {11, 13}}})
	if !ok || math.Abs(s.Reading*s.Reading-1.6) > 1e-12 || math.Abs(s.Thing*s.Thing-49.6) > 1e-9 ||
		math.Abs(s.Person*s.Person-1.6) > 1e-12 || math.Abs(s.OtherLimit-limitOf*math.Sqrt(3.2)) > 1e-12 {
		t.Errorf("the study is %+v", s)
	}
	if same, _ := StudyOf([][][]float64{{{1, 1}, {1, 1}}, {{1, 1}, {1, 1}}}); same.P != 1 || same.Reading != 0 {
		t.Errorf("where all is equal it is %+v", same)
	}
	for _, few := range [][][][]float64{nil, {{{1, 2}, {1, 2}}}, {{{1, 2}}, {{1, 2}}}, {{{1}, {1}}, {{1}, {1}}}} {
		if _, ok := StudyOf(few); ok {
			t.Errorf("%v is too little", few)
		}
	}
}

// Classes of five strips and some readers who read each twice: readers who read alike are told apart in at most 5 %,
// and the parts of the variance come out right on average.
func TestRoundingIsNoPartOfAStudy(t *testing.T) {
	for name, person := range map[string]float64{"all equal": 0, "readers a millimetre apart": 1.1} {
		readings := make([][][]float64, 3)
		for i := range readings {
			for j := range 2 {
				x := 100.3 + float64(j)*person
				readings[i] = append(readings[i], []float64{x, x, x})
			}
		}
		s, ok := StudyOf(readings)
		if !ok || s.Thing != 0 || s.Reading != 0 || (person == 0) != (s.Person == 0) {
			t.Errorf("%s: things %g, readers %g, reading %g", name, s.Thing, s.Person, s.Reading)
		}
		if alike := person == 0; alike && s.P != 1 || !alike && !(s.P < Level) {
			t.Errorf("%s: the chance that they read alike is %g", name, s.P)
		}
	}
}

func TestAStudyFindsTheTruth(t *testing.T) {
	for _, readers := range []int{2, 3, 5} {
		for _, person := range []float64{0, 1} {
			r := rand.New(rand.NewPCG(uint64(readers), 5))
			var thing, who, reading float64
			told := rate(func() bool {
				s, _ := StudyOf(studied(r, 5, readers, 2, person))
				thing, who, reading = thing+s.Thing*s.Thing, who+s.Person*s.Person, reading+s.Reading*s.Reading
				return s.P < Level
			})
			n := float64(*classes)
			t.Logf("%d readers: thing %.2f of 9, person %.2f of %g, reading %.2f of 0.25; told apart %.1f %%", readers, thing/n,
				who/n, person*person, reading/n, told)
			if person == 0 {
				atMost(t, fmt.Sprintf("%d readers who read alike are told apart", readers), told, 5.5)
			}
			if math.Abs(reading/n-0.25) > 0.03 || math.Abs(thing/n-9) > 1.5 || who/n < person*person-0.25 {
				t.Errorf("%d readers: thing %.2f, person %.2f, reading %.2f", readers, thing/n, who/n, reading/n)
			}
		}
	}
}

// studied draws things of spread 3, readers of a spread, and readings of spread 0.5.
func studied(r *rand.Rand, things, readers, times int, person float64) [][][]float64 {
	all, who := make([][][]float64, things), drawn(r, readers, 0, person)
	for i := range all {
		truth := 3 * r.NormFloat64()
		for _, off := range who {
			all[i] = append(all[i], drawn(r, times, truth+off, 0.5))
		}
	}
	return all
}
