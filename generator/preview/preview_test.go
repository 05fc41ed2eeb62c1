package preview_test

// What the preview serves is what a build writes, to whom it may be served, and what is left afterwards.

import (
	"bufio"
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"maps"
	"math/rand/v2"
	"net"
	"net/http"
	"net/http/httptest"
	"path"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
	"trundle/generator/preview"
	"trundle/site"
)

const kits = "heron: {title: Heron, wheel: %d mm, track: 112 mm, gear: 1}\n" +
	"coot: {title: Coot, wheel: 48 mm, track: 96 mm, gear: 1}\n"

// lesson writes a lesson with something of everything; n makes it another.
func lesson(n int) string {
	body := []string{
		"Text %[1]d, [another](02-b.md#part-1).\n",
		"```work\nmeasure d = kit.wheel \"Wheel %[1]d\"\nfind n in rot to 0.01 = rotations(1%[1]d cm, d) \"Turns\"\n```\n",
		"```runs data/runs.csv\ngroup base\nalong stop = 1%[1]d cm\n```\n",
		"```chart\ntitle \"T %[1]d\"\nvary x from 0 cm to 1 m \"X\"\nline rotations(x, kit.wheel) \"L\"\n```\n",
		"> Mentor: Note %[1]d\n",
		"{circumference(48 mm) in cm to 0.1} and %[1]d\n",
		"Wipe with a damp cloth %[1]d.\n\n```python filled\nx = 1\n```\n",
		"Broken {%[1]d +}.\n",
		"![Lock](pictures/lock.svg) %[1]d\n",
		"```gauge\nruler 1%[1]d mm \"R\"\n```\n",
		"Text %[1]d.\n\n{{part ready}}\n",
		"{{part ready}}\nText %[1]d.\n\n{{part other}}\n",
		"<!-- trundle: accept picture-without-text, so -->\n![](pictures/lock.svg) %[1]d\n",
		"<!-- trundle: accept html-shown, none is here -->\nText %[1]d.\n",
	}[n%14]
	return fmt.Sprintf("---\ntitle: T%d\nweek: 1\nminutes: 10\ngoals: [G]\ncare: [cloth]\n---\n\n## Part %d (10 min)\n\n"+
		body, n, n%3, n%90)
}

// cardBody is the least that a care card says.
const cardBody = "## Before\n\nLook.\n\n## During\n\nWork.\n\n## After\n\nTidy up.\n\n" +
	"## If something goes wrong\n\nStop.\n"

// part is a text for several lessons; one of four has a mistake in it.
func part(n int) string {
	return []string{"Ready %d.\n", "- Ready %d\n\n```work\ngiven L = 3 cm \"L\"\n```\n", "{%d + x}\n",
		"> Mentor: %d, {1 + 1}"}[n%4]
}

// drawing is a picture; one of three is refused.
func drawing(n int) string {
	piece := "<rect/>"
	if n%3 == 2 {
		piece = "<script/>"
	}
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg"><circle r="%d"/>%s</svg>`, n, piece)
}

func pack() fstest.MapFS {
	files := fstest.MapFS{}
	for name, text := range map[string]string{
		"pack.yaml": "title: P\nversion: 1\nkit: heron\n", "kits.yaml": fmt.Sprintf(kits, 65),
		"care/cloth.md":     "---\ntitle: Cloth\nwho: students\nwear: []\nmentions: [damp cloth]\n---\n\n" + cardBody,
		"parts/ready.md":    fmt.Sprintf(part(0), 0),
		"data/runs.csv":     "base,stop (cm)\nHeron,1\nHeron,2\nCoot,3\nCoot,3.5\n",
		"pictures/lock.svg": drawing(0), "01-a.md": lesson(0), "02-b.md": lesson(1), "03-c.md": lesson(2),
	} {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

// edit changes, moves or deletes something.
func edit(r *rand.Rand, files fstest.MapFS) {
	put := func(name, text string) { files[name] = &fstest.MapFile{Data: []byte(text)} }
	lessons := []string{"01-a.md", "02-b.md", "03-c.md", "04-d.md", "05-e.md"}
	name := lessons[r.IntN(len(lessons))]
	switch r.IntN(17) {
	case 0:
		delete(files, name)
	case 1:
		if f, ok := files[name]; ok {
			delete(files, name)
			files[lessons[r.IntN(len(lessons))]] = f
		}
	case 2:
		put("kits.yaml", fmt.Sprintf(kits, 50+r.IntN(20)))
	case 3:
		cards := []string{"", "cards: [cloth]\n", "cards: [can]\n"}[r.IntN(3)]
		put("pack.yaml", fmt.Sprintf("title: P%d\nversion: %d\nkit: %s\n", r.IntN(3), r.IntN(3),
			[]string{"heron", "coot"}[r.IntN(2)])+cards)
	case 4:
		put("care/cloth.md", fmt.Sprintf("---\ntitle: Cloth %d\nwho: students\nwear: []\nmentions: [%s]\n---\n\n"+cardBody+
			"\nText %d.\n", r.IntN(3), []string{"damp cloth", "rag"}[r.IntN(2)], r.IntN(9)))
	case 5:
		put("data/runs.csv", fmt.Sprintf("base,stop (cm)\nHeron,%d\nHeron,2\nCoot,3\nCoot,%d\n", r.IntN(9), r.IntN(9)))
	case 6:
		if _, ok := files["data/runs.csv"]; ok && r.IntN(4) == 0 {
			delete(files, "data/runs.csv")
		}
	case 7:
		put("pictures/lock.svg", drawing(r.IntN(9)))
	case 8:
		put("words.md", "## text, damp cloth\n\nOf "+[]string{
			"rotations.\n", "it.\n\n## text\n\nAgain.\n", "it.\n\n## cloth, broken\n\nA text.\n"}[r.IntN(3)])
		if r.IntN(4) == 0 {
			delete(files, "words.md")
		}
	case 9, 12:
		n := r.IntN(90)
		put("parts/ready.md", fmt.Sprintf(part(n), n))
	case 10:
		if _, ok := files["parts/other.md"]; ok {
			delete(files, "parts/other.md")
		} else {
			put("parts/other.md", "Other.\n")
		}
	case 11: // which some disks do not tell from data/runs.csv
		delete(files, "data/Runs.csv")
		if r.IntN(4) == 0 {
			put("data/Runs.csv", "base,stop (cm)\nCoot,3\n")
		}
	default:
		put(name, lesson(r.IntN(900)))
	}
}

// edits is how many the test below makes; a thousand of them take half a minute.
var edits = flag.Int("edits", 300, "how many `edits` a preview is put through")

// TestAfterManyEditsItServesWhatABuildWrites edits, moves and deletes at random, and holds what is
// served against a fresh build, every file of it, whenever all is right.
func TestAfterManyEditsItServesWhatABuildWrites(t *testing.T) {
	t.Parallel()
	pages := newPreview(t)
	r := rand.New(rand.NewPCG(7, 26))
	files := pack()
	var served *generator.Proved
	compared := 0
	for n := range *edits {
		edit(r, files)
		now := maps.Clone(files)
		proved, err := pages.Update(t.Context(), now, "")
		if err != nil {
			t.Fatal(err)
		}
		fresh, err := generator.Prove(t.Context(), now)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := slugs(proved), slugs(fresh); got != want {
			t.Fatalf("after edit %d the problems are\n%s\nand fresh ones\n%s", n, got, want)
		}
		if !fresh.HasErrors() {
			served = fresh
		}
		if served != nil && (n%60 == 0 || n == *edits-1) {
			compared++
			same(t, pages, served)
		}
		if t.Failed() {
			t.Fatalf("after edit %d", n)
		}
	}
	if compared < *edits/100 {
		t.Errorf("only %d states were compared", compared)
	}
}

func slugs(p *generator.Proved) string {
	var b strings.Builder
	for _, p := range p.Problems {
		fmt.Fprintf(&b, "%s:%d %s %s\n", p.File.Name, p.Span.Start, p.Slug, p.What)
	}
	return b.String()
}

func same(t *testing.T, pages *preview.Preview, proved *generator.Proved) {
	t.Helper()
	want, err := generator.Draw(t.Context(), proved)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range slices.Sorted(maps.Keys(want)) {
		got, ok, err := pages.File(name)
		edition, _, _ := strings.Cut(name, "/")
		_, version, _ := strings.Cut(string(want[edition+"/version.js"]), `newest="`)
		if version = strings.TrimSuffix(version, "\";\n"); !generator.TakesAll(name) {
			got = bytes.ReplaceAll(got, []byte(site.Draft), []byte(version))
		}
		if err != nil || !ok || !bytes.Equal(got, want[name]) {
			t.Errorf("%s: served %v, %v, %d bytes; a build writes %d", name, ok, err, len(got), len(want[name]))
		}
	}
	if _, ok, _ := pages.File("students/99-nothing.html"); ok {
		t.Error("a page that is not there is served")
	}
}

func newPreview(t testing.TB) *preview.Preview {
	t.Helper()
	pages, err := preview.New()
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

// serve serves pages at an address of its own until the test ends or stop is called.
func serve(t *testing.T, pages *preview.Preview, how preview.Serve) (address string, stop func()) {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	how.Hosts, how.Done = preview.Hosts(l.Addr(), "127.0.0.1", "localhost"), ctx.Done()
	handler, err := pages.Handler(how)
	if err != nil {
		t.Fatal(err)
	}
	server := &httptest.Server{Listener: l, Config: &http.Server{Handler: handler}}
	server.Start()
	stop = func() {
		cancel()
		server.CloseClientConnections()
		server.Close()
	}
	t.Cleanup(stop)
	return server.URL, stop
}

var everything = preview.Serve{Editions: []site.Edition{site.Mentors, site.Students}, Author: true}

func started(t *testing.T) *preview.Preview {
	t.Helper()
	pages := newPreview(t)
	if _, err := pages.Update(t.Context(), pack(), ""); err != nil {
		t.Fatal(err)
	}
	return pages
}

func TestOnlyWhatIsAskedForProperlyIsServed(t *testing.T) {
	address, _ := serve(t, started(t), everything)
	host := strings.TrimPrefix(address, "http://")
	for _, c := range []struct {
		request string
		want    int
	}{
		{"GET / HTTP/1.1\r\nHost: " + host, 302},
		{"GET /mentors/01-a.html HTTP/1.1\r\nHost: " + host, 200},
		{"GET /students/ HTTP/1.1\r\nHost: " + host, 200},
		{"HEAD /mentors/01-a.html HTTP/1.1\r\nHost: " + host, 200},
		{"GET /mentors/01-a.html HTTP/1.1\r\nHost: evil.example", 403},
		{"GET /mentors/01-a.html HTTP/1.1\r\nHost: 127.0.0.1:1", 403},
		{"GET /mentors/01-a.html HTTP/1.1\r\nHost: ", 403},
		{"POST /mentors/01-a.html HTTP/1.1\r\nHost: " + host + "\r\nContent-Length: 0", 405},
		{"DELETE / HTTP/1.1\r\nHost: " + host, 405},
		{"OPTIONS / HTTP/1.1\r\nHost: " + host, 405},
		{"GET /mentors/../pack.yaml HTTP/1.1\r\nHost: " + host, 400},
		{"GET /mentors/%2e%2e/pack.yaml HTTP/1.1\r\nHost: " + host, 400},
		{"GET /mentors/..%2fpack.yaml HTTP/1.1\r\nHost: " + host, 400},
		{"GET /mentors/..%5cpack.yaml HTTP/1.1\r\nHost: " + host, 400},
		{"GET /mentors/%252e%252e/pack.yaml HTTP/1.1\r\nHost: " + host, 404},
		{"GET /pack.yaml HTTP/1.1\r\nHost: " + host, 404},
		{"GET /01-a.md HTTP/1.1\r\nHost: " + host, 404},
		{"GET /mentors/nothing.html HTTP/1.1\r\nHost: " + host, 404},
		{"GET /_live/nothing.js HTTP/1.1\r\nHost: " + host, 404},
		{"GET /_live/events?page=/etc/passwd HTTP/1.1\r\nHost: " + host, 404},
		{"GET /_live/events?page=/mentors/../x HTTP/1.1\r\nHost: " + host, 404},
	} {
		if got := status(t, host, c.request); got != c.want {
			t.Errorf("%.60q comes with %d, want %d", c.request, got, c.want)
		}
	}
}

// status sends a request as it is written.
func status(t *testing.T, host, request string) int {
	t.Helper()
	conn, err := net.Dial("tcp", host)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	if _, err := io.WriteString(conn, request+"\r\nConnection: close\r\n\r\n"); err != nil {
		t.Fatal(err)
	}
	response, err := http.ReadResponse(bufio.NewReader(conn), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	return response.StatusCode
}

// TestTheNetworkSeesTheStudentsEditionAlone looks for what only the author may see.
func TestTheNetworkSeesTheStudentsEditionAlone(t *testing.T) {
	pages := newPreview(t)
	files := pack()
	files["02-b.md"] = &fstest.MapFile{Data: []byte(strings.Replace(lesson(1), "\"Turns\"\n",
		"\"Turns\"\nkey n = 0.54 rot\nslip circumference(d) / 11 cm \"Upside down\"\n", 1))}
	for _, text := range []string{"", "key n = 77 rot\n"} { // all right; then a wrong key, whose problem names it
		files["02-b.md"].Data = bytes.Replace(files["02-b.md"].Data, []byte("key n = 0.54 rot\n"),
			[]byte("key n = 0.54 rot\n"+text), 1)
		if _, err := pages.Update(t.Context(), files, ""); err != nil {
			t.Fatal(err)
		}
	}
	address, _ := serve(t, pages, preview.Serve{Editions: []site.Edition{site.Students}})
	for name, want := range map[string]int{
		"/": 200, "/students/02-b.html": 200, "/mentors/02-b.html": 404, "/mentors/": 404,
		"/_live/events?page=/mentors/02-b.html": 404, "/mentors/sheets/02-b-a4.pdf": 404,
		"/mentors/sheets/02-b-mentor-a4.pdf": 404, "/students/sheets/02-b-mentor-a4.pdf": 404,
		"/mentors/sheets/season-mentor-a4.pdf": 404, "/students/sheets/season-mentor-a4.pdf": 404,
	} {
		response, err := http.Get(address + name)
		if err != nil {
			t.Fatal(err)
		}
		body, _ := io.ReadAll(response.Body)
		response.Body.Close()
		if response.StatusCode != want || bytes.Contains(body, []byte("0.54")) || bytes.Contains(body, []byte("77 rot")) {
			t.Errorf("%s comes with %d, want %d: %.200s", name, response.StatusCode, want, body)
		}
	}
	first := listen(t, address, "/students/02-b.html")
	defer first.Body.Close()
	line, err := bufio.NewReader(first.Body).ReadString('\n')
	if err != nil || !strings.Contains(line, `"page":`) || strings.Contains(line, "77 rot") ||
		strings.Contains(line, "0.54") || strings.Contains(line, "data-at") {
		t.Errorf("told was %v %.300s", err, line)
	}
}

// TestThePageServedIsThePageBuiltButForItsEars takes off what lets it listen.
func TestThePageServedIsThePageBuiltButForItsEars(t *testing.T) {
	pages := started(t)
	address, _ := serve(t, pages, everything)
	for _, name := range []string{"mentors/index.html", "students/01-a.html", "students/steps/02-b.js",
		"students/assets/site.css", "mentors/sheets/01-a-a4.pdf", "students/offline.js",
		"mentors/sheets/01-a-mentor-letter.pdf", "students/sheets/season-a4.pdf", "mentors/sheets/season-mentor-a4.pdf"} {
		response, err := http.Get(address + "/" + name)
		if err != nil {
			t.Fatal(err)
		}
		got, _ := io.ReadAll(response.Body)
		response.Body.Close()
		want, ok, err := pages.File(name)
		if !ok || err != nil {
			t.Fatal(name, ok, err)
		}
		if path.Ext(name) == ".html" {
			got = bytes.Replace(got, []byte(` connect-src 'self';`), nil, 1)
			got = bytes.Replace(got,
				[]byte(`<link rel="stylesheet" href="/_live/live.css"><script src="/_live/live.js" defer></script>`+"\n"), nil, 1)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s is served as other bytes than are built", name)
		}
	}
}
