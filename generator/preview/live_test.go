package preview_test

// The page in a browser follows what is saved in an editor.

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"

	"trundle/generator/mirror"
	"trundle/generator/preview"
	"trundle/generator/read"
	"trundle/site"
)

// A desk is a pack that is being written, with its preview.
type desk struct {
	dir, root string // the pack's folder, and where its pages are
}

// write changes a file of the pack by putting one text for another.
func (d desk) write(t testing.TB, name, old, with string) {
	t.Helper()
	file := filepath.Join(d.dir, name)
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(data), old, with, 1)
	if text == string(data) {
		t.Fatalf("%s holds no %q", name, old)
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// add puts a new file into the pack.
func (d desk) add(t testing.TB, name, text string) {
	t.Helper()
	file := filepath.Join(d.dir, name)
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// previewed starts the preview of a pack.
func previewed(t testing.TB, dir string) desk {
	t.Helper()
	pages, err := preview.New()
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	first, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		mirror.Watch(ctx, dir, read.Concerns, func(c mirror.Change) {
			if c.Files == nil {
				pages.Gone()
			} else if _, err := pages.Update(ctx, c.Files, ""); err != nil && ctx.Err() == nil {
				t.Error(err)
			}
			select {
			case <-first:
			default:
				close(first)
			}
		})
	}()
	<-first
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	handler, err := pages.Handler(preview.Serve{
		Hosts: preview.Hosts(l.Addr(), "127.0.0.1"), Editions: []site.Edition{site.Mentors, site.Students}, Author: true,
		Done: ctx.Done(),
	})
	if err != nil {
		t.Fatal(err)
	}
	server := &httptest.Server{Listener: l, Config: &http.Server{Handler: handler}}
	server.Start()
	t.Cleanup(func() {
		stop()
		<-ended
		server.Close()
	})
	return desk{dir, server.URL + "/"}
}

func previewedDemo(t testing.TB) desk {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "pack")
	if err := os.CopyFS(dir, os.DirFS(browser.Lessons())); err != nil {
		t.Fatal(err)
	}
	return previewed(t, dir)
}

// follow opens a page and waits until it listens.
func follow(t *testing.T, tab *browser.Tab, d desk, name string) {
	t.Helper()
	tab.Open(t, d.root, name)
	browser.Wait(t, tab,
		`document.body.dataset.live && document.querySelector("[data-at]") && document.querySelector("#_strip .state")`)
}

// waitAcross waits as wait does, while the page may start again.
func waitAcross(t *testing.T, tab *browser.Tab, script string) {
	t.Helper()
	for end := time.Now().Add(browser.Patience); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		ctx, cancel := context.WithTimeout(tab.Context, browser.Patience)
		good, err := chromedp.Run(ctx, chromedp.Evaluate[bool]("!!("+script+")"))
		cancel()
		if err == nil && good {
			return
		}
	}
	t.Errorf("this never came true: %s", script)
}

const text3 = "03-rotations-for-a-distance.md"

func TestThePageFollowsThePenInPlace(t *testing.T) {
	t.Parallel()
	d := previewedDemo(t)
	tab := browser.Open(t)
	follow(t, tab, d, browser.Lesson3)
	browser.Ready(t, tab)
	browser.Fill(t, tab, [][2]string{{"d", "65"}})
	browser.Ask[chromedp.Void](t, tab, `(() => {
		document.querySelector(".part:last-of-type").open = true;
		scrollTo(0, 900);
		const box = document.getElementById("in_guess");
		box.focus({ preventScroll: true });
		box.value = "5.";
		window.same = true; // a page that starts again forgets this
	})()`)
	at := browser.Ask[float64](t, tab, `scrollY`)
	d.write(t, text3, "## Exit ticket", "Heave ho, said the **last narrowboat**.\n\n## Exit ticket")
	browser.Wait(t, tab, `[...document.querySelectorAll("strong")].some((e) => e.textContent === "last narrowboat" && `+
		`e.parentNode.dataset.at.startsWith("`+text3+`:"))`)
	for what, script := range map[string]string{
		"the page started again":  `window.same`,
		"a part has shut":         `document.querySelector(".part:last-of-type").open`,
		"an entry is gone":        `document.getElementById("in_d").value === "65"`,
		"what is typed is gone":   `document.activeElement.id === "in_guess" && document.activeElement.value === "5."`,
		"the team's part is gone": `document.getElementById("_name").checkVisibility()`,
	} {
		if !browser.Ask[bool](t, tab, `!!(`+script+`)`) {
			t.Error(what)
		}
	}
	if now := browser.Ask[float64](t, tab, `scrollY`); now != at {
		t.Errorf("the page has scrolled from %g to %g", at, now)
	}
	// Taken back, the page is as it was sent first.
	d.write(t, text3, "Heave ho, said the **last narrowboat**.\n\n", "")
	browser.Wait(t, tab, `!document.querySelector("main").textContent.includes("last narrowboat")`)
	d.write(t, text3, "title: Rotations", "title: Turns")
	browser.Wait(t, tab,
		`document.title.startsWith("Turns") && document.querySelector("h1").textContent.startsWith("Turns")`)
	// What checks answers changes: the page starts again, and everything is still there.
	d.write(t, text3, "Half of what it should be.", "Half as much as it should be.")
	waitAcross(t, tab, `!window.same && document.body.dataset.live && document.getElementById("in_d").value === "65" && `+
		`document.activeElement.id === "in_guess" && document.activeElement.value === "5."`)
	browser.Wait(t, tab, `document.querySelector(".part:last-of-type").open && Math.abs(scrollY - `+fmt.Sprint(at)+`) < 2`)
	tab.Report(t)
}

func TestProblemsStandOverTheLastGoodPage(t *testing.T) {
	t.Parallel()
	d := previewedDemo(t)
	tab := browser.Open(t)
	follow(t, tab, d, "mentors/03-rotations-for-a-distance.html")
	browser.Ask[chromedp.Void](t, tab, `window.same = true`)
	text, err := os.ReadFile(filepath.Join(d.dir, text3))
	if err != nil {
		t.Fatal(err)
	}
	bad := strings.Replace(string(text), "\nkey  n = ", "\nkey  n = 9", 1)
	bad = strings.Replace(bad, "## Exit ticket", "Not to be seen {nobody}.\n\n## Exit ticket", 1)
	if err := os.WriteFile(filepath.Join(d.dir, text3), []byte(bad), 0o644); err != nil {
		t.Fatal(err)
	}
	strip := `document.getElementById("_strip")`
	browser.Wait(t, tab, strip+`.textContent.includes("key-mismatch")`)
	for _, part := range []string{text3 + ":", "unknown-name", "2 errors", "keys that agree: 6 of 7",
		"did you mean|define|Write "} {
		if !browser.Ask[bool](t, tab, fmt.Sprintf(`/%s/.test(%s.textContent)`, part, strip)) {
			t.Errorf("the strip does not say %q: %s", part, browser.Ask[string](t, tab, strip+`.textContent`))
		}
	}
	if !browser.Ask[bool](t, tab, strip+`.querySelector("details").open && `+strip+
		`.querySelector("pre mark").textContent.length > 0`) {
		t.Error("the problems do not show their place")
	}
	if browser.Ask[bool](t, tab, `document.querySelector("main").textContent.includes("Not to be seen")`) {
		t.Error("a page that is not right is shown")
	}
	if err := os.WriteFile(filepath.Join(d.dir, text3), text, 0o644); err != nil {
		t.Fatal(err)
	}
	browser.Wait(t, tab, `!`+strip+`.querySelector("details") && window.same`)
	tab.Report(t)
}

func TestTheStripTellsOfPlanKeysAndSource(t *testing.T) {
	t.Parallel()
	d := previewedDemo(t)
	tab := browser.Open(t)
	follow(t, tab, d, browser.Lesson3)
	text := browser.Ask[string](t, tab, `document.getElementById("_strip").textContent.replace(/\s+/g, " ")`)
	for _, part := range []string{"time: ", "keys that agree: ", "What a mentor sees", "Worksheet"} {
		if !strings.Contains(text, part) {
			t.Errorf("the strip reads %q, without %q", text, part)
		}
	}
	// The line under the pointer is the line of the source.
	source, err := os.ReadFile(filepath.Join(d.dir, text3))
	if err != nil {
		t.Fatal(err)
	}
	for i, line := range strings.Split(string(source), "\n") {
		if strings.HasPrefix(line, "## Try it") {
			browser.Ask[chromedp.Void](t, tab, `[...document.querySelectorAll("h2")].find((h) => `+
				`h.textContent.startsWith("Try it")).dispatchEvent(new PointerEvent("pointermove", { bubbles: true }))`)
			if got, want := browser.Ask[string](t, tab, `document.getElementById("_at").textContent`),
				fmt.Sprintf("%s:%d", text3, i+1); got != want {
				t.Errorf("the pointer is said to be over %s, and is over %s", got, want)
			}
		}
	}
	d.write(t, text3, "(10 min)", "(11 min)")
	browser.Wait(t, tab, `document.querySelector("#_strip details[open]")?.textContent.includes("time-plan")`)
	d.write(t, text3, "(11 min)", "(10 min)")
	browser.Wait(t, tab, `!document.querySelector("#_strip details")`)
	if got := browser.Ask[string](t, tab,
		`document.querySelector("#_strip a").getAttribute("href")`); got != "/mentors/03-rotations-for-a-distance.html" {
		t.Errorf("the other edition is said to be at %s", got)
	}
	tab.Report(t)
}

// TestStripAndMentorsBarLieOneOnTheOther looks at the foot of a mentors' page, where both are, with and without
// problems.
func TestStripAndMentorsBarLieOneOnTheOther(t *testing.T) {
	t.Parallel()
	d := previewedDemo(t)
	tab := browser.Open(t)
	follow(t, tab, d, "mentors/03-rotations-for-a-distance.html")
	const apart = `(() => {
		scrollTo(0, 1e6);
		const box = (id) => document.querySelector(id).getBoundingClientRect();
		const [strip, bar, last] = [box("#_strip"), box("#_bar"), box("footer p:last-of-type")];
		return bar.height > 40 && strip.height > 20 && Math.abs(bar.bottom - strip.top) < 1 &&
			Math.abs(strip.bottom - innerHeight) < 1 && strip.height >= box("#_strip .state").height && last.bottom <= bar.top;
	})()`
	for _, width := range []int64{browser.Phone, browser.Tablet, browser.Desktop} {
		tab.View(t, width, browser.Light)
		browser.Wait(t, tab, apart)
	}
	tab.View(t, browser.Phone, browser.Light)
	d.write(t, text3, "(10 min)", "(11 min)")
	browser.Wait(t, tab, `document.querySelector("#_strip details[open]")`)
	browser.Wait(t, tab, apart)
	tab.Report(t)
}

func TestChartsFollowTheirRuns(t *testing.T) {
	t.Parallel()
	d := previewedDemo(t)
	tab := browser.Open(t)
	follow(t, tab, d, "mentors/07-choosing-a-base.html")
	d.write(t, "data/bases.csv", "Heron,1,120.0,24", "Heron,1,180.0,24")
	browser.Wait(t, tab, `document.querySelector("figure desc").textContent.includes("180")`)
	tab.Report(t)
}

func TestAPackThatWasNeverRightComesToBe(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "pack")
	if err := os.CopyFS(dir, os.DirFS(browser.Lessons())); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "pack.yaml")
	if err := os.Rename(file, file+".away"); err != nil {
		t.Fatal(err)
	}
	d := previewed(t, dir)
	tab := browser.Open(t)
	tab.Open(t, d.root, "mentors/index.html")
	browser.Wait(t, tab, `document.getElementById("_strip").textContent.includes("no-pack-file")`)
	// One sentence says so, on the page and in the strip, and nothing leads to pages that are not there.
	const nothing = "There is nothing to show yet: the pages appear once the problems are fixed."
	if !browser.Ask[bool](t, tab, `document.getElementById("_notice").textContent === "`+nothing+`" && `+
		`document.getElementById("_strip").textContent.includes("`+nothing+`") && `+
		`!document.body.textContent.includes("last good") && `+
		`!document.querySelector("main a, footer, .edition")`) {
		t.Errorf("the page reads %q", browser.Ask[string](t, tab, `document.body.innerText`))
	}
	if err := os.Rename(file+".away", file); err != nil {
		t.Fatal(err)
	}
	waitAcross(t, tab, `document.querySelector(".season")`)
	// The folder goes away, and comes back.
	if err := os.Rename(dir, dir+"-away"); err != nil {
		t.Fatal(err)
	}
	browser.Wait(t, tab,
		`document.getElementById("_strip").textContent.includes("folder is gone") && document.querySelector(".season")`)
	if err := os.Rename(dir+"-away", dir); err != nil {
		t.Fatal(err)
	}
	browser.Wait(t, tab, `!document.getElementById("_strip").textContent.includes("folder is gone")`)
	d.write(t, "pack.yaml", "title: Canal Day", "title: Canal Night")
	browser.Wait(t, tab, `document.querySelector("h1").textContent === "Canal Night"`)
	tab.Report(t)
}

// The lesson that is open is deleted, comes back, and is given another name.
func TestThePageOfALessonThatIsRenamed(t *testing.T) {
	t.Parallel()
	dir := filepath.Join(t.TempDir(), "pack")
	files := browser.PackOf("Ahoy.\n")
	if err := os.CopyFS(dir, files); err != nil {
		t.Fatal(err)
	}
	file, other, kept := filepath.Join(dir, "01-t.md"), filepath.Join(dir, "02-other.md"), filepath.Join(dir, "03-kept.md")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	write := func(name, text string) {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(other, strings.Replace(string(text), "title: ", "title: Other ", 1))
	d := previewed(t, dir)
	tab := browser.Open(t)
	tab.Open(t, d.root, "mentors/01-t.html")
	browser.Wait(t, tab, `document.body.dataset.live`)
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	waitAcross(t, tab, `document.getElementById("_notice")?.textContent.includes("01-t.md") && `+
		`document.querySelector("main a[href='02-other.html']").textContent.startsWith("Other")`)
	write(file, string(text))
	waitAcross(t, tab, `!document.getElementById("_notice") && document.body.textContent.includes("Ahoy.")`)
	// With an id the page goes where the lesson goes.
	write(file, strings.Replace(string(text), "---\n", "---\nid: ahoy\n", 1))
	browser.Wait(t, tab, `document.body.dataset.live > 2`)
	time.Sleep(100 * time.Millisecond)
	if err := os.Rename(file, kept); err != nil {
		t.Fatal(err)
	}
	waitAcross(t, tab, `location.pathname === "/mentors/03-kept.html" && document.body.textContent.includes("Ahoy.")`)
	// An address that never was says so, and leads on.
	tab.Open(t, d.root, "students/nothing.html")
	browser.Wait(t, tab, `document.getElementById("_notice").textContent.includes("no such page") && `+
		`document.querySelector("main a[href='02-other.html']") && document.querySelector("#_strip .state")`)
}

func TestAProblemLeadsToItsPlace(t *testing.T) {
	t.Parallel()
	d := previewedDemo(t)
	tab := browser.Open(t)
	follow(t, tab, d, "mentors/03-rotations-for-a-distance.html")
	d.write(t, text3, "\nkey  n = ", "\nkey  n = 9")
	const go3 = `document.querySelector("#_strip [data-go^='` + text3 + `']")`
	browser.Wait(t, tab, go3)
	browser.Ask[chromedp.Void](t, tab, go3+`.click()`)
	if !browser.Ask[bool](t, tab, `document.querySelector("[data-aimed]").closest("tr").textContent`+
		`.includes("How many")`) {
		t.Error("the place leads to something else")
	}
	// A place in a part leads to where the open lesson has it.
	d.write(t, text3, "\nkey  n = 9", "\nkey  n = ")
	d.add(t, "parts/ready.md", "Ready, *steady*.\n\nAnd {nothing}.\n")
	d.write(t, text3, "\n## Try", "\n{{part ready}}\n\n## Try")
	const part = `document.querySelector("#_strip [data-go='parts/ready.md:3']")`
	browser.Wait(t, tab, part)
	d.write(t, "parts/ready.md", "{nothing}", "{1 + 1} go")
	browser.Wait(t, tab, `[...document.querySelectorAll("main [data-at='parts/ready.md:3']")]`+
		`.some((e) => e.textContent.includes("And 2 go"))`)
	d.write(t, "parts/ready.md", "{1 + 1}", "{nothing}")
	browser.Wait(t, tab, part)
	browser.Ask[chromedp.Void](t, tab, part+`.click()`)
	if !browser.Ask[bool](t, tab, `document.querySelector("[data-aimed]").textContent.includes("And 2 go")`) {
		t.Error("the place in a part leads to something else")
	}
	d.write(t, "parts/ready.md", "{nothing}", "2")
	d.write(t, text3, "\nkey  n = ", "\nkey  n = 9")
	browser.Wait(t, tab, go3)
	// From another page, too.
	tab.Open(t, d.root, "mentors/index.html")
	browser.Wait(t, tab, go3)
	browser.Ask[chromedp.Void](t, tab, go3+`.click()`)
	waitAcross(t, tab, `document.querySelector("[data-aimed]")?.closest("tr")?.textContent.includes("How many")`)
}
