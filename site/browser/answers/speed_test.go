package answers_test

// How long an answer takes to be checked, and figures to follow it, which benchmarks measure; and in which order what
// follows from answers is done, which tests hold.

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"

	"trundle/generator/work"
)

// timeScript writes ten answers into a box in turn, right and wrong ones, and measures from the box's event to the
// verdict with its layout, and until nothing is left to be done. It tells the milliseconds that most answers take less
// than for both, how often something that follows from an answer was there before its verdict, and how often it did not
// come at all: the log goes with each of these answers.
const timeScript = `(async (id, right) => {
	const [box, told, log] = ["in_" + id, "told_" + id, "_log"].map((id) => document.getElementById(id));
	const frame = () => new Promise((done) => requestAnimationFrame(done));
	const spoken = () => new Promise((done) => new MutationObserver((_, all) => done(all.disconnect()))
		.observe(told, { characterData: true, childList: true, subtree: true }));
	const [checks, whole] = [[], []];
	let [early, missing] = [0, 0];
	for (let i = 0; i < 10; i++) {
		await frame();
		const [before, verdict, start] = [log.innerHTML, spoken(), performance.now()];
		box.value = i %% 2 ? right : "1234567" + i;
		box.dispatchEvent(new Event("change"));
		await verdict;
		document.body.getBoundingClientRect();
		checks.push(performance.now() - start);
		early += log.innerHTML !== before;
		await trundle.quiet();
		whole.push(performance.now() - start);
		missing += log.innerHTML === before;
	}
	const middle = (all) => all.sort((a, b) => a - b)[5];
	return { check: middle(checks), whole: middle(whole), early, missing };
})(%q, %q)`

type timed struct{ Check, Whole, Early, Missing float64 }

// busy is how long the page's thread has worked, in seconds of the processor, so that a busy machine does not count.
func busy(t testing.TB, tab *browser.Tab) float64 {
	t.Helper()
	browser.Order(t, tab, performance.Enable,
		performance.EnableParams{TimeDomain: performance.EnableTimeDomainThreadTicks})
	got := browser.Run(t, tab, func(ctx context.Context, target *chromedp.Target) (performance.GetMetricsResult, error) {
		return cdp.Call(ctx, target, performance.GetMetrics, cdp.Empty{})
	})
	for _, m := range got.Metrics {
		if m.Name == "TaskDuration" {
			return m.Value
		}
	}
	return 0
}

// fullSheet opens a lesson of a week with all in it that a team can fill in.
func fullSheet(t testing.TB, week int) (*browser.Tab, *work.Lesson) {
	t.Helper()
	built, tab, root := opened(t)
	l := built.Lessons[slices.IndexFunc(built.Lessons, func(l *work.Lesson) bool { return l.Lesson.Week == week })]
	browser.StartOver(t, tab, root, "students/"+l.Slug+".html")
	typed := browser.Samples(l)
	for _, find := range browser.Finds(l) {
		typed = append(typed, [2]string{find.Name, browser.Exact(l, find)})
	}
	browser.Unseen(t, tab, func() { browser.Fill(t, tab, typed) })
	return tab, l
}

// tenAnswers answers a question in the middle of a full lesson ten times.
func tenAnswers(t testing.TB, tab *browser.Tab, l *work.Lesson) timed {
	t.Helper()
	finds := browser.Finds(l)
	middle := finds[len(finds)/2]
	return browser.Ask[timed](t, tab, fmt.Sprintf(timeScript, middle.Name, browser.Exact(l, middle)))
}

// fullWeeks are those of the lessons with most to fill in.
var fullWeeks = []int{5, 7}

func TestTheLogFollowsTheVerdictOfEachAnswer(t *testing.T) {
	t.Parallel()
	for _, week := range fullWeeks {
		tab, l := fullSheet(t, week)
		if got := tenAnswers(t, tab, l); got.Early > 0 || got.Missing > 0 {
			t.Errorf("of ten answers, the log was there before the verdict of %.0f, and did not follow that of %.0f",
				got.Early, got.Missing)
		}
		tab.Report(t)
	}
}

// slower makes the processor of a tab so many times as slow while a benchmark runs.
func slower(b *testing.B, tab *browser.Tab, rate float64) {
	b.Helper()
	browser.Order(b, tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: rate})
	b.ResetTimer()
}

// BenchmarkAnswer has ten answers in the full lessons 5 and 7 checked, on this processor and on one six times as slow.
func BenchmarkAnswer(b *testing.B) {
	for _, week := range fullWeeks {
		for _, rate := range []float64{1, 6} {
			b.Run(fmt.Sprintf("lesson=%d/slower=%.0f", week, rate), func(b *testing.B) {
				tab, l := fullSheet(b, week)
				slower(b, tab, rate)
				before, sum := busy(b, tab), timed{}
				for b.Loop() {
					got := tenAnswers(b, tab, l)
					sum.Check, sum.Whole = sum.Check+got.Check, sum.Whole+got.Whole
				}
				b.ReportMetric(sum.Check/float64(b.N), "ms-to-the-verdict")
				b.ReportMetric(sum.Whole/float64(b.N), "ms-to-all-of-it")
				b.ReportMetric((busy(b, tab)-before)*1000/10/float64(b.N), "ms-of-the-processor")
			})
		}
	}
}

// BenchmarkFiguresFollow has the figures of lesson 3 drawn and laid out with other numbers, on a processor six times as
// slow: 33 ms are two frames.
func BenchmarkFiguresFollow(b *testing.B) {
	tab := sheetOf(b, browser.Lesson3)
	near(b, tab, ".show-unroll")
	browser.Fill(b, tab, [][2]string{{"d", "65"}, {"C", "20.4"}, {"n", "5.97"}})
	slower(b, tab, 6)
	var sum float64
	for b.Loop() {
		sum += browser.Ask[float64](b, tab, `(async () => {
			const [followers, values] = [trundle.followers, []];
			trundle.followers = [(sheet, v) => values.push(v)];
			await trundle.update(trundle.sheet);
			trundle.followers = followers;
			const [v] = values;
			let least = Infinity;
			for (let i = 0; i < 20; i++) { // the rest of the machine is at work, too
				v.own.d = v.exact.d = 60 + i;
				v.exact.C = Math.PI * v.own.d / 10;
				const start = performance.now();
				followers[0](trundle.sheet, v);
				document.body.offsetHeight;
				least = Math.min(least, performance.now() - start);
			}
			return least;
		})()`)
	}
	b.ReportMetric(sum/float64(b.N), "ms-at-the-least")
}

// stateScript tells all that a page shows of its entries.
const stateScript = `JSON.stringify([
	...[...document.querySelectorAll(".row")].map((e) => e.className),
	...[...document.querySelectorAll("[id^=told_]")].map((e) => [e.id, e.textContent, e.dataset.state ?? ""]),
	...[...document.querySelectorAll("[id^=in_]")].map((e) => [e.id, e.value, e.ariaInvalid]),
	...[...document.querySelectorAll("[id^=own_]:not([hidden])")].map((e) => [e.id, e.textContent]),
	...[...document.querySelectorAll("[id^=sum_],[id^=rows_]")].map((e) => [e.id, e.innerHTML]),
	...[...document.querySelectorAll("span[data-p]")].map((e) => e.outerHTML),
	...[...document.querySelectorAll("[data-after]")].map((e) => "free" in e.dataset),
	...[...document.querySelectorAll(".tape a")].map((e) => [e.ariaLabel, e.innerHTML]),
	document.getElementById("_log").innerHTML,
], null, 1)`

// TestAnswersThatComeFasterThanTheirRestEndAsOneByOne writes all answers of a lesson before anything that follows from
// one of them is done: the page must come to what it is when it is opened with the same entries.
func TestAnswersThatComeFasterThanTheirRestEndAsOneByOne(t *testing.T) {
	t.Parallel()
	built, tab, root := opened(t)
	for _, l := range built.Lessons {
		if l.Lesson.Week != 5 && l.Lesson.Week != 7 {
			continue
		}
		browser.StartOver(t, tab, root, "students/"+l.Slug+".html")
		typed := browser.Samples(l)
		browser.Fill(t, tab, typed[:1])
		for i, find := range browser.Finds(l) {
			typed = append(typed, [2]string{find.Name, "1"}, [2]string{find.Name, browser.Exact(l, find)})
			if i%3 == 2 {
				typed = append(typed, [2]string{find.Name, "x"})
			}
		}
		browser.FillTogether(t, tab, typed)
		got := browser.Ask[string](t, tab, stateScript)
		for id, text := range lastOf(typed) {
			browser.Wait(t, tab, fmt.Sprintf(`document.getElementById("in_%s").dataset.kept === %q`, id, text))
		}
		tab.Open(t, root, "students/"+l.Slug+".html")
		browser.Ready(t, tab)
		if want := browser.Ask[string](t, tab, stateScript); got != want {
			t.Errorf("%s ends as\n%s\nwant\n%s", l.Slug, got, want)
		}
		tab.Report(t)
	}
}

// lastOf gives the last text of each box.
func lastOf(typed [][2]string) map[string]string {
	last := map[string]string{}
	for _, entry := range typed {
		last[entry[0]] = entry[1]
	}
	return last
}
