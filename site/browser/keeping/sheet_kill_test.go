package keeping_test

// The same on a lesson: what was left in a box is there after the browser was killed.

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

// leaving types growing numbers into the runs of a record, one box after the other, and
// leaves each; it acknowledges a box when the page has marked it as kept.
const leaving = `(async () => {
	const rest = () => new Promise((done) => setTimeout(done));
	for (let n = %d; ; ) {
		for (const id of ["stop-1", "stop-2", "stop-3", "stop-4", "stop-5", "d", "guess"]) {
			const box = document.getElementById("in_" + id);
			const text = String(++n);
			box.focus();
			box.value = text;
			box.dispatchEvent(new Event("change"));
			while (box.dataset.kept !== text) await rest();
			acknowledge(JSON.stringify({ name: id, text, kept: true }));
		}
	}
})()`

// TestWhatWasLeftIsThereAfterTheBrowserWasKilled kills the browser again and again while boxes
// are filled in and left.
func TestWhatWasLeftIsThereAfterTheBrowserWasKilled(t *testing.T) {
	t.Parallel()
	built := browser.Demo(t)
	address := built.Root() + browser.Lesson3
	profile := t.TempDir()
	var told acknowledged
	r := rand.New(rand.NewPCG(3, 11))
	for n := range *kills + 1 {
		typist := startTypist(t, profile, &told)
		browser.Run(t, typist, chromedp.Navigate(address))
		browser.Ready(t, typist)
		there := browser.Ask[map[string]string](t, typist,
			`Object.fromEntries([...document.querySelectorAll("[id^=in_]")].map((e) => [e.id.slice(3), e.value]))`)
		told.lock.Lock()
		for name, last := range told.texts {
			// A box may be ahead of its acknowledgement, never behind.
			var got int
			if _, err := fmt.Sscan(there[name], &got); err != nil || got < last {
				t.Errorf("after kill %d the box %s holds %q; %d was kept", n, name, there[name], last)
			}
		}
		told.lock.Unlock()
		if n < *kills {
			browser.Ask[chromedp.Void](t, typist, `(() => { `+fmt.Sprintf(leaving, told.next())+` })()`)
			letSomeBeKept(t, &told, r)
		}
		kill(t, typist)
	}
	if n := told.count(); n < 5**kills {
		t.Errorf("only %d boxes were left in %d runs; that proves little", n, *kills)
	}
}
