package pages_test

// From a word of a lesson to what it means, by keyboard; and that the link does not shout, nor is printed.

import (
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// press presses a key and lets it go.
func press(t *testing.T, tab *browser.Tab, key, text string, code int64) {
	t.Helper()
	down := input.DispatchKeyEventParams{Type: input.DispatchKeyEventTypeKeyDown, Key: key, Code: key,
		WindowsVirtualKeyCode: code, Text: text}
	browser.Order(t, tab, input.DispatchKeyEvent, down)
	browser.Order(t, tab, input.DispatchKeyEvent, input.DispatchKeyEventParams{Type: input.DispatchKeyEventTypeKeyUp,
		Key: key, Code: key, WindowsVirtualKeyCode: code})
}

// look is how the first word of a lesson looks: its line, and whether it has the colour of the text around it.
const look = `(() => {
	const word = document.querySelector(".word"), style = getComputedStyle(word);
	return [word.textContent, style.textDecorationLine, style.textDecorationStyle,
		style.color === getComputedStyle(word.parentElement).color].join();
})()`

func TestAWordLeadsToItsMeaningByKeyboard(t *testing.T) {
	t.Parallel()
	built, tab := browser.Demo(t), browser.Open(t)
	tab.View(t, 400, browser.Light)
	tab.Open(t, built.Root(), browser.Lesson3)
	browser.Filled(t, tab)
	if got, want := browser.Ask[string](t, tab, look), "lock,underline,dotted,true"; got != want {
		t.Errorf("the word is %s on a screen, want %s", got, want)
	}
	browser.Order(t, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	browser.Wait(t, tab, `matchMedia("print").matches`)
	if got, want := browser.Ask[string](t, tab, look), "lock,none,solid,true"; got != want {
		t.Errorf("the word is %s on paper, want %s", got, want)
	}
	browser.Order(t, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{})
	// The link right before it has the focus; the next is the word.
	browser.Ask[chromedp.Void](t, tab, `[...document.querySelectorAll("a[href]")].findLast((a) =>
		a.compareDocumentPosition(document.querySelector(".word")) & Node.DOCUMENT_POSITION_FOLLOWING).focus()`)
	press(t, tab, "Tab", "", 9)
	browser.Wait(t, tab, `document.activeElement.className === "word"`)
	press(t, tab, "Enter", "\r", 13)
	browser.Arrived(t, tab, "students/words.html#lock")
	browser.Wait(t, tab, `document.querySelector("h2:target")?.textContent === "lock"`)
	browser.Wait(t, tab,
		`((top) => top >= 0 && top < 400)(document.querySelector("h2:target").getBoundingClientRect().top)`)
	if wide := browser.Ask[float64](t, tab, `document.documentElement.scrollWidth`); wide > 400 {
		t.Errorf("the page of words is %g px wide on a screen of 400", wide)
	}
	tab.Report(t)
}
