package generator_test

// Packs that are made to fill the memory, to take for ever, or to get out: what is said of each, and what it costs.

import (
	"bytes"
	"context"
	"encoding/csv"
	"flag"
	"fmt"
	"os"
	"path"
	"runtime"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"trundle/generator"
	"trundle/generator/problem"
	"trundle/site"
	"trundle/testdata/hostile"
	"trundle/testdata/used"
)

var (
	updateHostile = flag.Bool("update-hostile", false, "write what is said of hostile packs; read the difference")
	fullHostile   = flag.Bool("full-hostile", false,
		"hostile packs at full size, their sheets drawn, each within five seconds")
)

const expectedHostile = "../testdata/hostile/expected.csv"

// What a pack may take at most. Of memory it is all that is ever asked for, which no other work on the
// computer changes.
const (
	mostAllocated = 1 << 30
	mostTime      = 5 * time.Second // of a processor; only looked at when packs have their full size
	mostWait      = time.Minute     // by the clock, for what would never end
	mostPrinted   = 200_000         // bytes
)

func TestHostilePacksCostLittleAndSayWhatIsWrong(t *testing.T) {
	size := hostile.Small
	if *fullHostile {
		size = hostile.Full
	}
	cases := hostile.Cases(size)
	if len(cases) < 200 {
		t.Errorf("there are only %d", len(cases))
	}
	expected, said := readHostile(t), [][]string{{"group", "name", "problems"}}
	var sum cost
	var slowest string
	var longest cost
	for _, c := range cases {
		got, used := outcomeOf(t, c)
		said = append(said, []string{c.Group, c.Name, got})
		name := c.Group + ", " + c.Name
		switch {
		case *fullHostile || *updateHostile:
		case expected[name] == "":
			t.Errorf("%s: nothing is expected of it; it came to %s", name, got)
		case expected[name] != got:
			t.Errorf("%s: it came to\n  %s\nnot\n  %s", name, got, expected[name])
		}
		if used.bytes > mostAllocated || *fullHostile && used.time > mostTime {
			t.Errorf("%s took %v and %d MB", name, used.time, used.bytes>>20)
		}
		if sum.time += used.time; used.time > longest.time {
			longest, slowest = used, name
		}
		if testing.Verbose() && used.time > time.Second/2 {
			t.Logf("%s: %v, %d MB", name, used.time, used.bytes>>20)
		}
	}
	t.Logf("%d packs took %v of a processor; the slowest, %s, took %v", len(cases), sum.time, slowest, longest.time)
	if *updateHostile {
		var b bytes.Buffer
		if err := csv.NewWriter(&b).WriteAll(said); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(expectedHostile, b.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

// readHostile gives what is expected of each case.
func readHostile(t *testing.T) map[string]string {
	t.Helper()
	f, err := os.Open(expectedHostile)
	if *updateHostile && os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, row := range rows[1:] {
		all[row[0]+", "+row[1]] = row[2]
	}
	return all
}

// cost is what a case took.
type cost struct {
	time  time.Duration
	bytes uint64
}

// spent is what this process has taken so far.
func spent() cost {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return cost{used.Processor(), m.TotalAlloc}
}

// outcomeOf proves a case, draws it if nothing is wrong, and gives the kinds of its errors and cautions, each with the
// place of its first, and what it took. A case that never ends ends the test.
func outcomeOf(t *testing.T, c hostile.Case) (string, cost) {
	t.Helper()
	before := spent()
	done := make(chan string, 1)
	go func() { done <- comesTo(t, hostilePack(c)) }()
	select {
	case got := <-done:
		after := spent()
		return got, cost{after.time - before.time, after.bytes - before.bytes}
	case <-time.After(mostWait):
		buf := make([]byte, 1<<20)
		t.Fatalf("%s, %s does not end:\n%s", c.Group, c.Name, buf[:runtime.Stack(buf, true)])
		return "", cost{}
	}
}

// hostilePack is the sound pack with the case's file in it.
func hostilePack(c hostile.Case) fstest.MapFS {
	text := c.Text
	if c.Added {
		text = soundLesson + c.Text
	}
	pack := soundPack(c.File, text)
	if c.Shows != "" {
		pack["01-a.md"] = &fstest.MapFile{Data: []byte(soundLesson + c.Shows)}
	}
	return pack
}

// comesTo writes what is said of a pack.
func comesTo(t *testing.T, pack fstest.MapFS) string {
	p, err := generator.Prove(context.Background(), pack)
	if err != nil {
		return "cannot be read: " + err.Error()
	}
	var printed bytes.Buffer
	if err := problem.PrintMost(&printed, "", p.Problems); err != nil || printed.Len() > mostPrinted {
		t.Errorf("%d bytes are printed: %v", printed.Len(), err)
	}
	if i := bytes.IndexFunc(printed.Bytes(), steers); i >= 0 {
		t.Errorf("what is printed can steer a terminal: %q", printed.Bytes()[max(0, i-20):i+20])
	}
	if !p.HasErrors() {
		drawHostile(t, p)
	}
	return kindsOf(p.Problems)
}

// steers is true of what a terminal obeys, or what turns the order of letters about.
func steers(r rune) bool {
	return r < ' ' && r != '\n' && r != '\t' || r >= 0x7f && r < 0xa0 ||
		r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
}

// kindsOf writes kinds of problems with the place of each kind's first.
func kindsOf(problems []problem.Problem) string {
	seen := map[string]bool{}
	var all []string
	for _, p := range problems {
		kind := p.Severity.String() + " " + p.Slug
		if seen[kind] {
			continue
		}
		seen[kind] = true
		line := p.File.Position(p.Span.Start).Line
		all = append(all, fmt.Sprintf("%s %s:%d", kind, p.File.Name, line))
	}
	if slices.Sort(all); len(all) == 0 {
		return "sound"
	}
	return strings.Join(all, "; ")
}

// drawHostile draws a pack's pages, at full size its sheets as well. None may have a script that is not ours.
func drawHostile(t *testing.T, p *generator.Proved) {
	s, err := site.New(p.Pack.Language)
	if err != nil {
		t.Error(err)
		return
	}
	for _, job := range generator.Jobs(p, s) {
		if !*fullHostile && !pagesAlone(job.Name) {
			continue
		}
		data, err := job.Make()
		if err != nil {
			t.Errorf("%s: %v", job.Name, err)
		}
		if page := bytes.ToLower(data); path.Ext(job.Name) == ".html" && (bytes.Contains(page, []byte("<script>")) ||
			bytes.Contains(page, []byte(`="javascript:`)) || bytes.Contains(page, []byte("<img src=x"))) {
			t.Errorf("%s has a script of its own", job.Name)
		}
	}
}
