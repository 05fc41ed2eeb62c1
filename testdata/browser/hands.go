package browser

// What hands do to a page: keys, a finger, a mouse button.

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Type puts a text into a box as a keyboard does, in place of what is there, and stays in the box.
func Type(t testing.TB, tab *Tab, id, text string) {
	t.Helper()
	Ask[chromedp.Void](t, tab, fmt.Sprintf(`(() => {
		const e = document.getElementById(%q);
		e.focus();
		e.select();
	})()`, id))
	if text == "" {
		Ask[chromedp.Void](t, tab, `void document.execCommand("delete")`)
		return
	}
	Order(t, tab, input.InsertText, input.InsertTextParams{Text: text})
}

// Middle scrolls an element into the middle of the screen, and tells where its own middle is then.
func Middle(t testing.TB, tab *Tab, selector string) (x, y float64) {
	t.Helper()
	at := Ask[[]float64](t, tab, fmt.Sprintf(`(() => {
		const e = document.querySelector(%q);
		e.scrollIntoView({ block: "center", behavior: "instant" });
		const r = e.getBoundingClientRect();
		return [r.left + r.width / 2, r.top + r.height / 2];
	})()`, selector))
	return at[0], at[1]
}

// Tap touches a point of the screen with a finger.
func Tap(t testing.TB, tab *Tab, x, y float64) {
	t.Helper()
	point := []*input.TouchPoint{{X: x, Y: y}}
	Order(t, tab, input.DispatchTouchEvent, input.DispatchTouchEventParams{
		Type: input.DispatchTouchEventTypeTouchStart, TouchPoints: point,
	})
	Order(t, tab, input.DispatchTouchEvent, input.DispatchTouchEventParams{
		Type: input.DispatchTouchEventTypeTouchEnd, TouchPoints: []*input.TouchPoint{},
	})
}

// Button presses the mouse button at a point, or lets it go.
func Button(t testing.TB, tab *Tab, how input.DispatchMouseEventType, x, y float64) {
	t.Helper()
	Order(t, tab, input.DispatchMouseEvent, input.DispatchMouseEventParams{
		Type: how, X: x, Y: y, Button: input.MouseButtonLeft, ClickCount: 1,
	})
}

// Arrived waits until the address of a tab has a part. It asks no page, since that may be going away.
func Arrived(t testing.TB, tab *Tab, part string) {
	t.Helper()
	at := ""
	for end := time.Now().Add(Patience); !strings.Contains(at, part); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("the tab stays at %s", at)
		}
		// Between two pages there is no answer.
		history, err := chromedp.Call(tab.Context, page.GetNavigationHistory, cdp.Empty{})
		if err == nil {
			at = history.Entries[history.CurrentIndex].URL
		}
	}
}
