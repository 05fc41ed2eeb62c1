package runs

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Source: differential drive on an arc of a circle; closed form, adaptive quadrature to 40
// digits and 200,000 steps of dead reckoning agree (worked out with other tools, see the file).
func TestArcPointsAgainstOtherTools(t *testing.T) {
	rows := table(t, "runs/arc.csv")
	for _, r := range rows {
		ratio := number(t, r["E_d_right_over_left"])
		track, way := number(t, r["track_b_mm"]), number(t, r["path_length_D_mm"])
		mismatch := 2 * (ratio - 1) / (ratio + 1)
		end := Arc(mismatch, way, track)
		for _, c := range []struct {
			what      string
			got, want float64
		}{
			{"forward", end.X, number(t, r["check_quadrature_x_mm"])},
			{"sideways", end.Y, number(t, r["check_quadrature_y_mm"])},
		} {
			// The file has 13 digits, of a metre to the picometre or so.
			if math.Abs(c.got-c.want) > 1e-9*math.Max(1, math.Abs(c.want)) {
				t.Errorf("ratio %g, track %g, way %g: %s %.12g, want %.12g", ratio, track, way, c.what, c.got, c.want)
			}
		}
		if mismatch != 0 {
			back := 2 * track * end.Y / (end.X*end.X + end.Y*end.Y) // circle geometry
			near(t, "mismatch back from the end point", back, mismatch, 1e-9)
		}
	}
	if len(rows) < 10 {
		t.Errorf("only %d rows", len(rows))
	}
}

// driven follows a robot by the middle of each of many small steps; nothing of Arc is in it.
func driven(mismatch, way, track float64, at Point, heading float64) (Point, float64) {
	const steps = 20000
	step := way / steps
	turn := mismatch * step / track
	for range steps {
		middle := heading + turn/2
		at.X += step * math.Cos(middle)
		at.Y += step * math.Sin(middle)
		heading += turn
	}
	return at, heading
}

// TestOutAndBackIsWhereTheRobotComesHome drives the way step by step.
func TestOutAndBackIsWhereTheRobotComesHome(t *testing.T) {
	for _, mismatch := range []float64{0, 1e-4, 0.005, -0.005, 0.02, -0.03} {
		const leg, track = 2000.0, 112.0
		at, heading := driven(mismatch, leg, track, Point{}, 0)
		at, _ = driven(mismatch, leg, track, at, heading+math.Pi)
		got := OutAndBack(mismatch, leg, track)
		if math.Abs(got-at.Y) > 1e-6*math.Max(1, math.Abs(at.Y)) {
			t.Errorf("mismatch %g: home at %.9g, driven %.9g", mismatch, got, at.Y)
		}
	}
	// For a small mismatch it is about −m·leg²÷track.
	near(t, "small", OutAndBack(1e-6, 2000, 112), -1e-6*2000*2000/112, 1e-6)
}

func TestTheMismatchIsFoundAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		leg := rapid.Float64Range(100, 5000).Draw(t, "leg")
		track := rapid.Float64Range(50, 400).Draw(t, "track")
		m := rapid.Float64Range(-0.59, 0.59).Draw(t, "turned") * track / leg
		got, ok := MismatchOutAndBack(OutAndBack(m, leg, track), leg, track)
		if !ok || math.Abs(got-m) > 1e-9*math.Max(1e-3, math.Abs(m)) {
			t.Fatalf("%g came back as %g", m, got)
		}
	})
	for _, tiny := range []float64{1e-300, 3.6e-307, 5e-324} { // found by chance once: an infinite radius times nothing
		if end := Arc(tiny, 100, 50); end.X != 100 || !(end.Y >= 0 && end.Y < 1e-290) {
			t.Errorf("a mismatch of %g ends at %v", tiny, end)
		}
	}
	for _, bad := range [][3]float64{{1900, 2000, 112}, {1, 0, 112}, {1, 2000, 0}, {math.NaN(), 2000, 112}} {
		if m, ok := MismatchOutAndBack(bad[0], bad[1], bad[2]); ok {
			t.Errorf("%v is explained by %g", bad, m)
		}
	}
}
