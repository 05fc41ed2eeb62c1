package generator_test

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator"
	"trundle/generator/bundle"
	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site"
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
	proved, _ := demo(t)
	zips, err := generator.Bundles(t.Context(), proved, bundle.Epoch, func(done, all int) {})
	if err != nil {
		t.Fatal(err)
	}
	students := said(t, unpacked(t, zips[generator.BundleName(proved, site.Students)+".zip"]))
	mentors := said(t, unpacked(t, zips[generator.BundleName(proved, site.Mentors)+".zip"]))
	if len(students) < 50 || len(mentors) <= len(students) {
		t.Fatalf("%d and %d files were looked at", len(students), len(mentors))
	}
	keys := 0
	for _, l := range proved.Lessons {
		for what, text := range answers(l) {
			keys++
			found := false
			for name, text := range among(mentors, text) {
				found = found || strings.Contains(name, l.Slug) && text != ""
			}
			if !found {
				t.Errorf("%s, %s: %q is not in the mentors' bundle, so that this test shows nothing", l.Slug, what, text)
			}
			for name, context := range among(students, text) {
				t.Errorf("%s, %s: %q is in %s: …%s…", l.Slug, what, text, name, context)
			}
		}
	}
	if keys < 200 {
		t.Errorf("only %d answers were looked for", keys)
	}
}

// answers are the texts of a lesson's keys and finds, each with what it is.
func answers(l *work.Lesson) map[string]string {
	all := map[string]string{}
	for _, s := range l.Finds {
		r := l.Of(s)
		if q, ok := r.Quantity(); ok && q.Unit.Symbol() == "" {
			continue
		}
		all["find "+s.Name] = oneLine(r.Text())
		if r.Key != nil {
			number, _, _ := strings.Cut(oneLine(r.Key.Text()), " ±") // which comes behind the unit
			all["key "+s.Name] = number
		}
	}
	return all
}

// among gives the files that hold a number with its unit, however they are set apart, with the words around it.
func among(files map[string]string, text string) map[string]string {
	found := map[string]string{}
	for _, form := range []string{text, strings.ReplaceAll(text, " ", ""), strings.ReplaceAll(text, ".", ",")} {
		for name, all := range files {
			if holds(all, form) {
				at := strings.Index(all, form)
				found[name] = all[max(0, at-40):min(len(all), at+len(form)+20)]
			}
		}
	}
	return found
}

// said is all that each file says: pages and scripts with their attributes, texts of scripts
// decoded, the text and the properties of PDFs, their parts unpacked, and what is in base64.
func said(t *testing.T, files map[string][]byte) map[string]string {
	t.Helper()
	all := map[string]string{}
	for name, data := range files {
		text := string(data)
		switch path.Ext(name) {
		case ".pdf":
			text = textOf(t, data)
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

// textOf is what a PDF says: its text in two orders, its properties, and its streams unpacked.
func textOf(t *testing.T, pdf []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "a.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, command := range [][]string{
		{"pdftotext", "-layout", file, "-"}, {"pdftotext", "-raw", file, "-"}, {"pdfinfo", file},
		{"qpdf", "--qdf", "--object-streams=disable", file, "-"},
	} {
		out, err := exec.Command(command[0], command[1:]...).Output()
		if err != nil {
			t.Fatalf("this test needs %s: %v", command[0], err)
		}
		fmt.Fprintf(&all, " ¦ %s", out)
	}
	return all.String()
}

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
	zips, err := generator.Bundles(t.Context(), proved, bundle.Epoch, func(done, all int) {})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range site.Editions {
		folder := generator.BundleName(proved, e)
		inside := unpacked(t, zips[folder+".zip"])
		want := []string{folder + "/START-HERE.html", folder + "/CONTENTS.txt", folder + "/SHA256SUMS"}
		for name := range files {
			if strings.HasPrefix(name, string(e)+"/") || e == site.Mentors && strings.HasPrefix(name, "students/sheets/") {
				want = append(want, folder+"/"+name)
			}
		}
		slices.Sort(want)
		if got := names(inside); !slices.Equal(got, want) {
			t.Errorf("%s holds\n%v\nwant\n%v", folder, got, want)
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
