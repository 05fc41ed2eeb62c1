package answers_test

// Quick hands: a click right after an answer, a kit chosen in one step, names, and "Clear" pressed by mistake.

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// TestTheClickAfterAnAnswerMeetsItsLink types an answer and at once presses the link below, twelve times with a
// finger and twelve with a mouse button that is held for a while. The box is filled in and emptied in turn, so
// that what is said of it moves the link each time.
func TestTheClickAfterAnAnswerMeetsItsLink(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	widths := map[string]int64{"finger": browser.Phone, "mouse": browser.Desktop}
	for how, press := range map[string]func(x, y float64){
		"finger": func(x, y float64) { browser.Tap(t, tab, x, y) },
		"mouse": func(x, y float64) {
			browser.Button(t, tab, input.DispatchMouseEventTypeMousePressed, x, y)
			time.Sleep(150 * time.Millisecond) // as long as a hand holds it
			browser.Button(t, tab, input.DispatchMouseEventTypeMouseReleased, x, y)
		},
	} {
		browser.StartOver(t, tab, root, browser.Lesson3)
		tab.View(t, widths[how], browser.Light)
		browser.Fill(t, tab, [][2]string{{"d", "65"}})
		browser.Ask[chromedp.Void](t, tab, `(() => {
			document.addEventListener("pointerup", () => setTimeout(() => (globalThis.up = true), 100));
			document.addEventListener("click", (event) => {
				globalThis.met = event.target.closest("a[rel=next]") !== null;
				event.preventDefault();
			}, true);
		})()`)
		met := 0
		for n := range 12 {
			answer, said := fmt.Sprint(100+n), "look"
			if n%2 == 1 {
				answer, said = "", ""
			}
			browser.Ask[chromedp.Void](t, tab, `void (globalThis.met = globalThis.up = false)`)
			browser.Type(t, tab, "in_w", answer)
			press(browser.Middle(t, tab, "a[rel=next]"))
			browser.Wait(t, tab, `met || up`)
			if browser.Ask[bool](t, tab, `met`) {
				met++
			}
			browser.Wait(t, tab, fmt.Sprintf(`document.getElementById("in_w").dataset.kept === %q`, answer))
			browser.Wait(t, tab, fmt.Sprintf(`document.getElementById("told_w").dataset.state === %q`, said))
		}
		t.Logf("%s: %d of 12 arrive", how, met)
		if met < 12 {
			t.Errorf("%s: only %d of 12 arrive", how, met)
		}
	}
	tab.Report(t)
}

// TestABoxFollowsAKitThatIsChosenInOneStep changes a select in the moment in which it is entered.
func TestABoxFollowsAKitThatIsChosenInOneStep(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	for _, kit := range [][2]string{{"heron", "65"}, {"coot", "48"}, {"heron", "65"}} {
		browser.Ask[chromedp.Void](t, tab, fmt.Sprintf(`(() => {
			const e = document.getElementById("_kit");
			document.getElementById("in_n").focus();
			e.focus();
			e.value = %q;
			e.dispatchEvent(new Event("change"));
		})()`, kit[0]))
		browser.Wait(t, tab, fmt.Sprintf(`document.getElementById("_kit").dataset.kept === %q`, kit[0]))
		browser.Ask[chromedp.Void](t, tab, `trundle.sheet.store.whole()`)
		// What fills the box is loaded when somebody begins, and may be later than the row.
		browser.Wait(t, tab, fmt.Sprintf(`document.getElementById("in_d").value === %q`, kit[1]))
	}
	tab.Report(t)
}

// TestATeamIsFoundAndANewOneIsSaid types the name as children do.
func TestATeamIsFoundAndANewOneIsSaid(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	name := func(text string) {
		browser.Type(t, tab, "_name", text)
		browser.Ask[chromedp.Void](t, tab, `document.activeElement.blur()`)
	}
	says := func(text string) {
		browser.Wait(t, tab, fmt.Sprintf(`document.getElementById("_kept").textContent.includes(%q)`, text))
	}
	name("Otters")
	says("New team: nothing written yet")
	browser.Type(t, tab, "in_d", "65")
	browser.Wait(t, tab, `document.getElementById("in_d").dataset.kept === "65"`) // while it is still being typed
	says("stays on this device")
	name("Newts")
	says("New team: nothing written yet")
	browser.Wait(t, tab, `document.getElementById("in_d").value === ""`)
	name(" oTTers ")
	browser.Wait(t, tab, `document.getElementById("in_d").value === "65"`)
	browser.Wait(t, tab, `document.getElementById("_name").value === "Otters"`)
	says("stays on this device")
	tab.Report(t)
}

// TestWhatWasClearedComesBack presses "Undo", and looks for it in vain once something else is typed.
func TestWhatWasClearedComesBack(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("Otters")`)
	browser.Fill(t, tab, [][2]string{{"d", "65"}, {"C", "20.4"}})
	browser.Wait(t, tab, `document.getElementById("in_C").dataset.kept === "20.4"`)
	browser.Ask[chromedp.Void](t, tab, `document.getElementById("_files").open = true`)
	browser.Wait(t, tab, `document.querySelector("#_files [data-act=clear]")`)
	const undo = `document.querySelector("#_files [role=status] button")`
	clear := func(act string) {
		browser.Ask[chromedp.Void](t, tab, `document.querySelector("#_files [data-act=`+act+`]").click()`)
		browser.Wait(t, tab, `document.querySelector("dialog[open]")`)
		browser.Ask[chromedp.Void](t, tab, `document.querySelector("dialog button").click()`)
		browser.Wait(t, tab, undo+` && document.getElementById("in_d").value === ""`)
	}
	for _, act := range []string{"clear", "clear-all"} {
		clear(act)
		browser.Ask[chromedp.Void](t, tab, undo+`.click()`)
		browser.Wait(t, tab, `document.getElementById("in_d").value === "65"`)
		browser.Wait(t, tab, `document.getElementById("_name").value === "Otters"`)
		browser.Wait(t, tab, told("C")+`.includes("Right")`)
		if browser.Ask[bool](t, tab, undo+` !== null`) {
			t.Error("Undo stays when it has been pressed")
		}
	}
	clear("clear")
	browser.Type(t, tab, "in_n", "5.97")
	if browser.Ask[bool](t, tab, undo+` !== null`) {
		t.Error("Undo stays when something else has been typed")
	}
	tab.Report(t)
}

// TestATextThatIsTooLongIsToldBesideItsBox looks beside the box, which may be far below the head of the page.
func TestATextThatIsTooLongIsToldBesideItsBox(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	long := strings.Repeat("7", 300)
	for _, id := range []string{"d", "C", "stop-2"} {
		got := browser.Fill(t, tab, [][2]string{{id, "1"}, {id, long}})[1]
		if !strings.Contains(got.Text, "too long") || got.State != "look" {
			t.Errorf("beside %s stands %q", id, got.Text)
		}
	}
	tab.Report(t)
}

// TestBoxesThatAreGoneAreSaid has entries of an older version of the lesson, with a box that it no longer has.
func TestBoxesThatAreGoneAreSaid(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.store.put("girth", "20.4")`)
	tab.Open(t, root, browser.Lesson3)
	browser.Ready(t, tab)
	browser.Wait(t, tab,
		`document.getElementById("_kept").textContent.includes("What you wrote in the others: girth: 20.4.")`)
	browser.Ask[chromedp.Void](t, tab, `trundle.sheet.enter("Newts", false)`)
	browser.Wait(t, tab, `document.getElementById("_kept").textContent.includes("stays on this device")`)
	tab.Report(t)
}

// TestANoteGoesWhenTheOldTextIsTypedAgain: a note that stayed would ask about itself when another tab has written.
func TestANoteGoesWhenTheOldTextIsTypedAgain(t *testing.T) {
	t.Parallel()
	_, tab, root := opened(t)
	browser.StartOver(t, tab, root, browser.Lesson3)
	browser.Type(t, tab, "in_d", "65")
	browser.Wait(t, tab, `document.getElementById("in_d").dataset.kept === "65"`)
	const noted = `Object.keys(localStorage).some((key) => key.includes('"d"]'))`
	browser.Wait(t, tab, `!`+noted)
	if !browser.Ask[bool](t, tab, `(() => {
		const e = document.getElementById("in_d");
		for (const text of ["66", "65"]) {
			e.select();
			document.execCommand("insertText", false, text);
		}
		return `+noted+`;
	})()`) {
		t.Error("nothing is noted while somebody types")
	}
	browser.Wait(t, tab, `!`+noted)
	tab.Report(t)
}
