package runs

// Positional accuracy and repeatability after ISO 9283, for runs with both a forward and a sideways number.

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// Point is where a run ended: forward and sideways.
type Point struct{ X, Y float64 }

// Pose is positional accuracy and repeatability of runs that all come from one direction
// (ISO 9283:1998, AP and RP; formulas from memory).
type Pose struct {
	Mean          Point   // barycentre of the points
	Accuracy      float64 // AP: from the commanded point to the barycentre
	Repeatability float64 // RP: mean distance to the barycentre + 3 of its standard deviations
}

// PoseOf works a pose out; ok is false below two runs.
func PoseOf(points []Point, commanded Point) (p Pose, ok bool) {
	n := float64(len(points))
	if n < 2 {
		return Pose{}, false
	}
	for _, q := range points {
		p.Mean.X += q.X / n
		p.Mean.Y += q.Y / n
	}
	distances := make([]float64, len(points))
	for i, q := range points {
		distances[i] = math.Hypot(q.X-p.Mean.X, q.Y-p.Mean.Y)
	}
	mean, sd := stat.MeanStdDev(distances, nil)
	p.Accuracy = math.Hypot(p.Mean.X-commanded.X, p.Mean.Y-commanded.Y)
	p.Repeatability = mean + 3*sd
	return p, true
}
