package worksheets_test

// The sheets of the demo pack as printers and people get them: what stands on them, in which order, what
// does not, and that other programs find nothing wrong with them.

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"unicode"

	"trundle/generator"
	"trundle/generator/lesson"
	"trundle/generator/typography"
	"trundle/generator/work"
	"trundle/worksheets"
)

// built gives a pack's lessons and the files of its site.
func built(t *testing.T, pack fs) (*generator.Proved, map[string][]byte) {
	t.Helper()
	proved, err := generator.Prove(context.Background(), pack)
	if err != nil {
		t.Fatal(err)
	}
	if proved.HasErrors() {
		t.Fatal(proved.Problems[0].What)
	}
	files, err := generator.Draw(context.Background(), proved)
	if err != nil {
		t.Fatal(err)
	}
	return proved, files
}

// builtDemo is the demo pack, built once for all tests, which only look at it.
func builtDemo(t *testing.T) (*generator.Proved, map[string][]byte) {
	t.Helper()
	lockDemo.Do(func() { demoProved, demoFiles = built(t, demo()) })
	if demoFiles == nil {
		t.Fatal("the demo pack could not be built")
	}
	return demoProved, demoFiles
}

var (
	lockDemo   sync.Once
	demoProved *generator.Proved
	demoFiles  map[string][]byte
)

// told remembers what tools have said of files, since several tests look at the same ones.
var told sync.Map

// tool runs a program of the machine on a file's bytes and gives what it says.
func tool(t *testing.T, data []byte, name string, args ...string) string {
	t.Helper()
	key := fmt.Sprintf("%x %s %q", sha256.Sum256(data), name, args)
	if said, ok := told.Load(key); ok {
		return said.(string)
	}
	said := run(t, data, name, args)
	told.Store(key, said)
	return said
}

func run(t *testing.T, data []byte, name string, args []string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatalf("this test needs %s in the PATH", name)
	}
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
	args = slices.Clone(args)
	for i, a := range args {
		if a == "FILE" {
			args[i] = file
		}
	}
	out, err := exec.Command(path, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

var oneBlank = regexp.MustCompile(`\s+`)

func text(t *testing.T, pdf []byte) string { return tool(t, pdf, "pdftotext", "-raw", "FILE", "-") }

// letters drops blanks, and hyphens of whatever kind are one.
func letters(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}

// sheetsOf are the names of a lesson's sheets in an edition.
func sheetsOf(edition string, l *work.Lesson) []string {
	var names []string
	for _, p := range worksheets.Papers {
		names = append(names, edition+"/sheets/"+l.Slug+"-"+p.Name+".pdf")
	}
	return names
}

// asked are the statements that both editions show.
func asked(l *work.Lesson) []*lesson.Statement {
	var all []*lesson.Statement
	for _, f := range l.Fields {
		if f.Statement.Kind != lesson.Given {
			all = append(all, f.Statement)
		}
	}
	return all
}

func TestASheetHoldsEachPromptInOrder(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for _, l := range proved.Lessons {
		for _, name := range append(sheetsOf("students", l), sheetsOf("mentors", l)...) {
			rest := letters(text(t, files[name]))
			for _, s := range asked(l) {
				_, after, found := strings.Cut(rest, letters(typography.Marks{}.Text(s.Prompt)))
				if !found {
					t.Errorf("%s: %q does not come, or not in its place", name, s.Prompt)
					continue
				}
				rest = after
			}
		}
	}
}

func TestAStudentsSheetHoldsNoKey(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	inMentors := 0
	for _, l := range proved.Lessons {
		students := map[string]string{}
		for _, name := range sheetsOf("students", l) {
			students[name] = withoutFigures(t, files[name])
		}
		mentors := text(t, files[sheetsOf("mentors", l)[0]])
		for _, find := range l.Finds {
			key := l.Of(find).Key
			if key == nil || key.Amount() == "1" { // also a count, as of locks and crews
				continue
			}
			for name, text := range students {
				if holds(text, key.Amount()) {
					t.Errorf("%s holds the key %s = %s", name, find.Name, key.Amount())
				}
			}
			if holds(mentors, key.Amount()) {
				inMentors++
			}
		}
	}
	if inMentors < 20 {
		t.Errorf("only %d keys are found in the mentors' sheets; the search proves little", inMentors)
	}
}

// holds looks for an amount that is no part of a longer number.
func holds(text, amount string) bool {
	pattern := `(^|[^\d.,])` + strings.ReplaceAll(regexp.QuoteMeta(amount), " ", `\s*`) + `($|[^\w/])`
	return regexp.MustCompile(pattern).MatchString(oneBlank.ReplaceAllString(text, " "))
}

func TestSheetsAreSoundAndHaveTheirFields(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	l := proved.Lessons[0]
	for _, edition := range []string{"students", "mentors"} {
		for i, name := range sheetsOf(edition, l) {
			said := tool(t, files[name], "qpdf", "--check", "FILE")
			if !strings.Contains(said, "No syntax or stream encoding errors") {
				t.Errorf("%s: %s", name, said)
			}
			info := tool(t, files[name], "pdfinfo", "FILE")
			p := worksheets.Papers[i]
			points := strings.TrimSuffix(strconv.FormatFloat(p.Width/25.4*72, 'f', 3, 64), ".000")
			for _, want := range []string{l.Title, "Author: " + proved.Pack.Title, "Page size: " + points} {
				if !strings.Contains(oneBlank.ReplaceAllString(info, " "), want) {
					t.Errorf("%s: pdfinfo does not say %q:\n%s", name, want, info)
				}
			}
			if catalog := tool(t, files[name], "qpdf", "--json", "FILE"); !strings.Contains(catalog, `"/Lang": "u:en"`) {
				t.Errorf("%s names no language", name)
			}
			if fonts := tool(t, files[name], "pdffonts", "FILE"); strings.Count(fonts, " yes yes yes") < 2 {
				t.Errorf("%s: the fonts are not embedded as subsets with their Unicode:\n%s", name,
					fonts)
			}
		}
	}
}

// TestNothingIsPrintedInTheMargin rasterises every page and looks for ink outside the
// printable area.
func TestNothingIsPrintedInTheMargin(t *testing.T) {
	t.Parallel()
	proved, files := builtDemo(t)
	for _, l := range proved.Lessons {
		for _, edition := range []string{"students", "mentors"} {
			for _, name := range sheetsOf(edition, l) {
				inkInMargin(t, name, files[name])
			}
		}
	}
	proved, files = built(t, hostile())
	for _, name := range append(sheetsOf("students", proved.Lessons[0]), sheetsOf("mentors", proved.Lessons[0])...) {
		inkInMargin(t, name, files[name])
	}
}

const coarse = 60 // dots per inch, enough to see ink

func inkInMargin(t *testing.T, name string, pdf []byte) {
	t.Helper()
	prefix := filepath.Join(t.TempDir(), "page")
	tool(t, pdf, "pdftoppm", "-r", strconv.Itoa(coarse), "-gray", "FILE", prefix)
	pages, err := filepath.Glob(prefix + "*.pgm")
	if err != nil || len(pages) == 0 {
		t.Fatalf("%s has no page: %v", name, err)
	}
	margin := worksheets.Margin*coarse*10/254 - 1 // a dot for the width of a line at the edge
	for _, page := range pages {
		data, err := os.ReadFile(page)
		if err != nil {
			t.Fatal(err)
		}
		var width, height, most int
		if _, err := fmt.Sscanf(string(data[:20]), "P5\n%d %d\n%d\n", &width, &height, &most); err != nil {
			t.Fatal(err)
		}
		pixels := data[len(data)-width*height:]
		for i, ink := range pixels {
			x, y := i%width, i/width
			outside := x < margin || y < margin || x >= width-margin || y >= height-margin
			if outside && ink < 200 {
				t.Errorf("%s, %s: ink at %d, %d of %d × %d", name, filepath.Base(page), x, y, width, height)
				break
			}
		}
	}
}

func TestTheSameLessonGivesTheSameBytes(t *testing.T) {
	t.Parallel()
	_, first := builtDemo(t)
	_, second := built(t, demo())
	for name, data := range first {
		if strings.HasSuffix(name, ".pdf") && !bytes.Equal(data, second[name]) {
			t.Errorf("%s differs from one time to the next", name)
		}
	}
}

func TestAPackWithAnAddressPrintsItsCode(t *testing.T) {
	pack := hostile()
	pack["pack.yaml"].Data = []byte("title: P\nversion: 1\naddress: https://canal.example/pack/\n")
	_, with := built(t, pack)
	_, without := built(t, hostile())
	name := "students/sheets/01-t-a4.pdf"
	urls := tool(t, with[name], "pdfinfo", "-url", "FILE")
	if !strings.Contains(urls, "https://canal.example/pack/01-t.html") {
		t.Errorf("the code leads to %q", urls)
	}
	if bytes.Equal(with[name], without[name]) {
		t.Error("the address changes nothing")
	}
}
