package site_test

// The version of an edition: what it comes of, and where it is put.

import (
	"bytes"
	"io"
	"maps"
	"regexp"
	"strings"
	"testing"

	"trundle/site"
)

// edition is made of hostile files: an author writes what stands for the version.
func edition() map[string][]byte {
	return map[string][]byte{
		"sheets/a.pdf": []byte(site.Draft), "sheets/season-a4.pdf": []byte("all of them"),
		"pictures/a.svg": []byte("<svg>"), "assets/site.css": []byte("a{}"),
		"index.html": []byte(`<html data-version="` + site.Draft + `"><head></head><p>` + site.Draft),
		"steps/a.js": []byte(`stamp="` + site.Draft + `";"` + site.Draft + `"`),
	}
}

func completed(t *testing.T, files map[string][]byte) (changed map[string][]byte, version string) {
	t.Helper()
	s, err := site.New("en")
	if err != nil {
		t.Fatal(err)
	}
	sizes := map[string]int{}
	for name, data := range files {
		sizes[name] = len(data)
	}
	done, err := s.Complete(site.Files{Sizes: sizes, Open: func(name string) (io.ReadCloser, error) {
		return io.NopCloser(bytes.NewReader(files[name])), nil
	}})
	if err != nil {
		t.Fatal(err)
	}
	changed = done.Added
	for name, data := range files {
		if site.HasVersion(name) {
			var with bytes.Buffer
			if err := site.PutVersion(&with, name, bytes.NewReader(data), done.Version); err != nil {
				t.Error(err)
			}
			changed[name] = with.Bytes()
		}
	}
	found := regexp.MustCompile(`newest="([0-9a-f]{16})"`).FindSubmatch(changed[site.VersionScript])
	if found == nil {
		t.Fatalf("no version in %s", changed[site.VersionScript])
	}
	return changed, string(found[1])
}

func TestAVersionIsPutIntoHeadsAndNowhereElse(t *testing.T) {
	changed, version := completed(t, edition())
	for name, want := range map[string]string{
		"index.html": `<html data-version="` + version + `"><head></head><p>` + site.Draft,
		"steps/a.js": `stamp="` + version + `";"` + site.Draft + `"`,
	} {
		if got := string(changed[name]); got != want {
			t.Errorf("%s: %s", name, got)
		}
	}
	delete(changed, site.VersionScript)
	if worker := string(changed[site.OfflineScript]); !strings.Contains(worker, version) ||
		!strings.Contains(worker, `["assets/site.css","index.html","steps/a.js","pictures/a.svg","sheets/a.pdf"]`) {
		t.Errorf("the worker is %.300s", worker)
	}
	if len(changed) != 3 {
		t.Errorf("changed are %d files", len(changed))
	}
}

// TestAVersionIsPutWhereItBelongsInLinesOfAnyLength has heads that end anywhere, and lines that are longer than what is
// read at once.
func TestAVersionIsPutWhereItBelongsInLinesOfAnyLength(t *testing.T) {
	const link = `<link rel="stylesheet" href="assets/log.css?v=`
	long := strings.Repeat("a", 1<<16)
	// The version belongs where + is, and - is a draft that an author wrote.
	for _, c := range []struct{ name, text string }{
		{"a.html", "<html +>\n<link +>\n</head>-\n" + link + "+\">-\n-"},
		{"a.html", "<html +></head>" + long + link + `+">` + long + link + `+">-` + long},
		{"a.html", long + "+" + long + "+</head></head>-\n\n"},
		{"a.html", "+"},
		{"a.html", ""},
		{"a.js", "+--\n-" + long + "\n-"},
		{"a.js", "\n" + long + "+" + long + "-\n"},
		{"a.js", "no end"},
	} {
		of := func(version string) string { return strings.NewReplacer("+", version, "-", site.Draft).Replace(c.text) }
		var with strings.Builder
		if err := site.PutVersion(&with, c.name, strings.NewReader(of(site.Draft)), "0123456789abcdef"); err != nil {
			t.Error(err)
		}
		if want := of("0123456789abcdef"); with.String() != want {
			t.Errorf("%.60s… of %d bytes became %.60s… of %d", c.text, len(want), with.String(), with.Len())
		}
	}
}

func TestAnyChangeOfAnEditionGivesAnotherVersion(t *testing.T) {
	_, first := completed(t, edition())
	if _, again := completed(t, edition()); again != first {
		t.Error("the same files have another version")
	}
	for name := range edition() {
		changed := edition()
		changed[name] = append(changed[name], ' ')
		if _, got := completed(t, changed); got == first {
			t.Errorf("%s has changed, and the version has not", name)
		}
		maps.DeleteFunc(changed, func(other string, _ []byte) bool { return other == name })
		if _, got := completed(t, changed); got == first {
			t.Errorf("%s is gone, and the version is the same", name)
		}
	}
}
