package keeping_test

// A browser that is killed while a team is typing loses nothing that was kept.

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// With -kills N a browser is killed so often, of each kind of test.
var kills = flag.Int("kills", 3, "how often a browser is killed")

// TestKeepKilled kills the browser while a team is typing, again and again: whatever the
// page was told is kept must be there when the browser comes back.
func TestKeepKilled(t *testing.T) {
	t.Parallel()
	address := "file://" + filepath.ToSlash(keepPage(t)) + "/page.html"
	profile := t.TempDir()
	var told acknowledged
	r := rand.New(rand.NewPCG(4, 12))
	for n := range *kills {
		typist := startTypist(t, profile, &told)
		lookFor(t, typist, address, &told)
		browser.Ask[chromedp.Void](t, typist, fmt.Sprintf(typing, told.next()))
		letSomeBeKept(t, &told, r)
		kill(t, typist)
		switch n {
		case 1:
			tear(t, profile, "Default/IndexedDB/*/*.log")
		case 3:
			tear(t, profile, "Default/WebStorage/*/IndexedDB/*/*.log")
		}
	}
	last := startTypist(t, profile, &told)
	lookFor(t, last, address, &told)
	kill(t, last)
	if n := told.count(); n < 5**kills {
		t.Errorf("only %d entries were acknowledged in %d runs; that proves little", n, *kills)
	}
}

// letSomeBeKept waits until some more is kept, however slow the disk is; the kill may then
// come at any moment.
func letSomeBeKept(t *testing.T, told *acknowledged, r *rand.Rand) {
	t.Helper()
	deadline := time.Now().Add(browser.Patience)
	for before := told.count(); told.count() < before+6; time.Sleep(5 * time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatal("nothing is kept")
		}
	}
	time.Sleep(time.Duration(r.Int64N(int64(750 * time.Millisecond))))
}

// typing has three fields that change and one new field each time, all at once.
const typing = `(() => {
	let n = %d;
	const type = async (field) => {
		for (;;) {
			const text = String(++n);
			const name = field || "s" + text;
			const said = await store.put(name, text);
			acknowledge(JSON.stringify({ name, text, kept: said.kept === true }));
			await new Promise((soon) => setTimeout(soon, 10));
		}
	};
	["n", "C", "m", ""].forEach(type);
})()`

// acknowledged is what a page was told is kept: the text of each field.
type acknowledged struct {
	lock  sync.Mutex
	texts map[string]int
	not   []string // answers other than that it is kept
	last  int      // the greatest number
	times int
}

func (a *acknowledged) note(event any) {
	call, ok := event.(*runtime.EventBindingCalled)
	if !ok {
		return
	}
	var told struct {
		Name, Text string
		Kept       bool
	}
	a.lock.Lock()
	defer a.lock.Unlock()
	err := json.Unmarshal([]byte(call.Payload), &told)
	n, err2 := strconv.Atoi(told.Text)
	if err != nil || err2 != nil || !told.Kept {
		a.not = append(a.not, call.Payload)
		return
	}
	if a.texts == nil {
		a.texts = map[string]int{}
	}
	a.texts[told.Name] = n
	a.last = max(a.last, n)
	a.times++
}

func (a *acknowledged) count() int {
	a.lock.Lock()
	defer a.lock.Unlock()
	return a.times
}

// next is a number that no box has held: a box can be ahead of what was acknowledged.
func (a *acknowledged) next() int {
	a.lock.Lock()
	defer a.lock.Unlock()
	return a.last + 100
}

// startTypist gives the tab of a browser of its own, which keeps its profile.
func startTypist(t *testing.T, profile string, told *acknowledged) *browser.Tab {
	t.Helper()
	ctx, stop := browser.Start(t, profile, chromedp.ModifyCmdFunc(apart))
	t.Cleanup(stop)
	if err := chromedp.Listen(ctx, told.note); err != nil {
		t.Fatal(err)
	}
	typist := &browser.Tab{Context: ctx}
	browser.Order(t, typist, runtime.AddBinding, runtime.AddBindingParams{Name: "acknowledge"})
	return typist
}

// kill ends a browser as a power cut would, with all its processes, and waits for that.
func kill(t *testing.T, typist *browser.Tab) {
	t.Helper()
	group := chromedp.FromContext(typist.Context).Browser.Process().Pid
	if err := killAll(group); err != nil {
		t.Fatal(err)
	}
	for end := time.Now().Add(browser.Patience); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		if !lives(group) {
			return
		}
	}
	t.Fatal("the browser outlives being killed")
}

// lives tells whether a process of a group is more than a zombie that nobody has buried.
func lives(group int) bool {
	stats, _ := filepath.Glob("/proc/[0-9]*/stat")
	for _, name := range stats {
		stat, err := os.ReadFile(name)
		if err != nil {
			continue
		}
		// pid (command) state parent group …, see proc(5)
		fields := strings.Fields(string(stat[bytes.LastIndexByte(stat, ')')+1:]))
		if len(fields) > 2 && fields[2] == strconv.Itoa(group) && fields[0] != "Z" && fields[0] != "X" {
			return true
		}
	}
	return false
}

// tear leaves a log as a browser does that was killed between the head of a record and
// its text. Chromium then writes on behind the head, and when it starts once more it
// takes the whole for damaged and throws it away.
func tear(t *testing.T, profile, logs string) {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(profile, logs))
	if err != nil || len(found) != 1 {
		t.Fatalf("%q are the logs %s", found, logs)
	}
	file, err := os.OpenFile(found[0], os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := file.Write([]byte{1, 2, 3, 4, 180, 0, 1}); err != nil {
		t.Fatal(err)
	}
	if err := file.Close(); err != nil {
		t.Fatal(err)
	}
}

// lookFor opens the page and looks for all that was ever acknowledged.
func lookFor(t *testing.T, typist *browser.Tab, address string, told *acknowledged) {
	t.Helper()
	browser.Run(t, typist, chromedp.Navigate(address))
	texts := browser.Ask[map[string]string](t, typist, `(async () => {
		globalThis.store = await trundle.keep("barges", "03-rotations");
		return store.enter("Otters");
	})()`)
	told.lock.Lock()
	defer told.lock.Unlock()
	for _, not := range told.not {
		t.Errorf("the page was told %s", not)
	}
	for field, n := range told.texts {
		// A later text may have been kept without the page having heard of it.
		if there, err := strconv.Atoi(texts[field]); err != nil || there < n {
			t.Errorf("%s was kept as %d; now it is %q", field, n, texts[field])
		}
	}
}
