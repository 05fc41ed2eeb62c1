package keeping_test

// Work that goes to files and comes back, and tables for spreadsheets.

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"trundle/testdata/browser"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
)

func testCarry(t *testing.T, s shelf) {
	a := s.one(t)
	follow(t, []stop{
		{a, `store.enter("Otters")`, `{}`},
		{a, `store.put("n", "5,88")`, kept},
		{a, `store.put("@kit", "heron")`, kept},
		{a, `store.put("m", "")`, kept},
	})
	file := browser.Ask[string](t, a,
		`store.whole().then((whole) => trundle.files.work(whole, {title: "Canal Day", version: "1.2"}).text())`)
	want := `{
  "trundle": "work",
  "form": 1,
  "pack": "` + s.pack + `",
  "title": "Canal Day",
  "version": "1.2",
  "team": "Otters",
  "lessons": {
    "": {
      "@kit": "heron"
    },
    "03-rotations": {
      "n": "5,88"
    }
  }
}
`
	if file != want {
		t.Errorf("the file holds %s\nwant %s", file, want)
	}
	b := s.odd(t, "", chromedp.WithNewBrowserContext())
	follow(t, []stop{
		{b, `store.teams()`, `[]`},
		{b, `(globalThis.file = trundle.files.open(` + quoted(file) + `, "` + s.pack + `"), file.team)`, `"Otters"`},
		{b, `store.enter(file.team)`, `{}`},
		{b, `store.take(file.lessons)`, kept},
		{b, `store.enter(file.team)`, `{"n": "5,88", "@kit": "heron"}`},
		{b, `store.put("n", "5.9")`, kept},
	})
}

func testTake(t *testing.T, s shelf) {
	a := s.one(t)
	const taken = `{"03-rotations": {"n": "6", "C": "20.4", "m": "1", "e": "2"}, "04-error": {"e": "0.2"}}`
	follow(t, []stop{
		{a, `store.put("n", "5.88")`, kept},
		{a, `store.put("C", "20.4")`, kept},
		{a, `store.put("m", "")`, kept},
		{a, `store.take(` + taken + `)`, `{"clash": 1}`},
		{a, `store.whole().then((all) => all.lessons)`, `{"03-rotations": {"n": "5.88", "C": "20.4"}}`},
		{a, `store.take(` + taken + `, true)`, kept},
		{a, `store.whole().then((all) => all.lessons)`, taken},
		{a, `store.put("n", "7")`, `{"other": "6"}`}, // the page has not shown what was taken
	})
}

func testOpenFiles(t *testing.T, s shelf) {
	a := s.one(t)
	file := func(form, pack, rest string) string {
		return `{"trundle": "work", "form": ` + form + `, "pack": "` + pack + `", "team": "Otters", "lessons": ` + rest + `}`
	}
	const good = `{"03-rotations": {"n": "5.88"}}`
	opened := func(lessons string) string { return `{"team": "Otters", "lessons": ` + lessons + `}` }
	without := func(lost int, lessons string) string {
		return fmt.Sprintf(`{"team": "Otters", "lost": %d, "lessons": %s}`, lost, lessons)
	}
	fault := func(name string) string { return `{"fault": "` + name + `"}` }
	for text, want := range map[string]string{
		file("1", "canal", good):            opened(good),
		"\ufeff" + file("1", "canal", good): opened(good),
		file("1", "canal", "{}"):            opened("{}"),
		"":                                  fault("not-ours"),
		"n,5.88":                            fault("not-ours"),
		"null":                              fault("not-ours"),
		"[1]":                               fault("not-ours"),
		`"work"`:                            fault("not-ours"),
		`{"trundle": "pack"}`:               fault("not-ours"),
		file("1", "canal", good)[:60]:       fault("damaged"),
		file("1", "canal", "[]"):            fault("damaged"),
		file("1", "canal", "null"):          fault("damaged"),
		file("0", "canal", good):            fault("damaged"),
		file(`"1"`, "canal", good):          fault("damaged"),
		`{"trundle": "work", "form": 1, "lessons": {}}`:                       fault("damaged"),
		file("2", "canal", `"laid out anew"`):                                 fault("newer-form"),
		file("1", "river", good):                                              fault("other-pack"),
		strings.Repeat("[", 1<<20):                                            fault("not-ours"),
		file("1", "canal", `{"a": {"n": "ä`+strings.Repeat("ä", 5<<19)+`"}}`): fault("too-large"),
	} {
		follow(t, []stop{{a, `trundle.files.open(` + quoted(text) + `, "canal")`, want}})
	}
	odd := [][2]string{ // the file, what is read from it
		{`{"trundle": "work", "form": 1, "pack": "canal", "team": ["x"], "lessons": {}}`, `{"team": "", "lessons": {}}`},
		{`{"trundle": "work", "form": 1, "pack": "canal", "team": "` + strings.Repeat("x", 201) + `", "lessons": {}}`,
			`{"team": "", "lessons": {}}`},
		{file("1", "canal", `{"a": {"n": 5, "C": null, "m": ["1"], "e": {"n": "1"}, "x": true, "y": "2", "z": ""}, `+
			`"b": "no"}`), without(7, `{"a": {"y": "2"}}`)},
		{file("1", "canal", `{"a": {"n": "`+strings.Repeat("5", 2001)+`", "C": "`+strings.Repeat("5", 2000)+`"}}`),
			without(1, `{"a": {"C": "`+strings.Repeat("5", 2000)+`"}}`)},
		{file("1", "canal", `{"a": {"`+strings.Repeat("n", 101)+`": "5", "": "6"}, `+
			`"`+strings.Repeat("n", 101)+`": {"n": "5"}}`), fault("nothing-usable")},
		{file("1", "canal", `{"__proto__": {"n": "5"}, "constructor": {"n": "5"}, `+
			`"a": {"__proto__": "5", "toString": "6", "n": "7"}}`),
			without(2, `{"constructor": {"n": "5"}, "a": {"toString": "6", "n": "7"}}`)},
		{file("1", "canal", `{"": {"@kit": "heron", "@kit-wheel": "65 mm", "team": "Newts"}, "a": {"@kit": "coot"}}`),
			without(2, `{"": {"@kit": "heron", "@kit-wheel": "65 mm"}}`)},
		{file("1", "canal", `{"a": {`+manyEntries(10000)+`}, "b": {`+manyEntries(10001)+`}}`), fault("damaged")},
	}
	for _, c := range odd {
		follow(t, []stop{{a, `trundle.files.open(` + quoted(c[0]) + `, "canal")`, c[1]}})
	}
	follow(t, []stop{
		{a, `[undefined, null, 5, {}].map((text) => trundle.files.open(text, "canal").fault)`,
			`["not-ours", "not-ours", "not-ours", "not-ours"]`},
		{a, `Object.keys(trundle.files.open(` + quoted(file("1", "canal", `{"a": {`+manyEntries(20000)+`}}`)) +
			`, "canal").lessons.a).length`, `20000`},
		{a, `[({}).n, Object.keys(Object.prototype)]`, `[null, []]`},
	})
}

// quoted writes a text as scripts do.
func quoted(text string) string {
	data, _ := json.Marshal(text) // no text fails
	return string(data)
}

func manyEntries(n int) string {
	entries := make([]string, n)
	for i := range entries {
		entries[i] = fmt.Sprintf(`"s%d": "%d"`, i, i)
	}
	return strings.Join(entries, ",")
}

func testTables(t *testing.T, s shelf) {
	a := s.one(t)
	table := func(columns, rows string) string {
		return `trundle.files.csv(` + columns + `, ` + rows +
			`).arrayBuffer().then((data) => new TextDecoder("utf-8", {ignoreBOM: true, fatal: true}).decode(data))`
	}
	follow(t, []stop{
		{a, table(`["base", "run", "stop (cm)"]`, `[["Heron", 1, "118.8"], ["Dipper", 2, ""], ["Öre", null]]`),
			quoted("base,run,stop (cm)\r\nHeron,1,118.8\r\nDipper,2,\r\nÖre,\r\n")},
		{a, table(`["a,b"]`, `[['say "no"'], ["two\nlines"], [" at the ends "], ["20,4"], ["in the middle"]]`),
			quoted("\"a,b\"\r\n\"say \"\"no\"\"\"\r\n\"two\nlines\"\r\n\" at the ends \"\r\n\"20,4\"\r\nin the middle\r\n")},
		{a, table(`["=x"]`, `[["=1+2"], ["+a"], ["-a"], ["@a"], ["\ta"], ["\ra"], ["\n=1"], ["-"], ["-1+2"], ["a=1"]]`),
			quoted("'=x\r\n'=1+2\r\n'+a\r\n'-a\r\n'@a\r\n\"'\ta\"\r\n\"'\ra\"\r\n\"'\n=1\"\r\n'-\r\n'-1+2\r\na=1\r\n")},
		{a, table(`["team"]`, `[["x;=1+1"]]`), quoted("team\r\n\"x;=1+1\"\r\n")},
		{a, table(`["x"]`, `[[-5], ["-5.25"], ["+.5"], ["-1e-3"], ["-0,5"]]`),
			quoted("x\r\n-5\r\n-5.25\r\n+.5\r\n-1e-3\r\n\"-0,5\"\r\n")},
	})
}

func testGive(t *testing.T, s shelf) {
	a := s.one(t)
	dir := t.TempDir()
	into := cdpbrowser.SetDownloadBehaviorParams{
		Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir,
	}
	if _, err := chromedp.CallBrowser(a.Context, cdpbrowser.SetDownloadBehavior, into); err != nil {
		t.Fatal(err)
	}
	names := map[string]string{
		"otters-5.json":                   "otters-5.json",
		"../Nöcks & Otters: \u202e.csv":   "Nöcks-Otters-.csv",
		"...":                             "trundle",
		strings.Repeat("x", 300) + ".csv": strings.Repeat("x", 96) + ".csv",
	}
	var want []string
	for name, safe := range names {
		want = append(want, safe)
		browser.Ask[chromedp.Void](t, a, `trundle.files.give(new Blob(["5.88"], {type: "application/octet-stream"}), `+
			quoted(name)+`)`)
		for start := time.Now(); ; time.Sleep(5 * time.Millisecond) {
			data, err := os.ReadFile(filepath.Join(dir, safe))
			if string(data) == "5.88" {
				break
			}
			if time.Since(start) > browser.Patience {
				t.Fatal(safe, err)
			}
		}
	}
	slices.Sort(want)
	var got []string
	there, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range there {
		got = append(got, entry.Name())
	}
	if !slices.Equal(got, want) {
		t.Errorf("the files are %q, want %q", got, want)
	}
	follow(t, []stop{{a, `document.body.children.length`, `0`}})
}
