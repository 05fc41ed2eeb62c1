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
	s.Mean, s.SD = stat.MeanStdDev(x, nil)
	s.Error = s.SD / math.Sqrt(float64(s.N))
	half := Critical(float64(s.N-1), intervalConfidence) * s.Error
	s.Low, s.High = s.Mean-half, s.Mean+half
	return s
}

// Critical is the two-sided critical value of Student's t.
func Critical(degrees, confidence float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degrees}.Quantile(1 - (1-confidence)/2)
}

// oddAbove is the modified z-score above which a run is flagged as an outlier.
const oddAbove = 3.5

// Outliers gives the places of runs whose modified z-score, 0.6745·(x − median) ÷ MAD, is
// above 3.5 in size (Iglewicz and Hoaglin 1993, as in the NIST/SEMATECH e-Handbook,
// 1.3.5.17; from memory). They are to be looked at, not dropped. Where more than half of
// the runs are equal the score has no scale, and none is flagged.
func Outliers(x []float64) []int {
	if len(x) < 3 {
		return nil
	}
	m := median(x)
	off := make([]float64, len(x))
	for i, v := range x {
		off[i] = math.Abs(v - m)
	}
	mad := median(off)
	if mad == 0 {
		return nil
	}
	var odd []int
	for i := range x {
		if 0.6745*off[i]/mad > oddAbove {
			odd = append(odd, i)
		}
	}
	return odd
}

func median(x []float64) float64 {
	sorted := slices.Sorted(slices.Values(x))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}
