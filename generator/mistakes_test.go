package generator_test

// Mistakes of coaches, one at a time, each made in a fresh copy of a small pack: what is reported, where, that it is
// one problem, and that the pack is in order once the coach has done what the problem says. The mistakes are in
// testdata/mistakes/*.txt; README there says how they are written.

import (
	"flag"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
	"trundle/generator/problem"
)

var showMistakes = flag.Bool("show-mistakes", false, "print what is reported for each mistake")

// A mistake is a case of testdata/mistakes.
type mistake struct {
	title      string
	made, done []change // what the coach slips up, and what the problem has them do
	want       []expected
}

// A change replaces text in a file, or the whole file if old is empty.
type change struct{ file, old, new string }

// expected is a problem: its severity and slug, what stands at its place, and words of its text and hint.
type expected struct{ kind, place, words string }

func TestAMistakeIsOneProblemAtItsPlaceWithARemedyThatWorks(t *testing.T) {
	pack, kept := mistakesPack(t), &store{} // what was found to be in order must hide no mistake
	if found := provedAfter(t, kept, pack); len(found) > 0 {
		t.Fatalf("the pack itself has problems: %s", printedOf(t, found))
	}
	for _, m := range readMistakes(t) {
		t.Run(m.title, func(t *testing.T) {
			files := maps.Clone(pack)
			changeFiles(t, files, m.made)
			found := provedAfter(t, kept, files)
			if *showMistakes {
				fmt.Printf("######## %s\n%s\n", m.title, printedOf(t, found))
				for _, p := range found {
					at, _, _ := strings.Cut(string(p.File.Text()[min(p.Span.Start, len(p.File.Text())):]), "\n")
					at = strings.TrimSpace(string([]rune(at)[:min(len([]rune(at)), 24)]))
					fmt.Printf("@@ %s %s | %s | %s … %s\n", p.Severity, p.Slug, at, p.What, p.Hint)
				}
			}
			compareProblems(t, m.want, found)
			if len(m.done) == 0 {
				return
			}
			changeFiles(t, files, m.done)
			if found := provedFiles(t, files); len(found) > 0 {
				t.Errorf("the remedy leaves\n%s", printedOf(t, found))
			}
		})
	}
}

func TestARemarkIsOnNoPage(t *testing.T) {
	for _, m := range readMistakes(t) {
		if len(m.want) > 0 || !strings.Contains(m.title, "accepted") {
			continue
		}
		t.Run(m.title, func(t *testing.T) {
			files := maps.Clone(mistakesPack(t))
			changeFiles(t, files, m.made)
			folder := fstest.MapFS{}
			for name, text := range files {
				folder[name] = &fstest.MapFile{Data: []byte(text)}
			}
			for name, page := range drawn(t, folder) {
				if strings.Contains(page, "trundle: accept") {
					t.Errorf("%s shows the remark", name)
				}
			}
		})
	}
}

func compareProblems(t *testing.T, want []expected, found []problem.Problem) {
	t.Helper()
	if len(found) != len(want) {
		t.Errorf("%d problems, want %d:\n%s", len(found), len(want), printedOf(t, found))
		return
	}
	for i, w := range want {
		p := found[i]
		at := strings.TrimLeft(string(p.File.Text()[min(p.Span.Start, len(p.File.Text())):]), " \t")
		if kind := p.Severity.String() + " " + p.Slug; kind != w.kind {
			t.Errorf("the problem is %q, want %q", kind, w.kind)
		}
		if !strings.HasPrefix(at, w.place) {
			t.Errorf("the place is %.40q, want %q", at, w.place)
		}
		for _, words := range strings.Split(w.words, " … ") {
			if text := p.What + "\n" + p.Hint + "\n" + secondPlaces(p); !strings.Contains(text, words) {
				t.Errorf("%q is not in %q", words, text)
			}
		}
	}
}

// related are the words of a problem's other places.
func secondPlaces(p problem.Problem) string {
	var b strings.Builder
	for _, r := range p.Related {
		b.WriteString(r.What + "\n")
	}
	return b.String()
}

func printedOf(t *testing.T, found []problem.Problem) string {
	t.Helper()
	var b strings.Builder
	if err := problem.Print(&b, "", found); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func provedFiles(t *testing.T, files map[string]string) []problem.Problem {
	t.Helper()
	proved, err := generator.Prove(t.Context(), folderOf(files))
	if err != nil {
		t.Fatal(err)
	}
	return proved.Problems
}

// provedAfter proves files as a build does after others that kept what they found.
func provedAfter(t *testing.T, kept *store, files map[string]string) []problem.Problem {
	t.Helper()
	proved, err := generator.ProveLettingGo(t.Context(), folderOf(files), kept)
	if err != nil {
		t.Fatal(err)
	}
	return proved.Problems
}

func folderOf(files map[string]string) fstest.MapFS {
	folder := fstest.MapFS{}
	for name, text := range files {
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return folder
}

func mistakesPack(t *testing.T) map[string]string {
	t.Helper()
	files := map[string]string{}
	root := os.DirFS("testdata/mistakes/pack")
	err := fs.WalkDir(root, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := fs.ReadFile(root, name)
		files[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func changeFiles(t *testing.T, files map[string]string, changes []change) {
	t.Helper()
	for _, c := range changes {
		if c.old == "" {
			files[c.file] = c.new
			continue
		}
		if n := strings.Count(files[c.file], c.old); n != 1 {
			t.Fatalf("%q is %d times in %s", c.old, n, c.file)
		}
		files[c.file] = strings.Replace(files[c.file], c.old, c.new, 1)
	}
}

func readMistakes(t *testing.T) []mistake {
	t.Helper()
	names, err := filepath.Glob("testdata/mistakes/*.txt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no mistakes: %v", err)
	}
	var all []mistake
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, block := range strings.Split(string(text), "\n\n") {
			if block = strings.Trim(block, "\n"); block != "" {
				all = append(all, readMistake(t, name, block))
			}
		}
	}
	return all
}

// readMistake reads one case. In its texts ⏎ ends a line, ⇥ is a tab, ␣ a blank at an end and ⍰ two bytes that are
// no text.
func readMistake(t *testing.T, name, block string) mistake {
	t.Helper()
	m := mistake{}
	file, old, fixing := "", "", false
	signs := strings.NewReplacer("⏎", "\n", "⇥", "\t", "␣", " ", "⍰", "\xff\xfe")
	for _, line := range strings.Split(block, "\n") {
		word, rest, _ := strings.Cut(line, " ")
		rest = signs.Replace(rest)
		switch word {
		case "#":
			m.title = rest
		case "in":
			file = rest
		case "-":
			old = rest
		case "+":
			c := change{file, old, rest}
			if fixing {
				m.done = append(m.done, c)
			} else {
				m.made = append(m.made, c)
			}
			old = ""
		case "error", "caution":
			parts := append(strings.SplitN(rest, " | ", 3), "", "")
			m.want = append(m.want, expected{word + " " + parts[0], parts[1], parts[2]})
		case "fix":
			fixing = true
		default:
			t.Fatalf("%s: this line is none of a mistake: %q", name, line)
		}
	}
	if m.title == "" || len(m.made) == 0 {
		t.Fatalf("%s: this is no mistake: %q", name, block)
	}
	return m
}
