// Package runs is the statistics of repeated trials: how far a group of runs is off, how
// much it scatters, which groups can be told apart, and how many runs it would take. It
// works on plain numbers and knows no unit, no file and no words.
package runs

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Summary is what is known of a group's mean. Without two runs there is no spread, and
// SD, Error, Low and High are NaN.
type Summary struct {
	N         int
	Mean      float64
	SD        float64 // sample standard deviation, n − 1
	Error     float64 // standard error of the mean, SD ÷ √n
	Low, High float64 // 95 % interval of the mean, by Student's t
	Least     float64
	Most      float64
}

// confidence of intervals, two-sided.
const intervalConfidence = 0.95

// Summarise gives a group's summary; of no runs, N is 0 and the rest NaN. The interval is
// mean ± t·s/√n (NIST/SEMATECH e-Handbook, 1.3.5.2).
func Summarise(x []float64) Summary {
	nan := math.NaN()
	s := Summary{N: len(x), Mean: nan, SD: nan, Error: nan, Low: nan, High: nan, Least: nan, Most: nan}
	if s.N == 0 {
		return s
	}
	s.Mean, s.Least, s.Most = stat.Mean(x, nil), slices.Min(x), slices.Max(x)
	if s.N == 1 {
		return s
	}
	if s.Least == s.Most { // the mean of equal runs is that run, and not what adding them up has left
		s.Mean, s.SD = s.Least, 0
	} else {
		s.Mean, s.SD = stat.MeanStdDev(x, nil)
	}
	s.Error = s.SD / math.Sqrt(float64(s.N))
	half := Critical(float64(s.N-1), intervalConfidence) * s.Error
	s.Low, s.High = s.Mean-half, s.Mean+half
	return s
}

// Critical is the two-sided critical value of Student's t.
func Critical(degrees, confidence float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degrees}.Quantile(1 - (1-confidence)/2)
}

// readTo lets the step to which runs were read count. A reading stands for all within half a step of it, a limit
// whose standard uncertainty is half a step ÷ √3 (JCGM 100:2008, F.2.2.1); it is added to the spread where the spread
// makes an uncertainty, and SD stays as it is. Where all runs are on one mark or on two neighbours, rounding is the
// same in all of them and does not average out, so that the interval is no narrower than half a step to each side.
// Without a step, runs that are all equal have no interval.
func (s Summary) readTo(step float64) Summary {
	switch {
	case s.N < 2:
		return s
	case !(step > 0):
		if s.SD == 0 {
			s.Low, s.High = math.NaN(), math.NaN()
		}
		return s
	}
	root := math.Sqrt(float64(s.N))
	if s.SD > 0 {
		root = s.SD / s.Error // of steps over several cycles it is more
	}
	s.Error = math.Hypot(s.SD, step/math.Sqrt(12)) / root
	half := Critical(float64(s.N-1), intervalConfidence) * s.Error
	if s.Most-s.Least < 1.5*step {
		half = max(half, step/2)
	}
	s.Low, s.High = s.Mean-half, s.Mean+half
	return s
}

// Outliers gives the places of runs that lie far from the others by the generalised extreme Studentised deviate test
// at 5 % (Rosner 1983; NIST/SEMATECH e-Handbook, 1.3.5.17.3), for up to one run in five. With fewer than 20 runs that
// test flags more clean groups than it says, so there it is made of one run only, which is Grubbs' test (1.3.5.17.1):
// in clean groups both flag 5 % at most (simulation_test.go). The step of the readings counts in the spread. They are
// to be looked at, not dropped.
func Outliers(x []float64, step float64) []int {
	switch n := len(x); {
	case n < fewestForOdd:
		return nil
	case n < manyForOdd:
		return oddAmong(x, step, 1, Level*0.9)
	default:
		return oddAmong(x, step, min(n/5, mostOdd), Level*0.7)
	}
}

// fewestForOdd are as many runs as it takes before one can be called far from the others; from manyForOdd on more than
// one is looked for. The levels keep clean groups at 5 %.
const (
	fewestForOdd = 6
	manyForOdd   = 20
)

// mostOdd is how many are looked for at most, since each takes another look at all runs.
const mostOdd = 100

// oddAmong is the test for at most so many odd values at a level.
func oddAmong(x []float64, step float64, most int, level float64) []int {
	left := make([]int, len(x))
	for i := range left {
		left[i] = i
	}
	var odd []int
	values, found := slices.Clone(x), 0
	for len(odd) < most {
		far, score := farthest(values, step)
		if far < 0 {
			break
		}
		limit := oddLimit(len(left), level)
		odd, left = append(odd, left[far]), slices.Delete(left, far, far+1)
		values = slices.Delete(values, far, far+1)
		if score > limit {
			found = len(odd) // those before it are odd, too: they only hid each other
		}
	}
	odd = odd[:found]
	slices.Sort(odd)
	return odd
}

// farthest gives the place of the value that is farthest from the mean, and its distance in standard deviations; −1 if
// no value differs.
func farthest(x []float64, step float64) (place int, score float64) {
	mean, sd := stat.MeanStdDev(x, nil)
	sd = math.Hypot(sd, step/math.Sqrt(12))
	if !(sd > 0) {
		return -1, 0
	}
	for i, v := range x {
		if d := math.Abs(v-mean) / sd; d > score {
			place, score = i, d
		}
	}
	return place, score
}

// oddLimit is the score above which the farthest of n values is odd, two-sided.
func oddLimit(n int, level float64) float64 {
	degrees := float64(n - 2)
	t := Critical(degrees, 1-level/float64(n))
	return float64(n-1) * t / math.Sqrt((degrees+t*t)*float64(n))
}
