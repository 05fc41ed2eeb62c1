package pages_test

// Pages against the rules of accessibility, as axe-core knows them; TestEveryPage has it look at each.

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"

	"trundle/generator/work"
)

// axeCore is the checker of accessibility.
var axeCore = outsider{name: "axe-core", version: "4.14.1",
	sum: "FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ=="}

// useSheet brings a sheet where a team has it towards the end of a lesson: a kit of its
// own, all measured, the last answer wrong again and again, those before right, what helps and the drawer open.
func useSheet(t *testing.T, tab *browser.Tab, l *work.Lesson) {
	t.Helper()
	browser.Ask[chromedp.Void](t, tab, `document.querySelector(".show")?.scrollIntoView()`)
	browser.Wait(t, tab, `!document.querySelector(".show") || !!globalThis.trundle.drawn`)
	browser.Unseen(t, tab, func() { answerSheet(t, tab, l) })
	last := browser.Finds(l)[len(browser.Finds(l))-1]
	if !browser.Ask[bool](t, tab, fmt.Sprintf(`(() => {
		const help = document.getElementById("more_%s");
		for (const details of help.querySelectorAll("details")) details.open = true;
		return help.checkVisibility();
	})()`, last.Name)) {
		t.Errorf("%s has been tried in vain, and nothing helps", last.Name)
	}
	browser.Ask[chromedp.Void](t, tab, `new Promise((done) => {
		const drawer = document.getElementById("_files");
		drawer.open = true;
		const look = () => drawer.querySelector("[data-act=clear]") ? done() : setTimeout(look);
		look();
	})`)
}

// answerSheet types a team's answers for useSheet.
func answerSheet(t *testing.T, tab *browser.Tab, l *work.Lesson) {
	t.Helper()
	browser.Fill(t, tab, browser.Samples(l))
	browser.Ask[chromedp.Void](t, tab, `(() => {
		const { page, inputs, write } = trundle.sheet;
		if (!page.kits) return;
		write("@kit", "ours");
		for (const [name, x] of Object.entries(page.kits[page.kit].facts)) {
			if (inputs["@kit_" + name]) write("@kit_" + name, String(x));
		}
	})()`)
	words := map[string]string{}
	var typed [][2]string
	for i, find := range browser.Finds(l) {
		tries := browser.Tries(words, l, find)
		which := slices.IndexFunc(tries, func(try browser.Try) bool { return try.Right == (i < len(browser.Finds(l))-1) })
		typed = append(typed, [2]string{find.Name, tries[which].Text})
	}
	for i, told := range browser.Fill(t, tab, typed) {
		if right := i < len(typed)-1; right != (told.State == "right") || told.Text == "" {
			t.Errorf("%s = %s is told %q", typed[i][0], typed[i][1], told.Text)
		}
	}
	last := browser.Finds(l)[len(typed)-1]
	var wrong [][2]string
	for _, try := range browser.Tries(words, l, last) {
		if !try.Right && try.Path != "kind" {
			wrong = append(wrong, [2]string{last.Name, try.Text})
		}
	}
	browser.Fill(t, tab, wrong)
}

// dropWork drops the saved work of two teams, and a file that is none, on the page of the class.
func dropWork(t *testing.T, tab *browser.Tab) {
	t.Helper()
	browser.Ask[bool](t, tab, `(() => {
		const all = new DataTransfer();
		for (const team of ["A", "B"]) all.items.add(new File([JSON.stringify({ trundle: "work", form: 1, pack: "canal-day",
			team, lessons: { "": { "@kit": "heron" }, "choosing-base": { "stop-1": "119", "stop-2": "121", "stop-3": "124",
			avg: "364" }, "03-rotations-for-a-distance": { "stop-1": "119", "stop-2": "122" } } })], team + ".json"));
		all.items.add(new File(["?"], "none.csv"));
		document.getElementById("_drop").dispatchEvent(new DragEvent("drop", { dataTransfer: all, bubbles: true }));
		return true;
	})()`)
	browser.Wait(t, tab, `"shown" in document.body.dataset`)
}

// plainPaper takes the rules of the squared paper and the marks of the tape away: axe-core
// does not judge the contrast of a text that stands on a gradient.
const plainPaper = `
document.adoptedStyleSheets = [new CSSStyleSheet()];
document.adoptedStyleSheets[0].replaceSync("* { background-image: none !important }");`

// oneOfALook marks one element for each look that its contrast can depend on: its own and that of all it lies in; most
// of axe-core's time would go into the contrast of words that look like those before. What is placed over other things
// is marked wherever it is, since what lies below it is no part of its look.
const oneOfALook = `
function oneOfALook() {
	const [backs, numbers, seen] = [new Map(), new Map(), new Set()]; // what elements lie on, by its number
	for (const e of document.querySelectorAll("*")) {
		const s = getComputedStyle(e);
		const below = backs.get(e.parentElement);
		const isFree = below === "free" || ["absolute", "fixed", "sticky"].includes(s.position);
		const back = [below, s.backgroundColor, s.backgroundImage, s.opacity, s.filter, s.mixBlendMode].join();
		if (!numbers.has(back)) numbers.set(back, numbers.size);
		backs.set(e, isFree ? "free" : numbers.get(back));
		const look = [back, s.color, s.fontSize, s.fontWeight, s.textShadow, s.display, e.localName].join();
		e.toggleAttribute("data-look", isFree || !seen.has(look));
		seen.add(look);
	}
}
axe.configure({ rules: [{ id: "color-contrast", selector: "[data-look]" }] });`

// axeRun gives what axe-core holds against the page, and what it leaves to a person. The
// page's policy lets it fetch nothing, hence no preload; what the tape covers in passing
// is no fault, hence the way to the top.
const axeRun = `(async (runOnly) => {
	scrollTo(0, 0);
	oneOfALook();
	const found = await axe.run(document, { runOnly, resultTypes: ["violations", "incomplete"], preload: false });
	const place = (html) => html.replace(/\s+/g, " ").slice(0, 120);
	const list = (results) => results.flatMap(({ id, nodes }) => nodes.map(({ target, html, any, all, none }) =>
		[id, target.flat().join(" "), place(html), [...any, ...all, ...none][0].message].join(" | ")));
	const rules = [found.passes, found.violations, found.incomplete].flat().map((rule) => rule.id);
	return { rules, wrong: list(found.violations), unsure: list(found.incomplete) };
})(%s)`

// Where the same elements are shown, a width and a scheme change nothing but places, sizes and colours, so
// that a page is gone through whole once and then by the rules of these: most of the time goes into these runs.
const (
	allRules  = `{ type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }`
	lookRules = `{ type: "rule", values: ["color-contrast", "link-in-text-block", "target-size",
		"scrollable-region-focusable", "css-orientation-lock"] }`
)

// settled waits until the page has done what a new width asks of it: steps that have become too long take keys in the
// frame after.
const settled = `(async () => {
	await globalThis.trundle?.quiet?.();
	for (let i = 0; i < 2; i++) await new Promise(requestAnimationFrame);
})()`

type axeView struct {
	width  int64
	scheme browser.Scheme
}

var (
	narrowDay   = axeView{browser.Narrowest, browser.Light}
	narrowNight = axeView{browser.Narrowest, browser.Dark}
	wideDay     = axeView{browser.Desktop, browser.Light}
	wideNight   = axeView{browser.Desktop, browser.Dark}
)

// shownElements gives which elements are shown, as text: their numbers in the document.
const shownElements = `[...document.querySelectorAll("*")].flatMap((e, i) => e.checkVisibility() ? [i] : []).join()`

// testAxe holds the open page, axe-core in it, against its rules in several views.
func testAxe(t *testing.T, tab *browser.Tab, state string, views ...axeView) {
	t.Helper()
	wrong, unsure := map[string][]string{}, map[string][]string{} // with the views
	var whole []string                                            // the elements that were shown when all rules were tried
	for _, v := range views {
		tab.View(t, v.width, v.scheme)
		browser.Ask[chromedp.Void](t, tab, settled)
		view := fmt.Sprintf("%s %d px", v.scheme, v.width)
		rules, shown := lookRules, browser.Ask[string](t, tab, shownElements)
		if !slices.Contains(whole, shown) {
			rules, whole = allRules, append(whole, shown)
		}
		found := browser.Ask[struct{ Rules, Wrong, Unsure []string }](t, tab, fmt.Sprintf(axeRun, rules))
		if !slices.Contains(found.Rules, "color-contrast") || !slices.Contains(found.Rules, "target-size") {
			t.Errorf("%s, %s: axe-core came to nothing but %s", state, view, found.Rules)
		}
		for _, what := range found.Wrong {
			wrong[what] = append(wrong[what], view)
		}
		for _, what := range found.Unsure {
			unsure[what] = append(unsure[what], view)
		}
	}
	for _, what := range slices.Sorted(maps.Keys(wrong)) {
		t.Errorf("%s: %s (%s)", state, what, strings.Join(wrong[what], ", "))
	}
	for _, what := range slices.Sorted(maps.Keys(unsure)) {
		t.Logf("%s: left to a person: %s (%s)", state, what, strings.Join(unsure[what], ", "))
	}
}
