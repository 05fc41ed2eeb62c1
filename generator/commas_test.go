package generator_test

import (
	"html"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator/locale"
)

// commaPack has every kind of block with numbers that have decimals, written with commas. No prose of it has a point
// between digits.
func commaPack(t *testing.T, tag string) fstest.MapFS {
	t.Helper()
	body, err := os.ReadFile("testdata/commas.md")
	if err != nil {
		t.Fatal(err)
	}
	pack := packOf(string(body))
	set := func(name, text string) { pack[name] = &fstest.MapFile{Data: []byte(text)} }
	set("pack.yaml", "title: P\nversion: 1\nkit: heron\nlanguage: "+tag+"\nunits: {Felder: \"2,5 cm\"}\n")
	set("kits.yaml", "heron: {title: Heron, wheel: \"65,5 mm\", track: \"11,2 cm\", gear: 2.5}\n"+
		"coot: {title: Coot, wheel: \"6,55 cm\"}\n")
	set("data/r.csv", "base;stop (cm)\n"+strings.Repeat("A;120,5\nA;119,75\nB;124,25\nB;125,5\n", 3))
	return pack
}

// What people read of a page: texts, and attributes that are read aloud or shown.
var (
	unread     = regexp.MustCompile(`(?s)<(script|style|pre|head)\b.*?</(script|style|pre|head)>`)
	readAttrib = regexp.MustCompile(`\s(?:aria-label|alttext|alt|title|placeholder)="([^"]*)"`)
	anyTag     = regexp.MustCompile(`<[^>]*>`)
	withPoint  = regexp.MustCompile(`[^<>\n]{0,40}[0-9]\.[0-9][^<>\n]{0,20}`)

	inThousands = regexp.MustCompile(`\b[0-9]{1,3}(?:\.000)+\b`) // 700.000, as German has it
)

func readOf(page string) string {
	page = unread.ReplaceAllString(page, "")
	var aloud []string
	for _, m := range readAttrib.FindAllStringSubmatch(page, -1) {
		aloud = append(aloud, m[1])
	}
	return html.UnescapeString(anyTag.ReplaceAllString(page, "\n") + strings.Join(aloud, "\n"))
}

// TestNoNumberOfOursHasAPointWhereTheLanguageHasACommaBeforeDecimals reads all pages, sheets and worked steps, but the
// page that explains ±, which is the language's own text and names sections of a standard. Programs have points.
func TestNoNumberOfOursHasAPointWhereTheLanguageHasACommaBeforeDecimals(t *testing.T) {
	for _, tag := range locale.Tags() {
		if forms, err := locale.FormsOf(tag); err != nil || !forms.Commas() {
			continue
		}
		commas := 0
		for name, text := range drawn(t, commaPack(t, tag)) {
			switch {
			case strings.HasSuffix(name, "/sure.html"):
				continue
			case strings.HasSuffix(name, ".html"):
				text = readOf(text)
			case strings.Contains(name, "/steps/"): // between the tags of formulas
				text = strings.Join(regexp.MustCompile(`>[^<>{}]*<`).FindAllString(text, -1), "\n")
			case strings.HasSuffix(name, "a4.pdf"):
				cmd := exec.Command("pdftotext", "-", "-")
				cmd.Stdin = strings.NewReader(text)
				out, err := cmd.Output()
				if err != nil {
					t.Fatal(name, err)
				}
				text = strings.ReplaceAll(string(out), "drive(5.86", "drive(")
			default:
				continue
			}
			commas += len(regexp.MustCompile(`[0-9],[0-9]`).FindAllString(text, -1))
			text = inThousands.ReplaceAllString(text, "")
			for _, found := range withPoint.FindAllString(text, -1) {
				t.Errorf("%s, %s: %q", tag, name, found)
			}
		}
		if commas < 100 {
			t.Errorf("%s: only %d numbers have a comma", tag, commas)
		}
	}
}
