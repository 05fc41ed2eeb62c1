package site_test

import (
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/chromedp"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/site/words"
)

// fillScript types texts into boxes one after the other, as if each box had been left,
// and tells what stands beside the last field after each.
const fillScript = `(async (typed) => {
	const { port1, port2 } = new MessageChannel(); // a timer would wait for milliseconds
	const rest = () => new Promise((done) => { port1.onmessage = done; port2.postMessage(0); });
	const out = [];
	for (const [id, text] of typed) {
		const box = document.getElementById("in_" + id);
		box.focus();
		box.value = text;
		box.dispatchEvent(new Event("change"));
		while (!globalThis.trundle.update || !globalThis.trundle.steps) await rest();
		for (let i = 0; i < 5; i++) await rest();
		const told = document.getElementById("told_" + id.replace(/-\d+$/, ""));
		out.push({ text: told.textContent, state: told.dataset.state ?? "" });
	}
	return out;
})(%s)`

type said struct{ Text, State string }

// fill types into a sheet; each entry is the name of a box and a text.
func fill(t *testing.T, tab *tab, typed [][2]string) []said {
	t.Helper()
	data, err := json.Marshal(typed)
	if err != nil {
		t.Fatal(err)
	}
	return ask[[]said](t, tab, fmt.Sprintf(fillScript, data))
}

// startOver opens a lesson with nothing kept from before.
func startOver(t *testing.T, tab *tab, root, name string) {
	t.Helper()
	tab.open(t, root, name)
	ready(t, tab)
	ask[chromedp.Void](t, tab, `trundle.sheet.store.clear(true).then(() => trundle.sheet.enter(""))`)
}

func ready(t *testing.T, tab *tab) {
	t.Helper()
	ask[chromedp.Void](t, tab, `new Promise((done) => {
		const look = () => "ready" in document.body.dataset ? done() : setTimeout(look);
		look();
	})`)
}

// TestEveryAnswerPath goes through every find of the demo pack: an input missing, right
// in several units, each slip, each common mistake.
func TestEveryAnswerPath(t *testing.T) {
	built := demoSite(t)
	words, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	tabs := twoTabs(t)
	var lock sync.Mutex
	all := map[string]int{}
	t.Run("lessons", func(t *testing.T) {
		for _, l := range built.lessons {
			t.Run(l.Slug, func(t *testing.T) {
				t.Parallel()
				tab := <-tabs
				defer func() { tabs <- tab }()
				startOver(t, tab, "file://"+filepath.ToSlash(built.dir)+"/", "students/"+l.Slug+".html")
				met := answerAll(t, tab, words, l)
				tab.report(t)
				lock.Lock()
				defer lock.Unlock()
				for path, n := range met {
					all[path] += n
				}
			})
		}
	})
	for _, path := range []string{"missing", "right", "slip", "ten", "inch", "inverse", "sign", "unit", "kind", "places", "not-yet"} {
		if all[path] == 0 {
			t.Errorf("no find of the demo pack was tried with %q", path)
		}
	}
	t.Logf("paths: %v", all)
}

// studentsFinds are the finds that the students' page asks; those of mentors are not on it.
func studentsFinds(l *work.Lesson) []*lesson.Statement {
	var finds []*lesson.Statement
	for _, f := range l.Fields {
		if f.Statement.Kind == lesson.Find {
			finds = append(finds, f.Statement)
		}
	}
	return finds
}

// answerAll tries every answer of a lesson and counts the paths that were met.
func answerAll(t *testing.T, tab *tab, words map[string]string, l *work.Lesson) map[string]int {
	t.Helper()
	// What is kept is tested elsewhere; two thousand writes to the disk are spared here.
	ask[chromedp.Void](t, tab, `void (trundle.sheet.store.put = async () => ({ kept: true }))`)
	met := map[string]int{}
	for _, find := range studentsFinds(l) {
		if restsOnInputs(l, find) {
			met["missing"]++
			got := fill(t, tab, [][2]string{{find.Name, "1"}})[0]
			if !strings.Contains(got.Text, "first") {
				t.Errorf("%s with nothing measured: %q", find.Name, got.Text)
			}
		}
	}
	fill(t, tab, samples(l))
	for _, find := range studentsFinds(l) {
		testFind(t, tab, words, l, find, met)
	}
	return met
}

// twoTabs opens two tabs of which neither hears what is written in the other.
func twoTabs(t *testing.T) chan *tab {
	t.Helper()
	first := openBrowser(t)
	tabs := make(chan *tab, 2)
	tabs <- first
	tabs <- anotherTab(t, first, chromedp.WithNewBrowserContext())
	return tabs
}

// restsOnInputs tells whether a find needs something measured first.
func restsOnInputs(l *work.Lesson, find *lesson.Statement) bool {
	for _, name := range quantity.Names(find.Expr) {
		for _, f := range l.Fields {
			if f.Statement.Name != name {
				continue
			}
			if k := f.Statement.Kind; k == lesson.Measure || k == lesson.Record || k == lesson.Find && restsOnInputs(l, f.Statement) {
				return true
			}
		}
	}
	return false
}

// samples are the coach's own measurements as entries.
func samples(l *work.Lesson) [][2]string {
	var typed [][2]string
	for _, f := range l.Fields {
		s := f.Statement
		switch s.Kind {
		case lesson.Measure:
			q, _ := l.Of(s).Quantity()
			typed = append(typed, [2]string{s.Name, quantity.FormatPlain(q.Number)})
		case lesson.Record:
			for i, text := range s.Texts {
				typed = append(typed, [2]string{fmt.Sprintf("%s-%d", s.Name, i+1), text})
			}
		}
	}
	return typed
}

// A try is an answer, and what it must be told: one of several, since a mistake may well
// come to what another one does.
type try struct {
	path, text string
	right      bool
	want       []string
}

func testFind(t *testing.T, tab *tab, words map[string]string, l *work.Lesson, find *lesson.Statement, met map[string]int) {
	tries := triesOf(words, l, find)
	typed := make([][2]string, len(tries))
	for i, try := range tries {
		typed[i] = [2]string{find.Name, try.text}
	}
	for i, got := range fill(t, tab, typed) {
		try := tries[i]
		met[try.path]++
		if try.right {
			if got.State != "right" || got.Text != words["check-right"] {
				t.Errorf("%s = %s (%s): %q", find.Name, try.text, try.path, got.Text)
			}
			continue
		}
		fits := false
		for _, w := range try.want {
			before, after, _ := strings.Cut(w, "{}")
			fits = fits || strings.HasPrefix(got.Text, before) && (after == "" || strings.HasSuffix(got.Text, after[strings.LastIndex(after, "}")+1:]))
		}
		if !fits || got.State == "right" {
			t.Errorf("%s = %s (%s): told %q, want one of %q", find.Name, try.text, try.path, got.Text, try.want)
		}
	}
	// Whatever was tried last, the right answer must still be right, for the finds below.
	fill(t, tab, [][2]string{{find.Name, tries[0].text}})
}

func triesOf(words map[string]string, l *work.Lesson, find *lesson.Statement) []try {
	q, _ := l.Of(find).Quantity()
	x := q.Number
	tolerance := l.Tolerance(find)
	right := func(y float64) bool { return math.Abs(y-x) <= tolerance.Within+(tolerance.Part+1e-6)*math.Abs(x) }
	exact := func(x float64) string {
		return strings.ReplaceAll(quantity.FormatSignificant(x, 9), quantity.Minus, "-")
	}

	number, _ := quantity.Show(q, find.Target)
	tries := []try{{path: "right", text: number, right: true}, {path: "right", text: exact(x), right: true}}
	units := 0
	for _, symbol := range quantity.UnitsOf(q.Unit.Dimension()) {
		u, _ := quantity.LookupUnit(symbol)
		if c, ok := q.In(u); ok && !u.Equal(q.Unit) && units < 3 {
			units++
			tries = append(tries, try{path: "right", text: exact(c.Number) + " " + symbol, right: true})
		}
	}
	hints := []string{}
	for _, s := range find.Slips {
		hints = append(hints, s.Prompt)
		if c, ok := l.Of(s).Quantity(); ok && !right(c.Number) {
			tries = append(tries, try{path: "slip", text: exact(c.Number), want: slices.Clone(hints)})
		}
	}
	common := func(path string, y float64) {
		if x != 0 && !right(y) && math.Abs(y) > 1e-8 {
			hints = append(hints, words["check-"+path])
			tries = append(tries, try{path: path, text: exact(y), want: slices.Clone(hints)})
		}
	}
	for _, scale := range []float64{10, 0.1, 100, 0.01, 1000, 0.001} {
		common("ten", x*scale)
	}
	if q.Unit.Dimension() == lengthOf("mm") {
		common("inch", x*2.54)
		common("inch", x/2.54)
	}
	common("inverse", 1/x)
	common("sign", -x)
	if len(quantity.UnitsOf(q.Unit.Dimension())) > 1 {
		ft, _ := quantity.LookupUnit(quantity.UnitsOf(q.Unit.Dimension())[1])
		if c, ok := q.In(ft); ok {
			common("unit", c.Number)
		}
	}
	if step := find.Target.Step.Float(); step > 0 && step < 1 && !find.Target.Step.IsFraction() && math.Abs(x) > 1 {
		if whole := math.Round(x); !right(whole) {
			tries = append(tries, try{path: "places", text: exact(whole), want: append(slices.Clone(hints), words["check-places"])})
		}
	}
	return append(tries,
		try{path: "not-yet", text: exact(x*1.37 + 3.1*tolerance.Within), want: append(slices.Clone(hints), words["check-not-yet"], words["check-early"], words["check-unit"], words["check-places"])},
		try{path: "kind", text: "3 kg", want: []string{words["check-kind"]}})
}

func lengthOf(symbol string) quantity.Dimension {
	u, _ := quantity.LookupUnit(symbol)
	return u.Dimension()
}
