package answers_test

// What is predicted first, and what figures must not give away before it is.

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

const predicted = "```work\ngiven L = 120 cm \"Gate\"\nmeasure d = 65 mm \"Wheel\"\n" +
	"find n in rot to 0.01 = rotations(L, d) \"Rotations\"\nfind m in rot to 0.01 = 2 * n \"Out and back\"\n```\n\n" +
	"```chart\ntitle \"How many rotations?\"\nvary x from 0 cm to 200 cm \"Distance\"\n" +
	"line rotations(x, 48 mm) in rot \"Small wheel\"\nline rotations(x, d) in rot \"Your wheel\"\n" +
	"mark L \"Gate\"\nmark n * 10 cm \"Found place\"\n```\n\nText.\n\n```chart\ntitle \"Open\"\nlength 1 m\n" +
	"track 112 mm\npath 1 % \"Left\"\n```\n"

// TestWhatIsPredictedFirstOpensWhenItIsAnswered tries to open a chart by hand, answers
// wrongly, rightly, comes back, and clears the sheet.
func TestWhatIsPredictedFirstOpensWhenItIsAnswered(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, predicted)
	tab := browser.Open(t)
	root := built.Root()
	browser.StartOver(t, tab, root, "students/01-t.html")
	const later = `document.querySelector(".later")`
	const button = later + `.querySelector("button")`
	isOpen := func() bool {
		return browser.Ask[bool](t, tab, later+`.querySelector("figure").checkVisibility()`)
	}
	marks := func() string { return browser.Ask[string](t, tab, later+`.querySelector(".opens").innerText`) }
	if n := browser.Ask[int](t, tab, `document.querySelectorAll(".later").length`); n != 1 || isOpen() {
		t.Fatalf("%d blocks are folded, open: %v", n, isOpen())
	}
	got := browser.Ask[string](t, tab, button+".textContent")
	if got != "Predict first: How many rotations?" {
		t.Errorf("it says %q", got)
	}
	if got := strings.Join(strings.Fields(marks()), " "); strings.Count(got, "○") != 2 || strings.Contains(got, "✓") {
		t.Errorf("of its questions it says %q", got)
	}
	browser.Ask[chromedp.Void](t, tab, button+".click()")
	browser.Wait(t, tab, later+`.querySelector("[role=status]").textContent === `+
		"`Still shut. Answer first: “Rotations” · “Out and back”`")
	browser.Ask[chromedp.Void](t, tab, button+".focus()")
	typed(t, tab, "\r")
	if isOpen() {
		t.Error("it opened before it was answered")
	}
	browser.Fill(t, tab, [][2]string{{"d", "65"}, {"n", "5.88"}, {"m", "5"}})
	if isOpen() {
		t.Error("it opened when half was answered")
	}
	if got := marks(); strings.Count(got, "○") != 1 || strings.Count(got, "✓") != 1 {
		t.Errorf("when half is answered it says %q", got)
	}
	browser.Fill(t, tab, [][2]string{{"m", "11.75"}})
	browser.Wait(t, tab, later+".querySelector('svg').getBoundingClientRect().height > 100")
	// Then it may be closed and opened like any other.
	browser.Ask[chromedp.Void](t, tab, button+".click()")
	browser.Wait(t, tab, button+`.getAttribute("aria-expanded") === "false"`)
	if isOpen() {
		t.Error("it cannot be closed")
	}
	tab.Open(t, root, "students/01-t.html")
	browser.Ready(t, tab)
	browser.Wait(t, tab, later+`.querySelector("figure").checkVisibility()`)
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.store.clear(false).then(() => trundle.sheet.enter(""))`)
	browser.Wait(t, tab, "!"+later+`.querySelector("figure").checkVisibility()`)
	tab.Report(t)
}

// TestWhatIsPredictedFirstStaysShutForThoseWhoSearch goes to it by its address and by a text in it, prints, and
// switches scripts off.
func TestWhatIsPredictedFirstStaysShutForThoseWhoSearch(t *testing.T) {
	t.Parallel()
	built, tab := browser.BuildOf(t, predicted), browser.Open(t)
	const isOpen = `document.querySelector(".later figure").checkVisibility()`
	for _, off := range []bool{false, true} {
		browser.Order(t, tab, emulation.SetScriptExecutionDisabled,
			emulation.SetScriptExecutionDisabledParams{Value: off})
		for _, to := range []string{"#_fig1", "#:~:text=Small%20wheel"} {
			tab.Open(t, "about:blank", "")
			tab.Open(t, built.Root(), "students/01-t.html"+to)
			browser.Ask[chromedp.Void](t, tab, `document.querySelector(".later button").click()`)
			if browser.Ask[bool](t, tab, isOpen) {
				t.Errorf("%s opens it, with scripts off: %v", to, off)
			}
			pdf := lettersOf(t, browser.Printed(t, tab))
			if strings.Contains(pdf, "Smallwheel") || !strings.Contains(pdf, "Predictfirst") {
				t.Errorf("%s: the printed page has what is shut, or says nothing of it: %s", to, pdf)
			}
		}
	}
	said := browser.Ask[string](t, tab, `document.querySelector(".later").innerText`)
	if !strings.Contains(said, "those are off") {
		t.Errorf("without scripts it says %q", said)
	}
}

// TestNoChartGivesAFoundNumberAway looks for what rests on the students' own numbers.
func TestNoChartGivesAFoundNumberAway(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, predicted)
	page := func(edition string) string {
		data, err := os.ReadFile(filepath.Join(built.Dir, edition, "01-t.html"))
		if err != nil {
			t.Fatal(err)
		}
		figure := regexp.MustCompile(`(?s)<figure.*?</figure>`).FindString(string(data))
		if !strings.Contains(figure, "Small wheel") {
			t.Fatal("there is no chart")
		}
		return figure
	}
	mentors, students := page("mentors"), page("students")
	for _, text := range []string{"Your wheel", "Found place", "5.876", "58.76"} {
		if !strings.Contains(mentors, text) {
			t.Errorf("the mentors' chart lacks %q", text)
		}
		if strings.Contains(students, text) {
			t.Errorf("the students' chart holds %q", text)
		}
	}
	if !strings.Contains(students, "Gate, at 120\u00a0cm: Small wheel is at 7.958\u00a0rot") &&
		!strings.Contains(students, "Gate, at 120 cm: Small wheel is at 7.958 rot") {
		t.Errorf("the students' chart is not described: %s", students)
	}
}

// TestNoFiguresTellAFoundNumberInAnotherForm: other digits, another unit, the ends of an axis, an
// interval around it, and an error against the target.
func TestNoFiguresTellAFoundNumberInAnotherForm(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, body, secret, kept string }{
		{"other digits", "```work\ngiven L = 150 cm \"Gate\"\ngiven D = 65 mm \"Wheel\"\n" +
			"find n in rot to 0.01 = rotations(L, D) \"Rotations\"\n```\n\nText.\n\n" +
			"```chart\ntitle \"How many\"\nvary x from 0 cm to 200 cm \"Distance\"\n" +
			"line rotations(x, 65 mm) in rot \"Wheel\"\naxis \"Rotations\"\nmark L \"Gate\"\n```\n", "7.34", "9.79"},
		{"another unit", "```work\ngiven L = 150 cm \"Gate\"\ngiven D = 65 mm \"Wheel\"\n" +
			"find n in rot to 0.01 = rotations(L, D) \"Rotations\"\n```\n\nText.\n\n" +
			"```chart\ntitle \"How far\"\nvary x from 0 cm to 200 cm \"Distance\"\nline rotations(x, 65 mm) in deg \"Wheel\"\n" +
			"axis \"Turned\"\nmark L \"Gate\"\n```\n", "2644", "3526"},
		{"an end of the axis",
			"```work\nmeasure d = 65 mm \"Wheel\"\nfind C in cm to 0.1 = circumference(d) \"One rotation\"\n```\n\nText.\n\n" +
				"```chart\ntitle \"How far\"\nvary x from 0 cm to C \"Distance\"\nline 2 * x in cm \"Twice\"\n" +
				"axis \"Twice\"\n```\n", "20.4", ""},
	} {
		built := browser.BuildOf(t, c.body)
		data, err := os.ReadFile(filepath.Join(built.Dir, "students", "01-t.html"))
		if err != nil {
			t.Fatal(err)
		}
		figure := regexp.MustCompile(`(?s)<figure.*</figure>`).FindString(string(data))
		if figure == "" || strings.Contains(figure, c.secret) || !strings.Contains(figure, c.kept) {
			t.Errorf("%s: the students' figure has %q or lacks %q:\n%s", c.name, c.secret, c.kept, figure)
		}
	}
}

// TestOnlyWhatIsFoundIsHidden: the interval around a mean that is found is hidden with it, a reading
// and an end of an interval that happen to be the same number are not.
func TestOnlyWhatIsFoundIsHidden(t *testing.T) {
	t.Parallel()
	const find = "```work\nfind m in cm to 0.1 = %s \"A place\"\n```\n\nText.\n\n```runs data/r.csv\ngroup base\n" +
		"along s to 0.1 = 100 cm\n```\n"
	pack := func(formula string) string {
		built := browser.Build(t, fstest.MapFS{
			"pack.yaml": {Data: []byte("title: P\nversion: 1\nkit: heron\n")},
			"kits.yaml": {Data: []byte("heron: {title: Heron, wheel: 65 mm, track: 112 mm, gear: 3}\n")},
			"care/cloth.md": {Data: []byte("---\ntitle: Cloth\nwho: students\nwear: []\n---\n\n## Before\n\nLook.\n\n" +
				"## During\n\nWork.\n\n## After\n\nTidy up.\n\n## If something goes wrong\n\nStop.\n")},
			"data/r.csv": {Data: []byte("base,s (cm)\nHeron,110\nHeron,112\nHeron,114\n")},
			"01-t.md": {Data: []byte("---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n\n" +
				fmt.Sprintf(find, formula))},
		})
		data, err := os.ReadFile(filepath.Join(built.Dir, "students", "01-t.html"))
		if err != nil {
			t.Fatal(err)
		}
		return regexp.MustCompile(`(?s)<tbody>\n<tr><th scope="row">Heron.*?</tr>`).FindString(string(data))
	}
	// Mean 112, s = 2, t(2) = 4.303, so ± 4.303 × 2 ÷ √3 = 4.97 (worked by hand).
	if got := pack("mean(110 cm, 112 cm, 114 cm)"); strings.Contains(got, "107") || strings.Contains(got, "12.0") ||
		strings.Count(got, "?") < 4 {
		t.Errorf("the mean is found: %s", got)
	}
	if got := pack("mean(110 cm, 112 cm, 114 cm) + 5 cm"); !strings.Contains(got, "112.0") ||
		!strings.Contains(got, "107.0 … 117.0") {
		t.Errorf("an end of the interval is found: %s", got)
	}
}

// TestWhatAChoiceSaysAgreesWithItsWeights: the second weight w puts both level at 208.8·0.9 + 0.2·w
// = 208.8·0.5 + w, so w = 104.4 (worked by hand), which two digits would put below its weight of 104.
func TestWhatAChoiceSaysAgreesWithItsWeights(t *testing.T) {
	t.Parallel()
	for body, want := range map[string]string{
		"judged A 9, B 5 of 10 weight 208.8 \"Room\"\nby \"Us\"\n" +
			"judged A 2, B 10 of 10 weight 104 \"Time\"\nby \"Us\"": "up to a weight of 104.4",
		"judged A 1, B 1, C 1, D 0 of 5 \"Room\"\nby \"Us\"": "Tied at the top: A, B, C.",
	} {
		built := browser.BuildOf(t, "```compare\n"+body+"\n```\n")
		data, err := os.ReadFile(filepath.Join(built.Dir, "students", "01-t.html"))
		if err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(string(data), want) {
			t.Errorf("the page does not say %q", want)
		}
	}
}

// lettersOf gives the text of a PDF without blanks.
func lettersOf(t *testing.T, pdf []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "printed.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-raw", file, "-").Output()
	if err != nil {
		t.Fatalf("this test needs pdftotext, of poppler-utils: %v", err)
	}
	return strings.Join(strings.Fields(string(out)), "")
}
