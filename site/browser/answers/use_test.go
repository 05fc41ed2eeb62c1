package answers_test

// A sheet as people use it: by keyboard and touch, with other kits, bad input, two tabs, files, no network.

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"trundle/site/words"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// typed types keys as a keyboard does, into whatever has the focus.
func typed(t *testing.T, tab *browser.Tab, keys string) {
	t.Helper()
	for _, r := range keys {
		switch r {
		case '\t', '\r':
			name, code := map[rune]string{'\t': "Tab", '\r': "Enter"}[r], map[rune]int64{'\t': 9, '\r': 13}[r]
			down := input.DispatchKeyEventParams{
				Type: input.DispatchKeyEventTypeKeyDown, Key: name, Code: name, WindowsVirtualKeyCode: code,
			}
			if r == '\r' {
				down.Text = "\r"
			}
			browser.Order(t, tab, input.DispatchKeyEvent, down)
			browser.Order(t, tab, input.DispatchKeyEvent, input.DispatchKeyEventParams{
				Type: input.DispatchKeyEventTypeKeyUp, Key: name, Code: name, WindowsVirtualKeyCode: code,
			})
		default:
			browser.Order(t, tab, input.InsertText, input.InsertTextParams{Text: string(r)})
		}
	}
}

func told(name string) string { return `document.getElementById("told_` + name + `").textContent` }

// opened gives the demo pack, a tab with nothing kept in it, and the pack's address.
func opened(t testing.TB) (browser.Built, *browser.Tab, string) {
	t.Helper()
	built := browser.Demo(t)
	return built, browser.Open(t), built.Root()
}

func TestASheetIsFilledByKeyboardAlone(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	for range 60 {
		if browser.Ask[string](t, tab, `document.activeElement.id`) == "in_d" {
			break
		}
		typed(t, tab, "\t")
	}
	typed(t, tab, "65\t204 mm\t")
	browser.Wait(t, tab, told("C")+`.includes("Right")`)
	got := browser.Ask[string](t, tab, `document.activeElement.localName + document.activeElement.id`)
	if got != "summary" && got != "in_n" && got != "inputin_n" {
		t.Errorf("after the answer the focus is on %q, neither on its steps nor on the next box", got)
	}
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("in_n").focus()`)
	typed(t, tab, "5.97\r")
	browser.Wait(t, tab, told("n")+`.includes("Right")`)
	tab.Report(t)
}

func TestASheetIsFilledByTouch(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	tab.View(t, browser.Phone, browser.Light)
	touch := func(id string) {
		at := browser.Ask[[]float64](t, tab, fmt.Sprintf(`(() => {
			const e = document.getElementById(%q);
			e.scrollIntoView({ block: "center" });
			const r = e.getBoundingClientRect();
			return [r.left + r.width / 2, r.top + r.height / 2];
		})()`, id))
		point := []*input.TouchPoint{{X: at[0], Y: at[1]}}
		browser.Order(t, tab, input.DispatchTouchEvent,
			input.DispatchTouchEventParams{Type: input.DispatchTouchEventTypeTouchStart, TouchPoints: point})
		browser.Order(t, tab, input.DispatchTouchEvent,
			input.DispatchTouchEventParams{Type: input.DispatchTouchEventTypeTouchEnd, TouchPoints: []*input.TouchPoint{}})
		browser.Wait(t, tab, fmt.Sprintf(`document.activeElement.id === %q`, id))
	}
	touch("in_d")
	typed(t, tab, "65")
	touch("in_C")
	typed(t, tab, "20.4")
	touch("in_n")
	browser.Wait(t, tab, told("C")+`.includes("Right")`)
	tab.Report(t)
}

func TestTargetsAreLargeEnoughForAFinger(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_files").open = true`)
	browser.Wait(t, tab, `document.querySelectorAll("#_files button").length > 4`)
	for _, width := range []int64{browser.Narrowest, browser.Tablet} {
		tab.View(t, width, browser.Light)
		const controls = `input:not([type=file]), select, button, summary, .tape a`
		for _, small := range browser.Ask[[]string](t, tab, `[...document.querySelectorAll("`+controls+`")]
			.map((e) => ({ e, visible: e.checkVisibility(), box: e.getBoundingClientRect() }))
			.filter(({ visible, box }) => visible && (box.height < 44 || box.width < 44))
			.map(({ e, box }) => e.outerHTML.slice(0, 90) + " " + JSON.stringify(box))`) {
			t.Errorf("%d px: less than 44 px: %s", width, small)
		}
	}
}

func TestBlanksFillWithTheTeamsOwnResults(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	program := `document.querySelector("pre").textContent`
	if got := browser.Ask[string](t, tab, program); strings.Contains(got, "5.9") {
		t.Fatalf("the program is filled before anything is answered: %s", got)
	}
	browser.Fill(t, tab, [][2]string{{"d", "48 mm"}, {"C", "15.08 cm"}, {"n", "8"}})
	browser.Wait(t, tab, told("n")+`.includes("0.01")`) // to be written to 0.01
	browser.Fill(t, tab, [][2]string{{"n", "8.085"}})
	browser.Wait(t, tab, told("n")+`.includes("Right")`)
	if got := browser.Ask[string](t, tab, program); !strings.Contains(got, "forward_rotations(8.09)") &&
		!strings.Contains(got, "forward_rotations(8.08)") {
		t.Errorf("the program reads %s", got)
	}
	if got := browser.Ask[string](t, tab, `document.querySelector("p .blank.full").textContent`); got == "" {
		t.Error("no blank of the text is filled")
	}
	browser.Fill(t, tab, [][2]string{{"n", "1"}})
	if got := browser.Ask[string](t, tab, program); strings.Contains(got, "8.0") {
		t.Errorf("with a wrong answer the program still reads %s", got)
	}
}

func TestTheNumbersFollowTheKit(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	choose := func(id, text string) { enter(t, tab, id, text) }
	box := func(id, text string) {
		t.Helper()
		browser.Wait(t, tab, fmt.Sprintf(`document.getElementById(%q).value === %q`, id, text))
	}
	choose("_kit", "coot")
	box("in_d", "48")
	browser.Fill(t, tab, [][2]string{{"C", "15.1"}})
	browser.Wait(t, tab, told("C")+`.includes("Right")`)
	choose("_kit", "heron")
	box("in_d", "65")
	browser.Wait(t, tab, "!"+told("C")+`.includes("Right")`)
	choose("_kit", "ours")
	browser.Wait(t, tab, `document.getElementById("kit_wheel").checkVisibility()`)
	choose("kit_wheel", "5 cm")
	box("in_d", "50")
	browser.Fill(t, tab, [][2]string{{"d", "51"}})
	choose("_kit", "dipper")
	browser.Wait(t, tab, `document.getElementById("_kit").dataset.kept === "dipper"`)
	browser.Wait(t, tab, `document.getElementById("in_d").dataset.kept === "51"`)
	box("in_d", "51") // what the team measured stays
	tab.Open(t, root, "students/04-error-and-percent-error.html")
	browser.Ready(t, tab)
	box("_kit", "dipper")
	tab.Report(t)
}

// TestBadInputIsToldInAPlainSentence types what nobody should and looks for a sentence,
// and that the page still works.
func TestBadInputIsToldInAPlainSentence(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	for _, bad := range []struct{ box, text, want string }{
		{"d", "letters", "number"}, {"d", "1e999", "number"}, {"d", "--", "number"}, {"d", "12,34.5", "decimal"},
		{"d", "<script>alert(1)</script>", "number"},
		{"d", "6.5", "Check the number"}, {"d", "-65", "more than 0"}, {"d", "0", "more than 0"},
		{"d", "65 kg", "does not fit"}, {"d", "65 wobble", "not a unit"},
		{"d", "1/0", "number"}, {"d", "😀", "number"}, {"C", "__proto__", "number"}, {"C", "constructor", "number"},
		{"d", strings.Repeat("9", 60), ""},
	} {
		got := browser.Fill(t, tab, [][2]string{{bad.box, bad.text}})[0]
		if got.Text == "" || got.State != "look" || !strings.Contains(got.Text, bad.want) {
			t.Errorf("%q: told %q (%s), want something about %q", bad.text, got.Text, got.State, bad.want)
		}
		if strings.Contains(got.Text, "{}") || strings.Contains(got.Text, "undefined") {
			t.Errorf("%q: told %q", bad.text, got.Text)
		}
	}
	for _, good := range []string{"65", "65,0", "٦٥", "６５", "6.5 cm", "2 9/16 in", ""} {
		if got := browser.Fill(t, tab, [][2]string{{"d", good}})[0]; got.Text != "" {
			t.Errorf("%q: told %q", good, got.Text)
		}
	}
	browser.Fill(t, tab, [][2]string{{"d", "65"}})
	browser.Wait(t, tab, `document.getElementById("in_d").dataset.kept === "65"`)
	browser.Ask[chromedp.Void](t, tab, `(() => { const e = document.getElementById("in_d"); `+
		`e.value = "7".repeat(10 * 1024 * 1024); e.dispatchEvent(new Event("change")); })()`)
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("too long")`)
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	if got := browser.Ask[string](t, tab, `document.getElementById("in_d").value`); got != "65" {
		t.Errorf("after ten megabytes were pasted the box holds %.20q; 65 was kept before", got)
	}
	tab.Report(t)
}

func TestTwoTabsOfOneSheet(t *testing.T) {
	t.Parallel()
	_, first, root := opened(t)
	browser.StartOver(t, first, root, browser.Lesson3)
	second := browser.Another(t, first)
	second.Open(t, root, browser.Lesson3)
	browser.Ready(t, second)
	browser.Fill(t, first, [][2]string{{"d", "65"}})
	browser.Wait(t, second, `document.getElementById("in_d").value === "65"`)
	// While the second types, the first leaves the same box.
	browser.Ask[chromedp.Void](t, second,
		`(() => { const e = document.getElementById("in_guess"); e.focus(); e.value = "7"; })()`)
	browser.Fill(t, first, [][2]string{{"guess", "6"}})
	browser.Wait(t, first, `document.getElementById("in_guess").dataset.kept === "6"`)
	browser.Ask[chromedp.Void](t, second, `document.getElementById("in_guess").dispatchEvent(new Event("change"))`)
	browser.Wait(t, second, told("guess")+`.includes("Another tab has written 6")`)
	browser.Ask[chromedp.Void](t, second, `document.querySelector("#told_guess button").click()`)
	browser.Wait(t, second, `document.getElementById("in_guess").value === "6"`)
	first.Report(t)
	second.Report(t)
}

func TestRefusedStorageIsSaid(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.Order(t, tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
		Source: `Object.defineProperty(globalThis, "indexedDB", { get() { throw new Error("refused") } })`})
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("will not save")`)
	browser.Wait(t, tab, `document.querySelector("#_files [data-act=save]").checkVisibility()`)
	browser.Fill(t, tab, [][2]string{{"d", "65"}, {"C", "20.4"}})
	browser.Wait(t, tab, told("C")+`.includes("Right")`)
	tab.Report(t)
}

// given replaces the download of a file by noting its text.
const noteFiles = `trundle.files.give = async (blob, name) => { globalThis.given = { name, text: await blob.text() } }`

// give chooses a file of work in the drawer.
func give(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	found := browser.Run(t, tab, func(ctx context.Context, target *chromedp.Target) (runtime.EvaluateResult, error) {
		return cdp.Call(ctx, target, runtime.Evaluate,
			runtime.EvaluateParams{Expression: `document.querySelector("#_files input[type=file]")`})
	})
	browser.Order(t, tab, dom.SetFileInputFiles, dom.SetFileInputFilesParams{Files: []string{name},
		ObjectID: found.Result.ObjectID})
}

func TestWorkGoesToAFileAndComesBack(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Ask[chromedp.Void](t, tab, `(() => { const n = document.getElementById("_name"); n.value = "Reed Warblers"; `+
		`n.dispatchEvent(new Event("change")); })()`)
	browser.Wait(t, tab, `trundle.sheet.store.team === "Reed Warblers"`)
	browser.Fill(t, tab, [][2]string{{"d", "65"}, {"C", "20.4"}, {"stop-1", "120,3"}, {"stop-3", "1.214 m"},
		{"stop-2", "48 in"}})
	browser.Wait(t, tab, `document.getElementById("in_stop-2").dataset.kept === "48 in"`)
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_files").open = true`)
	browser.Wait(t, tab, `trundle.drawer && document.querySelector("#_files [data-act=csv]")`)
	press := func(act string) {
		browser.Ask[chromedp.Void](t, tab, noteFiles+`; globalThis.given = null; document.querySelector("#_files [data-act=`+
			act+`]").click()`)
	}
	press("csv")
	browser.Wait(t, tab, `given`)
	if got, want := browser.Ask[string](t, tab, `given.text`), "team,base,run,stop (cm)\r\nReed Warblers,,1,120.3\r\n"+
		"Reed Warblers,,2,121.92\r\nReed Warblers,,3,121.4\r\n"; got != want {
		t.Errorf("the runs are %q, want %q", got, want)
	}
	for saves := 1; saves <= 2; saves++ { // which mentors' page of the class tells the newer of two files by
		press("save")
		browser.Wait(t, tab, `given`)
		if got := browser.Ask[int](t, tab, `JSON.parse(given.text).saves`); got != saves {
			t.Errorf("work that was saved %d times says %d", saves, got)
		}
	}
	saved := filepath.Join(t.TempDir(), "work.json")
	if err := os.WriteFile(saved, []byte(browser.Ask[string](t, tab, `given.text`)), 0o644); err != nil {
		t.Fatal(err)
	}
	press("clear-all")
	browser.Wait(t, tab, `document.querySelector("dialog[open]")`)
	browser.Ask[chromedp.Void](t, tab, `document.querySelector("dialog button").click()`)
	browser.Wait(t, tab, `document.getElementById("in_d").value === "" && document.getElementById("_name").value === ""`)

	open := func(name string) { give(t, tab, name) }
	open(saved)
	browser.Wait(t, tab,
		`document.getElementById("in_C").value === "20.4" && document.getElementById("_name").value === "Reed Warblers"`)
	browser.Fill(t, tab, [][2]string{{"C", "21"}})
	browser.Wait(t, tab, `document.getElementById("in_C").dataset.kept === "21"`)
	open(saved)
	browser.Wait(t, tab, `document.querySelector("dialog[open]").textContent.includes("from the file: 1.")`)
	browser.Ask[chromedp.Void](t, tab, `document.querySelectorAll("dialog button")[1].click()`)
	browser.Wait(t, tab, `document.querySelector("#_files [role=status]").textContent.includes("Nothing was changed")`)
	if got := browser.Ask[string](t, tab, `document.getElementById("in_C").value`); got != "21" {
		t.Errorf("an opened file that was turned down left %q", got)
	}
	broken := filepath.Join(t.TempDir(), "broken.json")
	if err := os.WriteFile(broken, []byte(`{"trundle":"work","form":1,"pack":`), 0o644); err != nil {
		t.Fatal(err)
	}
	open(broken)
	browser.Wait(t, tab, `document.querySelector("#_files [role=status]").textContent.includes("damaged")`)
	tab.Report(t)
}

// TestAServedPackWorksWithoutANetwork stops the server and opens lessons that were never
// opened before.
func TestAServedPackWorksWithoutANetwork(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	server := httptest.NewServer(http.FileServer(http.Dir(built.Dir)))
	tab := browser.Open(t)
	root := strings.Replace(server.URL, "127.0.0.1", "localhost", 1) + "/"
	tab.Open(t, root, "students/index.html")
	browser.Ask[chromedp.Void](t, tab, `navigator.serviceWorker.ready`)
	browser.Wait(t, tab, `navigator.serviceWorker.controller`)
	server.Close()
	for _, name := range []string{browser.Lesson3, "students/", "students/care.html"} {
		tab.Open(t, root, name)
		if got := browser.Ask[string](t, tab, `document.querySelector("h1").textContent`); got == "" {
			t.Errorf("%s did not come from the device", name)
		}
	}
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	browser.Fill(t, tab, [][2]string{{"d", "65"}, {"C", "20.4"}})
	browser.Wait(t, tab, told("C")+`.includes("Right")`)
}

// TestALongRecordIsCheckedWithinAFrame tells how long a change takes, from the leaving of
// the box to the laid-out page. Only that the answer is right decides.
func TestALongRecordIsCheckedWithinAFrame(t *testing.T) {
	t.Parallel()
	readings := make([]string, 30)
	for i := range readings {
		readings[i] = fmt.Sprint(100 + i%7)
	}
	built := browser.BuildOf(t, "```work\ngiven L = 1 m\n"+
		"record s[30] in cm to 0.1 = "+strings.Join(readings, ", ")+` "Stops"
find m in cm to 0.1 = mean(s) "Mean"
find r in cm to 0.1 = range(s) "Spread"
find d in cm to 0.01 = stdev(s) "Deviation"
find e in % to 0.1 = percent_error(m, L) "Error"
`+"```\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	l := built.Lessons[0]
	entries := browser.Samples(l)
	for _, find := range l.Finds {
		entries = append(entries, [2]string{find.Name, l.Of(find).Text()})
	}
	said := browser.Fill(t, tab, entries)
	for i, find := range l.Finds {
		if got := said[len(said)-len(l.Finds)+i]; got.State != "right" {
			t.Errorf("%s: %q", find.Name, got.Text)
		}
	}
	times := browser.Ask[[]float64](t, tab, `(() => {
		const times = [];
		for (let i = 0; i < 200; i++) {
			const start = performance.now();
			trundle.sheet.entries["s-7"] = String(100 + (i % 9));
			trundle.update(trundle.sheet);
			document.body.getBoundingClientRect();
			times.push(performance.now() - start);
		}
		return times.sort((a, b) => a - b);
	})()`)
	t.Logf("a change is checked and laid out in %.1f ms (median), %.1f ms (95 %%), %.1f ms (worst of 200)", times[100],
		times[190], times[199])
}

// TestAResultOfNothingIsJudged looks at a find that comes out as 0, of which every multiple
// and the inverse are nothing to compare with.
func TestAResultOfNothingIsJudged(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, "```work\ngiven L = 100 cm\nfind z in cm to 0.1 = L - 1 m \"How much is left?\"\n"+
		"find y in cm to 0.1 = L - 99.96 cm \"And now?\"\n```\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	words, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, try := range []struct{ box, text, want string }{
		{"z", "0", "right"}, {"z", "0.0 mm", "right"}, {"z", "5", "not-yet"}, {"z", "-5", "not-yet"}, {"z", "0.3", "not-yet"},
		{"y", "0.0", "right"}, {"y", "0.7", "not-yet"},
	} {
		if got := browser.Fill(t, tab, [][2]string{{try.box, try.text}})[0]; got.Text != words["check-"+try.want] {
			t.Errorf("%s = %s is told %q", try.box, try.text, got.Text)
		}
	}
	tab.Report(t)
}

// TestOddNamesAndSizesWork fills a sheet whose names mean something to a script, with a
// record of one run and one of many, steps of 5 and of sixteenths, and results without a unit.
func TestOddNamesAndSizesWork(t *testing.T) {
	t.Parallel()
	runs := strings.TrimSuffix(strings.Repeat("20, 21, ", 100), ", ")
	built := browser.BuildOf(t, "```work\nmeasure constructor = 10 cm \"A\"\nmeasure toString = -3 \"B\"\n"+
		"record valueOf[1] in in to 1/16 = 3 1/2 \"C\"\nrecord hasOwnProperty[200] in mm = "+runs+` "D"
find then in cm to 5 = constructor * 2.3 "E"
find escape = toString ^ 2 "F"
find name in in to 1/16 = mean(valueOf) + 1/32 in "G"
find length in mm to 0.1 = mean(hasOwnProperty) - constructor "H"
find turns in rot to 0.01 = constructor / circumference(kit.wheel) "I"
find ratio to 0.001 = sum(valueOf) / constructor "J"
`+"```\n\n{then} {escape} {name} {length} {turns to 0.1} {ratio}\n\n```lua filled\nrun({then}, {length})\n```\n")
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	l := built.Lessons[0]
	samples := browser.Samples(l) // the first as a team types, which loads what answers; 202 boxes follow
	browser.Fill(t, tab, samples[:1])
	browser.FillTogether(t, tab, samples[1:])
	for _, find := range l.Finds {
		got := browser.Fill(t, tab, [][2]string{{find.Name, strings.ReplaceAll(l.Of(find).Text(), "−", "-")}})[0]
		if got.State != "right" {
			t.Errorf("%s = %s is told %q", find.Name, l.Of(find).Text(), got.Text)
		}
		steps := browser.Ask[string](t, tab, `document.querySelector("#own_`+find.Name+` ol")?.textContent ?? ""`)
		if steps == "" || strings.Contains(steps, "NaN") || strings.Contains(steps, "undefined") {
			t.Errorf("the steps of %s read %q", find.Name, steps)
		}
	}
	for _, empty := range browser.Ask[[]string](t, tab,
		`[...document.querySelectorAll("p .blank, pre .blank")].filter((e) => !e.textContent).map((e) => e.dataset.p)`) {
		t.Errorf("the blank of %s is empty", empty)
	}
	program := browser.Ask[string](t, tab, `document.querySelector("pre").textContent`)
	if !strings.Contains(program, "run(25, -79.5)") {
		t.Errorf("the program reads %q", program)
	}
	tab.Report(t)
}
