package class_test

// A class of twelve teams is dropped on the page, in mixed units and among hostile files: what it shows, keeps, prints.

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"trundle/generator"
	"trundle/generator/tally"
	"trundle/testdata/browser"
)

var shots = flag.String("shots", "", "folder for pictures of the page, and what it prints")

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
			lines = append(lines, strings.Join([]string{fmt.Sprintf("Team %d", i+1), "Heron", fmt.Sprint(k + 1), x, "4"}, mark))
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
		{"unknown.csv", "runs as a table", "team,base,run,stop (parsec),drift (mm)\nX,Heron,1,NaN,1\nX,Heron,2,1e999,\n"},
	} {
		all[file{f[0], f[2]}] = f[1]
	}
	return all
}

// dropped drops files on the page and waits until it shows them.
func dropped(t *testing.T, tab *browser.Tab, files []file) {
	t.Helper()
	data, err := json.Marshal(files)
	if err != nil {
		t.Fatal(err)
	}
	browser.Ask[bool](t, tab, `(() => {
		document.getElementById("_told").textContent = "";
		const all = new DataTransfer();
		for (const { Name, Text } of `+string(data)+`) all.items.add(new File([Text], Name));
		const event = new DragEvent("drop", { dataTransfer: all, bubbles: true, cancelable: true });
		document.getElementById("_drop").dispatchEvent(event);
		return true;
	})()`)
	browser.Wait(t, tab, `document.getElementById("_told").textContent !== ""`)
}

const page = "mentors/class.html"

// opened opens the page and waits for its script.
func opened(t *testing.T) *browser.Tab {
	t.Helper()
	tab := browser.Open(t)
	tab.Open(t, browser.Demo(t).Root(), page)
	browser.Wait(t, tab, `"ready" in document.body.dataset`)
	return tab
}

func chosen(t *testing.T, tab *browser.Tab, lesson string) {
	t.Helper()
	browser.Ask[bool](t, tab, fmt.Sprintf(`(() => {
		const e = document.getElementById("_lesson");
		e.value = %q;
		const before = document.body.dataset.shown;
		e.dispatchEvent(new Event("change"));
		return new Promise((done) => {
			const look = () => (document.body.dataset.shown !== before ? done(true) : setTimeout(look, 5));
			look();
		});
	})()`, lesson))
}

func shown(t *testing.T, tab *browser.Tab) string {
	t.Helper()
	return browser.Ask[string](t, tab, `document.querySelector("main").innerText`)
}

func TestAClassAmongHostileFilesIsShownAndEachOfThoseIsNamed(t *testing.T) {
	tab := opened(t)
	bad := hostile()
	files := class()
	for f := range bad {
		files = append(files, f)
	}
	slices.SortStableFunc(files, func(a, b file) int { return len(a.Text)%7 - len(b.Text)%7 }) // in any mix
	browser.Order(t, tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 4})
	dropped(t, tab, files)
	t.Logf("drawn in %.0f ms with a processor four times slower, %d files", browser.Ask[float64](t, tab,
		`(() => { const start = performance.now(); const e = document.getElementById("_lesson");
			const before = document.body.dataset.shown; e.dispatchEvent(new Event("change"));
			return new Promise((done) => { const look = () => document.body.dataset.shown !== before
				? done(performance.now() - start) : setTimeout(look, 1); look(); }); })()`), len(files))
	browser.Order(t, tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 1})
	told := browser.Ask[[]string](t, tab, `[...document.querySelectorAll("#_files li")].map((e) => e.textContent)`)
	for f, want := range bad {
		isSaid := func(line string) bool { return strings.HasPrefix(line, f.Name+": ") && strings.Contains(line, want) }
		if !slices.ContainsFunc(told, isSaid) {
			t.Errorf("%s: nothing says “%s”: %q", f.Name, want, told)
		}
	}
	chosen(t, tab, "07-choosing-a-base")
	text := shown(t, tab)
	for _, want := range []string{"Talk about this next week", "3 of 8 teams", "That is all five together", "target 120",
		"Heron", "Team 12", "counted together", "That does not say that they are equal", "Over the season"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say “%s”:\n%s", want, text)
		}
	}
	const runs = 8*5 + 4*4 + 4*4 + 1 // stops, how far to the side, and one of a hostile file
	if got := browser.Ask[int](t, tab, `document.querySelectorAll("#_shown .sum circle").length`); got != runs {
		t.Errorf("%d dots, and every run has one", got)
	}
	picture(t, tab, "class")
	tab.View(t, browser.Phone, browser.Light)
	if wide := browser.Ask[float64](t, tab, `document.documentElement.scrollWidth - innerWidth`); wide > 0 {
		t.Errorf("on a phone the page is %g pixels too wide", wide)
	}
	picture(t, tab, "class-phone")
	tab.Report(t)
}

// TestThePageSaysWhatTallySays drops the files that tally is given, and looks for each of its sentences.
func TestThePageSaysWhatTallySays(t *testing.T) {
	built := browser.Demo(t)
	proved, err := generator.Prove(t.Context(), os.DirFS(browser.Lessons()))
	if err != nil {
		t.Fatal(err)
	}
	files, names := fstest.MapFS{}, []string{}
	for _, f := range class() {
		files[f.Name], names = &fstest.MapFile{Data: []byte(f.Text)}, append(names, f.Name)
	}
	records := proved.Records()
	told, err := generator.Tally(files, names, tally.Options{Pack: records, Lesson: records.Named("7")})
	if err != nil || len(told.Tables) != 2 {
		t.Fatal(err, told.Problems)
	}
	tab := browser.Open(t)
	tab.Open(t, built.Root(), page)
	browser.Wait(t, tab, `"ready" in document.body.dataset`)
	dropped(t, tab, class())
	chosen(t, tab, "07-choosing-a-base")
	text := shown(t, tab)
	plain := strings.NewReplacer("'", "’", "\u00a0", " ")
	sentences := told.Warnings
	for _, numbers := range told.Tables {
		for _, row := range numbers.Rows {
			sentences = append(sentences, strings.Join(row, "\t"))
		}
		for _, s := range numbers.Says {
			sentences = append(sentences, s)
		}
	}
	for _, s := range sentences {
		if !strings.Contains(plain.Replace(text), plain.Replace(s)) {
			t.Errorf("tally says “%s”, and the page does not:\n%s", s, text)
		}
	}
	if len(sentences) < 15 {
		t.Errorf("tally says %d things only", len(sentences))
	}
}

func TestBaseAndTeamThatCannotBeToldApartAreSaid(t *testing.T) {
	tab := opened(t)
	dropped(t, tab, []file{saved("A", "heron", 1, []string{"119", "120", "121"}, nil),
		saved("B", "coot", 1, []string{"124", "125", "126"}, nil)})
	chosen(t, tab, "07-choosing-a-base")
	if text := shown(t, tab); !strings.Contains(text, "Each base was driven by one team only") {
		t.Error(text)
	}
}

func TestTheNewestWorkOfATeamCountsAndASavedClassComesBack(t *testing.T) {
	tab := opened(t)
	newer := saved("A", "heron", 5, []string{"119", "120", "121"}, []string{"120"})
	older := saved("A", "heron", 4, []string{"1", "2", "3"}, []string{"2"})
	table := file{"b.csv", "team,base,run,stop (cm)\nB,Coot,1,124\nB,Coot,2,125.5\nB,Coot,3,126\n"}
	dropped(t, tab, []file{newer, older, table})
	chosen(t, tab, "07-choosing-a-base")
	before := browser.Ask[string](t, tab, `document.getElementById("_shown").innerText`)
	if strings.Contains(before, "2.0") || !strings.Contains(before, "120") {
		t.Errorf("the older work counts:\n%s", before)
	}
	kept := browser.Ask[string](t, tab, `new Promise((done) => {
		URL.createObjectURL = (blob) => (blob.text().then(done), "blob:none");
		HTMLAnchorElement.prototype.click = () => {};
		document.getElementById("_save").click();
	})`)
	other := opened(t)
	dropped(t, other, []file{{"class.json", kept}, older, table})
	chosen(t, other, "07-choosing-a-base")
	after := browser.Ask[string](t, other, `document.getElementById("_shown").innerText`)
	if after != before {
		t.Errorf("a class that was saved comes back as\n%s\nand was\n%s", after, before)
	}
	if n := browser.Ask[int](t, other, `Object.keys(localStorage).length`); n != 0 {
		t.Errorf("%d things are kept on the device", n)
	}
}

func TestTheClassIsPrintedOnOnePage(t *testing.T) {
	tab := opened(t)
	dropped(t, tab, class())
	chosen(t, tab, "07-choosing-a-base")
	for name, paper := range map[string][2]float64{"A4": browser.A4, "Letter": browser.Letter} {
		pdf := browser.PrintedOn(t, tab, paper)
		if *shots != "" {
			_ = os.WriteFile(filepath.Join(*shots, "class-"+name+".pdf"), pdf, 0o600)
		}
		// The season's charts come on pages of their own, after it.
		season := browser.Ask[int](t, tab, `document.querySelectorAll("#_season svg").length`)
		pages := len(regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(pdf, -1))
		t.Logf("%s: %d pages, with charts of %d teams", name, pages, season)
		if browser.Ask[int](t, tab, `(document.getElementById("_season").hidden = true, 1)`) == 1 {
			only := browser.PrintedOn(t, tab, paper)
			if n := len(regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(only, -1)); n != 1 {
				t.Errorf("%s: the class takes %d pages", name, n)
			}
			browser.Ask[int](t, tab, `(document.getElementById("_season").hidden = false, 1)`)
		}
	}
}

func TestTheFilesCanBeChosenFromTheKeyboard(t *testing.T) {
	tab := opened(t)
	got := browser.Ask[bool](t, tab, `(() => {
		let asked = false;
		document.getElementById("_picker").click = () => (asked = true);
		document.getElementById("_choose").focus();
		document.activeElement.click();
		return asked && document.activeElement.tagName === "BUTTON";
	})()`)
	if !got {
		t.Error("the button does not ask for files")
	}
	tab.Report(t)
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
