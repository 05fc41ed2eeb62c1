package pages_test

// The tape along the top of a lesson: its hook, its scale, its labels, its colours.

import (
	"fmt"
	"slices"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// testTape scrolls a lesson to its last part and looks where the hook is.
func testTape(t *testing.T, tab *browser.Tab, root, name string) {
	tab.Open(t, root, name)
	tab.View(t, browser.Phone, browser.Light)
	defer tab.Report(t)
	const marked = `[...document.querySelectorAll(".tape a")].map((a) => a.hasAttribute("aria-current"))`
	first := browser.Ask[[]bool](t, tab, marked)
	if len(first) < 2 || !first[0] || count(first) != 1 {
		t.Fatalf("at the top of the page the marks are %v; just the first must be set", first)
	}
	browser.Ask[chromedp.Void](t, tab,
		`document.getElementById(decodeURIComponent(`+
			`[...document.querySelectorAll(".tape a")].at(-1).hash.slice(1))).scrollIntoView()`)
	browser.Ask[chromedp.Void](t, tab,
		`new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => requestAnimationFrame(done))))`)
	last := browser.Ask[[]bool](t, tab, marked)
	if count(last) != 1 || !last[len(last)-1] {
		t.Errorf("at the last part the marks are %v; just the last must be set", last)
	}
}

func count(marks []bool) int {
	n := 0
	for _, m := range marks {
		if m {
			n++
		}
	}
	return n
}

// scrolled scrolls so many hundredths of the way down a page, and waits until that is shown.
func scrolled(t *testing.T, tab *browser.Tab, hundredths int) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, fmt.Sprintf(`new Promise((done) => {
		scrollTo(0, (document.documentElement.scrollHeight - innerHeight) * %d / 100);
		requestAnimationFrame(() => requestAnimationFrame(() => requestAnimationFrame(done)));
	})`, hundredths))
}

// hookScript tells where the hook is, of the tape's length and in the window, and which labels and numerals it covers.
// It is there at once: gliding is for those who look.
const hookScript = `(() => {
	const [tape, hook] = [".tape > div", ".hook"].map((s) => document.querySelector(s));
	hook.style.transition = "none";
	const r = hook.getBoundingClientRect();
	const below = 3; // room for descenders, which no numeral has
	const meets = (b) => b.width && b.left < r.right && b.right > r.left && b.top < r.bottom && b.bottom - below > r.top;
	const texts = [...document.querySelectorAll(".tape span, .tape b, .tape text")];
	return {
		share: (r.left - tape.getBoundingClientRect().left) / tape.offsetWidth,
		inWindow: r.left >= 0 && r.right <= innerWidth,
		hangs: r.bottom - tape.getBoundingClientRect().bottom,
		covered: texts.filter((e) => meets(e.getBoundingClientRect())).map((e) => e.textContent),
		parts: new Set([...document.querySelectorAll(".tape a[aria-current]")].map((a) => a.textContent)).size,
		long: tape.offsetWidth > innerWidth,
	};
})()`

// TestTheHookMovesAlongTheTapeAsOneReads scrolls down a lesson bit by bit. On a phone the tape is longer than the
// window, and the hook stays in it all the same.
func TestTheHookMovesAlongTheTapeAsOneReads(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	for _, width := range []int64{browser.Phone, browser.Tablet, browser.Desktop} {
		tab.Open(t, built.Root(), browser.Lesson3)
		tab.View(t, width, browser.Light)
		browser.OpenParts(t, tab)
		places := map[float64]bool{}
		before := -1.
		for hundredths := 0; hundredths <= 100; hundredths += 5 {
			scrolled(t, tab, hundredths)
			at := browser.Ask[struct {
				Share, Hangs   float64
				InWindow, Long bool
				Covered        []string
				Parts          int
			}](t, tab, hookScript)
			if at.Share < before || !at.InWindow || at.Hangs < 4 || at.Parts != 1 || at.Long != (width == browser.Phone) {
				t.Errorf("%d px, %d %% down: the hook went from %.3f to %+v", width, hundredths, before, at)
			}
			if len(at.Covered) > 0 {
				t.Errorf("%d px, %d %% down: the hook covers %q", width, hundredths, at.Covered)
			}
			before, places[at.Share] = at.Share, true
		}
		if len(places) < 12 || before < .9 {
			t.Errorf("%d px: the hook was at %d places, the last at %.2f of the tape", width, len(places), before)
		}
	}
	tab.Report(t)
}

// testScaleOfTape looks whether the tape of the lesson that is open has one scale and cuts no name.
func testScaleOfTape(t *testing.T, tab *browser.Tab) {
	t.Helper()
	for _, width := range []int64{browser.Phone, browser.Tablet} {
		tab.View(t, width, browser.Light)
		found := browser.Ask[struct {
			Cut    []string
			Scales []float64
			Nearer []string
		}](t, tab, `({
			cut: [...document.querySelectorAll(".tape span")]
				.filter((e) => e.scrollHeight > e.clientHeight + 1 || e.scrollWidth > e.clientWidth)
				.map((e) => e.textContent),
			scales: [...document.querySelectorAll(".tape li")].map((e) =>
				e.getBoundingClientRect().width / getComputedStyle(e).getPropertyValue("--m")),
			nearer: [...document.querySelectorAll(".tape text")]
				.filter((e, i, all) => all[i + 1]?.getBoundingClientRect().left < e.getBoundingClientRect().right)
				.map((e) => e.textContent),
		})`)
		if len(found.Cut)+len(found.Nearer) > 0 {
			t.Errorf("%d px: cut: %q; numerals run into the next: %q", width, found.Cut, found.Nearer)
		}
		least, most := slices.Min(found.Scales), slices.Max(found.Scales)
		if most-least > .05 || width == browser.Phone && (least < 13 || most > 14) {
			t.Errorf("%d px: the parts have %v px a minute", width, found.Scales)
		}
	}
}

// TestTheMarksOfTheTapeStandOut holds colours that carry a meaning against what is around them (WCAG 2.2, 1.4.11): the
// hook on the tape and its edge on the page, a ring on the tape, and a full ring against an empty one.
func TestTheMarksOfTheTapeStandOut(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	tab.Open(t, built.Root(), browser.Lesson3)
	browser.Ask[chromedp.Void](t, tab, // or a colour is looked at on its way
		`document.querySelectorAll(".tape i").forEach((e) => void (e.style.transition = "none"))`)
	for _, s := range []browser.Scheme{browser.Light, browser.Dark} {
		tab.View(t, browser.Tablet, s)
		for pair, ratio := range browser.Ask[map[string]float64](t, tab, `(() => {
			const light = (color) => color.match(/[\d.]+/g).slice(0, 3).map((x) => x / 255)
				.map((x) => (x <= .04045 ? x / 12.92 : ((x + .055) / 1.055) ** 2.4))
				.reduce((sum, x, i) => sum + x * [.2126, .7152, .0722][i], 0);
			const ratio = (a, b) => {
				const [low, high] = [light(a), light(b)].sort((x, y) => x - y);
				return (high + .05) / (low + .05);
			};
			const of = (selector) => getComputedStyle(document.querySelector(selector));
			const [tape, hook, ring, page] = [".tape > div", ".hook", ".tape b i", "body"].map(of);
			const [empty, edge] = [ring.backgroundColor, ring.borderTopColor];
			const first = document.querySelector(".tape b i");
			first.className = "full";
			const full = of(".tape b i").backgroundColor;
			first.className = "";
			return {
				"hook on tape": ratio(hook.borderLeftColor, tape.backgroundColor),
				"hook or its edge on page": Math.max(...[hook.borderLeftColor, hook.filter.match(/rgb[^)]*/)[0]]
					.map((color) => ratio(color, page.backgroundColor))),
				"ring on tape": ratio(edge, tape.backgroundColor), "full ring, empty ring": ratio(full, empty),
				"ticks on tape": ratio(tape.color, tape.backgroundColor),
			};
		})()`) {
			if ratio < 3 {
				t.Errorf("%s: %s: contrast %.2f", s, pair, ratio)
			}
		}
	}
}
