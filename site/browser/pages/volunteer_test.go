package pages_test

// A volunteer with nothing but the unpacked zip and a browser, scripts on and off.

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"trundle/generator"
	"trundle/generator/bundle"
	"trundle/generator/work"
	"trundle/site"
)

type bundles struct {
	proved *generator.Proved
	zips   map[string][]byte
}

// bundled is the demo pack and its bundles, made once.
var bundled = sync.OnceValues(func() (b bundles, err error) {
	if b.proved, err = generator.Prove(context.Background(), os.DirFS(browser.Lessons())); err != nil {
		return b, err
	}
	b.zips, err = generator.Bundles(context.Background(), b.proved, time.Time{}, func(done, all int) {})
	return b, err
})

// unzipped has unzip unpack the bundle of an edition of the demo pack, and gives its folder.
func unzipped(t *testing.T, e site.Edition) (folder string, lessons []*work.Lesson) {
	t.Helper()
	made, err := bundled()
	if err != nil {
		t.Fatal(err)
	}
	proved, zips := made.proved, made.zips
	dir, name := t.TempDir(), generator.BundleName(proved, e)
	if err := os.WriteFile(filepath.Join(dir, "b.zip"), zips[name+".zip"], 0o600); err != nil {
		t.Fatal(err)
	}
	unzip := exec.Command("unzip", "-q", "b.zip")
	unzip.Dir = dir
	if said, err := unzip.CombinedOutput(); err != nil {
		t.Fatalf("this test needs unzip: %v\n%s", err, said)
	}
	return filepath.Join(dir, name), proved.Lessons
}

// mostClicks is how many a volunteer may need from the page to start with.
const mostClicks = 3

// TestAVolunteerFindsAKeyAndASheetWithinThreeClicks has nothing but a browser and the unpacked
// zip: from START-HERE to lesson 4's key, and to its sheet, with scripts and without.
func TestAVolunteerFindsAKeyAndASheetWithinThreeClicks(t *testing.T) {
	t.Parallel()
	folder, lessons := unzipped(t, site.Mentors)
	fourth := lessons[3]
	start := "file://" + filepath.ToSlash(folder) + "/"
	for how, off := range map[string]bool{"with scripts": false, "without scripts": true} {
		t.Run(how, func(t *testing.T) {
			tab := browser.Open(t)
			v := &volunteer{tab: tab, asked: make(chan string, 100)}
			if err := chromedp.Listen(tab.Context, v.note); err != nil {
				t.Fatal(err)
			}
			browser.Order(t, tab, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: off})

			v.start(t, start)
			v.click(t, fmt.Sprintf("a.textContent === %q", fourth.Title), ".html")
			shown := browser.Ask[[]string](t, tab,
				`[document.querySelector("h1"), ...document.querySelectorAll(".find .k")].filter((e) => e.checkVisibility() && `+
					`e.getClientRects().length).map((e) => e.textContent)`)
			all := oneLine(strings.Join(shown, " ¦ "))
			if !strings.HasPrefix(all, fourth.Title) {
				t.Fatalf("the page that opened shows %q", all)
			}
			for _, s := range fourth.Finds {
				if key := fourth.Of(s).Key; key != nil && !strings.Contains(all, oneLine(key.Text())) {
					t.Errorf("the key of %s is not to be seen among %s", s.Name, all)
				}
			}
			v.within(t, "the key")
			if hidden := browser.Ask[bool](t, tab, `document.querySelector(".plan p").hidden`); hidden != off {
				t.Errorf("the field for the start is hidden: %v; it must be just while scripts are off", hidden)
			}

			for _, sheet := range []struct {
				name  string
				keyed bool
			}{{"students/sheets/", false}, {"mentors/sheets/", true}} {
				v.start(t, start)
				got := v.click(t, fmt.Sprintf("a.getAttribute('aria-label') === %q && a.pathname.includes(%q)", fourth.Title+", A4",
					sheet.name), ".pdf")
				v.within(t, sheet.name)
				data, err := os.ReadFile(strings.TrimPrefix(got, "file://"))
				if err != nil || !bytes.HasPrefix(data, []byte("%PDF-")) {
					t.Fatalf("%s is no PDF: %v", got, err)
				}
				text, err := exec.Command("pdftotext", "-raw", strings.TrimPrefix(got, "file://"), "-").Output()
				if err != nil {
					t.Fatalf("this test needs pdftotext, of poppler-utils: %v", err)
				}
				key := oneLine(fourth.Of(fourth.Finds[0]).Key.Text())
				if said := oneLine(string(text)); !strings.Contains(said, fourth.Title) ||
					strings.Contains(said, key) != sheet.keyed {
					t.Errorf("%s: key %s is there: %v, want %v", got, key, !sheet.keyed, sheet.keyed)
				}
			}
		})
	}
}

// TestLinksOfABundleLeadSomewhere follows every link of the page to start with, in both editions.
func TestLinksOfABundleLeadSomewhere(t *testing.T) {
	t.Parallel()
	tab := browser.Open(t)
	for _, e := range site.Editions {
		folder, lessons := unzipped(t, e)
		tab.Open(t, "file://"+filepath.ToSlash(folder)+"/", bundle.Start)
		links := browser.Ask[[]string](t, tab,
			`[...document.querySelectorAll("a[href]:not([href^='#'])")].map((a) => a.getAttribute("href"))`)
		if len(links) < 3*len(lessons) {
			t.Errorf("%s: only the links %q", e, links)
		}
		for _, to := range links {
			u, err := url.Parse(to)
			if err != nil || u.Host != "" || u.Scheme != "" {
				t.Fatalf("%s: %s is not relative", e, to)
			}
			if _, err := os.Stat(filepath.Join(folder, filepath.FromSlash(u.Path))); err != nil {
				t.Errorf("%s: the link %s leads nowhere", e, to)
			}
		}
		tab.Report(t)
	}
}

// TestALessonOfTheMentorsBundleHasBlankSheetsBesideKeyedOnes follows the links to paper in the unpacked zip.
func TestALessonOfTheMentorsBundleHasBlankSheetsBesideKeyedOnes(t *testing.T) {
	t.Parallel()
	tab := browser.Open(t)
	folder, lessons := unzipped(t, site.Mentors)
	for _, l := range lessons {
		text, err := os.ReadFile(filepath.Join(folder, "mentors", l.Slug+".html"))
		if err != nil {
			t.Fatal(err)
		}
		links := browser.Ask[[]string](t, tab, fmt.Sprintf( // read, not opened: nothing of it is to be seen
			`[...new DOMParser().parseFromString(%s, "text/html").querySelectorAll(".ready [href$='.pdf']")]
				.map((a) => a.getAttribute("href"))`, quoted(t, text)))
		if len(links) != 6 {
			t.Fatalf("%s: the links to paper are %q", l.Slug, links)
		}
		for i, to := range links { // the run sheet, the students' ones, those with keys
			blank := i/2 == 1
			name, err := url.PathUnescape(to)
			if err != nil {
				t.Fatal(err)
			}
			_, err = os.Stat(filepath.Join(folder, "mentors", filepath.FromSlash(name)))
			if err != nil || strings.Contains(to, "/students/sheets/") != blank || strings.Contains(to, "-mentor-") != (i < 2) {
				t.Errorf("%s: the link %s leads nowhere, or is not in its place", l.Slug, to)
			}
		}
	}
}

// quoted is a text as a script has it.
func quoted(t *testing.T, text []byte) string {
	t.Helper()
	data, err := json.Marshal(string(text))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// A volunteer clicks and counts.
type volunteer struct {
	tab    *browser.Tab
	asked  chan string // addresses of pages and files that the browser went for
	clicks int
}

func (v *volunteer) note(event any) {
	if e, ok := event.(*network.EventRequestWillBeSent); ok && e.Type == network.ResourceTypeDocument {
		select {
		case v.asked <- e.Request.URL:
		default:
		}
	}
}

func (v *volunteer) start(t *testing.T, root string) {
	t.Helper()
	v.tab.Open(t, root, bundle.Start)
	v.tab.View(t, browser.Tablet, browser.Light)
	v.clicks = 0
	for len(v.asked) > 0 {
		<-v.asked
	}
}

// click clicks, with the mouse, the first link that which holds for, and gives the address that the
// browser goes for, which ends as told. A page is waited for.
func (v *volunteer) click(t *testing.T, which, ending string) string {
	t.Helper()
	at := browser.Ask[[]float64](t, v.tab, `(() => {
		const a = [...document.querySelectorAll("a[href]")].find((a) => `+which+`);
		if (!a) return [];
		a.scrollIntoView({ block: "center" });
		const r = a.getBoundingClientRect();
		return [r.x + r.width / 2, r.y + r.height / 2];
	})()`)
	if len(at) != 2 {
		t.Fatalf("there is no link with %s", which)
	}
	v.clicks++
	browser.Run(t, v.tab, chromedp.MouseClickXY(at[0], at[1]))
	deadline := time.After(browser.Patience)
	for {
		select {
		case address := <-v.asked:
			if strings.HasSuffix(address, ending) {
				if ending == ".html" {
					v.arrive(t, address)
				}
				return address
			}
		case <-deadline:
			t.Fatalf("after a click on the link with %s the browser went for nothing that ends in %s", which, ending)
		}
	}
}

// arrive waits for a page.
func (v *volunteer) arrive(t *testing.T, address string) {
	t.Helper()
	for end := time.Now().Add(browser.Patience); ; time.Sleep(20 * time.Millisecond) {
		if browser.Ask[bool](t, v.tab, fmt.Sprintf(`location.href === %q && document.readyState === "complete"`, address)) {
			return
		}
		if time.Now().After(end) {
			t.Fatalf("%s does not come", address)
		}
	}
}

func (v *volunteer) within(t *testing.T, what string) {
	t.Helper()
	if v.clicks < 1 || v.clicks > mostClicks {
		t.Errorf("%s takes %d clicks", what, v.clicks)
	}
}

// oneLine makes a blank of every run of blanks, hard ones too.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
