package preview_test

// How long that takes, from the save to the paint.

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"trundle/testdata/browser"

	"github.com/chromedp/chromedp"
)

var demoID = regexp.MustCompile(`(?m)^id: (.+)$`)

// BenchmarkFromSaveToPaint measures how long it takes from the write of a file to the new text
// painted in Chromium, over 200 saves, on the demo pack and on one of a thousand lessons more.
func BenchmarkFromSaveToPaint(b *testing.B) {
	for _, lessons := range []int{0, 1000} {
		b.Run(fmt.Sprintf("lessons=%d", lessons), func(b *testing.B) {
			dir := filepath.Join(b.TempDir(), "pack")
			if err := os.CopyFS(dir, os.DirFS(browser.Lessons())); err != nil {
				b.Fatal(err)
			}
			names, err := filepath.Glob(filepath.Join(dir, "[0-9]*.md"))
			if err != nil {
				b.Fatal(err)
			}
			for i := range lessons {
				data, err := os.ReadFile(names[i%len(names)])
				if err != nil {
					b.Fatal(err)
				}
				data = demoID.ReplaceAll(data, fmt.Appendf(nil, "id: $1-%d", i)) // no two lessons have one
				if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%05d-more.md", i+100)), data, 0o644); err != nil {
					b.Fatal(err)
				}
			}
			for b.Loop() {
				measureSaves(b, dir)
			}
		})
	}
}

func measureSaves(b *testing.B, dir string) {
	d := previewed(b, dir)
	tab := browser.Open(b).Context
	if _, err := chromedp.Run(tab, chromedp.Navigate(d.root+browser.Lesson3)); err != nil {
		b.Fatal(err)
	}
	// The page notes when a save's text has been painted: two frames after it came.
	script := `new Promise((done) => {
		const shown = () => document.body.dataset.live && document.querySelector("[data-at]");
		const look = () => shown() ? done(true) : setTimeout(look, 10);
		look();
	})`
	if _, err := chromedp.Run(tab, chromedp.Evaluate[bool](script, chromedp.EvalAwaitPromise)); err != nil {
		b.Fatal(err)
	}
	file := filepath.Join(dir, text3)
	source, err := os.ReadFile(file)
	if err != nil {
		b.Fatal(err)
	}
	var all []float64
	for i := range 200 {
		mark := fmt.Sprintf("save number %d of this bench", i)
		text := strings.Replace(string(source), "## Exit ticket", mark+"\n\n## Exit ticket", 1)
		painted := make(chan error, 1)
		var at float64
		go func() {
			var err error
			at, err = chromedp.Run(tab, chromedp.Evaluate[float64](`new Promise((done) => {
				const main = document.querySelector("main");
				const look = () => {
					if (!main.textContent.includes("`+mark+`")) return;
					watch.disconnect();
					requestAnimationFrame(() => {
						const c = new MessageChannel();
						c.port1.onmessage = () => done(performance.timeOrigin + performance.now());
						c.port2.postMessage(0);
					});
				};
				const watch = new MutationObserver(look);
				watch.observe(main, { subtree: true, childList: true, characterData: true });
				look();
			})`, chromedp.EvalAwaitPromise))
			painted <- err
		}()
		time.Sleep(300 * time.Millisecond) // the watch stands, and the second look of the save before is over
		start := float64(time.Now().UnixNano()) / 1e6
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			b.Fatal(err)
		}
		if err := <-painted; err != nil {
			b.Fatal(err)
		}
		all = append(all, at-start)
	}
	slices.Sort(all)
	b.ReportMetric(all[len(all)/2], "ms-p50")
	b.ReportMetric(all[len(all)*95/100], "ms-p95")
	b.ReportMetric(all[len(all)-1], "ms-max")
}
