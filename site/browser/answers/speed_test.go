package answers_test

// How long an answer takes to be checked. It is measured and told, not decided: a test machine may be busy.

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
)

// timeScript enters thirty texts in turn, right and wrong ones, and measures each: the check with its layout, and the
// time until the next frame but one begins, by when it has been painted.
const timeScript = `(async (id, right) => {
	const { sheet } = trundle;
	const frame = () => new Promise((done) => requestAnimationFrame(done));
	const [checks, shown] = [[], []];
	for (let i = 0; i < 30; i++) {
		const before = { ...sheet.entries };
		await frame();
		const start = performance.now();
		sheet.entries[id] = i %% 2 ? "1234567" + i : right;
		trundle.update(sheet, id, before);
		document.body.getBoundingClientRect();
		checks.push(performance.now() - start);
		await frame();
		await frame();
		shown.push(performance.now() - start);
	}
	return [checks, shown].map((all) => all.sort((a, b) => a - b)).flatMap((all) => [all[15], all[28]]);
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

// TestAnAnswerIsCheckedQuickly measures thirty answers in full lessons 5 and 7, on a processor six times as slow.
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
		browser.Fill(t, tab, typed)
		middle := finds[len(finds)/2]
		for _, slower := range []float64{1, 6} {
			browser.Order(t, tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: slower})
			before := busy(t, tab)
			times := browser.Ask[[]float64](t, tab, fmt.Sprintf(timeScript, middle.Name, browser.Exact(l, middle)))
			t.Logf("%s, %s, processor ÷ %.0f: checked and laid out in %.1f ms (median), %.1f ms (95 %%); painted within "+
				"%.1f ms (median), %.1f ms (95 %%)", l.Slug, middle.Name, slower, times[0], times[1], times[2], times[3])
			t.Logf("%s: the processor itself works %.1f ms for an answer and its frames", l.Slug, (busy(t, tab)-before)*1000/30)
			if slices.Contains(times, 0) {
				t.Error("nothing was measured")
			}
		}
		browser.Order(t, tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: 1})
		tab.Report(t)
	}
}
