package work_test

// Predictions, what is worked out from them, and words.

import (
	"strings"
	"testing"

	"trundle/generator/quantity"
	"trundle/generator/work"
)

// guessing has formulas that would go wrong with many a number in a guess's place.
var guessing = block(
	`predict g in rot to 0.1 "How many?"`, `predict times to 0.1 "How many times?"`, `given gate = 6 rot`,
	`given half = g / 2`, `find off in % to 1 = percent_error(g, gate)`, `slip percent_error(gate, g) "Upside down."`,
	`find deep to 0.1 = sqrt(1 - times) + 1 / (times - 10)`, `find more in rot = half + off * gate`,
	`find n in rot to 0.1 = gate * 1.5`, `key n = 9 rot`, `slip g "That was your guess."`,
	`record s[3] in rot to 0.1 = 5.8, 6.1, 6.2 "Runs"`, `find e in % to 1 = percent_error(mean(s), g)`,
) + "\nYou said {g}, half is {half}, twice is {2 * g in rot to 0.1}.\n"

func TestWhatAGuessIsInHasAUnitAndNoNumber(t *testing.T) {
	w, problems := worked(t, guessing)
	for _, p := range problems {
		t.Errorf("%s: %s", p.Slug, p.What)
	}
	units := map[string]string{"g": "rotations", "times": "", "half": "rotations", "off": "%", "deep": "",
		"more": "rotations", "e": "%"}
	for name, unit := range units {
		r := w.Of(w.Named(name))
		_, unknown := r.Value.(quantity.Unknown)
		if !r.Guessed || !unknown || r.Text() != "" || r.Unit() != unit || r.Key != nil {
			t.Errorf("%s: guessed %v, %v, text %q, unit %q", name, r.Guessed, r.Value, r.Text(), r.Unit())
		}
	}
	if r := w.Of(w.Named("n")); r.Guessed || r.Text() != "9.0 rotations" || !r.Key.Holds {
		t.Errorf("n is %q, guessed: %v", r.Text(), r.Guessed)
	}
	for _, v := range w.Shown {
		if r := w.OfValue(v); !r.Guessed || r.Live.Program == "" || r.Unit() != "rotations" {
			t.Errorf("{%s}: guessed %v, program %q, unit %q", v.Expr, r.Guessed, r.Live.Program, r.Unit())
		}
	}
}

// TestThePageJudgesWithTheTeamsOwnGuess looks at the programs that it gets.
func TestThePageJudgesWithTheTeamsOwnGuess(t *testing.T) {
	w, _ := worked(t, guessing)
	want := map[string]string{"g": "", "times": "", "half": "g 2 /", "off": "g 6 =1 - abs:1 #1 abs:1 / 100 *"}
	for _, f := range w.Fields {
		name := f.Statement.Name
		program, listed := want[name]
		if listed && string(f.Program) != program {
			t.Errorf("the program of %s is %q", name, f.Program)
		}
		if name == "off" && (f.Tolerance != work.Tolerance{Within: 0.5} || len(f.Slips) != 1 || len(f.Another) == 0) {
			t.Errorf("off: %+v, slips %v, example %v", f.Tolerance, f.Slips, f.Another)
		}
		if name == "n" && (len(f.Slips) != 1 || f.Slips[0].Program != "g") {
			t.Errorf("the slips of n are %v", f.Slips)
		}
		if name == "s" && f.Goal != "g" {
			t.Errorf("the runs are compared with %q", f.Goal)
		}
		delete(want, name)
	}
	if len(want) > 0 {
		t.Errorf("the page has no box for %v", want)
	}
	steps := w.Of(w.Named("off")).Steps
	if len(steps) != 1 || strings.ContainsAny(steps[0].Text(), "0123456789") {
		t.Errorf("mentors read the steps %v", steps)
	}
}

func TestUnitsOfAGuessAreHeldToAccount(t *testing.T) {
	for line, slug := range map[string]string{
		`find x in cm = g + 1 cm`:   "mixed-dimensions",
		`find x in s = 2 * g`:       "mixed-dimensions",
		`find x in rot = g * nosuc`: "unknown-name",
		`find x = g / (g - 10 rot)`: "",
		`find x in rot = g / 0`:     "division-by-zero",
	} {
		_, problems := worked(t, block(`predict g in rot "How many?"`, line))
		got := ""
		for _, p := range problems {
			got += p.Slug
		}
		if got != slug {
			t.Errorf("%s: %q, want %q", line, got, slug)
		}
	}
}

func TestWordsAreNoPartOfTheCalculations(t *testing.T) {
	w, problems := worked(t, block(`say why "Why?"`, `listen "A cause."`, `listen "And a test."`, `given L = 3 cm`)+
		"\n> Mentor: more.\n>\n> ```work\n> say ours \"Ours\"\n> ```\n")
	if len(problems) > 0 {
		t.Errorf("problems: %v", problems)
	}
	if len(w.Says) != 1 || w.Says[0].Name != "why" || len(w.Says[0].Listens) != 2 || len(w.Fields) != 0 {
		t.Errorf("says %v, fields %v", w.Says, w.Fields)
	}
	if _, known := w.Env["why"]; known {
		t.Error("words have a value")
	}
}
