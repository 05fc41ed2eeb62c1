package site_test

// The typeface of the pages: how large it is, and that it and its licence go wherever pages go.

import (
	"bytes"
	"strings"
	"testing"

	"trundle/generator/source"
	"trundle/generator/tally"
	"trundle/site"
)

func TestTheTypefaceIsSmallAndItsLicenceGoesWithIt(t *testing.T) {
	s, err := site.New("en")
	if err != nil {
		t.Fatal(err)
	}
	report, problems := tally.Of([]*source.File{source.NewFile("a.csv", []byte("base,s (cm)\nHeron,1\nHeron,2\n"))},
		tally.Options{})
	if problems.HasErrors() {
		t.Fatal(problems.Sorted()[0].What)
	}
	tallied, err := s.Tally(report)
	if err != nil {
		t.Fatal(err)
	}
	edition, above := strings.Join(site.AssetNames(), "\n"), strings.Join(site.StartAssets(), "\n")
	style, err := s.Asset(nil, site.StyleSheet)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range site.Typeface {
		data, err := s.Asset(nil, name)
		if err != nil {
			t.Fatal(err)
		}
		if len(data) > 25_000 {
			t.Errorf("%s is of %d bytes, more than 25,000", name, len(data))
		}
		if !bytes.Equal(tallied[name], data) || !strings.Contains(edition, name) {
			t.Errorf("%s is not beside all pages", name)
		}
		if !strings.HasSuffix(name, ".woff2") {
			continue
		}
		if !bytes.HasPrefix(data, []byte("wOF2")) || !strings.Contains(above, name) {
			t.Errorf("%s is not a font in WOFF2, or the page that a bundle starts with does without it", name)
		}
		if !bytes.Contains(style, []byte("url("+strings.TrimPrefix(name, "assets/")+")")) {
			t.Errorf("the style sheet does not ask for %s", name)
		}
	}
	licence, err := s.Asset(nil, "assets/fonts.txt")
	for _, part := range []string{"SIL OPEN FONT LICENSE Version 1.1", "Copyright (c) 2004-2022 SIL International",
		`Reserved Font Names "Andika" and "SIL"`, "modified version"} {
		if err != nil || !bytes.Contains(licence, []byte(part)) {
			t.Errorf("the licence of the typeface lacks %q (%v)", part, err)
		}
	}
}
