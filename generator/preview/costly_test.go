package preview

// Tests of what others in the network can make a preview do.

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"trundle/generator/problem"
)

// twinPack has a lesson that is called as another one's sheet.
func twinPack() fstest.MapFS {
	lesson := func(id string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("---\ntitle: " + id + "\nid: " + id +
			"\nweek: 1\nminutes: 5\ncare: [a]\n---\n\n## Go (5 min)\n\n" +
			"```work\nmeasure d = 1 cm \"D\"\nfind f = 2 * d \"F\"\nkey f = 2 cm\n```\n")}
	}
	return fstest.MapFS{
		"pack.yaml": {Data: []byte("title: T\nversion: 1\n")}, "01-a.md": lesson("a"), "01-a-a4.md": lesson("b"),
		"care/a.md": {Data: []byte("---\ntitle: A\nwho: both\nstudents: \"Look.\"\nadults: \"Sharp tools.\"\n" +
			"hazards: []\nwear: []\n---\n\n## Before\n\n- Look.\n\n## During\n\n- " +
			"Look.\n\n" +
			"## After\n\n- Look.\n\n## If something goes wrong\n\n- Call an adult. Your local emergency number: " +
			"112\n")},
	}
}

func shown(t *testing.T) *Preview {
	t.Helper()
	p, err := New()
	if err != nil {
		t.Fatal(err)
	}
	proved, err := p.Update(t.Context(), twinPack(), "")
	if err != nil {
		t.Fatal(err)
	}
	if proved.HasErrors() {
		t.Fatal(problem.ByWeight(proved.Problems)[0].What)
	}
	return p
}

func TestALessonCalledAsASheetLeavesTheSheetAlone(t *testing.T) {
	p := shown(t)
	for _, name := range []string{"students/sheets/01-a-a4.pdf", "students/sheets/01-a-a4-a4.pdf",
		"students/01-a-a4.html"} {
		if _, ok, err := p.File(name); !ok || err != nil {
			t.Errorf("%s is there: %v, %v", name, ok, err)
		}
	}
}

// TestWhatTakesTheWholePackIsMadeOnce asks for it from many places: all get the same bytes in memory.
func TestWhatTakesTheWholePackIsMadeOnce(t *testing.T) {
	p := shown(t)
	for _, name := range []string{"students/offline.js", "students/sheets/season-a4.pdf"} {
		var lock sync.Mutex
		var wait sync.WaitGroup
		made := map[*byte]bool{}
		for range 12 {
			wait.Go(func() {
				data, ok, err := p.File(name)
				lock.Lock()
				defer lock.Unlock()
				if !ok || err != nil || len(data) == 0 {
					t.Errorf("%s: %v, %v", name, ok, err)
					return
				}
				made[&data[0]] = true
			})
		}
		wait.Wait()
		if len(made) != 1 {
			t.Errorf("%s was made %d times", name, len(made))
		}
	}
	before, _, _ := p.File("students/offline.js")
	pack := twinPack()
	pack["pack.yaml"] = &fstest.MapFile{Data: []byte("title: Other\nversion: 2\n")}
	if _, err := p.Update(t.Context(), pack, ""); err != nil {
		t.Fatal(err)
	}
	if after, _, _ := p.File("students/offline.js"); string(after) == string(before) {
		t.Error("another pack has the same worker")
	}
}

func TestOneAddressGetsOnlySoManyConnections(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s := NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { fmt.Fprint(w, "here") }))
	go func() { _ = s.Serve(Limited(l)) }()
	defer s.Close()
	answers := func(c net.Conn) bool {
		_ = c.SetDeadline(time.Now().Add(10 * time.Second))
		fmt.Fprint(c, "GET / HTTP/1.1\r\nHost: x\r\n\r\n")
		line, _ := bufio.NewReader(c).ReadString('\n')
		return strings.Contains(line, "200")
	}
	var open []net.Conn
	for i := range mostOfOne + 5 {
		c, err := net.Dial("tcp", l.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		if got := answers(c); got != (i < mostOfOne) {
			t.Fatalf("connection %d is answered: %v", i, got)
		}
		open = append(open, c)
	}
	for _, c := range open {
		_ = c.Close()
	}
	for range 100 { // the server hears of it a moment later
		c, err := net.Dial("tcp", l.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		good := answers(c)
		_ = c.Close()
		if good {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Error("closed connections make no room")
}

func TestABodyThatNeverArrivesIsEnded(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s := NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		_, _ = io.Copy(io.Discard,
			r.Body)
	}))
	if s.ReadTimeout == 0 || s.ReadTimeout > time.Minute {
		t.Errorf("a request may take %v to arrive", s.ReadTimeout)
	}
	s.ReadTimeout = 200 * time.Millisecond
	go func() { _ = s.Serve(l) }()
	defer s.Close()
	c, err := net.Dial("tcp", l.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	fmt.Fprint(c, "GET / HTTP/1.1\r\nHost: x\r\nContent-Length: 1000\r\n\r\nx")
	_ = c.SetReadDeadline(time.Now().Add(20 * time.Second))
	if _, err := io.ReadAll(c); err != nil {
		t.Errorf("the connection is still held: %v", err)
	}
}

func TestBrowsersLeaveOutPort80(t *testing.T) {
	hosts := Hosts(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 80}, "127.0.0.1", "::1")
	if !slices.Contains(hosts, "127.0.0.1") || !slices.Contains(hosts, "[::1]") || !slices.Contains(hosts,
		"127.0.0.1:80") {
		t.Errorf("hosts are %q", hosts)
	}
}
