package generator_test

// The same sources give the same bytes, and the students' edition gives nothing away: the demo pack, built as
// a coach builds it and looked through as it is read.

import (
	"bytes"
	"context"
	"fmt"
	"html"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"

	"trundle/generator"
	"trundle/generator/lesson"
	"trundle/generator/work"
)

// TestSameSourcesSameBytes builds and bundles the demo pack twice, each time in a process of its
// own, in another folder, time zone, language and number of processors. The second pack is one that was checked out
// on Windows, with the line ends of that.
func TestSameSourcesSameBytes(t *testing.T) {
	t.Parallel()
	command := filepath.Join(t.TempDir(), "trundle")
	build := exec.Command("go", "build", "-ldflags=-s -w", "-o", command, "../cmd/trundle")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	near := filepath.Join(t.TempDir(), "here")
	far := filepath.Join(t.TempDir(), "a longer way", "größer")
	first := built(t, command, near, "\n", "TZ=Pacific/Kiritimati", "LANG=C", "LC_ALL=C", "GOMAXPROCS=1")
	second := built(t, command, far, "\r\n",
		"TZ=America/St_Johns", "LANG=tr_TR.UTF-8", "LC_ALL=tr_TR.UTF-8", "GOMAXPROCS=8")

	if a, b := names(first), names(second); !slices.Equal(a, b) {
		t.Fatalf("one build wrote\n%v\nand the other\n%v", a, b)
	}
	isNoZip := func(name string) bool { return path.Ext(name) != ".zip" }
	if zips := slices.DeleteFunc(names(first), isNoZip); len(zips) != 2 {
		t.Errorf("the bundles are %v", zips)
	}
	for name, data := range first {
		if !bytes.Equal(data, second[name]) {
			t.Errorf("%s differs between two builds of the same sources", name)
		}
		for _, dir := range []string{near, far, filepath.Dir(command)} {
			if bytes.Contains(data, []byte(dir)) {
				t.Errorf("%s names the folder %s", name, dir)
			}
		}
	}
}

// withoutCollector has a program that runs for seconds look for no garbage.
const withoutCollector = "GOGC=off"

// endLines gives all texts below a folder another line end.
func endLines(dir, lineEnd string) error {
	return filepath.WalkDir(dir, func(name string, e fs.DirEntry, err error) error {
		if err != nil || !slices.Contains([]string{".md", ".yaml", ".csv", ".svg"}, filepath.Ext(name)) {
			return err
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		return os.WriteFile(name, bytes.ReplaceAll(text, []byte("\n"), []byte(lineEnd)), 0o644)
	})
}

// built copies the demo pack into dir, its texts with the given line ends, builds and bundles it there and gives the
// files written.
func built(t *testing.T, command, dir, lineEnd string, environment ...string) map[string][]byte {
	t.Helper()
	pack, out := filepath.Join(dir, "pack"), filepath.Join(dir, "out")
	if err := os.CopyFS(pack, os.DirFS("../lessons")); err != nil {
		t.Fatal(err)
	}
	if err := endLines(pack, lineEnd); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"build", pack, "-o", out}, {"bundle", pack, "-o", filepath.Join(out, "club")}} {
		build := exec.Command(command, args...)
		build.Env = append(append(os.Environ(), withoutCollector), environment...)
		if said, err := build.CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, said)
		}
	}
	files := map[string][]byte{}
	err := fs.WalkDir(os.DirFS(out), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		files[name], err = os.ReadFile(filepath.Join(out, name))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func names(files map[string][]byte) []string { return slices.Sorted(maps.Keys(files)) }

const mentorNote = "mentor note"

// A secret is a text that students must not find in their edition.
type secret struct {
	lesson string // its slug
	what   string // "key C", "mentor note"
	text   string
}

// shownAnyway are secrets whose text students see for another reason, such as a given
// that says the same. The key is "slug text".
var shownAnyway = map[string]string{
	"06-calibration 65 mm":       "the wheel by the ruler, a given, which is also the sample of a kit's wheel",
	"08-finding-the-cause 31 mm": "a run of the log before the cloth, a given",
	"12-review 1":                "a count without a unit, as of locks and crews",
}

var (
	figure   = regexp.MustCompile(`(?s)<figure .*?</figure>`)
	numerals = regexp.MustCompile(`<text x="[^"]*">\d+</text>`) // minutes, on the tape
)

// TestStudentsEditionGivesNothingAway looks for every key, every sample value and
// every mentor note of the demo pack in what students can read of the same lesson.
func TestStudentsEditionGivesNothingAway(t *testing.T) {
	proved, files := demo(t)
	used := map[string]bool{}
	everywhere := readablePages(files, "students")
	for _, l := range proved.Lessons {
		page := numerals.ReplaceAllString(string(files[path.Join("students", l.Slug+".html")]), "")
		own := readable(page) + " ¦ " +
			readable(string(files[path.Join("students", "steps", l.Slug+".js")]))
		// Charts and tables of other runs may well hold a number that is also a sample; what
		// students find must not be there either.
		apart := readable(figure.ReplaceAllString(page, "")) + " ¦ " +
			readable(string(files[path.Join("students", "steps", l.Slug+".js")]))
		kept := secrets(l)
		if len(kept) == 0 {
			t.Errorf("%s keeps nothing from students; this test then shows nothing", l.Slug)
		}
		for _, s := range kept {
			seen := own // the same number may well be a given of another lesson
			switch {
			case s.what == mentorNote:
				seen = everywhere
			case !strings.HasPrefix(s.what, "find ") && !strings.HasPrefix(s.what, "key "):
				seen = apart
			}
			if !holds(seen, straight(s.text)) {
				continue
			}
			exception := s.lesson + " " + s.text
			if shownAnyway[exception] == "" {
				t.Errorf("%s, %s: students can read %q", s.lesson, s.what, s.text)
			}
			used[exception] = true
		}
	}
	for exception, reason := range shownAnyway {
		if !used[exception] {
			t.Errorf("%q is listed (%s), and students cannot read it", exception, reason)
		}
	}
}

// TestMentorsEditionHoldsThem shows that the search above finds what is there.
func TestMentorsEditionHoldsThem(t *testing.T) {
	proved, files := demo(t)
	for _, l := range proved.Lessons {
		seen := readable(string(files[path.Join("mentors", l.Slug+".html")]))
		for _, s := range secrets(l) {
			if strings.HasPrefix(s.what, "record ") {
				continue // its unit stands once, at the head of the table
			}
			if !holds(seen, straight(s.text)) {
				t.Errorf("%s, %s: mentors cannot read %q", s.lesson, s.what, s.text)
			}
		}
	}
}

func readablePages(files map[string][]byte, edition string) string {
	var all strings.Builder
	for _, name := range names(files) {
		if strings.HasPrefix(name, edition+"/") && strings.HasSuffix(name, ".html") {
			fmt.Fprintf(&all, " ¦ %s", readable(string(files[name])))
		}
	}
	return all.String()
}

// demo is the demo pack and the files of both its editions. They are made once for all tests, which only
// look at them.
func demo(t *testing.T) (*generator.Proved, map[string][]byte) {
	t.Helper()
	made, err := madeDemo()
	if err != nil {
		t.Fatal(err)
	}
	return made.proved, made.files
}

// demoBundles is the demo pack and its zips, by name, made once as well.
func demoBundles(t *testing.T) (*generator.Proved, map[string][]byte) {
	t.Helper()
	made, err := madeDemo()
	if err != nil {
		t.Fatal(err)
	}
	if len(made.zips) != 2 {
		t.Fatalf("the bundles are %v", names(made.zips))
	}
	return made.proved, made.zips
}

type demoMade struct {
	proved      *generator.Proved
	files, zips map[string][]byte
}

var madeDemo = sync.OnceValues(func() (made demoMade, err error) {
	ctx := context.Background()
	if made.proved, err = generator.Prove(ctx, os.DirFS("../lessons")); err != nil {
		return made, err
	}
	if made.proved.HasErrors() {
		return made, fmt.Errorf("the demo pack has errors: %v", made.proved.Problems)
	}
	if made.files, err = generator.Draw(ctx, made.proved); err != nil {
		return made, err
	}
	made.zips, err = generator.Bundles(ctx, made.proved, time.Time{}, func(done, all int) {})
	return made, err
})

func secrets(l *work.Lesson) []secret {
	var all []secret
	keep := func(what, text string) {
		if text = strings.Trim(oneLine(text), ".,;:!? "); text != "" {
			all = append(all, secret{l.Slug, what, text})
		}
	}
	for _, s := range l.Finds {
		r := l.Of(s)
		keep("find "+s.Name, r.Text())
		if r.Key != nil {
			keep("key "+s.Name, r.Key.Text())
		}
	}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *lesson.WorkBlock:
			for _, s := range n.Statements {
				keepSamples(l, s, keep)
			}
		case *ast.Text:
			// Pieces of a few words are in every sentence.
			if text := string(n.Segment.Value(l.Markdown)); lesson.ForMentors(n) && len(strings.Fields(text)) > 4 {
				keep(mentorNote, text)
			}
		}
		return ast.WalkContinue, nil
	})
	return all
}

func keepSamples(l *work.Lesson, s *lesson.Statement, keep func(what, text string)) {
	switch s.Kind {
	case lesson.Listen:
		keep(mentorNote, s.Prompt)
	case lesson.Slip:
		if s.Of.Kind == lesson.Choose { // which answer has a hint tells that it is wrong
			keep(mentorNote, s.Prompt)
		}
	case lesson.Measure:
		keep("measure "+s.Name, l.Of(s).Text())
	case lesson.Record:
		for _, number := range s.Texts {
			keep("record "+s.Name, number+" "+s.Target.Unit.Symbol())
		}
	}
}

var (
	attribute = regexp.MustCompile(`[a-z-]+="([^"]*)"`)
	tag       = regexp.MustCompile(`</?[a-zA-Z!][^>]*>`)
	inLine    = regexp.MustCompile(`</?(a|b|em|strong|code|span|m[a-z]+)\b[^>]*>`) // m…: MathML
)

// readable is all that a page says: its text, scripts too, and behind it what its
// attributes say.
func readable(page string) string {
	var said strings.Builder
	for _, t := range tag.FindAllString(page, -1) {
		for _, a := range attribute.FindAllStringSubmatch(t, -1) {
			fmt.Fprintf(&said, " ¦ %s", a[1])
		}
	}
	page = tag.ReplaceAllString(inLine.ReplaceAllString(page, ""), " ")
	return straight(oneLine(html.UnescapeString(page + said.String())))
}

// straight undoes quotation marks and apostrophes that pages set: else no text with one in it would ever be found.
func straight(s string) string {
	return strings.NewReplacer("“", `"`, "”", `"`, "‘", "'", "’", "'").Replace(s)
}

// oneLine makes a blank of every run of blanks, thin and hard ones too.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// holds looks for a text that does not go on as a longer number or word: 1.1 cm is
// not in 21.1 cm.
func holds(page, text string) bool {
	for at := 0; ; {
		i := strings.Index(page[at:], text)
		if i < 0 {
			return false
		}
		if standsAlone(page, at+i, len(text)) {
			return true
		}
		at += i + len(text)
	}
}

// standsAlone tells whether a piece of a page is no part of a longer number or word.
func standsAlone(page string, at, length int) bool {
	before, after := page[max(0, at-utf8.UTFMax):at], page[at+length:]
	return !endsNumber.MatchString(before) && !startsWord.MatchString(after)
}

var (
	endsNumber = regexp.MustCompile(`[\p{L}\p{N}.,−-]$`)
	startsWord = regexp.MustCompile(`^[\p{L}\p{N}/]`)
)
