package rules_test

// Pages against the rules of others, of accessibility and of HTML.

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha512"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"

	"trundle/generator/work"
)

// Two checkers from outside the project look over the pages: axe-core at what a browser
// makes of them, the Nu HTML checker at their markup. Both come from npm, are kept in the
// user's cache between runs and are held against their sums.
var (
	axeCore = outsider{name: "axe-core", version: "4.14.1",
		sum: "FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ=="}
	vnuJar = outsider{name: "vnu-jar", version: "26.9.27",
		sum: "TkQd5DFfOaWC9ebtvozTsrH2Vaod3jYg+vrOeREzIXxBexLz9+rS2DNtjn7+RPUiZhgli0SghgBX6RJRNea0KA=="}
)

// TestAxe has axe-core look at every page of both editions by day and by night, narrow and wide. Lessons, which are
// made alike, take turns at these four views: a sheet in use has one of them, and every other sheet its opposite as it
// comes, when nothing is on it that is not there in use.
func TestAxe(t *testing.T) {
	script := string(axeCore.file(t, "package/axe.min.js"))
	built := browser.Demo(t)
	root := built.Root()
	tabs := browser.Two(t)
	sheets := map[string]*work.Lesson{}
	for _, l := range built.Lessons {
		sheets["students/"+l.Slug+".html"] = l
	}
	views := [...]axeView{narrowDay, wideDay, wideNight, narrowNight}
	for i, name := range built.Pages {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			tab := <-tabs
			defer func() { tabs <- tab }()
			l := sheets[name]
			if l == nil {
				tab.Open(t, root, name)
			} else {
				browser.StartOver(t, tab, root, name)
			}
			browser.Ask[chromedp.Void](t, tab, script+plainPaper+oneOfALook)
			switch {
			case !isLesson(built, name):
				testAxe(t, tab, "as it comes", narrowDay, wideNight)
			case l == nil || i%2 == 0:
				testAxe(t, tab, "as it comes", views[i%len(views)])
			}
			if l != nil { // at the other width, by the other light
				useSheet(t, tab, l)
				testAxe(t, tab, "in use", views[(i+2)%len(views)])
			}
			if name == "mentors/class.html" {
				dropWork(t, tab)
				testAxe(t, tab, "with a class on it", wideDay, narrowNight)
			}
			if l == built.Lessons[0] {
				browser.Ask[chromedp.Void](t, tab, `document.querySelector("[data-act=clear]").click()`)
				testAxe(t, tab, "with a question in front", narrowDay, wideNight, wideDay, narrowNight)
			}
			tab.Report(t)
		})
	}
}

// isLesson tells whether a page is that of a lesson, in either edition.
func isLesson(built browser.Built, name string) bool {
	return slices.ContainsFunc(built.Lessons, func(l *work.Lesson) bool { return path.Base(name) == l.Slug+".html" })
}

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

// TestNu has the Nu HTML checker read every page of both editions, the style sheet
// and the icon.
func TestNu(t *testing.T) {
	t.Parallel()
	java, err := exec.LookPath("java")
	if err != nil {
		t.Fatal("this test needs java in the PATH: install default-jre-headless")
	}
	built := browser.Demo(t)
	jar := filepath.Join(t.TempDir(), "vnu.jar")
	if err := os.WriteFile(jar, vnuJar.file(t, "package/build/dist/vnu.jar"), 0o644); err != nil {
		t.Fatal(err)
	}
	// A page with a known fault, to see that faults are told.
	faulty := filepath.Join(t.TempDir(), "faulty.html")
	if err := os.WriteFile(faulty, []byte("<!DOCTYPE html><title>Faulty</title><p id=a><p id=a>"), 0o644); err != nil {
		t.Fatal(err)
	}
	// It runs for seconds: it need not compile its best code, nor have threads that look for garbage.
	arguments := []string{"-Xss4m", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-jar", jar,
		"--stdout", "--format", "json", "--exit-zero-always",
		"--also-check-css", "--also-check-svg", "students/assets/site.css", "students/assets/icon.svg", faulty}
	cmd := exec.Command(java, append(arguments, built.Pages...)...)
	cmd.Dir = built.Dir
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("java: %v\n%s", err, stderr.Bytes())
	}
	var told struct{ Messages []nuMessage }
	if err := json.Unmarshal(out, &told); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	faults := 0
	notes := map[string][]nuMessage{}
	for _, m := range told.Messages {
		switch {
		case strings.HasSuffix(m.URL, "/faulty.html"):
			faults++
		case m.Type == "info" || strings.HasSuffix(m.URL, ".css"): // it may not know what is new in CSS
			notes[m.Message] = append(notes[m.Message], m)
		default:
			t.Error(m)
		}
	}
	for _, of := range notes {
		t.Logf("%d times, first %s", len(of), of[0])
	}
	if faults == 0 {
		t.Errorf("the checker finds nothing wrong with %s", faulty)
	}
}

// A nuMessage is what the Nu HTML checker says of a place in a page.
type nuMessage struct {
	Type, SubType, URL, Message, Extract string
	LastLine, LastColumn                 int
}

func (m nuMessage) String() string {
	edition, page := path.Split(m.URL)
	return fmt.Sprintf("%s/%s:%d:%d: %s %s: %s: %q", path.Base(edition), page, m.LastLine, m.LastColumn, m.Type, m.SubType,
		m.Message, m.Extract)
}

// An outsider is a version of a package on npm that a test runs and the project does not
// hold; sum is the SHA-512 of its archive.
type outsider struct{ name, version, sum string }

// file gives a file of the package.
func (o outsider) file(t *testing.T, name string) []byte {
	t.Helper()
	packed, err := gzip.NewReader(bytes.NewReader(o.archive(t)))
	if err != nil {
		t.Fatal(err)
	}
	for files := tar.NewReader(packed); ; {
		header, err := files.Next()
		if err != nil {
			t.Fatalf("%s %s, %s: %v", o.name, o.version, name, err)
		}
		if header.Name != name {
			continue
		}
		data, err := io.ReadAll(files)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
}

// archive gives the package as it was published: from the cache if it lies there whole,
// else from npm.
func (o outsider) archive(t *testing.T) []byte {
	t.Helper()
	cache, err := os.UserCacheDir()
	if err != nil {
		t.Fatal(err)
	}
	dir := filepath.Join(cache, "trundle-tests")
	file := o.name + "-" + o.version + ".tgz"
	kept, err := os.ReadFile(filepath.Join(dir, file))
	switch {
	case err == nil && o.whole(kept):
		return kept
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		t.Fatal(err)
	}
	npm, err := exec.LookPath("npm")
	if err != nil {
		t.Fatal("this test needs npm in the PATH: install nodejs and npm")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	fresh, err := os.MkdirTemp(dir, "") // beside its place, since other tests may read there
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(fresh)
	cmd := exec.Command(npm, "pack", "--silent", "--pack-destination", fresh, o.name+"@"+o.version)
	cmd.Dir = fresh
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("npm cannot fetch %s %s: %v\n%s", o.name, o.version, err, said)
	}
	data, err := os.ReadFile(filepath.Join(fresh, file))
	if err != nil {
		t.Fatal(err)
	}
	if !o.whole(data) {
		t.Fatalf("npm brought another %s %s than the one these tests are made for", o.name, o.version)
	}
	if err := os.Rename(filepath.Join(fresh, file), filepath.Join(dir, file)); err != nil {
		t.Fatal(err)
	}
	return data
}

func (o outsider) whole(archive []byte) bool {
	sum := sha512.Sum512(archive)
	return base64.StdEncoding.EncodeToString(sum[:]) == o.sum
}
