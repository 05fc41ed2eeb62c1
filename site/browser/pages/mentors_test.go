package pages_test

// A mentors' lesson in a hall: how long it is on a tablet and on paper, what is in reach on a phone, and its keys for
// another robot or a team's own numbers.

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// TestEveryKeyFollowsRobotAndNumbers types the coach's examples, which must change no key, and chooses each other
// robot, whose keys must be those that were worked out when the pack was built.
func TestEveryKeyFollowsRobotAndNumbers(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	for _, l := range built.Lessons {
		tab.Open(t, built.Root(), "mentors/"+l.Slug+".html")
		before := keysOn(t, tab)
		for _, f := range browser.Finds(l) {
			if got, want := before[f.Name], oneLine(l.Of(f).Text()); got != want {
				t.Errorf("%s: the key of %s is %q, not %q", l.Slug, f.Name, got, want)
			}
		}
		said := whole(t, tab)
		if typeOwn(t, tab, examples(l)) {
			if after := whole(t, tab); after != said {
				t.Errorf("%s: with the examples typed the tables read\n%s\nnot\n%s", l.Slug, after, said)
			}
			browser.Ask[chromedp.Void](t, tab, `document.getElementById("_back").click()`)
		}
		for _, other := range l.Others {
			choose(t, tab, other.Kit.Key, other.Kit.Title)
			testKeysOf(t, tab, other, l)
		}
		if len(l.Others) > 0 {
			browser.Ask[chromedp.Void](t, tab, `document.getElementById("_back").click()`)
			if after := whole(t, tab); after != said {
				t.Errorf("%s: back at the example the tables read\n%s\nnot\n%s", l.Slug, after, said)
			}
		}
		tab.Report(t)
	}
}

// examples are the coach's measurements; nobody has guessed.
func examples(l *work.Lesson) [][2]string {
	return slices.DeleteFunc(browser.Samples(l), func(e [2]string) bool {
		return slices.ContainsFunc(l.Fields, func(f *work.Field) bool {
			return f.Statement.Name == e[0] && f.Statement.Kind == lesson.Predict
		})
	})
}

// testKeysOf holds the keys of the page against those of a robot.
func testKeysOf(t *testing.T, tab *browser.Tab, other, l *work.Lesson) {
	t.Helper()
	keys := keysOn(t, tab)
	for _, f := range browser.Finds(l) {
		if got, want := keys[f.Name], oneLine(other.Of(f).Text()); got != want {
			t.Errorf("%s: for %s the key of %s is %q, not %q", l.Slug, other.Kit.Title, f.Name, got, want)
		}
	}
}

// TestAWheelOf64MillimetresHasItsKeys has the values that trundle work gives for
// 'circumference(64 mm)' --in cm --to 0.1 and 'rotations(48 in, 64 mm)' --in rot --to 0.01.
func TestAWheelOf64MillimetresHasItsKeys(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	tab.Open(t, built.Root(), "mentors/03-rotations-for-a-distance.html")
	for _, typed := range []string{"64", "64 mm", "6.4 cm", "6,4 cm"} {
		typeOwn(t, tab, [][2]string{{"d", typed}})
		keys := keysOn(t, tab)
		if keys["C"] != "20.1 cm" || keys["n"] != "6.06 rotations" {
			t.Errorf("with a wheel of %s the keys are %v", typed, keys)
		}
	}
	typeOwn(t, tab, [][2]string{{"d", "64 kg"}})
	if keys := keysOn(t, tab); keys["C"] != "–" || keys["x"] != "–" {
		t.Errorf("with a wheel of 64 kg the keys are %v", keys)
	}
	if said := browser.Ask[string](t, tab, `document.querySelector("#_own [role=status]").textContent`); !strings.Contains(
		said, "64 kg") {
		t.Errorf("of a wheel of 64 kg is said %q", said)
	}
	typeOwn(t, tab, [][2]string{{"d", ""}, {"stop-1", "119"}, {"stop-2", "121"}})
	if keys := keysOn(t, tab); keys["avg"] != "–" {
		t.Errorf("with two runs of five the mean is %s", keys["avg"])
	}
	typeOwn(t, tab, [][2]string{{"stop-3", "123"}})
	if keys := keysOn(t, tab); keys["avg"] != "121.0 cm" {
		t.Errorf("with three runs of five the mean is %s", keys["avg"])
	}
	tab.Report(t)
}

// keysOn reads the keys of the tables, by name.
func keysOn(t *testing.T, tab *browser.Tab) map[string]string {
	t.Helper()
	keys := browser.Ask[map[string]string](t, tab, `Object.fromEntries([...document.querySelectorAll(".find")]
		.map((e) => [e.id.slice(4), e.querySelector(".k .v").textContent]))`)
	for name := range maps.Clone(keys) {
		keys[name] = oneLine(keys[name])
	}
	return keys
}

// whole is the text of all tables and of the keys at a glance.
func whole(t *testing.T, tab *browser.Tab) string {
	t.Helper()
	return oneLine(browser.Ask[string](t, tab,
		`[...document.querySelectorAll(".keys, .glance ul")].map((e) => e.textContent).join(" ¦ ")`))
}

// typeOwn types what a team has measured, as far as there are boxes for it, and waits for the keys; it is false if
// there are none.
func typeOwn(t *testing.T, tab *browser.Tab, entries [][2]string) bool {
	t.Helper()
	any := false
	for _, e := range entries {
		any = browser.Ask[bool](t, tab, fmt.Sprintf(`(() => {
			const box = document.getElementById("own_" + %q);
			if (!box) return false;
			box.value = %q;
			box.dispatchEvent(new Event("input", { bubbles: true }));
			return true;
		})()`, e[0], e[1])) || any
	}
	if any {
		browser.Wait(t, tab, `document.querySelector("#_own [role=status]").textContent !== ""`)
		browser.Ask[chromedp.Void](t, tab, `new Promise((done) => setTimeout(done))`)
	}
	return any
}

func choose(t *testing.T, tab *browser.Tab, key, title string) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, fmt.Sprintf(`(() => {
		const e = document.getElementById("_robot");
		e.value = %q;
		e.dispatchEvent(new Event("input", { bubbles: true }));
	})()`, key))
	browser.Wait(t, tab, fmt.Sprintf(`document.querySelector("#_own [role=status]").textContent.includes(%q)`, title))
}

// TestAMentorWithAPhoneReachesAllWithinTwoTouches stands in lesson 5, before the start is set and after.
func TestAMentorWithAPhoneReachesAllWithinTwoTouches(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	const phone, high = 360, 780
	for _, isSet := range []bool{false, true} {
		tab.Open(t, built.Root(), "mentors/05-out-and-back.html")
		browser.Order(t, tab, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
			Width: phone, Height: high, DeviceScaleFactor: 1, Mobile: true,
		})
		browser.Ask[chromedp.Void](t, tab, `(() => { const e = document.getElementById("_start"); e.value = "`+
			map[bool]string{true: "17:00"}[isSet]+`"; e.dispatchEvent(new Event("input")); })()`)
		for what, way := range map[string][]string{
			"the plan":             {`#_bar [href="#_plan"]`, "#_plan p"},
			"the cards":            {`#_bar [href="#_care"]`, "#_care a"},
			"a key for 64 mm":      {`#_bar [href="#_keys"]`, "#own_d"},
			"three slips":          {`#_bar [href="#_keys"]`, `.glance [href="#key_n"]`, "#key_n .h p:nth-of-type(3)"},
			"questions to ask":     {`#_bar [href="#questions-to-ask"]`, "#questions-to-ask"},
			"questions, the other": {`#_bar [href="#mentor-notes"]`, "#questions-to-ask"},
		} {
			if isSet && what == "questions, the other" || !isSet && what == "questions to ask" {
				continue // the list of all places is there once the bar has no room for them
			}
			browser.Ask[chromedp.Void](t, tab, `(() => { document.querySelector("#warm-up").scrollIntoView();
				for (const e of document.querySelectorAll("article details")) e.open = false; })()`)
			if touches := testWay(t, tab, way); touches > 2 {
				t.Errorf("%s takes %d touches (start set: %v)", what, touches, isSet)
			}
		}
	}
	typeOwn(t, tab, [][2]string{{"d", "64 mm"}})
	seen := browser.Ask[string](t, tab, `(() => {
		document.getElementById("own_d").scrollIntoView();
		const e = document.querySelector(".glance [data-value=n]");
		return e.textContent + " " + (e.getBoundingClientRect().bottom < innerHeight - 56);
	})()`)
	if got := oneLine(seen); got != "4.97 rotations true" { // trundle work 'rotations(100 cm, 64 mm)' --in rot --to 0.01
		t.Errorf("beside the box for the wheel the key of n is %q", got)
	}
	tab.Report(t)
}

// testWay touches its way along, and counts. What is not in sight in the bar is behind its button, which is a touch
// more. The last place must then be in sight.
func testWay(t *testing.T, tab *browser.Tab, way []string) (touches int) {
	t.Helper()
	const inSight = `((e) => e?.checkVisibility() && e.getClientRects().length > 0 && (({ top, bottom }) => top >= 0 &&
		bottom <= innerHeight + 1)(e.getBoundingClientRect()))`
	for i, selector := range way {
		quoted := strconv.Quote(selector)
		if i == len(way)-1 {
			browser.Wait(t, tab, inSight+`(document.querySelector(`+quoted+`))`)
			return touches
		}
		if isSeen := browser.Ask[bool](t, tab, inSight+`(document.querySelector(`+quoted+`))`); !isSeen {
			if !strings.HasPrefix(selector, "#_bar") {
				browser.Wait(t, tab, inSight+`(document.querySelector(`+quoted+`))`) // once the page has come to rest
			} else {
				tap(t, tab, "#_bar .go")
				touches++
			}
		}
		tap(t, tab, selector)
		touches++
	}
	return touches
}

// tap touches the middle of something, which must be in sight.
func tap(t *testing.T, tab *browser.Tab, selector string) {
	t.Helper()
	browser.Wait(t, tab, `document.querySelector(`+strconv.Quote(selector)+`)?.getClientRects().length`)
	at := browser.Ask[[]float64](t, tab, `(() => {
		const r = document.querySelector(`+strconv.Quote(selector)+`).getBoundingClientRect();
		return [r.x + r.width / 2, r.y + r.height / 2];
	})()`)
	browser.Run(t, tab, chromedp.MouseClickXY(at[0], at[1]))
}

// TestGivenNumbersAreSeenOnAPhone measures the tables, of which one was once as low as the plain tape of other pages.
func TestGivenNumbersAreSeenOnAPhone(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	tab.Open(t, built.Root(), "mentors/05-out-and-back.html")
	for _, width := range []int64{browser.Phone, browser.Tablet} {
		tab.View(t, width, browser.Light)
		if cut := browser.Ask[string](t, tab, `[...document.querySelectorAll(".keys")].filter((e) =>
			e.scrollHeight > e.clientHeight + 1 || e.offsetWidth < e.parentNode.offsetWidth - 1)
			.map((e) => e.tBodies[0].textContent.trim()).join("; ")`); cut != "" {
			t.Errorf("at %d px tables of keys are cut: %s", width, cut)
		}
	}
	tab.Report(t)
}

// TestTheBarHidesNothingAndGivesWay looks at the end of the page, at paper, and at a window that is low.
func TestTheBarHidesNothingAndGivesWay(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	tab.Open(t, built.Root(), "mentors/03-rotations-for-a-distance.html")
	const bar = `getComputedStyle(document.getElementById("_bar"))`
	for _, width := range []int64{browser.Narrowest, browser.Phone, browser.Tablet, browser.Desktop} {
		tab.View(t, width, browser.Light)
		covered := browser.Ask[float64](t, tab, `(() => {
			scrollTo(0, 1e6);
			const last = document.querySelector("footer p:last-of-type").getBoundingClientRect();
			return last.bottom - document.getElementById("_bar").getBoundingClientRect().top;
		})()`)
		if covered > 0 {
			t.Errorf("at %d px the bar covers %g px of what is last", width, covered)
		}
	}
	for height, want := range map[int64]string{800: "fixed", 400: "static"} {
		browser.Order(t, tab, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
			Width: 640, Height: height, DeviceScaleFactor: 2,
		})
		browser.Wait(t, tab, fmt.Sprintf(`innerHeight === %d`, height))
		if got := browser.Ask[string](t, tab, bar+`.position`); got != want {
			t.Errorf("in a window of %d px the bar is %s", height, got)
		}
	}
	if strings.Contains(string(lettersOf(t, browser.Printed(t, tab))), "Startnow") {
		t.Error("the bar is printed")
	}
	browser.Order(t, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "forced-colors", Value: "active"}},
	})
	if width := browser.Ask[string](t, tab, bar+`.borderTopWidth`); width == "0px" {
		t.Error("in forced colours the bar has no edge")
	}
	tab.Report(t)
}

// TestNothingForMentorsIsInTheStudentsEdition looks for what the mentors' page and its script are made of.
func TestNothingForMentorsIsInTheStudentsEdition(t *testing.T) {
	built := browser.Demo(t)
	for _, name := range slices.Sorted(maps.Keys(built.Files)) {
		if !strings.HasPrefix(name, "students/") || !strings.HasSuffix(name, ".html") {
			continue
		}
		for _, text := range []string{`"_work"`, `"samples"`, "data-value", "data-slip", "If they say", "Say first",
			"Before they come"} {
			if strings.Contains(string(built.Files[name]), text) {
				t.Errorf("%s holds %q", name, text)
			}
		}
	}
}
