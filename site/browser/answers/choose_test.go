package answers_test

// Answers to choose from, in use: by keyboard and by touch, judged, kept, in the log; nothing of them is given away.

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

const choosing = "```work\ngiven L = 120 cm \"Gate\"\nfind n in cm to 1 = 2 * L \"There and back\"\n" +
	"choose more = \"More*\" | \"Fewer, it's smaller\" | \"As many\" \"What does a smaller wheel need?\"\n" +
	"slip \"Fewer\" \"It carries the robot < less.\"\nsay why \"Why?\"\n```\n"

// TestAnAnswerIsChosen by the keyboard, is judged, kept with the others, and never counted.
func TestAnAnswerIsChosen(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, choosing)
	tab := browser.Open(t)
	root := built.Root()
	browser.StartOver(t, tab, root, "students/01-t.html")
	key := func(name string, code int64) {
		down, up := input.DispatchKeyEventTypeKeyDown, input.DispatchKeyEventTypeKeyUp
		for _, kind := range []input.DispatchKeyEventType{down, up} {
			browser.Order(t, tab, input.DispatchKeyEvent,
				input.DispatchKeyEventParams{Type: kind, Key: name, Code: name, WindowsVirtualKeyCode: code})
		}
	}
	const why = `document.getElementById("told_more").textContent`
	const isOK = `document.querySelector(".row.choose").classList.contains("ok")`
	const log = `document.getElementById("_log").innerText`
	const focused = `document.activeElement.value`
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("in_n").focus()`)
	browser.Wait(t, tab, `trundle.update`)
	typed(t, tab, "240\r") // Enter goes on to the answers
	if got := browser.Ask[string](t, tab, focused); got != "More" {
		t.Fatalf("the focus is on %q", got)
	}
	key("ArrowDown", 40)
	browser.Wait(t, tab, why+` === "It carries the robot < less."`)
	if got := browser.Ask[string](t, tab, focused); got != "Fewer, it's smaller" || browser.Ask[bool](t, tab, isOK) {
		t.Errorf("%q is taken for right", got)
	}
	if got := browser.Ask[string](t, tab, log); !strings.Contains(got, "240") || strings.Contains(got, "Fewer") {
		t.Errorf("the log has %q", got)
	}
	key("ArrowDown", 40)
	browser.Wait(t, tab, why+` === "Not yet. What speaks against it?"`)
	key("ArrowDown", 40)
	browser.Wait(t, tab, why+` === "Right." && `+isOK)
	key("Tab", 9)
	if got := browser.Ask[string](t, tab, `document.activeElement.id`); got != "in_why" {
		t.Errorf("after the answers the focus is on %q", got)
	}
	browser.Wait(t, tab, log+`.includes("More")`)
	if n := browser.Ask[int](t, tab, `document.querySelectorAll(".tape a i").length`); n != 1 {
		t.Errorf("%d questions are counted, of which one is a number", n)
	}
	browser.Wait(t, tab, `document.getElementById("in_more").dataset.kept === "More"`)
	tab.Open(t, root, "students/01-t.html")
	browser.Ready(t, tab)
	browser.Wait(t, tab, why+` === "Right." && document.getElementById("in_more").value === "More"`)
	// Another team has not chosen yet; the first still has.
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("Otters", false)`)
	browser.Wait(t, tab, why+` === "" && !document.querySelector(".choose :checked") && !`+isOK)
	browser.Ask[chromedp.Void](t, tab, `document.querySelectorAll(".choose label")[1].click()`)
	browser.Wait(t, tab, why+`.startsWith("It carries")`)
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("", false)`)
	browser.Wait(t, tab, why+` === "Right."`)
	// An answer that a newer lesson no longer has stays that team's, and no other team gets it.
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.write("more", "It depends")`)
	browser.Wait(t, tab, why+` === "" && document.getElementById("in_more").dataset.kept === "It depends"`)
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("Otters", false)`)
	browser.Wait(t, tab, why+`.startsWith("It carries")`)
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("", false)`)
	browser.Wait(t, tab, why+` === "" && trundle.sheet.entries.more === "It depends"`)
	tab.Report(t)
}

// TestNoPageTellsWhichAnswerIsRight looks for verdicts and hints in students' files, and for differences in length.
func TestNoPageTellsWhichAnswerIsRight(t *testing.T) {
	t.Parallel()
	built := browser.BuildOf(t, choosing)
	lengths := map[int]bool{}
	for _, name := range []string{"01-t.html", "steps/01-t.js"} {
		data, err := os.ReadFile(filepath.Join(built.Dir, "students", name))
		if err != nil {
			t.Fatal(err)
		}
		if page := string(data); strings.Contains(page, "carries the robot") || strings.Contains(page, "More*") {
			t.Errorf("%s has the hint, or the mark", name)
		}
		_, replies, _ := strings.Cut(string(data), `trundle.replies={"more":[`)
		for _, reply := range regexp.MustCompile(`"[^",]*"`).FindAllString(replies, -1) {
			lengths[len(reply)] = true
		}
	}
	mentors, err := os.ReadFile(filepath.Join(built.Dir, "mentors", "01-t.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`<td class="k"><b class="v">More<`,
		"<b>Fewer, it’s smaller</b> It carries the robot &lt; less.",
		"<b>As many</b>"} {
		if !strings.Contains(string(mentors), want) {
			t.Errorf("the mentors' page lacks %s", want)
		}
	}
	if len(lengths) != 1 || lengths[2] {
		t.Errorf("replies have the lengths %v", lengths)
	}
}
