package browser

// A lesson's sheet in use: typing into it, waiting for what it answers, and the answers worth trying.

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
)

// fillScript types texts into boxes one after the other, as if each box had been left,
// and tells what stands beside the last field after each. It ends when all that follows from them is there.
const fillScript = `(async (typed) => {
	const { port1, port2 } = new MessageChannel(); // a timer would wait for milliseconds
	const rest = () => new Promise((done) => { port1.onmessage = done; port2.postMessage(0); });
	const out = [];
	for (const [id, text] of typed) {
		const box = document.getElementById("in_" + id);
		box.focus({ preventScroll: true });
		box.value = text;
		box.dispatchEvent(new Event("change"));
		while (!globalThis.trundle.update || !globalThis.trundle.steps) await rest();
		for (let i = 0; i < 5; i++) await rest();
		const told = document.getElementById("told_" + id.replace(/-\d+$/, ""));
		out.push({ Text: told.textContent, state: told.dataset.state ?? "" });
	}
	await globalThis.trundle.quiet();
	return out;
})(%s)`

// Said is what stands beside a field.
type Said struct{ Text, State string }

// Fill types into a sheet; each entry is the name of a box and a text.
func Fill(t testing.TB, tab *Tab, typed [][2]string) []Said {
	t.Helper()
	data, err := json.Marshal(typed)
	if err != nil {
		t.Fatal(err)
	}
	all := Ask[[]Said](t, tab, fmt.Sprintf(fillScript, data))
	for i := range all {
		all[i].Text = AsTyped(all[i].Text)
	}
	return all
}

// Unseen has a page stay undrawn while a test does something to it: what hundreds of answers look like is seen at the
// end, and a frame for each would be most of the work.
func Unseen(t testing.TB, tab *Tab, do func()) {
	t.Helper()
	show := func(display string) {
		Ask[chromedp.Void](t, tab, fmt.Sprintf(`void (document.body.style.display = %q)`, display))
	}
	show("none")
	do()
	show("")
}

// FillTogether types all texts before anything follows from one of them, and waits for what follows: of many boxes,
// each by itself is what costs.
func FillTogether(t testing.TB, tab *Tab, typed [][2]string) {
	t.Helper()
	data, err := json.Marshal(typed)
	if err != nil {
		t.Fatal(err)
	}
	Ask[chromedp.Void](t, tab, fmt.Sprintf(`(async (typed) => {
		for (const [id, text] of typed) {
			const box = document.getElementById("in_" + id);
			box.value = text;
			box.dispatchEvent(new Event("change"));
		}
		await new Promise((done) => setTimeout(done));
		await trundle.quiet();
	})(%s)`, data))
}

// AsTyped is a text of a page as an author types it: with straight quotes and plain blanks.
func AsTyped(text string) string {
	return strings.NewReplacer("“", `"`, "”", `"`, "‘", "'", "’", "'", "\u00a0", " ").Replace(text)
}

// StartOver opens a lesson with nothing kept from before.
func StartOver(t testing.TB, tab *Tab, root, name string) {
	t.Helper()
	tab.Open(t, root, name)
	Ready(t, tab)
	Ask[chromedp.Void](t, tab, `trundle.sheet.store.clear(true).then(() => trundle.sheet.enter(""))`)
}

// Ready waits until a sheet can be filled in, and opens all parts of the lesson.
func Ready(t testing.TB, tab *Tab) {
	t.Helper()
	Filled(t, tab)
	OpenParts(t, tab)
}

// OpenParts opens all parts of a lesson; nobody can type into a box of one that is shut.
func OpenParts(t testing.TB, tab *Tab) {
	t.Helper()
	Ask[chromedp.Void](t, tab, `document.querySelectorAll(".part").forEach((part) => (part.open = true))`)
}

// Filled waits until a sheet has its entries, and leaves it as it is.
func Filled(t testing.TB, tab *Tab) {
	t.Helper()
	Ask[chromedp.Void](t, tab, `new Promise((done) => {
		const look = () => document.body?.dataset.ready !== undefined ? done() : setTimeout(look);
		look();
	})`)
}

// Finds are the finds that the students' page asks; those of mentors are not on it. One that a guess is in has another
// answer for every team, and is left out.
func Finds(l *work.Lesson) []*lesson.Statement {
	var finds []*lesson.Statement
	for _, f := range l.Fields {
		if f.Statement.Kind == lesson.Find && !l.Of(f.Statement).Guessed {
			finds = append(finds, f.Statement)
		}
	}
	return finds
}

// Samples are the coach's own measurements as entries, and a guess for each prediction.
func Samples(l *work.Lesson) [][2]string {
	var typed [][2]string
	for _, f := range l.Fields {
		s := f.Statement
		switch s.Kind { // the others: nothing is typed that comes from the coach
		case lesson.Measure:
			q, _ := l.Of(s).Quantity()
			typed = append(typed, [2]string{s.Name, quantity.FormatPlain(q.Number)})
		case lesson.Predict:
			typed = append(typed, [2]string{s.Name, "7"})
		case lesson.Record:
			for i, text := range s.Texts {
				typed = append(typed, [2]string{fmt.Sprintf("%s-%d", s.Name, i+1), text})
			}
		}
	}
	return typed
}

// Exact is the right answer to a find with nine digits.
func Exact(l *work.Lesson, find *lesson.Statement) string {
	q, _ := l.Of(find).Quantity()
	if q.Unit.IsTruth() {
		return quantity.ShowText(q, find.Target)
	}
	return exactly(q.Number)
}

func exactly(x float64) string {
	return strings.ReplaceAll(quantity.FormatSignificant(x, 9), quantity.Minus, "-")
}

// A Try is an answer, and what it must be told: one of several, since a mistake may well
// come to what another one does.
type Try struct {
	Path, Text string
	Right      bool
	Want       []string
}

// Tries are the answers to a find, the right ones first.
func Tries(words map[string]string, l *work.Lesson, find *lesson.Statement) []Try {
	q, _ := l.Of(find).Quantity()
	x := q.Number
	tolerance := l.Tolerance(find)
	right := func(y float64) bool { return math.Abs(y-x) <= tolerance.Within+(tolerance.Part+1e-6)*math.Abs(x) }
	exact := exactly

	number, _ := quantity.Show(q, find.Target)
	if q.Unit.IsTruth() {
		return []Try{{Path: "right", Text: number, Right: true},
			{Path: "kind", Text: "3 kg", Want: []string{words["check-yes-or-no"]}}}
	}
	tries := []Try{{Path: "right", Text: number, Right: true}, {Path: "right", Text: exact(x), Right: true}}
	units := 0
	for _, symbol := range quantity.UnitsOf(q.Unit.Dimension()) {
		u, _ := quantity.LookupUnit(symbol)
		if c, ok := q.In(u); ok && !u.Equal(q.Unit) && units < 3 {
			units++
			tries = append(tries, Try{Path: "right", Text: exact(c.Number) + " " + symbol, Right: true})
		}
	}
	hints := []string{}
	for _, s := range find.Slips {
		hints = append(hints, s.Prompt)
		if c, ok := l.Of(s).Quantity(); ok && !right(c.Number) {
			tries = append(tries, Try{Path: "slip", Text: exact(c.Number), Want: slices.Clone(hints)})
		}
	}
	told := func(more ...string) []string {
		all := slices.Clone(hints)
		for _, path := range more {
			all = append(all, words["check-"+path])
		}
		return all
	}
	common := func(path string, y float64) {
		if x != 0 && !right(y) && math.Abs(y) > 1e-8 {
			hints = append(hints, words["check-"+path])
			tries = append(tries, Try{Path: path, Text: exact(y), Want: slices.Clone(hints)})
		}
	}
	// Two scales at each find are enough, since all of them come by turns.
	scales := [][2]float64{{10, 0.01}, {0.1, 1000}, {100, 0.001}}
	for _, scale := range scales[max(0, slices.Index(l.Finds, find))%len(scales)] {
		common("ten", x*scale)
	}
	if q.Unit.Dimension() == lengthOf("mm") {
		common("inch", x*2.54)
		common("inch", x/2.54)
	}
	hints = append(hints, words["check-pi"])
	common("twice", 2*x)
	common("half", x/2)
	common("inverse", 1/x)
	common("sign", -x)
	if u, ok := otherUnit(q.Unit); ok {
		c, _ := q.In(u)
		common("unit", c.Number)
		if !right(0) {
			tries = append(tries, Try{Path: "other-unit", Text: exact(x) + " " + u.String(), Want: told("other-unit")})
		}
	}
	if step := find.Target.Step.Float(); step > 0 && step < 1 && !find.Target.Step.IsFraction() && math.Abs(x) > 1 {
		if whole := math.Round(x); !right(whole) {
			tries = append(tries, Try{Path: "places", Text: exact(whole), Want: told("places")})
		}
	}
	return append(tries,
		Try{Path: "not-yet", Text: exact(x*1.37 + 3.1*tolerance.Within), Want: told("not-yet", "early", "unit", "places")},
		Try{Path: "kind", Text: "3 kg", Want: []string{words["check-kind"]}})
}

// otherUnit is a unit of the same kind that children know.
func otherUnit(of quantity.Unit) (quantity.Unit, bool) {
	for _, symbol := range []string{"mm", "cm", "deg", "rot", "s", "min", "g", "kg"} {
		u, _ := quantity.LookupUnit(symbol)
		if u.Dimension() == of.Dimension() && !u.Equal(of) {
			return u, true
		}
	}
	return quantity.Unit{}, false
}

func lengthOf(symbol string) quantity.Dimension {
	u, _ := quantity.LookupUnit(symbol)
	return u.Dimension()
}

// Wait waits until a script in the page comes to true.
func Wait(t testing.TB, tab *Tab, script string) {
	t.Helper()
	good := Ask[bool](t, tab, fmt.Sprintf(`new Promise((done) => {
		const end = performance.now() + %d;
		const look = () => {
			try { if (%s) return done(true) } catch {}
			performance.now() > end ? done(false) : setTimeout(look, 10);
		};
		look();
	})`, (Patience*3/4).Milliseconds(), script))
	if !good {
		t.Fatalf("this never came true: %s", script)
	}
}
