package work_test

import (
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// toleranceOf gives the find of that name and how far an answer to it may be off.
func toleranceOf(t *testing.T, l *work.Lesson, name string) (*lesson.Statement, work.Tolerance) {
	t.Helper()
	for _, f := range l.Fields {
		if f.Statement.Name == name {
			return f.Statement, f.Tolerance
		}
	}
	t.Fatalf("there is no find %s", name)
	return nil, work.Tolerance{}
}

// TestOnlyWhatIsCalculatedWithRoundedNumbersMayBeOffByMoreThanHalfAStep has π written, in a formula, in a
// given, in radians and in an earlier answer; rounded answers; and none of these.
func TestOnlyWhatIsCalculatedWithRoundedNumbersMayBeOffByMoreThanHalfAStep(t *testing.T) {
	w, problems := worked(t, block(
		`measure d = 65 mm "Wheel"`, `given L = 48 in`, `given turned = 3 rad`, `given round = circumference(d)`,
		`record s[5] in cm to 0.1 = 121.1, 122.6, 121.4, 121.9, 121.4 "Stops"`,
		`find written in cm to 0.1 = pi * d`, `find n in rot to 0.01 = rotations(L, d)`,
		`find twice in cm to 0.1 = 2 * round`, `find angle in deg to 0.1 = turned / 2`,
		`find bare in cm = circumference(d)`, `find half in cm to 0.1 = bare / 2`,
		`find avg in cm to 0.1 = mean(s)`, `find miss in cm to 0.1 = avg - L`,
		`find range in cm to 0.1 = max(s) - min(s)`, `find inches in in to 1/16 = 95 cm`, `find three to 1 = count(s)`,
		`find wide in cm to 0.1 = mean(s)`, `key wide = 121.7 cm within 0.2 cm`,
	))
	for _, p := range problems {
		t.Error(p.What)
	}
	for name, want := range map[string]work.Tolerance{
		"written": {Within: 0.05, Part: 0.001}, "n": {Within: 0.005, Part: 0.001}, "twice": {Within: 0.05, Part: 0.001},
		"angle": {Within: 0.05, Part: 0.001}, "half": {Within: 0.05, Part: 0.001}, "miss": {Within: 0.05, Part: 0.001},
		"bare": {Part: 0.01}, "avg": {Within: 0.05}, "range": {Within: 0.05}, "inches": {Within: 1.0 / 32},
		"three": {Within: 0.5}, "wide": {Within: 0.2},
	} {
		if _, got := toleranceOf(t, w, name); got != want {
			t.Errorf("an answer to %s may be off by %+v; %+v was expected", name, got, want)
		}
	}
}

// TestAMeanIsRightWithinHalfItsStep: the mean of these is 121.68 and their median 121.4.
func TestAMeanIsRightWithinHalfItsStep(t *testing.T) {
	w, _ := worked(t, block(`record s[5] in cm to 0.1 = 121.1, 122.6, 121.4, 121.9, 121.4 "Stops"`,
		`find avg in cm to 0.1 = mean(s)`))
	find, tolerance := toleranceOf(t, w, "avg")
	q, _ := w.Of(find).Quantity()
	for answer, want := range map[float64]bool{
		121.6: false, 121.85: false, 121.4: false, 121.8: false, 121.7: true, 121.68: true, 121.65: true, 121.63: true,
		121.73: true, 121.74: false,
	} {
		if got := tolerance.Near(answer, q.Number); got != want {
			t.Errorf("%v for %v: right is %v, %v was expected", answer, q.Number, got, want)
		}
	}
}
