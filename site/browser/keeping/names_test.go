package keeping_test

// Names that change while teams' work lies on their devices: of the pack, its lessons and boxes; and seasons.

import (
	"fmt"
	"maps"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// A version is a pack as it was published once.
type version struct {
	pack    string // the lines of pack.yaml
	lesson  string // the name of its first lesson's file, without .md
	header  string // a line of its header
	boxes   string // its work block
	renamed string // renamed.yaml; "" for none
}

// built makes the site of a version. There is a second lesson, so that names are taken up on its page as well.
func (v version) built(t *testing.T) browser.Built {
	t.Helper()
	pack := browser.PackOf("")
	small := maps.Clone(pack)
	put := func(name, text string) { small[name] = &fstest.MapFile{Data: []byte(text)} }
	header := strings.Replace(string(pack["01-t.md"].Data), "title: T\n", "title: T\n"+v.header, 1)
	delete(small, "01-t.md")
	put("pack.yaml", v.pack)
	put(v.lesson+".md", header+"```work\n"+v.boxes+"```\n")
	put("09-u.md", string(pack["01-t.md"].Data)+"```work\nmeasure w = 4 cm \"Width\"\n```\n")
	if v.renamed != "" {
		put("renamed.yaml", v.renamed)
	}
	return browser.Build(t, small)
}

const (
	boxesBefore = "measure d = 65 mm \"Wheel\"\nfind n in rot to 0.01 = rotations(48 in, d) \"How many?\"\n" +
		"record s[2] in cm to 0.1 = 1, 2 \"Stops\"\nmeasure gone = 4 cm \"Gone later\"\n"
	boxesNow = "measure d = 65 mm \"Wheel\"\nfind turns in rot to 0.01 = rotations(48 in, d) \"How many?\"\n" +
		"record stop[2] in cm to 0.1 = 1, 2 \"Stops\"\n"
)

// boxesOf are the texts of a page's boxes, by name.
const boxesOf = `Object.fromEntries(Object.entries(trundle.sheet.inputs).map(([id, box]) => [id, box.value]))`

func visit(t *testing.T, tab *browser.Tab, b browser.Built, page string) {
	t.Helper()
	tab.Open(t, b.Root(), "students/"+page+".html")
	browser.Ready(t, tab)
}

// expect compares the boxes of the page that is open.
func expect(t *testing.T, tab *browser.Tab, when, want string) {
	t.Helper()
	if got := fmt.Sprint(browser.Ask[map[string]string](t, tab, boxesOf)); got != "map["+want+"]" {
		t.Errorf("%s, the boxes hold %s\nwant map[%s]", when, got, want)
	}
}

// TestWorkIsFoundUnderNewNames is typed into a pack with old names, and looked for in the same pack with a new title, a
// lesson of another number, other boxes, and then in other seasons.
func TestWorkIsFoundUnderNewNames(t *testing.T) {
	t.Parallel()
	before := version{"title: Canal Dya\nversion: 1\n", "01-t", "", boxesBefore, ""}.built(t)
	now := version{"title: Canal Day\nid: canal\nversion: 2\n", "02-rolling", "id: rolling\n", boxesNow,
		"pack: [Canal Dya]\nlessons: {01-t: 02-rolling}\nboxes: {rolling: {n: m, m: turns, s: stop}}\n"}.built(t)
	next := version{"title: Canal Day\nid: canal\nseason: 2027-28\nversion: 3\n", "02-rolling", "id: rolling\n",
		boxesNow, ""}.built(t)
	tab := browser.Open(t)

	visit(t, tab, before, "01-t")
	browser.Fill(t, tab, [][2]string{{"d", "65"}, {"n", "5.97"}, {"s-1", "20.4"}, {"s-2", "20.6"}, {"gone", "7"}})
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("Otters")`)
	file := browser.Ask[string](t, tab,
		`trundle.sheet.store.whole().then((all) => JSON.stringify({trundle: "work", form: 1, ...all}))`)
	// A note of a page that was left in mid-word, under the old names as well.
	browser.Ask[chromedp.Void](t, tab, `void trundle.sheet.store.note("s-2", "20.5")`)

	// The page of another lesson takes all of it up.
	visit(t, tab, now, "09-u")
	visit(t, tab, before, "01-t")
	expect(t, tab, "under the old names", "d: gone: n: s-1: s-2:")
	visit(t, tab, now, "02-rolling")
	const found = "d:65 stop-1:20.4 stop-2:20.5 turns:5.97"
	expect(t, tab, "under the new names", found)
	browser.Wait(t, tab, `trundle.sheet.store.team === "Otters"`)
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("gone: 7")`)
	browser.Wait(t, tab, `document.getElementById("told_turns").textContent.includes("Right")`)

	// The old address leads there too.
	browser.Run(t, tab, chromedp.Navigate(now.Root()+"students/01-t.html"))
	browser.Arrived(t, tab, "students/02-rolling.html")

	browser.Ready(t, tab)
	openOldFile(t, tab, file)
	expect(t, tab, "from a file", strings.Replace(found, "20.5", "20.6", 1))
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("Otters", false)`)

	visit(t, tab, next, "02-rolling")
	expect(t, tab, "in the next season", "d: stop-1: stop-2: turns:")
	browser.Fill(t, tab, [][2]string{{"d", "48"}})
	lookAtLastSeason(t, tab)
	expect(t, tab, "in the next season with the last one cleared and back", "d:48 stop-1: stop-2: turns:")
	visit(t, tab, now, "02-rolling")
	expect(t, tab, "with the season set back", found)
	visit(t, tab, next, "02-rolling")
	expect(t, tab, "in the next season again", "d:48 stop-1: stop-2: turns:")
	tab.Report(t)
}

// openOldFile opens a file with the old names, for another team.
func openOldFile(t *testing.T, tab *browser.Tab, file string) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, `(async () => {
		const { store, page } = trundle.sheet;
		await new Promise((done) => { document.head.append(Object.assign(document.createElement("script"),
			{src: "assets/files.js", onload: done})); });
		const { lessons } = trundle.files.open(`+quoted(file)+`, page.pack, store.names);
		await store.enter("Newts", false);
		await store.take(lessons);
		await trundle.sheet.enter("Newts", false);
	})()`)
}

// lookAtLastSeason reads in the drawer what is kept of another season, clears a part of it, and brings that back.
func lookAtLastSeason(t *testing.T, tab *browser.Tab) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, `void (document.getElementById("_files").open = true)`)
	const summaries = `[...document.querySelectorAll("#_files details summary")].map((e) => e.textContent)`
	browser.Wait(t, tab, summaries+`.length === 2`)
	if got := fmt.Sprint(browser.Ask[[]string](t, tab, summaries)); got !=
		"[no season · Newts no season · Otters]" {
		t.Errorf("the drawer offers %s", got)
	}
	if got := browser.Ask[string](t, tab, `document.querySelector("#_files details:last-of-type li").textContent`); got !=
		"rolling: d: 65 · gone: 7 · stop-1: 20.4 · stop-2: 20.5 · turns: 5.97" {
		t.Errorf("it shows %s", got)
	}
	press := func(button string) {
		t.Helper()
		browser.Wait(t, tab, `document.querySelector("`+button+`")`)
		browser.Ask[chromedp.Void](t, tab, `document.querySelector("`+button+`").click()`)
	}
	press("#_files details:last-of-type button:last-of-type")
	press("dialog[open] button")
	browser.Wait(t, tab, summaries+`.join() === "no season · Newts"`)
	press("#_files [role=status] button")
	browser.Wait(t, tab, summaries+`.length === 2`)
}

// testEarlierNames has two versions of a page at work, one with the old names and one with those of now.
func testEarlierNames(t *testing.T, s shelf) {
	a := s.one(t)
	next := `Promise.resolve(trundle.names = {pack: "` + s.pack + `", lessons: {"03-rotations": "rotations"}, ` +
		`boxes: {rotations: {n: "turns"}}}).then(() => trundle.keep("` + s.pack + `", "rotations"))` +
		`.then((now) => (globalThis.now = now, now.enter("Otters")))`
	clashes := `now.clashes.map(({team, lesson, field, text}) => [team, lesson, field, text])`
	follow(t, []stop{
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("n", "5.88")`, kept},
		{a, `store.put("m", "1")`, kept},
		// A table of another version is none.
		{a, `(trundle.names = {sum: "b", pack: "` + s.pack + `", lessons: {"03-rotations": "rotations"}}, ` +
			`trundle.keep("` + s.pack + `", "rotations", "a").then((other) => other.enter("Otters")))`, `{}`},
		{a, `store.enter("Otters")`, `{"n": "5.88", "m": "1"}`},
		{a, next, `{"turns": "5.88", "m": "1"}`},
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("n", "5.9")`, kept}, // the same page as before, and later
		{a, next, `{"turns": "5.9", "m": "1"}`},
		{a, `now.put("turns", "6")`, kept},
		{a, `store.put("n", "7")`, kept},
		{a, next, `{"turns": "6", "m": "1"}`}, // which of the two is newer nobody knows
		{a, clashes, `[["Otters", "rotations", "turns", "7"]]`},
		{a, next, `{"turns": "6", "m": "1"}`},
		{a, clashes, `[["Otters", "rotations", "turns", "7"]]`},
		{a, `now.put("turns", "7", true)`, kept},
		{a, next, `{"turns": "7", "m": "1"}`},
		{a, clashes, `[]`},
		{a, `store.whole().then((all) => all.lessons)`, `{"rotations": {"turns": "7", "m": "1"}}`},
		// A lesson that is gone is told, and its work is in the file of all.
		{a, `trundle.keep("` + s.pack + `", "09-left").then((left) => left.enter("Otters")` +
			`.then(() => left.put("w", "4")))`, kept},
		{a, next, `{"turns": "7", "m": "1"}`},
		{a, `now.lost`, `["09-left"]`},
		{a, `now.whole().then((all) => all.lessons)`, `{"rotations": {"turns": "7", "m": "1"}, "09-left": {"w": "4"}}`},
		// So are other seasons, which a file may be of.
		{a, `trundle.keep("` + s.pack + ` 2026-27", "rotations").then((season) => season.enter("Eels")` +
			`.then((texts) => season.put("turns", "8").then(() => texts)))`, `{}`},
		{a, next, `{"turns": "7", "m": "1"}`},
		{a, `now.seasons()`, `[{"team": "Eels", "pack": "` + s.pack + ` 2026-27", "season": "2026-27", ` +
			`"lessons": {"rotations": {"turns": "8"}}}]`},
		{a, `trundle.files.open(JSON.stringify({trundle: "work", form: 1, pack: "` + s.pack + ` 2026-27", ` +
			`lessons: {"03-rotations": {n: "8", m: "1"}, rotations: {turns: "9"}}}), "` + s.pack + `", now.names)`,
			`{"team": "", "season": "2026-27", "lessons": {"rotations": {"turns": "9", "m": "1"}}}`},
	})
}
