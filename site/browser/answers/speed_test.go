package answers_test

// How long an answer takes to be checked. It is measured and told, not decided: a test machine may be busy.

import (
	"context"
	"fmt"
	"testing"

	"trundle/testdata/browser"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/performance"
	"github.com/chromedp/chromedp"
)

// timeScript writes ten answers into a box in turn, right and wrong ones, and measures from the box's event to the
// verdict with its layout, and until nothing is left to be done. It tells how often something that follows from an
// answer was there before its verdict, and how often it did not come at all: the log goes with each of these answers.
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
	const sorted = [checks, whole].map((all) => all.sort((a, b) => a - b));
	return [...sorted.flatMap((all) => [all[5], all[9]]), early, missing];
})(%q, %q)`

// busy is how long the page's thread has worked, in seconds of the processor, so that a busy machine does not count.
func busy(t *testing.T, tab *browser.Tab) float64 {
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

// TestAnAnswerIsCheckedQuickly measures ten answers in full lessons 5 and 7, on a processor six times as slow.
func TestAnAnswerIsCheckedQuickly(t *testing.T) {
	built, tab, root := opened(t)
	for _, l := range built.Lessons {
		if l.Lesson.Week != 5 && l.Lesson.Week != 7 {
			continue
		}
		browser.StartOver(t, tab, root, "students/"+l.Slug+".html")
		finds := browser.Finds(l)
		typed := browser.Samples(l)
		for _, find := range finds {
			typed = append(typed, [2]string{find.Name, browser.Exact(l, find)})
		}
		browser.Unseen(t, tab, func() { browser.Fill(t, tab, typed) })
		middle := finds[len(finds)/2]
		for _, slower := range []float64{1, 6} {
			browser.Order(t, tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slower})
			before := busy(t, tab)
			times := browser.Ask[[]float64](t, tab, fmt.Sprintf(timeScript, middle.Name, browser.Exact(l, middle)))
			t.Logf("%s, %s, processor ÷ %.0f: verdict in %.1f ms (median), %.1f ms (most); all of it in %.1f ms (median), "+
				"%.1f ms (most)", l.Slug, middle.Name, slower, times[0], times[1], times[2], times[3])
			t.Logf("%s: the processor itself works %.1f ms for an answer and its frames", l.Slug, (busy(t, tab)-before)*1000/10)
			if times[4] > 0 || times[5] > 0 {
				t.Errorf("of ten answers, the log was there before the verdict of %.0f, and did not follow that of %.0f",
					times[4], times[5])
			}
		}
		browser.Order(t, tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 1})
		tab.Report(t)
	}
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
