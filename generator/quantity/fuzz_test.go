package quantity_test

import (
	"math"
	"testing"
	"unicode/utf8"

	"trundle/generator/quantity"
)

var exprSeeds = []string{
	"", " ", "1", "-2^2", "2^3^2", "1/6 rot", "36 1/2 in", "6 / 2 cm", "2 cm ^ 2", "(2 cm)²", "2 in rot", "48 in in cm",
	"65 mm ± 0.5 mm", "12 ± 1 %", "90°", "5 7/8″", "6′", "π × d ÷ 2 − 1", "circumference(d)", "rotations(L, d, gear)",
	"mean(s)", "percent_error(m, L)", "kit.wheel", "f(", "f(1,)", ")", "((1)", "1/0", "0 / 0", "sqrt(-1)", "(0 ± 1) ^ 0.5",
	"9.81 kg·m/s^2", "5 s/s/s", "1 m^9·m^9·m^9", "10^400", "1e3", "3 5 7", "a.b.c", "d - d", "d * d", "tan(90 deg)",
	"{", "\xff", "65 mm within 0.5 mm", "65 within 0.5", "3 in within 1/16", "within 3", "3 within", "3 within within 3",
	"(2 cm within 1 mm) ^ 2", "3 within 1 in cm",
	"atan2(1 cm, 0 m)", "999999999999999999999999999999 kg", "1 m^8 * 1 m^8", "-(-x)", "+1", "x^-2^2", "(d / L) ^ (L / d)",
	"6 ft 3 1/2 in", "1 h 2 min 5 s", "2:30 min", "1:02:30 h", "3:5", "½ in", "36½ in", "3–5", "20 °C - 68 °F",
	"5 Δ°C/min",
	"100 rpm", "7.4 V*2 Ah", "1/d", "3 cm*h", "n * 360°", "5 counts/rot", "3 seconds", "6 ft 14 in ± 1 in", "2 rot 3 rot",
	"1 < 2", "d <= 6 cm", "L >= d", "x != 3", "x == 2.5", "s < 120 cm", "1 < 2 < 3", "s within 1 cm of L",
	"3 cm within 2 cm of L",
	"d within 1 mm", "(d within 1 mm of L) = yes", "if(d > L, d, L)", "if(gear = 0, 0, 1 / gear)", "if(yes, no, x < 3)",
	"mean(s - s)", "s[2] - s[1]", "s[0]", "s[9]", "s[1", "count(s within 1 cm of L) / count(s)", "max(abs(s - L))", "-s",
	"mod(-10 deg, 1 rot)", "round(L, 7 mm)", "floor(d / L)", "mode(s, L)", "lower_quartile(s)", "s ^ 2", "sqrt(s * s)",
	"mean_absolute_deviation(s - L) / population_stdev(s)", "fit_slope(s, s - L)", "within", "of", "1 of 2", "≠", "<",
}

// FuzzExpr: whatever is written, reading ends without a panic, a problem's place is
// inside the text, and what can be read is read the same when printed.
func FuzzExpr(f *testing.F) {
	for _, s := range exprSeeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		e, err := quantity.ParseExpr(text)
		if err != nil {
			checkError(t, text, err)
			return
		}
		if s := e.Span(); s.Start < 0 || s.End > len(text) || s.Start > s.End {
			t.Fatalf("the span %v lies outside %q", s, text)
		}
		if len(text) > 1000 {
			return // a printed text may be longer, and then too long
		}
		again, err := quantity.ParseExpr(e.String())
		if err != nil {
			t.Fatalf("%q prints as %q, which fails: %s", text, e, err.What)
		}
		if !sameTree(e, again) {
			t.Fatalf("%q prints as %q, which is read as %q", text, e, again)
		}
	})
}

func checkError(t *testing.T, text string, err *quantity.Error) {
	t.Helper()
	if s := err.Span; s.Start < 0 || s.End > len(text) || s.Start > s.End {
		t.Fatalf("the problem %q at %v lies outside the %d bytes of %q", err.What, s, len(text), text)
	}
	if err.Slug == "" || err.What == "" {
		t.Fatalf("a problem of %q says nothing: %+v", text, err)
	}
}

// FuzzEval: every sum that can be read has a finite value with a finite
// uncertainty, or problems; and its worked steps end with what is shown.
func FuzzEval(f *testing.F) {
	for _, s := range exprSeeds {
		f.Add(s)
	}
	env := bench()
	f.Fuzz(func(t *testing.T, text string) {
		e, err := quantity.ParseExpr(text)
		if err != nil {
			return
		}
		v, errs := quantity.Eval(e, env)
		for _, err := range errs {
			checkError(t, text, err)
		}
		q, ok := v.(quantity.Quantity)
		if !ok {
			if _, unknown := v.(quantity.Unknown); unknown != (len(errs) > 0) {
				t.Fatalf("%q comes to %T with %d problems", text, v, len(errs))
			}
			return
		}
		if len(errs) > 0 {
			t.Fatalf("%q has a value and problems", text)
		}
		u := q.Uncertainty()
		if math.IsNaN(q.Number) || math.IsInf(q.Number, 0) || math.IsNaN(u) || math.IsInf(u, 0) {
			t.Fatalf("%q comes to %g ± %g", text, q.Number, u)
		}
		quantity.FormatUncertain(q.Number, u)
		for _, target := range []quantity.Target{{}, {Step: step("0.1")}, {Step: step("1/16")}} {
			checkSteps(t, e, env, q, target)
		}
	})
}

func checkSteps(t *testing.T, e quantity.Expr, env quantity.Env, q quantity.Quantity, target quantity.Target) {
	t.Helper()
	steps := quantity.Worked("y", e, env, target)
	if len(steps) == 0 {
		t.Fatalf("no steps for %q", e)
	}
	last, shown := steps[len(steps)-1].Right.Text(), quantity.ShowText(q, target)
	if last != shown && !target.Step.IsZero() {
		t.Fatalf("the steps of %q end with %q, not with %q", e, last, shown)
	}
}

// FuzzNumber: a student may type anything; it is read as one finite number, and the
// same when written plainly, or refused with a sentence.
func FuzzNumber(f *testing.F) {
	for _, s := range []string{
		"20.4", "20,4", "1,234.5", "1.234,5", "8 1/32 in", "½", "8½″", "−3", "-3", "＋３", "٣٫٥", "204 mm", "20.4cm",
		"5 7/8″", "", " ", "abc",
		"--", "1e999", "1/0", "12345678901234567890123456789012345", "3,125", "0,125", "١٢٫٥ cm", "5 in rot", "2 cm^2",
		"½3", "3/½", "90º", "\xff", "1\u200f2", "65 mm.", "15 cm / s", "15 cm per s", "3 ft 1 3/8 in", "5 per cent.",
		"37-3/8", "204 MM",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, err := readAnswer(text)
		if err != nil {
			checkError(t, text, err)
			return
		}
		if x := a.Number.Float(); math.IsNaN(x) || math.IsInf(x, 0) || x < 0 || !utf8.ValidString(text) {
			t.Fatalf("%q is read as %g", text, x)
		}
		plain := a.Number.Text
		if plain == "" {
			return // of two parts, which have no text of their own
		}
		if a.Negative {
			plain = "-" + plain
		}
		if a.HasUnit {
			plain += " " + a.Unit.String()
		}
		b, err := readAnswer(plain)
		if err != nil {
			t.Fatalf("%q is read as %q, which is refused: %s", text, plain, err.What)
		}
		if b.Negative != a.Negative || b.Number.Exact.Cmp(a.Number.Exact) != 0 || !b.Unit.Equal(a.Unit) {
			t.Fatalf("%q is read as %q, and that as %q", text, plain, b.Number.Text)
		}
	})
}
