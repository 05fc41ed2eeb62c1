package answers_test

// The team's log at the end of a lesson, and what the page of the season and the last lesson make of it.

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

const (
	season     = "students/index.html"
	lastLesson = "students/13-canal-day.html"
	// The names of lesson 3's questions whose rings are filled.
	ringsOf3 = `[...document.querySelectorAll("[data-of=rotations-distance] .right")].map((e) => e.dataset.n).join(" ")`
	theLog   = `document.getElementById("_log").innerText.replace(/\s+/g, " ")`
)

// team gives the page another team, and waits until it has its entries.
func team(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, fmt.Sprintf(`(() => { const n = document.getElementById("_name"); `+
		`n.value = %q; n.dispatchEvent(new Event("change")); })()`, name))
}

// toSeason opens the page of the season.
func toSeason(t *testing.T, tab *browser.Tab, root string) {
	t.Helper()
	tab.Open(t, root, season)
	browser.Wait(t, tab, `"ready" in document.body.dataset`)
}

// until waits for what a script promises.
func until(t *testing.T, tab *browser.Tab, script string) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, `new Promise((done) => { const look = async () => `+
		`(await (`+script+`)) ? done() : setTimeout(look, 20); look(); })`)
}

// kept waits until the state of the lesson that is open has come into the database.
func kept(t *testing.T, tab *browser.Tab, text string) {
	t.Helper()
	until(t, tab, `trundle.sheet.store.whole().then(({ lessons }) =>
		Object.values(lessons).map((l) => l["#state"]).join().includes(`+fmt.Sprintf("%q", text)+`))`)
}

// openAs opens a lesson for a team.
func openAs(t *testing.T, tab *browser.Tab, root, page, name string) {
	t.Helper()
	tab.Open(t, root, page)
	browser.Ready(t, tab)
	team(t, tab, name)
	browser.Wait(t, tab, fmt.Sprintf(`trundle.sheet.team === %q`, name))
}

func TestTheSeasonShowsWhatATeamHasRight(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	openAs(t, tab, root, browser.Lesson3, "Otters")
	browser.Fill(t, tab, [][2]string{{"d", "65"}, {"C", "20.4"}, {"n", "1"}})
	kept(t, tab, "20.4")
	toSeason(t, tab, root)
	if got := browser.Ask[string](t, tab, ringsOf3); got != "C" {
		t.Errorf("the rings of %q are filled, want that of C", got)
	}
	label := browser.Ask[string](t, tab, `document.querySelector("[data-of=rotations-distance]").ariaLabel`)
	if label != "1 of 7 right" {
		t.Errorf("the rings are read out as %q", label)
	}
	team(t, tab, "Herons")
	browser.Wait(t, tab, ringsOf3+` === ""`)
	team(t, tab, "otters")
	browser.Wait(t, tab, ringsOf3+` === "C" && document.getElementById("_name").value === "Otters"`)

	other := browser.Another(t, tab)
	other.Open(t, root, browser.Lesson3)
	browser.Ready(t, other)
	browser.Fill(t, other, [][2]string{{"n", "5.97"}})
	browser.Wait(t, tab, ringsOf3+` === "C n"`)
	browser.Fill(t, other, [][2]string{{"n", "1"}, {"C", "3"}})
	browser.Wait(t, tab, ringsOf3+` === ""`)
	tab.Report(t)
	other.Report(t)
}

func TestTheRobotOfTheSeasonIsThatOfItsLessons(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	toSeason(t, tab, root)
	team(t, tab, "Otters")
	choose := func(id, text string) { enter(t, tab, id, text) }
	choose("_kit", "ours")
	browser.Wait(t, tab, `document.getElementById("kit_wheel").checkVisibility()`)
	choose("kit_wheel", "48 mm")
	choose("_kit", "coot")
	browser.Wait(t, tab, `!document.getElementById("kit_wheel").checkVisibility()`)
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	got := browser.Ask[string](t, tab, `["_name", "_kit", "kit_wheel"]
		.map((id) => document.getElementById(id).value).join()`)
	if got != "Otters,coot,48 mm" {
		t.Errorf("the lesson has %s", got)
	}
	tab.Report(t)
}

func TestALessonEndsWithTheTeamsLog(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	tab.Open(t, root, browser.Lesson3)
	if got := browser.Ask[string](t, tab, theLog); !strings.HasPrefix(got, "Our log, week 3 Your numbers come") {
		t.Errorf("before anything is written the log reads %s", got)
	}
	openAs(t, tab, root, browser.Lesson3, "Otters")
	browser.Fill(t, tab, [][2]string{{"guess", "7"}, {"d", "6.5 cm"}, {"C", "0.204 m"}, {"n", "9"}, {"stop-1", "120"},
		{"stop-2", "x"}, {"stop-3", "121"}})
	got := browser.Ask[string](t, tab, theLog)
	for _, want := range []string{"Otters’ log, week 3",
		"guess How many wheel rotations will take you to the gate? 7 rotations", "d Wheel diameter 65 mm",
		"C How far does one rotation carry the robot? 20.4 cm", "2 runs", "6 of 7 still open: n "} {
		if !strings.Contains(got, want) {
			t.Errorf("the log lacks %q: %s", want, got)
		}
	}
	if strings.Contains(got, "reach the gate") {
		t.Errorf("a wrong answer is in the log: %s", got)
	}
	for _, to := range browser.Ask[[]string](t, tab, `[...document.querySelectorAll("#_log .open a")]
		.map((a) => a.hash).filter((hash) => !document.querySelector(hash + ":is(input)"))`) {
		t.Errorf("the link to %s leads to no box", to)
	}
	team(t, tab, "Coots’ crew")
	browser.Wait(t, tab, theLog+`.startsWith("Coots’ crew’s log, week 3 Your numbers")`)
	team(t, tab, "")
	browser.Wait(t, tab, theLog+`.startsWith("Our log, week 3 Your numbers")`)
	tab.Report(t)
}

// TestATickedGoalIsKept ticks one before the script that keeps it is there.
func TestATickedGoalIsKept(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	const ticks = `[...document.querySelectorAll("#_log [type=checkbox]")].map((e) => +e.checked).join("")`
	click := func(i int) {
		browser.Ask[chromedp.Void](t, tab, fmt.Sprintf(`document.getElementById("can_%d").click()`, i))
	}
	holds := func(what string) {
		t.Helper()
		until(t, tab, `trundle.sheet.store.whole().then(({ lessons }) =>
			["#goal-1", "#goal-2", "#goal-3"]
				.map((f) => lessons['rotations-distance']?.[f] ?? 0).join("") === "`+what+`")`)
	}
	click(1)
	holds("010")
	click(2)
	click(1)
	holds("001")
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	browser.Wait(t, tab, ticks+` === "001"`)
	second := browser.Another(t, tab)
	second.Open(t, root, browser.Lesson3)
	browser.Ready(t, second)
	browser.Wait(t, second, ticks+` === "001"`)
	click(0)
	browser.Wait(t, second, ticks+` === "101"`)
	tab.Report(t)
	second.Report(t)
}

func TestTheLastLessonHasTheLogsOfAll(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	openAs(t, tab, root, browser.Lesson3, "Otters")
	browser.Fill(t, tab, [][2]string{{"d", "65"}, {"C", "20.4"}})
	kept(t, tab, "20.4")
	tab.Open(t, root, lastLesson)
	browser.Ready(t, tab)
	const logs = `[...document.querySelectorAll("#_logs details:not([hidden])")].map((e) => e.textContent).join("¦")`
	browser.Fill(t, tab, [][2]string{{"reach", "1.2"}})
	browser.Wait(t, tab, logs+`.includes("20.4 cm") && !`+logs+`.includes("¦")`)
	if got := browser.Ask[string](t, tab, logs); !strings.HasPrefix(got, "week 3 · Rotations for a distance") {
		t.Errorf("the logs are %s", got)
	}
	openAs(t, tab, root, lastLesson, "Herons")
	browser.Fill(t, tab, [][2]string{{"reach", "1.2"}})
	browser.Wait(t, tab, logs+` === ""`)
	tab.Report(t)
}

// TestTheLogGoesWithTheWork clears a team's work, takes that back, and carries it to another device in a file.
func TestTheLogGoesWithTheWork(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	openAs(t, tab, root, browser.Lesson3, "Otters")
	browser.Fill(t, tab, [][2]string{{"d", "65"}, {"C", "20.4"}})
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("can_0").click()`)
	kept(t, tab, "20.4")
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_files").open = true`)
	browser.Wait(t, tab, `trundle.drawer && document.querySelector("#_files [data-act=save]")`)
	browser.Ask[chromedp.Void](t, tab, noteFiles+`; document.querySelector("#_files [data-act=save]").click()`)
	browser.Wait(t, tab, `globalThis.given`)
	saved := browser.Ask[string](t, tab, `given.text`)
	press := func(act string) {
		browser.Ask[chromedp.Void](t, tab, `document.querySelector("#_files [data-act=`+act+`]").click()`)
		browser.Wait(t, tab, `document.querySelector("dialog[open]")`)
		browser.Ask[chromedp.Void](t, tab, `document.querySelector("dialog button").click()`)
	}
	const all = `trundle.sheet.store.whole().then(({ lessons }) => JSON.stringify(lessons['rotations-distance'] ?? {}))`
	press("clear")
	browser.Wait(t, tab, `!`+theLog+`.includes("20.4")`)
	until(t, tab, all+`.then((text) => text === "{}")`)
	browser.Ask[chromedp.Void](t, tab, `document.querySelector("#_files [role=status] button").click()`)
	browser.Wait(t, tab, theLog+`.includes("20.4 cm") && document.getElementById("can_0").checked`)
	press("clear-all")
	browser.Wait(t, tab, `document.getElementById("_name").value === "" && !`+theLog+`.includes("20.4")`)
	toSeason(t, tab, root)
	if got := browser.Ask[string](t, tab, `document.getElementById("_name").value + `+ringsOf3); got != "" {
		t.Errorf("after all is cleared the season has %q", got)
	}

	name := filepath.Join(t.TempDir(), "work.json")
	if err := os.WriteFile(name, []byte(saved), 0o644); err != nil {
		t.Fatal(err)
	}
	tab.Open(t, root, "students/04-error-and-percent-error.html")
	browser.Ready(t, tab)
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_files").open = true`)
	browser.Wait(t, tab, `trundle.drawer && document.querySelector("#_files input[type=file]")`)
	give(t, tab, name)
	browser.Wait(t, tab, `document.querySelector("#_files [role=status]").textContent.includes("open")`)
	toSeason(t, tab, root)
	if got := browser.Ask[string](t, tab, ringsOf3); got != "C" {
		t.Errorf("after the file is opened the rings of %q are filled, want that of C", got)
	}
	tab.Report(t)
}

// TestTheLogsOfAFileMayBeAnything takes in what no page has written: it is shown as text or left out, and keeps no
// other log from being shown.
func TestTheLogsOfAFileMayBeAnything(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	openAs(t, tab, root, lastLesson, "<img src=x onerror=boom()>s")
	ids := browser.Ask[[]string](t, tab,
		`[...document.querySelectorAll("#_logs [data-of]")].map((e) => e.dataset.of)`)
	states := []string{"", "null", "5", "[]", `{"l":5,"r":5}`, `{"l":[null],"r":[null,5,{}]}`, `{"l":[[]]}`,
		`{"l":[["x","y"]]}`, `{"l":[[{"toString":5},"y","z"]],"r":[["__proto__"]]}`,
		`{"l":[["<img src=x onerror=boom()>","<b>b</b>","<script>c</script>"]]}`, `{"r":{}}`, `{"l":[["C","Way","20.4 cm"]]}`}
	taken := map[string]map[string]string{}
	for i, id := range ids {
		taken[id] = map[string]string{"#state": states[min(i, len(states)-1)]}
	}
	if len(ids) != len(states) {
		t.Fatalf("%d lessons come before the last", len(ids))
	}
	all, err := json.Marshal(taken)
	if err != nil {
		t.Fatal(err)
	}
	browser.Fill(t, tab, [][2]string{{"reach", "1.2"}})
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.store.take(`+string(all)+`)
		.then(() => dispatchEvent(new Event("focus")))`)
	browser.Wait(t, tab, `document.getElementById("_logs").innerText.includes("Week 12")`)
	got := browser.Ask[string](t, tab, `[...document.querySelectorAll("#_logs details:not([hidden]) dl")]
		.map((e) => e.textContent).join("|")`)
	if want := "<img src=x onerror=boom()> <b>b</b><script>c</script>|C Way20.4 cm"; got != want {
		t.Errorf("the logs are %s\nwant %s", got, want)
	}
	title := browser.Ask[string](t, tab, `document.getElementById("_log_title").textContent`)
	if title != "<img src=x onerror=boom()>s’ log, week 13" {
		t.Errorf("the log is headed %q", title)
	}
	tab.Open(t, root, season)
	browser.Wait(t, tab, `"ready" in document.body.dataset`)
	tab.Report(t)
}

// TestTwoTabsDoNotAnswerEachOtherForEver has two tabs of one sheet come to different logs: what is typed in one, in a
// box that has the focus, the other cannot know.
func TestTwoTabsDoNotAnswerEachOtherForEver(t *testing.T) {
	t.Parallel()
	_, first, root := opened(t)
	browser.StartOver(t, first, root, browser.Lesson3)
	second := browser.Another(t, first)
	second.Open(t, root, browser.Lesson3)
	browser.Ready(t, second)
	for _, tab := range []*browser.Tab{first, second} {
		browser.Ask[chromedp.Void](t, tab, `(() => { globalThis.puts = 0; const { store } = trundle.sheet; `+
			`const put = store.put; store.put = (field, ...rest) => { if (field === "#state") puts++; `+
			`return put(field, ...rest); }; })()`)
	}
	browser.Ask[chromedp.Void](t, second, `(() => { const e = document.getElementById("in_d"); e.focus(); `+
		`e.value = "60"; `+
		`})()`)
	browser.Fill(t, first, [][2]string{{"d", "65"}, {"C", "20.4"}, {"guess", "7"}})
	browser.Fill(t, second, [][2]string{{"stop-1", "120"}})
	kept(t, first, "20.4")
	count := func(tab *browser.Tab) int { return browser.Ask[int](t, tab, `puts`) }
	// What the last answer has written may come late on a busy machine; tabs that answer each other never stop.
	before, after := 0, count(first)+count(second)
	for i := 0; i < 5 && after != before; i++ {
		time.Sleep(time.Second)
		before, after = after, count(first)+count(second)
	}
	if after != before || after > 12 {
		t.Errorf("the state was written %d times, and %d times a second later", before, after)
	}
	first.Report(t)
	second.Report(t)
}

// TestThisWeekIsMarkedByTheDevicesDate builds a season of which the second week is now, and one of which none is.
func TestThisWeekIsMarkedByTheDevicesDate(t *testing.T) {
	t.Parallel()
	const day = 24 * time.Hour
	tab := browser.Open(t)
	for _, c := range []struct {
		since time.Duration
		want  string
	}{{7 * day, "2"}, {13 * day, "2"}, {14 * day, "3"}, {6 * day, "1"}, {-day, ""}, {28 * day, ""}, {21 * day, "4"}} {
		pack := browser.PackOf("Roll it.\n")
		start := time.Now().Add(-c.since).Format(time.DateOnly)
		pack["pack.yaml"] = &fstest.MapFile{Data: append(pack["pack.yaml"].Data, "\nstart: "+start+"\n"...)}
		for name, week := range map[string]string{"02-u.md": "2", "03-v.md": "4"} { // week 3 has no lesson
			text := strings.Replace(string(pack["01-t.md"].Data), "week: 1", "week: "+week, 1)
			pack[name] = &fstest.MapFile{Data: []byte(strings.Replace(text, "id: ", "id: x"+week, 1))}
		}
		built := browser.Build(t, pack)
		for _, page := range []string{season, "mentors/index.html"} {
			tab.Open(t, built.Root(), page)
			got := browser.Ask[string](t, tab, `[...document.querySelectorAll(".here")].map((e) => e.dataset.week + `+
				`e.querySelector(".today").textContent).join()`)
			if want := strings.TrimSuffix(c.want+"now", map[bool]string{true: "now"}[c.want == ""]); got != want {
				t.Errorf("%s, %v after the start: %q is marked, want %q", page, c.since, got, want)
			}
		}
	}
	tab.Report(t)
}

func TestTheSeasonAndTheLogAreReadableWithoutScripts(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.Order(t, tab, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	tab.Open(t, root, season)
	if !browser.Ask[bool](t, tab, `document.getElementById("_team").hidden && !document.querySelector(".here") &&
		document.querySelectorAll(".season .rings i").length > 100 && !document.querySelector(".season .right")`) {
		t.Error("without scripts the season offers what does nothing, or rings are not all empty")
	}
	tab.Open(t, root, lastLesson)
	got := browser.Ask[string](t, tab, `document.getElementById("_log").innerText +
		document.getElementById("_logs").innerText`)
	for _, want := range []string{"Our log, week 13", "Your numbers come together here", "Our log of the season"} {
		if !strings.Contains(got, want) {
			t.Errorf("without scripts the log lacks %q: %s", want, got)
		}
	}
}
