package keeping_test

// Notes of what is not yet written for good, names of teams, and the way back from clearing.

import (
	"fmt"
	"testing"
)

// noted counts the notes of a pack.
func (s shelf) noted() string {
	return fmt.Sprintf(`Object.keys(localStorage).filter((key) => key.includes(%q)).length`, `"`+s.pack+`"`)
}

func testNote(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("C", "20.4")`, kept},
		{a, s.noted(), `0`},
		{a, `(store.note("n", "5"), store.note("n", "5.88"), store.note("C", ""), 1)`, `1`},
		{a, `(store.note("@kit", "heron"), store.team)`, `"Otters"`},
		{a, s.noted(), `3`},
	})
	s.lesson(t, a, "04-error") // whatever page is next
	follow(t, []stop{
		{a, s.noted(), `0`},
		{a, `[store.team, texts, store.clashes.map((row) => [row.field, row.text])]`, `["Otters", {"@kit": "heron"}, []]`},
		{a, `store.whole().then((all) => all.lessons)`, `{"": {"@kit": "heron"}, "03-rotations": {"n": "5.88"}}`},
	})
}

func testNoteClash(t *testing.T, s shelf) {
	a, b := s.two(t)
	follow(t, []stop{
		{a, `store.put("n", "5")`, kept},
		{b, `store.enter("")`, `{"n": "5"}`},
		{a, `store.note("n", "6").text`, `"6"`},
		{b, `store.put("n", "7")`, kept},
	})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `[texts, store.clashes.map((row) => [row.field, row.text])]`, `[{"n": "7"}, [["n", "6"]]]`}})
	s.lesson(t, a, "03-rotations") // it is asked until somebody answers
	follow(t, []stop{
		{a, `[texts, store.clashes.map((row) => [row.field, row.text])]`, `[{"n": "7"}, [["n", "6"]]]`},
		{a, `store.put("n", "6", true)`, kept},
		{a, s.noted(), `0`},
	})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `[texts, store.clashes.map((row) => [row.field, row.text])]`, `[{"n": "6"}, []]`}})
}

// testLaterNote chooses twice in a row: when the first choice is written for good, the note of the second must stay, or
// a page that is left then forgets it.
func testLaterNote(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `(() => { let isDone = false; const first = store.put("@kit", "ours", true);
			store.put("@kit", "coot", true).then(() => (isDone = true));
			return first.then(() => isDone ||
				Object.values(localStorage).some((text) => text.includes('"coot"'))); })()`, `true`},
	})
}

// testUnasked has two pages come to something else: nobody is asked about what nobody has typed.
func testUnasked(t *testing.T, s shelf) {
	a, b := s.two(t)
	follow(t, []stop{
		{a, `store.put("#state", "5", true)`, kept},
		{b, `store.enter("")`, `{"#state": "5"}`},
		{a, `store.note("#state", "6").text`, `"6"`},
		{b, `store.put("#state", "7")`, kept},
		{b, `store.take({ "03-rotations": { "#state": "8", "#goal-1": "1" } })`, kept},
	})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `[texts, store.clashes.length, ` + s.noted() + `]`, `[{"#goal-1": "1", "#state": "8"}, 0, 0]`}})
}

// testOldNote has a note come back that had done its work: a browser that is killed may forget
// that it was taken away.
func testOldNote(t *testing.T, s shelf) {
	a := s.one(t)
	item := fmt.Sprintf(`Object.keys(localStorage).find((key) => key.includes(%q))`, `"`+s.pack+`"`)
	follow(t, []stop{
		{a, `(store.note("n", "5"), globalThis.key = ` + item + `, globalThis.old = localStorage[key], 1)`, `1`},
		{a, `store.put("n", "5")`, kept},
		{a, `store.put("n", "6")`, kept},
		{a, `(localStorage[key] = old, ` + s.noted() + `)`, `1`},
	})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `[texts, store.clashes.length, ` + s.noted() + `]`, `[{"n": "6"}, 0, 0]`}})
}

// testNoteOfName names a team and leaves before the database knows of it.
func testNoteOfName(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, kept},
		{a, `(IDBDatabase.prototype.transaction = null, void store.enter("Otters"), store.team)`, `"Otters"`},
		{a, `store.note("C", "20.4").text`, `"20.4"`},
	})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{
		{a, `[store.team, texts]`, `["Otters", {"n": "5.88", "C": "20.4"}]`},
		{a, s.noted(), `0`},
	})
}

func testBadNotes(t *testing.T, s shelf) {
	a := s.one(t)
	for _, bad := range []string{
		``, `null`, `5`, `{}`, `[`, `{"text": 5}`, `{"text": "5", "stamp": {}}`,
		`{"team": null, "lesson": "03-rotations", "field": "n", "text": "5", "stamp": "a 1"}`,
	} {
		write := `(localStorage["trundle " + JSON.stringify([%q, "", "03-rotations", "n"])] = %q, 1)`
		follow(t, []stop{{a, fmt.Sprintf(write, s.pack, bad), `1`}})
		s.lesson(t, a, "03-rotations")
		follow(t, []stop{{a, `[texts, store.fault]`, `[{}, ""]`}})
	}
	follow(t, []stop{{a, `store.put("n", "5.88")`, kept}})
	const refusal = `for (const name of ["localStorage", "sessionStorage"])
		Object.defineProperty(globalThis, name, { get() { throw new DOMException("no", "SecurityError") } })`
	b := s.odd(t, refusal)
	follow(t, []stop{
		{b, `texts`, `{"n": "5.88"}`},
		{b, `store.enter("Otters")`, `{"n": "5.88"}`},
		{b, `store.put("n", "6")`, kept},
		{b, `store.clear()`, kept},
	})
	c := s.odd(t, `Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError") }`)
	follow(t, []stop{
		{c, `store.put("n", "7")`, kept},
		{c, `store.enter("Otters")`, `{"n": "7"}`},
	})
}

func testSpelling(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `store.enter("Red  Otters")`, `{}`},
		{a, `store.fresh`, `true`},
		{a, `store.put("n", "5.88")`, kept},
		{a, `store.enter("Newts")`, `{}`},
		{a, `[store.team, store.fresh]`, `["Newts", true]`},
		// What is put before the name is settled goes to the team as well.
		{a, `Promise.all([store.enter(" red otters"), store.put("C", "20.4")]).then(() => 1)`, `1`},
		{a, `[store.team, store.fresh]`, `["Red  Otters", false]`},
		{a, `store.teams()`, `["Red  Otters"]`},
		{a, `store.enter("ＲＥＤ ＯＴＴＥＲＳ")`, `{"n": "5.88", "C": "20.4"}`},
		{a, `store.enter("redotters")`, `{}`}, // this might be another team
	})
}

func testTabTeams(t *testing.T, s shelf) {
	a, b := s.two(t)
	follow(t, []stop{
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("n", "5.88")`, kept},
		{b, `store.enter("Newts")`, `{}`},
		{b, `store.put("n", "6")`, kept},
	})
	s.lesson(t, a, "04-error")
	follow(t, []stop{{a, `store.team`, `"Otters"`}})
	s.lesson(t, b, "03-rotations")
	follow(t, []stop{{b, `[store.team, texts]`, `["Newts", {"n": "6"}]`}})
	c := s.odd(t, "") // a new tab goes on with the team that was last entered or shown
	follow(t, []stop{{c, `[store.team, texts]`, `["Newts", {"n": "6"}]`}})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `[store.team, texts]`, `["Otters", {"n": "5.88"}]`}})
}

func testRestore(t *testing.T, s shelf) {
	a := s.one(t)
	const all = `{"": {"@kit": "heron"}, "03-rotations": {"n": "5.88", "C": "20.4"}, "04-error": {"e": "0.2"}}`
	follow(t, []stop{
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("n", "5.88")`, kept},
		{a, `store.put("C", "20.4")`, kept},
		{a, `store.put("@kit", "heron")`, kept},
		{a, `store.take({"04-error": {"e": "0.2"}})`, kept},
		{a, `store.clear()`, kept},
		{a, `store.put("C", "21")`, kept},
		{a, `store.restore()`, kept},
		{a, `store.enter("Otters")`, `{"n": "5.88", "C": "21", "@kit": "heron"}`}, // what is new stays
		{a, `store.put("C", "20.4")`, kept},
		{a, `store.clear(true)`, kept},
		{a, `store.enter("")`, `{}`},
		{a, `store.restore()`, kept},
		{a, `store.enter("Otters", false)`, `{"n": "5.88", "C": "20.4", "@kit": "heron"}`},
		{a, `store.whole().then((all) => all.lessons)`, all},
	})
}
