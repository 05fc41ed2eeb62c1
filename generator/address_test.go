package generator_test

// Worksheets lead to pages that are there, wherever on a web server the students' pages stand.

import (
	"context"
	"net/url"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"trundle/generator"
	"trundle/site"
)

// seasonAt is a pack of two lessons with an address.
func seasonAt(address string) fstest.MapFS {
	pack := fstest.MapFS{"pack.yaml": {Data: []byte("title: Season\nversion: 1\naddress: " + address + "\n")},
		"care/cloth.md": {Data: []byte("---\ntitle: Cloth\nwho: students\nwear: []\n---\n\n## Before\n\nLook.\n\n" +
			"## During\n\nWork.\n\n## After\n\nTidy up.\n\n## If something goes wrong\n\nStop.\n")}}
	for name, week := range map[string]string{"01-one.md": "1", "02-über-den-kanal_2.md": "2"} {
		pack[name] = &fstest.MapFile{Data: []byte("---\ntitle: T\nweek: " + week +
			"\nminutes: 5\ncare: [cloth]\n---\n\n## Part (5 min)\n\nLook.\n")}
	}
	return pack
}

var leadsTo = regexp.MustCompile(`https://\S+`)

func TestCodesOnPaperLeadToPagesThatAreThere(t *testing.T) {
	proved := func(address string) *generator.Proved {
		p, err := generator.Prove(context.Background(), seasonAt(address))
		if err != nil || p.HasErrors() {
			t.Fatal(err, p.Problems)
		}
		return p
	}
	// A bundle is unpacked into a folder of a server, below a path.
	const top = "https://club.example/a/b/"
	p := proved(top + "season-1-students/students")
	zips, err := generator.Bundles(context.Background(), p, time.Time{}, func(done, all int) {})
	if err != nil {
		t.Fatal(err)
	}
	checkCodes(t, unpacked(t, zips[generator.BundleName(p, site.Students)+".zip"]), top, "season-1-students/students/")

	// Of a build, the students' folder becomes the folder of a server.
	p = proved("https://club.example/")
	files, err := generator.Draw(context.Background(), p)
	if err != nil {
		t.Fatal(err)
	}
	served := map[string][]byte{}
	for name, data := range files {
		if below, ok := strings.CutPrefix(name, "students/"); ok {
			served[below] = data
		}
	}
	checkCodes(t, served, "https://club.example/", "")
}

// checkCodes has every sheet lead to a file below a top address, and has that address on it in letters.
func checkCodes(t *testing.T, files map[string][]byte, top, folder string) {
	t.Helper()
	sheets := 0
	for name, data := range files {
		if path.Ext(name) != ".pdf" || strings.HasPrefix(path.Base(name), "season-") { // which has several pages to lead to
			continue
		}
		sheets++
		file := filepath.Join(t.TempDir(), "a.pdf")
		if err := os.WriteFile(file, data, 0o600); err != nil {
			t.Fatal(err)
		}
		links, err := exec.Command("pdfinfo", "-url", file).Output()
		if err != nil {
			t.Fatalf("this test needs pdfinfo, of poppler-utils: %v", err)
		}
		to := leadsTo.FindString(string(links))
		below, err := url.PathUnescape(strings.TrimPrefix(to, top))
		slug := strings.TrimSuffix(strings.TrimSuffix(path.Base(name), "-a4.pdf"), "-letter.pdf")
		if err != nil || files[below] == nil || below != folder+slug+".html" {
			t.Errorf("%s leads to %q, which is not its page", name, to)
		}
		text, err := exec.Command("pdftotext", "-raw", file, "-").Output()
		if letters := top + folder + slug + ".html"; err != nil || !strings.Contains(string(text), letters) {
			t.Errorf("%s has not %s on it in letters:\n%s", name, letters, text)
		}
	}
	if sheets != 4 {
		t.Errorf("%d sheets were looked at", sheets)
	}
}
