package answers_test

// The figures of show blocks in a browser: what they show before and after the boxes are filled, what can be moved on
// them, and how soon they follow.

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"trundle/generator/work"
)

// near scrolls to a figure, and waits until its script has drawn it.
func near(t testing.TB, tab *browser.Tab, figure string) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab,
		fmt.Sprintf(`document.querySelector(%q).scrollIntoView({ block: "center" })`, figure))
	browser.Wait(t, tab, fmt.Sprintf(`document.querySelector(%q).viewBox.baseVal.width !== 360`, figure+" svg"))
}

func count(t *testing.T, tab *browser.Tab, selector string) int {
	t.Helper()
	return browser.Ask[int](t, tab, fmt.Sprintf(`document.querySelectorAll(%q).length`, selector))
}

func says(t *testing.T, tab *browser.Tab, figure string) string {
	t.Helper()
	return browser.Ask[string](t, tab, fmt.Sprintf(`(() => {
		const e = document.querySelector(%q);
		const text = e.querySelector("p.small").textContent;
		return text === e.querySelector("svg").getAttribute("aria-label") ? text : "two texts";
	})()`, figure))
}

// pressKey presses a key that writes nothing.
func pressKey(t *testing.T, tab *browser.Tab, key string, code int64) {
	t.Helper()
	for _, way := range []input.DispatchKeyEventType{input.DispatchKeyEventTypeKeyDown, input.DispatchKeyEventTypeKeyUp} {
		browser.Order(t, tab, input.DispatchKeyEvent,
			input.DispatchKeyEventParams{Type: way, Key: key, Code: key, WindowsVirtualKeyCode: code})
	}
}

func sheetOf(t testing.TB, name string) *browser.Tab {
	t.Helper()
	built := browser.Demo(t)
	tab := browser.Open(t)
	browser.StartOver(t, tab, built.Root(), name)
	return tab
}

func TestAWheelRollsOutAndItsTapeHasNumbersOnceTheAnswerIsRight(t *testing.T) {
	t.Parallel()
	tab := sheetOf(t, browser.Lesson3)
	if n := count(t, tab, `script[src*=drawings]`); n != 0 {
		t.Error("the figures' script is there before a figure is near")
	}
	near(t, tab, ".show-unroll")
	if got := says(t, tab, ".show-unroll"); got != "Still empty: this picture is drawn from your d." {
		t.Errorf("an empty figure says %q", got)
	}
	if n := count(t, tab, ".show-unroll label:not([hidden])"); n != 0 {
		t.Error("there is something to roll before there is a wheel")
	}
	browser.Fill(t, tab, [][2]string{{"d", "64.5"}})
	if n := count(t, tab, ".show-unroll .w"); n != 1 {
		t.Errorf("with a diameter there are %d wheels", n)
	}
	if n := count(t, tab, ".show-unroll .n, .show-unroll .k"); n != 0 {
		t.Errorf("before C is right the tape has %d numbers and marks", n)
	}
	want := "64.5\u00a0mm across, rolled 0 % of one rotation. The numbers come when C is right."
	if got := says(t, tab, ".show-unroll"); got != want {
		t.Errorf("it says %q, want %q", got, want)
	}
	browser.Fill(t, tab, [][2]string{{"C", "20.3"}}) // π × 6.45 cm = 20.263 cm
	if n := count(t, tab, ".show-unroll .n"); n < 3 {
		t.Errorf("once C is right the tape has %d numbers", n)
	}
	browser.Ask[chromedp.Void](t, tab, `document.querySelector(".show-unroll input").focus()`)
	pressKey(t, tab, "End", 35)
	want = "64.5\u00a0mm across. One rotation lays 20.3\u00a0cm on the tape: three wheels and 0.9\u00a0cm more."
	browser.Wait(t, tab, fmt.Sprintf(`document.querySelector(".show-unroll p").textContent === %q`, want))
	role := browser.Ask[string](t, tab, `document.querySelector(".show-unroll p").getAttribute("role")`)
	if role != "status" {
		t.Errorf("what is moved is read out as %q", role)
	}
	browser.Fill(t, tab, [][2]string{{"C", "19"}})
	if n := count(t, tab, ".show-unroll .n"); n != 0 {
		t.Errorf("with a wrong C the tape keeps %d numbers", n)
	}
	tab.Report(t)
}

// TestAFigureInAFoldIsDrawnWhenItOpens hides one, as a part that is folded does.
func TestAFigureInAFoldIsDrawnWhenItOpens(t *testing.T) {
	t.Parallel()
	tab := sheetOf(t, browser.Lesson3)
	browser.Ask[chromedp.Void](t, tab, `(() => {
		const fold = document.createElement("details");
		const figure = document.querySelector(".show-unroll");
		figure.before(fold);
		fold.append(document.createElement("summary"), figure);
	})()`)
	near(t, tab, ".show-laps")
	browser.Fill(t, tab, [][2]string{{"d", "65"}})
	box := browser.Ask[string](t, tab, `document.querySelector(".show-unroll svg").getAttribute("viewBox")`)
	if strings.Contains(box, "NaN") {
		t.Errorf("folded away it is drawn in %q", box)
	}
	browser.Ask[chromedp.Void](t, tab, `document.querySelector("details:has(.show-unroll)").open = true`)
	browser.Wait(t, tab, `(() => {
		const svg = document.querySelector(".show-unroll svg");
		return Math.abs(svg.viewBox.baseVal.width - svg.clientWidth * 148 / svg.clientHeight) < 1;
	})()`)
	tab.Report(t)
}

func TestLapsAreCutOnceBothFindsAreRight(t *testing.T) {
	t.Parallel()
	tab := sheetOf(t, browser.Lesson3)
	near(t, tab, ".show-laps")
	browser.Fill(t, tab, [][2]string{{"d", "65"}})
	if n := count(t, tab, ".show-laps .p"); n != 0 {
		t.Errorf("before C is right there are %d rotations", n)
	}
	browser.Fill(t, tab, [][2]string{{"C", "20.4"}})
	if n := count(t, tab, ".show-laps .p"); n != 1 {
		t.Errorf("before n is right there are %d rotations", n)
	}
	browser.Fill(t, tab, [][2]string{{"n", "5.97"}})
	if n := count(t, tab, ".show-laps .p"); n != 6 {
		t.Errorf("once n is right there are %d rotations", n)
	}
	want := "5 whole rotations fit into 48 in, and 0.97 of one more."
	if got := says(t, tab, ".show-laps"); got != want {
		t.Errorf("it says %q, want %q", got, want)
	}
	tab.Report(t)
}

func TestStopsLandOnTheTapeAsTheyAreTyped(t *testing.T) {
	t.Parallel()
	tab := sheetOf(t, browser.Lesson3)
	near(t, tab, ".show-tape")
	browser.Fill(t, tab, [][2]string{{"stop-1", "120.3"}, {"stop-3", "121.4"}})
	if n := count(t, tab, ".show-tape .d"); n != 2 {
		t.Errorf("two runs leave %d dots", n)
	}
	browser.Fill(t, tab, [][2]string{{"stop-2", "120.9"}, {"stop-4", "121.6"}, {"stop-5", "119.8"}})
	if n := count(t, tab, ".show-tape .b"); n != 0 {
		t.Error("mean or spread are drawn before they are found")
	}
	browser.Fill(t, tab, [][2]string{{"avg", "120.8"}})
	if n := count(t, tab, ".show-tape .b"); n != 1 {
		t.Errorf("with the mean found, %d of mean and spread are drawn", n)
	}
	browser.Fill(t, tab, [][2]string{{"spread", "1.8"}})
	if n := count(t, tab, ".show-tape .b"); n != 2 {
		t.Errorf("with both found, %d of mean and spread are drawn", n)
	}
	tab.Report(t)
}

func TestSidewaysIsDrawnAsLargeAsTheSliderSays(t *testing.T) {
	t.Parallel()
	tab := sheetOf(t, slug(t, "01-"))
	near(t, tab, ".show-path")
	browser.Fill(t, tab, [][2]string{{"drift-1", "25"}})
	y := `+document.querySelector(".show-path .d").getAttribute("cy")`
	five := browser.Ask[float64](t, tab, y)
	browser.Ask[chromedp.Void](t, tab, `document.querySelector(".show-path input").focus()`)
	pressKey(t, tab, "Home", 36)
	browser.Wait(t, tab, `document.querySelector(".show-path .r").textContent === "sideways × 1"`)
	if one := browser.Ask[float64](t, tab, y); one >= 72 || (72-five)/(72-one) < 4.5 {
		t.Errorf("the dot is at %v and at five times as large at %v", one, five)
	}
	tab.Report(t)
}

func TestATapeIsReadWithAnAnswer(t *testing.T) {
	t.Parallel()
	tab := sheetOf(t, slug(t, "04-"))
	near(t, tab, ".show-read")
	place := browser.Ask[float64](t, tab, `(() => { // the hook's place, from the marks
		const svg = document.querySelector(".show-read svg");
		const number = svg.querySelector(".n:not(.u)");
		const at = (e) => +/M([\d.]+)/.exec(e.getAttribute("d"))[1];
		const inch = svg.viewBox.baseVal.width / 2.2;
		return +number.textContent + (at(svg.querySelector(".h")) - number.getAttribute("x")) / inch;
	})()`)
	answer := func(text string) string {
		return browser.Ask[string](t, tab, fmt.Sprintf(`(() => {
			const input = document.querySelector(".show-read input");
			input.value = %q;
			input.dispatchEvent(new Event("change"));
			return document.querySelector(".show-read [role=status]").textContent;
		})()`, text))
	}
	sixteenths := int(place*16 + 0.5)
	if got := answer(fmt.Sprintf("%d/16", sixteenths+1)); !strings.HasPrefix(got, "Not yet. Start at the ") {
		t.Errorf("a sixteenth too far is told %q", got)
	}
	if got := answer(fmt.Sprintf("%d/16 in", sixteenths)); !strings.HasPrefix(got, "Right: ") {
		t.Errorf("the place %v is told %q", place, got)
	}
	browser.Ask[chromedp.Void](t, tab, `document.querySelector(".show-read button").click()`)
	if got := browser.Ask[string](t, tab, `document.querySelector(".show-read input").value`); got != "" {
		t.Errorf("at another place the box still has %q", got)
	}
	tab.Report(t)
}

func TestAHundredDealsLeaveAHundredDots(t *testing.T) {
	t.Parallel()
	tab := sheetOf(t, slug(t, "07-"))
	near(t, tab, ".show-shuffle")
	buttons := `document.querySelectorAll(".show-shuffle button")`
	browser.Ask[chromedp.Void](t, tab, buttons+`[0].click()`)
	browser.Ask[chromedp.Void](t, tab, buttons+`[1].click()`)
	if n := count(t, tab, ".show-shuffle .d"); n != 101 {
		t.Errorf("there are %d dots", n)
	}
	if n := count(t, tab, ".show-shuffle .h"); n != 0 {
		t.Error("the true difference is there before the find is right")
	}
	if got := says(t, tab, ".show-shuffle"); got != "Deals: 101. The numbers come when most is right." {
		t.Errorf("it says %q", got)
	}
	tab.Report(t)
}

// slug is the page of the lesson that starts so.
func slug(t *testing.T, start string) string {
	t.Helper()
	for _, l := range browser.Demo(t).Lessons {
		if strings.HasPrefix(l.Slug, start) {
			return "students/" + l.Slug + ".html"
		}
	}
	t.Fatal("no such lesson")
	return ""
}

// hasFigures tells whether a page has figures of show blocks.
func hasFigures(built browser.Built, name string) bool {
	return strings.Contains(string(built.Files[name]), `class="show `)
}

// moveFigures does to the figures of the page that is open what can be done to them.
func moveFigures(t *testing.T, tab *browser.Tab) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, `document.querySelectorAll(".show-shuffle button").forEach((b) => b.click());
		document.querySelectorAll(".show-unroll input").forEach((e) => {
			e.value = 60;
			e.dispatchEvent(new Event("input"));
		})`)
}

// shootFigures leaves pictures of a lesson's figures with every box empty, and with every box full.
func shootFigures(t *testing.T, tab *browser.Tab, root, name string, l *work.Lesson) {
	t.Helper()
	for _, state := range []string{"empty", "full"} {
		browser.StartOver(t, tab, root, name)
		near(t, tab, ".show")
		if state == "full" {
			typed := browser.Samples(l)
			for _, find := range browser.Finds(l) {
				typed = append(typed, [2]string{find.Name, browser.Exact(l, find)})
			}
			browser.Fill(t, tab, typed)
			moveFigures(t, tab)
		}
		takeFigureShots(t, tab, l.Slug[:2]+"-"+state)
	}
}

// takeFigureShots leaves pictures of the figures of the page that is open, and nothing else of it.
func takeFigureShots(t *testing.T, tab *browser.Tab, start string) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, `(() => {
		const figures = [...document.querySelectorAll(".show")];
		document.querySelectorAll("link").forEach((e) => document.head.append(e));
		document.querySelector("main").replaceChildren(...figures);
		document.querySelector(".tape").remove();
	})()`)
	for _, width := range []int64{320, 820} {
		for _, s := range []browser.Scheme{browser.Light, browser.Dark} {
			tab.View(t, width, s)
			browser.Ask[chromedp.Void](t, tab, `new Promise((done) => setTimeout(done, 200))`)
			picture := browser.Run(t, tab, chromedp.FullScreenshot(100))
			name := fmt.Sprintf("%s-%d-%s.png", start, width, s)
			if err := os.WriteFile(filepath.Join(*shots, name), picture, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
