package browser

// The demo pack, and small packs of a test's own, built into folders that a browser can open.

import (
	"context"
	"fmt"
	"html"
	"io/fs"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"trundle/generator"
	"trundle/generator/bundle"
	"trundle/generator/work"
	"trundle/site"
)

// Lesson3 is the lesson that most tests are about.
const Lesson3 = "students/03-rotations-for-a-distance.html"

// A Built is a pack's site on the disk.
type Built struct {
	Dir     string
	Files   map[string][]byte
	Pages   []string // names of the HTML files, sorted
	Lessons []*work.Lesson
}

// Root is the address of the folder.
func (b Built) Root() string { return "file://" + filepath.ToSlash(b.Dir) + "/" }

var demo struct {
	once  sync.Once
	dir   string
	built Built
	err   error
}

// Lessons is the folder of the demo pack, wherever below the project the test of a package runs.
func Lessons() string {
	top := ""
	for {
		if _, err := os.Stat(filepath.Join(top, "go.mod")); err == nil || len(top) > 200 {
			return filepath.Join(top, "lessons")
		}
		top = filepath.Join(top, "..")
	}
}

// Demo is the demo pack's site, built once for all tests of a package, which leave it as it is.
func Demo(t testing.TB) Built {
	t.Helper()
	demo.once.Do(func() {
		if demo.dir, demo.err = os.MkdirTemp("", "demo"); demo.err == nil {
			demo.built, demo.err = build(os.DirFS(Lessons()), demo.dir)
		}
	})
	if demo.err != nil {
		t.Fatal(demo.err)
	}
	return demo.built
}

// Build builds a pack into a folder of the test.
func Build(t testing.TB, pack fs.FS) Built {
	t.Helper()
	built, err := build(pack, t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	return built
}

func build(pack fs.FS, dir string) (Built, error) {
	built := Built{Dir: dir}
	proved, err := generator.Prove(context.Background(), pack)
	if err != nil {
		return built, err
	}
	if proved.HasErrors() {
		return built, fmt.Errorf("the pack has errors: %v", proved.Problems)
	}
	built.Lessons = proved.Lessons
	if built.Files, err = generator.Draw(context.Background(), proved); err != nil {
		return built, err
	}
	if err := starts(proved, built.Files); err != nil {
		return built, err
	}
	for name, data := range built.Files {
		to := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			return built, err
		}
		if err := os.WriteFile(to, data, 0o644); err != nil {
			return built, err
		}
		if strings.HasSuffix(name, ".html") {
			built.Pages = append(built.Pages, name)
		}
	}
	slices.Sort(built.Pages)
	return built, nil
}

// starts puts the pages that the bundles start with above the editions, where they look for them.
func starts(p *generator.Proved, files map[string][]byte) error {
	s, err := site.New(p.Pack.Language)
	if err != nil {
		return err
	}
	for _, e := range site.Editions {
		if files["START-"+string(e)+".html"], err = s.StartHere(p.Pack, e); err != nil {
			return err
		}
	}
	files[bundle.Contents] = nil
	files[site.OfflineScript], err = s.Above(site.Files{}) // both bundles' pages ask for one beside them
	return err
}

// care is the care card of a small pack.
const care = "---\ntitle: Cloth\nwho: students\nwear: []\n---\n\n## Before\n\nLook.\n\n" +
	"## During\n\nWork.\n\n## After\n\nTidy up.\n\n## If something goes wrong\n\nStop.\n"

// PackOf is a pack of one lesson, 01-t.md, with the given body.
func PackOf(body string) fstest.MapFS {
	pack := fstest.MapFS{}
	for name, text := range map[string]string{
		"pack.yaml": "title: P\nversion: 1\nkit: heron\n",
		"kits.yaml": "heron: {title: Heron, wheel: 65 mm, track: 112 mm, gear: 3}\n" +
			"coot: {title: Coot, wheel: 48 mm, track: 96 mm, gear: 1}\n",
		"care/cloth.md": care,
		"01-t.md":       "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n\n" + body,
	} {
		pack[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return pack
}

// BuildOf builds PackOf a body.
func BuildOf(t testing.TB, body string) Built {
	t.Helper()
	return Build(t, PackOf(body))
}

// Both gives the page of each edition whose name starts with prefix.
func (b Built) Both(t *testing.T, prefix string) []string {
	t.Helper()
	var found []string
	for _, name := range b.Pages {
		if strings.HasPrefix(path.Base(name), prefix) {
			found = append(found, name)
		}
	}
	if len(found) != 2 {
		t.Fatalf("%q is the start of %v; one page an edition was expected", prefix, found)
	}
	return found
}

var named = regexp.MustCompile(`\sid="([^"]*)"`)

// Broken tells why a link of a page leads nowhere, "" if it does lead somewhere. Web
// and mail addresses are the author's affair.
func (b Built) Broken(from, to string) string {
	u, err := url.Parse(to)
	switch {
	case err != nil:
		return err.Error()
	case u.Scheme == "https" || u.Scheme == "http" || u.Scheme == "mailto" || u.Scheme == "data":
		return ""
	case u.Scheme != "" || u.Host != "" || strings.HasPrefix(u.Path, "/"):
		return "it is not relative"
	}
	target := from
	if u.Path != "" {
		target = path.Join(path.Dir(from), u.Path)
	}
	// A mentors' bundle has the students' sheets beside its pages, and nothing else of theirs.
	isSheet := strings.HasPrefix(from, "mentors/") && strings.HasPrefix(target, "students/sheets/")
	if edition, _, inside := strings.Cut(from, "/"); inside && !isSheet && !strings.HasPrefix(target, edition+"/") {
		return "it leaves its edition"
	}
	page, ok := b.Files[target]
	if !ok {
		return "there is no file " + target
	}
	if u.Fragment == "" {
		if strings.HasSuffix(to, "#") {
			return "it has no target"
		}
		return ""
	}
	for _, id := range named.FindAllSubmatch(page, -1) {
		if html.UnescapeString(string(id[1])) == u.Fragment {
			return ""
		}
	}
	return target + " has nothing of the name " + u.Fragment
}
