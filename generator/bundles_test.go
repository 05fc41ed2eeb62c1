package generator_test

// What is in the zips that a club hands out, and that no key is in the students', in no form.

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"math"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"trundle/generator"
	"trundle/generator/bundle"
	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site"
	"trundle/site/words"
)

// unpacked gives the files of a zip by their whole names.
func unpacked(t *testing.T, data []byte) map[string][]byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if files[f.Name], err = io.ReadAll(r); err != nil {
			t.Fatal(err)
		}
		if err := r.Close(); err != nil {
			t.Fatal(err)
		}
	}
	return files
}

// TestNoKeyIsInTheStudentsBundle looks through every file of the zip, whatever its form, for the
// number and unit of every key and find of the pack.
func TestNoKeyIsInTheStudentsBundle(t *testing.T) {
	t.Parallel()
	proved, zips := demoBundles(t)
	inside := map[site.Edition]map[string][]byte{}
	for _, e := range site.Editions {
		inside[e] = unpacked(t, zips[generator.BundleName(proved, e)+".zip"])
	}
	if s, m := len(inside[site.Students]), len(inside[site.Mentors]); s < 50 || m <= s {
		t.Fatalf("%d and %d files were looked at", s, m)
	}
	search, keys := newSearch(), 0
	for _, l := range proved.Lessons {
		for _, text := range answers(l) {
			search.add(text)
			keys++
		}
	}
	if keys < 200 {
		t.Errorf("only %d answers were looked for", keys)
	}
	found := map[site.Edition]map[string][]hit{}
	for _, e := range site.Editions {
		found[e] = search.through(said(t, inside[e]))
	}
	for _, l := range proved.Lessons {
		for what, text := range answers(l) {
			inOwn := func(h hit) bool { return strings.Contains(h.file, l.Slug) }
			if !slices.ContainsFunc(found[site.Mentors][text], inOwn) {
				t.Errorf("%s, %s: %q is not in the mentors' bundle, so that this test shows nothing", l.Slug, what, text)
			}
			for _, h := range found[site.Students][text] {
				if strings.HasSuffix(h.file, examples) && !inOwn(h) {
					continue // numbers made up for another lesson
				}
				t.Errorf("%s, %s: %q is in %s: …%s…", l.Slug, what, text, h.file, h.context)
			}
		}
	}
}

// TestNoKeyIsInTheStudentsFilesOfAnotherLanguage does the same where decimals come after a comma and units are words of
// the language.
func TestNoKeyIsInTheStudentsFilesOfAnotherLanguage(t *testing.T) {
	t.Parallel()
	proved, err := generator.Prove(t.Context(), os.DirFS("../cmd/trundle/starter/es/pack"))
	if err != nil {
		t.Fatal(err)
	}
	files, err := generator.Draw(t.Context(), proved)
	if err != nil {
		t.Fatal(err)
	}
	spanish, err := words.Load("es")
	if err != nil {
		t.Fatal(err)
	}
	inside := map[site.Edition]map[string][]byte{}
	for _, e := range site.Editions {
		inside[e] = maps.Clone(files)
		maps.DeleteFunc(inside[e], func(name string, _ []byte) bool { return !strings.HasPrefix(name, string(e)+"/") })
	}
	search := newSearch()
	for _, l := range proved.Lessons {
		for _, text := range answers(l) {
			search.add(spanish.Number(text))
		}
	}
	students, mentors := search.through(said(t, inside[site.Students])), search.through(said(t, inside[site.Mentors]))
	for _, l := range proved.Lessons {
		for what, text := range answers(l) {
			text = spanish.Number(text)
			if len(mentors[text]) == 0 {
				t.Errorf("%s: %q is not in the mentors' files, so that this test shows nothing", what, text)
			}
			for _, h := range students[text] {
				if !strings.HasSuffix(h.file, examples) {
					t.Errorf("%s: %q is in %s: …%s…", what, text, h.file, h.context)
				}
			}
		}
	}
	if len(mentors) < 4 {
		t.Errorf("only %d answers were looked for", len(mentors))
	}
}

// answers are the texts of a lesson's keys and finds, each with what it is.
func answers(l *work.Lesson) map[string]string {
	all := map[string]string{}
	for _, s := range l.Finds {
		r := l.Of(s)
		if q, ok := r.Quantity(); !ok || q.Unit.Symbol() == "" { // a find that a guess is in has no answer to keep
			continue
		}
		all["find "+s.Name] = oneLine(r.Text())
		if r.Key != nil {
			number, _, _ := strings.Cut(oneLine(r.Key.Text()), " within") // which comes behind the unit
			all["key "+s.Name] = number
		}
	}
	return all
}

// A search looks for many answers in one walk through a text: each in several forms, found by how
// they start.
type search struct {
	texts  map[string][]string // the answers that a form belongs to
	starts map[string][]string // the forms, by their first bytes
}

// startsBy is how many bytes forms are found by; no form is shorter.
const startsBy = 2

// A hit is where an answer was found first in a file, with the words around it.
type hit struct{ file, context string }

func newSearch() search { return search{map[string][]string{}, map[string][]string{}} }

// add has a number with its unit looked for, however they are set apart.
func (s search) add(text string) {
	for _, form := range []string{text, strings.ReplaceAll(text, " ", ""), strings.ReplaceAll(text, ".", ",")} {
		if len(s.texts[form]) == 0 {
			s.starts[form[:startsBy]] = append(s.starts[form[:startsBy]], form)
		}
		if !slices.Contains(s.texts[form], text) {
			s.texts[form] = append(s.texts[form], text)
		}
	}
}

// through gives the files that hold each answer.
func (s search) through(files map[string]string) map[string][]hit {
	found := map[string][]hit{}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		all, seen := files[name], map[string]bool{}
		for at := 0; at+startsBy <= len(all); at++ {
			for _, form := range s.starts[all[at:at+startsBy]] {
				if !strings.HasPrefix(all[at:], form) || !standsAlone(all, at, len(form)) {
					continue
				}
				for _, text := range s.texts[form] {
					if !seen[text] {
						found[text] = append(found[text], hit{name, all[max(0, at-40):min(len(all), at+len(form)+20)]})
					}
					seen[text] = true
				}
			}
		}
	}
	return found
}

// examples are the ends of the names under which said has what helps a team that is stuck: the same
// calculation with numbers made up for it.
const examples = " examples.js"

// said is all that each file says: pages and scripts with their attributes, texts of scripts
// decoded, the text and the properties of PDFs, their parts unpacked, and what is in base64.
func said(t *testing.T, files map[string][]byte) map[string]string {
	t.Helper()
	all := map[string]string{}
	pdfs := textsOf(t, files)
	parts := map[string]string{}
	for name, data := range files {
		script, more, ok := strings.Cut(string(data), "trundle.more=")
		if parts[name] = string(data); ok && path.Ext(name) == ".js" {
			parts[name], parts[strings.TrimSuffix(name, ".js")+examples] = script, more
		}
	}
	for name, text := range parts {
		switch path.Ext(name) {
		case ".pdf":
			text = pdfs[name]
		case ".html", ".svg":
			text = readable(text)
		case ".js":
			text = readable(text) + " ¦ " + readable(decoded(text))
		}
		for _, packed := range base64Text.FindAllString(text, -1) {
			if plain, err := base64.StdEncoding.DecodeString(packed); err == nil {
				text += " ¦ " + string(plain)
			}
		}
		all[name] = oneLine(name + " ¦ " + text)
	}
	return all
}

// textsRead are what PDFs say that have been read, by their bytes: the mentors' bundle has the students' sheets too.
var textsRead sync.Map

// textsOf gives what all PDFs among the files say, several of them read side by side.
func textsOf(t *testing.T, files map[string][]byte) map[string]string {
	t.Helper()
	var pdfs []string
	for _, name := range names(files) {
		if path.Ext(name) == ".pdf" {
			pdfs = append(pdfs, name)
		}
	}
	texts, errs := make([]string, len(pdfs)), make([]error, len(pdfs))
	var wait sync.WaitGroup
	room := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i, name := range pdfs {
		file := filepath.Join(t.TempDir(), "a.pdf")
		wait.Go(func() {
			room <- struct{}{}
			defer func() { <-room }()
			if read, ok := textsRead.Load(string(files[name])); ok {
				texts[i] = read.(string)
				return
			}
			if texts[i], errs[i] = textOf(file, files[name]); errs[i] == nil {
				textsRead.Store(string(files[name]), texts[i])
			}
		})
	}
	wait.Wait()
	all := map[string]string{}
	for i, name := range pdfs {
		if errs[i] != nil {
			t.Fatal(errs[i])
		}
		all[name] = texts[i]
	}
	return all
}

var (
	base64Text = regexp.MustCompile(`[A-Za-z0-9+/]{16,}={0,2}`)
	jsText     = regexp.MustCompile(`"(?:[^"\\\n]|\\.)*"`)
)

// decoded gives the texts that a script writes in quotes, as they are once they are read.
func decoded(script string) string {
	var b strings.Builder
	for _, quoted := range jsText.FindAllString(script, -1) {
		var text string
		if json.Unmarshal([]byte(quoted), &text) == nil {
			fmt.Fprintf(&b, " ¦ %s", text)
		}
	}
	return b.String()
}

// textOf is what a PDF says: its text, without the centimetres of the edge at its right, which would get in between
// words; the alternatives and other words of its objects, and its properties. It is put into a file of the given name
// for that.
func textOf(file string, pdf []byte) (string, error) {
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		return "", err
	}
	var all strings.Builder
	for _, command := range [][]string{
		{"pdftotext", "-raw", "-x", "0", "-y", "0", "-W", textWidth, "-H", "900", file, "-"}, {"pdfinfo", file},
		{"pdfinfo", "-meta", file}, {"qpdf", "--json", "--json-key=qpdf", file},
	} {
		out, err := exec.Command(command[0], command[1:]...).Output()
		if err != nil {
			return "", fmt.Errorf("this test needs %s: %w", command[0], err)
		}
		fmt.Fprintf(&all, " ¦ %s", ofTool.ReplaceAll(out, nil))
	}
	return all.String(), nil
}

// textWidth is where the edge begins, in points from the left: 189 mm on A4. On Letter it begins 6 mm farther right.
const textWidth = "535"

// ofTool matches what qpdf says of page 35, say, which is not in the file.
var ofTool = regexp.MustCompile(`(?m)^%% (Page|Contents for page|Original object ID:) .*$`)

var programOf = regexp.MustCompile(`"n":"([^"]*)","k":"find"[^{}]*?"p":"([^"]*)"`)

// TestNoProgramHoldsWhatItComesTo looks at what checks answers: it may work one out of what is
// given and measured, and must not start from it.
func TestNoProgramHoldsWhatItComesTo(t *testing.T) {
	proved, files := demo(t)
	seen := 0
	for _, l := range proved.Lessons {
		values := map[string]float64{}
		for _, s := range l.Finds {
			if q, ok := l.Of(s).Quantity(); ok {
				values[s.Name] = q.Number
			}
		}
		for _, field := range programOf.FindAllStringSubmatch(string(files["students/steps/"+l.Slug+".js"]), -1) {
			seen++
			for _, word := range strings.Fields(field[2]) {
				if x, err := strconv.ParseFloat(word, 64); err == nil && math.Abs(x-values[field[1]]) <= 1e-9*math.Abs(x) {
					t.Errorf("%s: the program of %s, %q, holds what it comes to", l.Slug, field[1], field[2])
				}
			}
		}
	}
	if seen < 100 {
		t.Errorf("only %d programs were looked at", seen)
	}
}

func TestABundleIsNamedByThePackAlone(t *testing.T) {
	for _, c := range []struct{ title, version, want string }{
		{"Canal Day", "1.0.0", "canal-day-1.0.0-students"},
		{"  Über/../Fluß: “Tag” 2 ", "v1 beta", "über----fluß-tag-2-v1-beta-students"},
		{"../../etc", "", "etc-students"},
		{"日本", "1", "日本-1-students"},
		{"?!", "…", "pack-students"},
		{strings.Repeat("ö", 300), "1", strings.Repeat("ö", 40) + "-1-students"},
	} {
		p := &generator.Proved{Pack: &lesson.Pack{Title: c.title, Version: c.version}}
		if got := generator.BundleName(p, site.Students); got != c.want {
			t.Errorf("%q, %q: the name is %q, want %q", c.title, c.version, got, c.want)
		}
	}
}

func TestWhatIsInABundle(t *testing.T) {
	proved, files := demo(t)
	_, zips := demoBundles(t)
	for _, e := range site.Editions {
		folder := generator.BundleName(proved, e)
		inside := unpacked(t, zips[folder+".zip"])
		want := []string{folder + "/START-HERE.html", folder + "/CONTENTS.txt", folder + "/SHA256SUMS",
			folder + "/index.html", folder + "/offline.js"}
		for name := range files {
			if strings.HasPrefix(name, string(e)+"/") || e == site.Mentors && strings.HasPrefix(name, "students/sheets/") {
				want = append(want, folder+"/"+name)
			}
		}
		slices.Sort(want)
		if got := names(inside); !slices.Equal(got, want) {
			t.Errorf("%s holds\n%v\nwant\n%v", folder, got, want)
		}
		// Both workers keep the single sheets; the season in one file would be all of them once more.
		above, own := inside[folder+"/offline.js"], inside[folder+"/"+string(e)+"/offline.js"]
		if bytes.Contains(above, []byte("sheets/season-")) || bytes.Contains(own, []byte("sheets/season-")) ||
			!bytes.Contains(own, []byte("sheets/01-")) || bytes.Contains(own, []byte("-mentor-a4.pdf")) != (e == site.Mentors) {
			t.Errorf("%s keeps the season in one file, or not the sheets of its edition", folder)
		}
		list := string(inside[folder+"/CONTENTS.txt"])
		for name, data := range inside {
			below := strings.TrimPrefix(name, folder+"/")
			if below == bundle.Contents || below == bundle.Sums {
				continue
			}
			line := regexp.MustCompile(fmt.Sprintf(`(?m)^ *%d  %s +\pL`, len(data), regexp.QuoteMeta(below)))
			if !line.MatchString(list) {
				t.Errorf("%s does not list %s with its size and what it is", folder, below)
			}
		}
	}
}
