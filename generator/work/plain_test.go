package work_test

import (
	"testing"
)

// TestDigitsAreEnoughOnlyWhereNoSignCanCome: readings to the side have a sign whatever side the coach's own robot goes
// to, and so has a difference.
func TestDigitsAreEnoughOnlyWhereNoSignCanCome(t *testing.T) {
	w, problems := worked(t, block(
		`given L = 120 cm "Way"`, `given low = L - 130 cm "Below"`,
		`measure d = 40 mm "Wheel"`, `measure lone = 3 cm "Used by nothing"`,
		`record stop[2] in cm to 0.1 = 119, 121 "Stops"`, `record drift[2] in mm to 1 = 30, 36 "Drift"`,
		`record after[2] in mm to 1 = 31, 33 "Drift after a change"`, `record clock[2] in s to 0.1 = 3, 4 "Time"`,
		`record turn[2] in deg to 1 = 84, 86 "Turn"`, `record tape[2] in in to 1/16 = 36, 37 "Tape"`,
		"find C in cm to 0.1 = circumference(d)", "find n in rot to 0.01 = rotations(L, d)",
		"find e in % to 0.1 = percent_error(mean(stop), L)", "find off in cm to 0.1 = mean(stop) - L",
		"find size in cm to 0.1 = abs(off)", "find change in mm to 1 = mean(drift) - mean(after)",
		"find spread in mm to 1 = range(drift)", "find v in cm/s to 1 = L / mean(clock)", "find neg = -2 * 3",
		"find square in cm^2 to 1 = (L / 2) ^ 2", "find under in cm to 1 = low + 1 cm",
		"find lean in deg to 1 = atan(mean(drift) / L)", "find t in deg to 1 = mean(turn) - 90 deg",
		`given pole = -20 cm "Pole"`, `record back[2] in cm to 0.1 = 19, 21 "Backwards"`,
		"find miss in cm to 0.1 = mean(back) - pole", "find frac in cm to 1/16 = C * 2", "find ft in ft to 0.1 = L * 2",
	))
	if len(problems) > 0 {
		t.Fatal(problems[0].What)
	}
	enough := map[string]bool{
		"d": true, "stop": true, "clock": true, "C": true, "n": true, "e": true, "size": true, "spread": true, "v": true,
		"square": true,
	}
	for _, f := range w.Fields {
		if got := w.Plain(f.Statement); got != enough[f.Statement.Name] {
			t.Errorf("digits are enough for %s: %t", f.Statement.Name, got)
		}
	}
}
