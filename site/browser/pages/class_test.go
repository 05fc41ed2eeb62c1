package pages_test

// A class of twelve teams is dropped on the page, in mixed units and among hostile files: what it shows, keeps, prints.

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"trundle/generator"
	"trundle/generator/tally"
	"trundle/testdata/browser"
)

// file is one that is dropped.
type file struct{ Name, Text string }

// saved is a team's saved work of lesson 7, with its runs as they were typed.
func saved(team, kit string, saves int, stops, answers []string) file {
	entries := map[string]string{}
	for i, text := range stops {
		entries[fmt.Sprintf("stop-%d", i+1)] = text
	}
	for i, text := range answers {
		entries[[]string{"avg", "wide"}[i]] = text
	}
	work := map[string]any{"trundle": "work", "form": 1, "pack": "canal-day", "team": team, "saves": saves,
		"lessons": map[string]any{"": map[string]string{"@kit": kit}, "choosing-base": entries,
			"03-rotations-for-a-distance": map[string]string{"stop-1": "119", "stop-2": "121", "stop-3": "118"}}}
	text, _ := json.Marshal(work)
	return file{team + ".json", string(text)}
}

// class is twelve teams: work in centimetres, inches, metres and with decimal commas, and tables.
func class() []file {
	kits := []string{"heron", "dipper", "coot"}
	var all []file
	for i := range 8 {
		x := 119 + float64(i%3)*2
		texts := []string{fmt.Sprintf("%.1f", x+.4), fmt.Sprintf("%.1f", x-.3), fmt.Sprintf("%.1f", x+.1),
			fmt.Sprintf("%.1f", x+.2), fmt.Sprintf("%.1f", x-.2)}
		switch i % 4 {
		case 1:
			texts = []string{"47.5 in", "47.7 in", "48.1 in", "47.9 in", "48 1/8 in"}
		case 2:
			for k, text := range texts {
				texts[k] = strings.Replace(text, ".", ",", 1)
			}
		case 3:
			texts[0], texts[1] = "1.214 m", "1198 mm"
		}
		answers := []string{fmt.Sprintf("%.1f", 5*x+.2)} // the sum, which is a slip of the lesson
		if i == 0 {
			answers = []string{"119.0", "0.7"} // both are right
		}
		all = append(all, saved(fmt.Sprintf("Team %d", i+1), kits[i%3], 2, texts, answers))
	}
	for i := 8; i < 12; i++ {
		unit, mark := "cm", ","
		rows := []string{"119.5", "120.5", "121.5", "122.5"}
		if i%2 == 1 {
			unit, mark, rows = "in", ";", []string{"47,5", "48,1", "47,9", "48,4"}
		}
		lines := []string{strings.Join([]string{"team", "base", "run", "stop (" + unit + ")", "drift (mm)"}, mark)}
		for k, x := range rows {
			lines = append(lines, strings.Join([]string{fmt.Sprint("Team ", i+1), "Heron", fmt.Sprint(k + 1), x, "4"}, mark))
		}
		all = append(all, file{fmt.Sprintf("team-%d.csv", i+1), strings.Join(lines, "\r\n")})
	}
	return all
}

// hostile are files that are no class's, and what the page says of each.
func hostile() map[file]string {
	all := map[file]string{}
	for _, f := range [][3]string{ // name, what is said, text
		{"empty.json", "cannot be read as a table", ""},
		{"cut.json", "damaged", `{"trundle": "work", "form": 1, "les`},
		{"list.json", "neither", `[1, 2]`},
		{"null.json", "neither", `{"a": null}`},
		{"proto.json", "nothing in this file can be used", `{"trundle":"work","form":1,"pack":"canal-day",` +
			`"lessons":{"__proto__":{"a":"1"}},"__proto__":{"x":1}}`},
		{"part.json", "left out: 2", `{"trundle":"work","form":1,"pack":"canal-day","team":"Team 1","saves":1,` +
			`"lessons":{"choosing-base":{"stop-1":"1","stop-2":2,"@kit":"heron"}}}`},
		{"other.json", "another pack", `{"trundle":"work","form":1,"pack":"elsewhere","team":"A","lessons":{}}`},
		{"new.json", "newer version", `{"trundle":"work","form":9,"pack":"canal-day","lessons":{}}`},
		{"form.json", "damaged", `{"trundle":"work","form":"<b>","pack":"canal-day","lessons":{}}`},
		{"class.json", "neither", `{"trundle":"class","form":1,"works":[1,{"trundle":"work"}],"tables":[]}`},
		{"class2.json", "damaged", `{"trundle":"class","form":7}`},
		{"deep.json", "neither", strings.Repeat(`{"a":`, 20000)},
		{"bytes.csv", "cannot be read as a table", "PK\x03\x04\x00\x00\x01"},
		{"quote.csv", "cannot be read as a table", "team,\"stop (cm)\nA,1"},
		{"long.csv", "too large", "team,run,stop (cm)\n" + strings.Repeat("A,1,2\n", 6000)},
		{"wide.csv", "cannot be read as a table", strings.Repeat("a,", 500) + "\n1\n"},
		{"<img src=x>.csv", "cannot be read as a table", "no,runs\n"},
		{"huge.json", "too large", `{"trundle":"work"` + strings.Repeat(" ", 5<<20) + "}"},
	} {
		all[file{f[0], f[2]}] = f[1]
	}
	return all
}

// leftOut are tables of which nothing can be counted, and what the page says of each.
func leftOut() map[file]string {
	all := map[file]string{}
	for f, want := range map[file]string{
		{"parsec.csv", "team,base,stop (parsec)\nX,Heron,1\n"}:            "parsec.csv: “parsec” is not a unit",
		{"words.csv", "\n\nteam,base,stop (cm)\n\nX,Heron,\"a\nlot\"\n"}:  "words.csv, line 5: “a lot” is not a",
		{"vast.csv", "sep=;\r\nteam;base;stop (cm)\r\nX;Heron;1e999\r\n"}: "vast.csv, line 3: “1e999” is not a number",
		{"hex.csv", "team,base,stop (cm)\nX,Heron,0x78\n"}:                "hex.csv, line 2: “0x78” is not a number",
		{"kilo.csv", "team,base,stop (cm)\nX,Heron,120 kg\n"}:             "kilo.csv, line 2: “120 kg” is not a number",
		{"comma.csv", "team,base,stop (cm)\nX,Heron,119,5\n"}:             "comma.csv, line 2: this row has 4 cells",
		{"point.csv", "team;base;stop (mm)\nX;Heron;1.203\n"}:             "point.csv, line 2: “1.203” may be a thousand",
		{"twice.csv", "team,base,stop (cm)\nTeam 1,Heron,7\n"}:            "twice.csv: the runs of Team 1, whose saved",
	} {
		f.Name = lesson7 + "-" + f.Name // other lessons have such a column, too
		all[f] = want
	}
	return all
}

// opened opens the page anew and waits for its script.
func opened(t testing.TB, tab *browser.Tab) {
	t.Helper()
	tab.Open(t, browser.Demo(t).Root(), "mentors/class.html")
	browser.Wait(t, tab, `"ready" in document.body.dataset`)
}

// dropped drops files on the page, waits until they are laid out and painted, and gives how long that took, in
// milliseconds. The season may come after that; chosen waits for it.
func dropped(t testing.TB, tab *browser.Tab, files []file) float64 {
	t.Helper()
	data, err := json.Marshal(files)
	if err != nil {
		t.Fatal(err)
	}
	return browser.Ask[float64](t, tab, `(() => {
		document.getElementById("_told").textContent = "";
		const all = new DataTransfer();
		for (const { Name, Text } of `+string(data)+`) all.items.add(new File([Text], Name));
		const event = new DragEvent("drop", { dataTransfer: all, bubbles: true, cancelable: true });
		const start = performance.now();
		document.getElementById("_drop").dispatchEvent(event);
		return new Promise((done) => {
			const look = () => document.getElementById("_told").textContent !== ""
				? requestAnimationFrame(() => setTimeout(() => done(performance.now() - start))) : setTimeout(look, 1);
			look();
		});
	})()`)
}

// chosen chooses a lesson and gives what the page then says.
func chosen(t *testing.T, tab *browser.Tab, lesson string) string {
	t.Helper()
	return browser.Ask[string](t, tab, fmt.Sprintf(`(() => {
		const e = document.getElementById("_lesson");
		e.value = %q;
		const before = document.body.dataset.shown;
		e.dispatchEvent(new Event("change"));
		return new Promise((done) => {
			const look = () => (document.body.dataset.shown !== before
				? done(document.querySelector("main").innerText) : setTimeout(look, 5));
			look();
		});
	})()`, lesson))
}

const lesson7 = "07-choosing-a-base"

// BenchmarkClass has the page show the saved work of a class, alone and among hostile files, on a processor that is
// made four times as slow.
func BenchmarkClass(b *testing.B) {
	all := class()
	for _, some := range []map[file]string{hostile(), leftOut()} {
		all = append(all, slices.SortedFunc(maps.Keys(some), byName)...)
	}
	for name, files := range map[string][]file{"alone": class(), "among-hostile-files": all} {
		b.Run(name, func(b *testing.B) {
			tab := browser.Open(b)
			browser.Order(b, tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 4})
			sum := 0.0
			for b.Loop() {
				opened(b, tab)
				sum += dropped(b, tab, files)
			}
			b.ReportMetric(sum/float64(b.N), "ms-to-the-first-picture")
			b.ReportMetric(float64(len(files)), "files")
		})
	}
}

func byName(a, b file) int { return strings.Compare(a.Name, b.Name) }

func TestAClassAmongHostileFilesIsShownAndPrintedOnOnePage(t *testing.T) {
	tab := browser.Open(t)
	opened(t, tab)
	bad, left := hostile(), leftOut()
	files := class()
	for _, some := range []map[file]string{bad, left} {
		for f := range some {
			files = append(files, f)
		}
	}
	slices.SortStableFunc(files, byName)
	dropped(t, tab, class())
	dropped(t, tab, files)
	told := browser.Ask[[]string](t, tab, `[...document.querySelectorAll("#_taken li")].map((e) => e.textContent)`)
	for f, want := range bad {
		isSaid := func(line string) bool { return strings.HasPrefix(line, f.Name+": ") && strings.Contains(line, want) }
		if !slices.ContainsFunc(told, isSaid) {
			t.Errorf("%s: nothing says “%s”: %q", f.Name, want, told)
		}
	}
	text := chosen(t, tab, lesson7)
	wanted := append(slices.Collect(maps.Values(left)), "Talk about this next week", "3 of 8 teams",
		"That is all five together", "target 120", "Heron", "Team 12", "counted together",
		"That does not say that they are equal", "Over the season", fmt.Sprintf("cannot be counted: %d.", len(left)))
	for _, want := range wanted {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say “%s”:\n%s", want, text)
		}
	}
	if n := saysWhatTallySays(t, text, class()); n < 15 {
		t.Errorf("tally says %d things only", n)
	}
	const runs = 8*5 + 4*4 + 4*4 // stops, and how far to the side
	if got := browser.Ask[int](t, tab, `document.querySelectorAll("#_shown .sum circle").length`); got != runs {
		t.Errorf("%d dots, and every run has one", got)
	}
	printed(t, tab)
	picture(t, tab, "class")
	tab.View(t, browser.Phone, browser.Light)
	if wide := browser.Ask[float64](t, tab, `document.documentElement.scrollWidth - innerWidth`); wide > 0 {
		t.Errorf("on a phone the page is %g pixels too wide", wide)
	}
	picture(t, tab, "class-phone")
	tab.Report(t)
}

// records are those of the demo pack.
var records = sync.OnceValues(func() (*tally.Pack, error) {
	proved, err := generator.Prove(context.Background(), os.DirFS(browser.Lessons()))
	if err != nil {
		return nil, err
	}
	return proved.Records(), nil
})

// saysWhatTallySays looks for each sentence and row that tally prints of the same files, and gives how many there are.
func saysWhatTallySays(t *testing.T, text string, dropped []file) int {
	t.Helper()
	pack, err := records()
	if err != nil {
		t.Fatal(err)
	}
	files, names := fstest.MapFS{}, []string{}
	for _, f := range dropped {
		files[f.Name], names = &fstest.MapFile{Data: []byte(f.Text)}, append(names, f.Name)
	}
	told, err := generator.Tally(files, names, tally.Options{Pack: pack, Lesson: pack.Named("7")})
	if err != nil || len(told.Tables) == 0 {
		t.Fatal(err, told.Problems)
	}
	plain := strings.NewReplacer("'", "’", "\u00a0", " ")
	sentences := told.Warnings
	for _, numbers := range told.Tables {
		for _, row := range numbers.Rows {
			sentences = append(sentences, strings.Join(row, "\t"))
		}
		sentences = append(sentences, numbers.Says...)
	}
	for _, s := range sentences {
		if !strings.Contains(plain.Replace(text), plain.Replace(s)) {
			t.Errorf("tally says “%s”, and the page does not:\n%s", s, text)
		}
	}
	return len(sentences)
}

// printed counts the sheets of paper: one for the class, and those of the season after it.
func printed(t *testing.T, tab *browser.Tab) {
	t.Helper()
	season := browser.Ask[int](t, tab, `document.querySelectorAll("#_season svg").length`)
	if season != 8 { // the tables are of one lesson only
		t.Errorf("%d teams have a chart of the season", season)
	}
	for name, paper := range map[string][2]float64{"A4": browser.A4, "Letter": browser.Letter} {
		for _, isEmpty := range []bool{false, true} { // as after the first lesson
			browser.Ask[chromedp.Void](t, tab, fmt.Sprintf(`(() => {
				const season = document.getElementById("_season");
				globalThis.whole ??= season.firstElementChild;
				season.replaceChildren(%t ? document.createElement("div") : whole);
			})()`, isEmpty))
			pdf := browser.PrintedOn(t, tab, paper)
			pages := len(regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(pdf, -1))
			if isEmpty && pages != 1 || pages > 3 {
				t.Errorf("%s: %d pages, the season empty: %t", name, pages, isEmpty)
			}
			if *shots != "" && !isEmpty {
				if err := os.WriteFile(filepath.Join(*shots, "class-"+name+".pdf"), pdf, 0o600); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_season").replaceChildren(whole)`)
}

func TestTheNewestWorkOfATeamCountsAndASavedClassComesBack(t *testing.T) {
	tab := browser.Open(t)
	opened(t, tab)
	newer := saved("A", "heron", 5, []string{"119", "120", "121"}, []string{"120"})
	older := saved("A", "heron", 4, []string{"1", "2", "3"}, []string{"2"})
	table := file{lesson7 + "-b.csv", "team,base,run,stop (cm)\nB,Coot,1,124\nB,Coot,2,125.5\nB,Coot,3,126\n"}
	chooseFiles(t, tab, newer)
	dropped(t, tab, []file{older, table, {"x.json", saved("", "heron", 0, nil, []string{"1"}).Text},
		{"y.json", saved("", "heron", 0, nil, []string{"2"}).Text}})
	said := browser.Ask[string](t, tab, `document.getElementById("_taken").textContent`)
	for _, want := range []string{"the work of A. Work that this team saved later is here already",
		"x.json: the work of a team without a namey.json", "Work without a team’s name is taken for one team’s"} {
		if !strings.Contains(said, want) {
			t.Errorf("of the files nothing says “%s”: %s", want, said)
		}
	}
	before := chosen(t, tab, lesson7)
	if !strings.Contains(before, "Each base was driven by one team only") || !strings.Contains(before, "Heron\t3\t120.0") {
		t.Errorf("the older work counts, or nothing says that base and team go together:\n%s", before)
	}
	kept := browser.Ask[string](t, tab, `new Promise((done) => {
		URL.createObjectURL = (blob) => (blob.text().then(done), "blob:none");
		HTMLAnchorElement.prototype.click = () => {};
		document.getElementById("_save").click();
	})`)
	opened(t, tab)
	dropped(t, tab, []file{{"class.json", kept}, older, table})
	shown := func(text string) string { _, below, _ := strings.Cut(text, "Teams and questions"); return below }
	if after := chosen(t, tab, lesson7); shown(after) != shown(before) || shown(after) == "" {
		t.Errorf("a class that was saved comes back as\n%s\nand was\n%s", after, before)
	}
	if n := saysWhatTallySays(t, before, []file{{"class.json", kept}, older, table}); n < 4 {
		t.Errorf("of the class file tally says %d things only", n)
	}
	if n := browser.Ask[int](t, tab, `Object.keys(localStorage).length`); n != 0 {
		t.Errorf("%d things are kept on the device", n)
	}
	tab.Report(t)
}

// chooseFiles chooses a file by the button, from the keyboard.
func chooseFiles(t *testing.T, tab *browser.Tab, f file) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_picker").click = () => (globalThis.asked = true)`)
	for range 40 {
		pressed(t, tab, "Tab", "", 9)
		if browser.Ask[bool](t, tab, `document.activeElement.id === "_choose"`) {
			break
		}
	}
	pressed(t, tab, "Enter", "\r", 13)
	browser.Wait(t, tab, `globalThis.asked`)
	name := filepath.Join(t.TempDir(), f.Name)
	if err := os.WriteFile(name, []byte(f.Text), 0o600); err != nil {
		t.Fatal(err)
	}
	picker := browser.Run(t, tab, func(ctx context.Context, target *chromedp.Target) (runtime.EvaluateResult, error) {
		return cdp.Call(ctx, target, runtime.Evaluate,
			runtime.EvaluateParams{Expression: `document.getElementById("_picker")`})
	})
	browser.Order(t, tab, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: []string{name},
		ObjectID: picker.Result.ObjectID})
	browser.Wait(t, tab, `document.getElementById("_told").textContent !== ""`)
}

func pressed(t *testing.T, tab *browser.Tab, name, text string, code int64) {
	t.Helper()
	key := input.DispatchKeyEventParams{Type: input.DispatchKeyEventTypeKeyDown, Key: name, Code: name, Text: text,
		WindowsVirtualKeyCode: code}
	browser.Order(t, tab, input.DispatchKeyEvent, key)
	key.Type, key.Text = input.DispatchKeyEventTypeKeyUp, ""
	browser.Order(t, tab, input.DispatchKeyEvent, key)
}

func picture(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	if *shots == "" {
		return
	}
	data := browser.Run(t, tab, chromedp.FullScreenshot(100))
	if err := os.WriteFile(filepath.Join(*shots, name+".png"), data, 0o600); err != nil {
		t.Fatal(err)
	}
}
