package keeping_test

// What the page keeps on a device, with one tab and two, heard of and cleared.

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// keepPage puts a page with the scripts that keep entries into a folder.
func keepPage(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for _, name := range []string{"testdata/keep/page.html", "../../assets/icon.svg", "../../scripts/names.js",
		"../../scripts/notes.js", "../../scripts/keep.js", "../../scripts/files.js"} {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, filepath.Base(name)), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// A shelf is one pack on one device, for one test, and two tabs that tests share.
type shelf struct {
	first, second *browser.Tab
	root, pack    string
}

// A stop is a script in a tab, and what it must come to, as JSON.
type stop struct {
	tab    *browser.Tab
	script string
	want   string
}

func TestKeep(t *testing.T) {
	t.Parallel()
	dir := keepPage(t)
	server := httptest.NewServer(http.FileServer(http.Dir(dir)))
	defer server.Close()
	first := browser.Own(t)
	second := browser.Another(t, first)
	for how, root := range map[string]string{"file": "file://" + filepath.ToSlash(dir) + "/", "http": server.URL + "/"} {
		for name, test := range keepTests {
			t.Run(how+"/"+name, func(t *testing.T) { test(t, shelf{first, second, root, t.Name()}) })
		}
	}
	t.Run("http/a real quota", func(t *testing.T) {
		testQuota(t, shelf{first, second, strings.Replace(server.URL, "127.0.0.1", "localhost", 1) + "/", t.Name()})
	})
}

var keepTests = map[string]func(*testing.T, shelf){
	"entries outlive the page":                     testEntriesStay,
	"teams do not see each other":                  testTeamsApart,
	"a name takes the nameless entries along":      testNaming,
	"a name with entries takes none along":         testNamingTaken,
	"a nameless tab hears the name":                testNameHeard,
	"two tabs write different fields":              testDifferentFields,
	"two tabs write the same field":                testSameField,
	"another tab is heard":                         testHeard,
	"another tab is heard without a channel":       testHeardOnFocus,
	"what another tab cleared is heard":            testClearedHeard,
	"refused storage works in memory":              testRefused,
	"refused storage that relents":                 testRelents,
	"storage that breaks loses nothing from sight": testBroken,
	"a lost connection is opened again":            testLostConnection,
	"either of two places is enough":               testTwoPlaces,
	"a note is taken up on the next page":          testNote,
	"a note is not written over another tab's row": testNoteClash,
	"the note of a later choice stays":             testLaterNote,
	"nobody is asked about what nobody typed":      testUnasked,
	"an old note changes nothing":                  testOldNote,
	"a note of a name and its entries":             testNoteOfName,
	"damaged notes and refused ones":               testBadNotes,
	"earlier names and other seasons":              testEarlierNames,
	"a team is found by another spelling":          testSpelling,
	"each tab has its team":                        testTabTeams,
	"what was cleared comes back":                  testRestore,
	"full storage is told":                         testFull,
	"a lesson or all is cleared":                   testClear,
	"a file carries work to another device":        testCarry,
	"a file does not overwrite unasked":            testTake,
	"files from anywhere":                          testOpenFiles,
	"tables for spreadsheets":                      testTables,
	"a file is offered":                            testGive,
}

// one opens a lesson in a tab, two in both.
func (s shelf) one(t *testing.T) *browser.Tab {
	t.Helper()
	t.Cleanup(func() { s.first.Report(t) })
	s.lesson(t, s.first, "03-rotations")
	return s.first
}

func (s shelf) two(t *testing.T) (a, b *browser.Tab) {
	t.Helper()
	t.Cleanup(func() { s.second.Report(t) })
	s.lesson(t, s.second, "03-rotations")
	return s.one(t), s.second
}

// odd opens a lesson in a tab of its own, after a script that changes the browser.
func (s shelf) odd(t *testing.T, before string, options ...chromedp.ContextOption) *browser.Tab {
	t.Helper()
	own := browser.Another(t, s.first, options...)
	t.Cleanup(func() { own.Report(t) })
	browser.Order(t, own, page.AddScriptToEvaluateOnNewDocument,
		page.AddScriptToEvaluateOnNewDocumentParams{Source: before})
	s.lesson(t, own, "03-rotations")
	return own
}

// lesson opens a lesson: store is the page's store then, and texts what it found.
func (s shelf) lesson(t *testing.T, in *browser.Tab, lesson string) {
	t.Helper()
	in.Open(t, s.root, "page.html")
	browser.Ask[chromedp.Void](t, in, fmt.Sprintf(`(async () => {
		globalThis.store = await trundle.keep(%q, %q);
		globalThis.texts = await store.enter(store.team);
		globalThis.heard = [];
		globalThis.until = async (what) => { while (!what()) await new Promise((soon) => setTimeout(soon, 5)); };
	})()`, s.pack, lesson))
}

// follow runs scripts one after the other.
func follow(t *testing.T, route []stop) {
	t.Helper()
	for _, s := range route {
		var got, want any
		if err := json.Unmarshal(browser.Ask[[]byte](t, s.tab, "Promise.resolve("+s.script+").then((said) => said ?? null)"),
			&got); err != nil {
			t.Fatal(s.script, err)
		}
		if err := json.Unmarshal([]byte(s.want), &want); err != nil {
			t.Fatal(s.want, err)
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s\ngave %v\nwant %v", s.script, got, want)
		}
	}
}

const kept = `{"kept": true}`

func testEntriesStay(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `[store.team, store.fault, texts]`, `["", "", {}]`},
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("n", "5.88")`, kept},
		{a, `Promise.all([store.put("C", "20"), store.put("C", "20.4"), store.put("@kit-wheel", "65 mm"), ` +
			`store.put("m", "1")])`, "[" + kept + "," + kept + "," + kept + "," + kept + "]"},
		{a, `store.put("m", "")`, kept},
		{a, `store.whole()`, `{"team": "Otters", "pack": "` + s.pack +
			`", "lessons": {"03-rotations": {"n": "5.88", "C": "20.4"}, "": {"@kit-wheel": "65 mm"}}}`},
	})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `[store.team, texts]`, `["Otters", {"n": "5.88", "C": "20.4", "@kit-wheel": "65 mm", "m": ""}]`}})
	s.lesson(t, a, "04-error")
	follow(t, []stop{{a, `[store.team, texts]`, `["Otters", {"@kit-wheel": "65 mm"}]`}})
}

func testTeamsApart(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("n", "5.88")`, kept},
		{a, `store.enter("Newts")`, `{}`},
		{a, `store.put("n", "6")`, kept},
		{a, `store.enter("Ducks")`, `{}`},
		{a, `store.put("n", "")`, kept},
		{a, `store.enter("Órbita 10")`, `{}`},
		{a, `store.put("n", "1")`, kept},
		{a, `store.enter("órbita 9")`, `{}`},
		{a, `store.put("n", "1")`, kept},
		{a, `store.teams()`, `["Newts", "órbita 9", "Órbita 10", "Otters"]`},
		{a, `store.enter("Otters")`, `{"n": "5.88"}`},
		{a, `store.enter("Newts")`, `{"n": "6"}`},
		{a, `store.whole()`, `{"team": "Newts", "pack": "` + s.pack + `", "lessons": {"03-rotations": {"n": "6"}}}`},
	})
	follow(t, []stop{{a, `trundle.keep("another pack", "03-rotations").then((store) => store.teams())`, `[]`}})
}

func testNaming(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, kept},
		{a, `store.put("@kit", "heron")`, kept},
		{a, `store.teams()`, `[]`},
	})
	s.lesson(t, a, "04-error")
	follow(t, []stop{
		{a, `store.put("e", "0.2")`, kept},
		{a, `store.enter("Otters")`, `{"e": "0.2", "@kit": "heron"}`},
		{a, `store.put("e", "0.3")`, kept}, // what moved counts as seen
		{a, `store.teams()`, `["Otters"]`},
		{a, `store.enter("Newts")`, `{}`},
		{a, `store.enter("")`, `{}`},
		{a, `store.whole()`, `{"team": "", "pack": "` + s.pack + `", "lessons": {}}`},
		{a, `store.enter("Otters")`, `{"e": "0.3", "@kit": "heron"}`},
	})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `[store.team, texts]`, `["Otters", {"n": "5.88", "@kit": "heron"}]`}})
}

func testNamingTaken(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("n", "5.88")`, kept},
		{a, `store.enter("")`, `{}`},
		{a, `store.put("C", "20.4")`, kept},
		{a, `store.enter("Otters")`, `{"n": "5.88"}`},
		{a, `store.enter("Newts")`, `{}`}, // no longer nameless: these are another team's
		{a, `store.enter("")`, `{"C": "20.4"}`},
	})
}

func testNameHeard(t *testing.T, s shelf) {
	a, b := s.two(t)
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, kept},
		{b, `store.enter("")`, `{"n": "5.88"}`},
		{b, `store.watch((field, text) => { heard.push([field, text]); ` +
			`if (!field) globalThis.entered = store.enter(text); })`, `null`},
		{a, `store.enter("Otters")`, `{"n": "5.88"}`},
		{b, `until(() => globalThis.entered).then(() => entered)`, `{"n": "5.88"}`},
		{b, `[store.team, heard]`, `["Otters", [["", "Otters"]]]`},
		{b, `store.put("n", "5.9")`, kept},
	})
}

func testDifferentFields(t *testing.T, s shelf) {
	a, b := s.two(t)
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, kept},
		{b, `store.put("C", "20.4")`, kept},
		{a, `store.put("n", "5.89")`, kept},
		{a, `store.enter("")`, `{"n": "5.89", "C": "20.4"}`},
	})
}

func testSameField(t *testing.T, s shelf) {
	a, b := s.two(t)
	follow(t, []stop{
		{a, `store.put("n", "5")`, kept},
		{b, `store.put("n", "6")`, `{"other": "5"}`},
		{b, `store.put("n", "6")`, `{"other": "5"}`},
		{b, `store.whole().then((all) => all.lessons)`, `{"03-rotations": {"n": "5"}}`},
		{b, `store.put("n", "6", true)`, kept},
		{a, `store.put("n", "7")`, `{"other": "6"}`},
		{a, `store.put("n", "6")`, kept}, // to write the same is to agree
		{b, `store.put("n", "8")`, kept},
		{a, `store.put("n", "")`, `{"other": "8"}`},
		{b, `store.put("n", "")`, kept},
		{a, `store.put("n", "9")`, `{"other": ""}`},
	})
}

func testHeard(t *testing.T, s shelf) {
	a, b := s.two(t)
	follow(t, []stop{
		// What does not count as seen is heard again whenever the other tab writes, however often that is.
		{b, `store.watch((field, text) => { if (String(heard.at(-1)) !== field + "," + text) heard.push([field, text]); ` +
			`return field !== "m"; })`, `null`},
		{a, `store.put("n", "5.88")`, kept},
		{b, `until(() => heard[0])`, `null`},
		{a, `store.put("@kit", "coot")`, kept},
		{b, `until(() => heard[1])`, `null`},
		{a, `store.put("n", "")`, kept},
		{b, `until(() => heard[2])`, `null`},
		{a, `trundle.keep("` + s.pack + `", "04-error").then((other) => other.put("e", "0.2"))`, kept},
		{a, `store.put("m", "3")`, kept},
		{b, `until(() => heard[3])`, `null`},
		{b, `heard`, `[["n", "5.88"], ["@kit", "coot"], ["n", ""], ["m", "3"]]`},
		{b, `store.put("n", "6")`, kept},
		{b, `store.put("m", "4")`, `{"other": "3"}`},
	})
}

func testHeardOnFocus(t *testing.T, s shelf) {
	a, b := s.one(t), s.odd(t, `delete globalThis.BroadcastChannel`)
	follow(t, []stop{
		{b, `store.watch((field, text) => heard.push([field, text]) > 0)`, `null`},
		{a, `store.put("n", "5.88")`, kept},
		{b, `(dispatchEvent(new Event("focus")), until(() => heard[0]))`, `null`},
		{a, `store.put("n", "5.89")`, kept},
		{b, `(document.dispatchEvent(new Event("visibilitychange", {bubbles: true})), until(() => heard[1]))`, `null`},
		{b, `heard`, `[["n", "5.88"], ["n", "5.89"]]`},
		{a, `store.put("n", "5.9")`, kept},
		// What b is just writing is not heard but told, or the page would show one text and keep another.
		{b, `(dispatchEvent(new Event("focus")), store.put("n", "6"))`, `{"other": "5.9"}`},
		{b, `heard.length`, `2`},
	})
}

func testClearedHeard(t *testing.T, s shelf) {
	a, b := s.two(t)
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, kept},
		{b, `store.enter("")`, `{"n": "5.88"}`},
		{b, `store.watch((field, text) => heard.push([field, text]) > 0)`, `null`},
		{a, `store.clear()`, kept},
		{b, `until(() => heard[0]).then(() => heard)`, `[["n", ""]]`},
		{b, `store.put("n", "6")`, kept},
	})
}

func testClear(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `store.enter("Newts")`, `{}`},
		{a, `store.put("n", "6")`, kept},
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("n", "5.88")`, kept},
		{a, `store.put("@kit", "heron")`, kept},
		{a, `store.take({"04-error": {"e": "0.2"}})`, kept},
		{a, `store.clear()`, kept},
		{a, `store.whole().then((all) => all.lessons)`, `{"": {"@kit": "heron"}, "04-error": {"e": "0.2"}}`},
		{a, `store.teams()`, `["Newts", "Otters"]`},
		{a, `store.clear(true)`, kept},
		{a, `store.team`, `""`},
		{a, `store.teams()`, `[]`},
		{a, `store.enter("Newts")`, `{}`},
		{a, `store.clear(true)`, kept},
	})
	s.lesson(t, a, "03-rotations")
	follow(t, []stop{{a, `[store.team, texts]`, `["", {}]`}})
}
