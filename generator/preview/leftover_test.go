package preview_test

// What is left of pages that came, went or hang, and of a thousand rebuilds.

import (
	"bufio"
	"context"
	"fmt"
	"net"
	"net/http"
	"os"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"trundle/testdata/browser"
)

func listen(t *testing.T, address, page string) *http.Response {
	t.Helper()
	response, err := http.Get(address + "/_live/events?page=" + page)
	if err != nil {
		t.Fatal(err)
	}
	return response
}

// TestNothingIsLeftOfPagesThatCameAndWent opens a hundred lines, hears news on them and goes away.
func TestNothingIsLeftOfPagesThatCameAndWent(t *testing.T) {
	pages := started(t)
	address, stop := serve(t, pages, everything)
	client := &http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	visit := func() {
		ctx, cancel := context.WithCancel(t.Context())
		defer cancel()
		request, _ := http.NewRequestWithContext(ctx, http.MethodGet, address+"/_live/events?page=/mentors/01-a.html", nil)
		response, err := client.Do(request)
		if err != nil {
			t.Fatal(err)
		}
		defer response.Body.Close()
		if line, err := bufio.NewReader(response.Body).ReadString('\n'); err != nil || !strings.HasPrefix(line, "data: {") {
			t.Fatalf("told was %q, %v", line, err)
		}
	}
	visit()
	settle()
	goroutines, descriptors := runtime.NumGoroutine(), open(t)
	for i := range 100 {
		if i%10 == 0 {
			if _, err := pages.Update(t.Context(), pack(), ""); err != nil {
				t.Fatal(err)
			}
		}
		visit()
	}
	var now, left int
	for end := time.Now().Add(browser.Patience); time.Now().Before(end); {
		settle() // handlers end a while after their visitors
		if now, left = runtime.NumGoroutine(), open(t); now <= goroutines+2 && left <= descriptors+2 {
			break
		}
	}
	if now > goroutines+2 {
		t.Errorf("%d goroutines became %d", goroutines, now)
	}
	if left > descriptors+2 {
		t.Errorf("%d descriptors became %d", descriptors, left)
	}
	stop()
}

// settle gives what has ended a chance to be cleared away.
func settle() {
	for range 20 {
		runtime.GC()
		time.Sleep(10 * time.Millisecond)
	}
}

// open counts the descriptors of this process.
func open(t *testing.T) int {
	t.Helper()
	entries, err := os.ReadDir("/proc/self/fd")
	if err != nil {
		t.Fatal(err)
	}
	return len(entries)
}

// TestAPageThatHangsHoldsNobodyUp lets one never read, while others hear of a hundred states.
func TestAPageThatHangsHoldsNobodyUp(t *testing.T) {
	pages := started(t)
	address, _ := serve(t, pages, everything)
	hung, err := net.Dial("tcp", strings.TrimPrefix(address, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer hung.Close()
	fmt.Fprintf(hung, "GET /_live/events?page=/mentors/01-a.html HTTP/1.1\r\nHost: %s\r\n\r\n",
		strings.TrimPrefix(address, "http://"))
	heard := listen(t, address, "/mentors/01-a.html")
	defer heard.Body.Close()
	lines := bufio.NewReader(heard.Body)
	files := pack()
	const states, want = 100, "The last word."
	for n := range states {
		text := lesson(12 * (n + 1)) // all with the same body
		if n == states-1 {
			text += "\n" + want + "\n"
		}
		files["01-a.md"] = &fstest.MapFile{Data: []byte(text)}
		if _, err := pages.Update(t.Context(), files, ""); err != nil {
			t.Fatal(err)
		}
	}
	for {
		line, err := lines.ReadString('\n')
		if err != nil {
			t.Fatalf("the last state was never told: %v", err)
		}
		if strings.Contains(line, want) {
			return
		}
	}
}

// TestMemoryIsFlat rebuilds a thousand times.
func TestMemoryIsFlat(t *testing.T) {
	pages := newPreview(t)
	files := pack()
	rebuild := func(times int) {
		for n := range times {
			files["01-a.md"] = &fstest.MapFile{Data: []byte(lesson(10 * n))}
			files["03-c.md"] = &fstest.MapFile{Data: []byte(lesson(10*n + 2))}
			if _, err := pages.Update(t.Context(), files, ""); err != nil {
				t.Fatal(err)
			}
			if _, ok, err := pages.File("mentors/01-a.html"); err != nil || !ok {
				t.Fatal(ok, err)
			}
		}
	}
	heap := func() uint64 {
		settle()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	rebuild(100)
	before := heap()
	rebuild(1000)
	after := heap()
	t.Logf("%d kB became %d kB", before>>10, after>>10)
	if after > before+before/4+1<<20 {
		t.Errorf("%d kB became %d kB after a thousand rebuilds", before>>10, after>>10)
	}
}
