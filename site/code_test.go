package site

import (
	"html"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/dlclark/regexp2/v2"

	"trundle/generator/lesson"
)

// languages are those that are coloured.
var languages = strings.Fields("python py c cpp c++ java javascript js json yaml bash sh html css go lua rust")

var tag = regexp.MustCompile(`<[^>]*>`)

func TestAFillStandsWhereItsStandInWas(t *testing.T) {
	const mark = "731"
	for _, language := range languages {
		for _, code := range []string{
			"x = 731\n", "f(731, 731)", "'731'", "\"a 731 b\"", "${731}", "0x731", "731731", "a731b", "# 731\n", "",
			"731", "1731.5731\n",
		} {
			var fills []fill
			for from := 0; ; {
				i := strings.Index(code[from:], mark)
				if i < 0 {
					break
				}
				fills = append(fills, fill{from + i, from + i + len(mark), "<i>@</i>"})
				from += i + len(mark)
			}
			got := html.UnescapeString(tag.ReplaceAllString(codeBlock(language, code, fills), ""))
			if want := strings.ReplaceAll(code, mark, "@") + "\n"; got != want {
				t.Errorf("%s: %q became %q", language, code, got)
			}
		}
	}
}

func TestAnUnknownLanguageIsShownPlain(t *testing.T) {
	if got := codeBlock("jungle", "a < b", nil); !strings.Contains(got, "<code>a &lt; b</code>") {
		t.Error(got)
	}
}

func TestEveryWordOfTheInterfaceIsThere(t *testing.T) {
	s, err := New("en")
	if err != nil {
		t.Fatal(err)
	}
	used := regexp.MustCompile(`say "([^"]+)"`)
	entries, err := templateFiles.ReadDir("templates")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		text, err := templateFiles.ReadFile("templates/" + e.Name())
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range used.FindAllStringSubmatch(string(text), -1) {
			if _, ok := s.words[m[1]]; !ok {
				t.Errorf("%s says %q, which is not in the language file", e.Name(), m[1])
			}
		}
	}
}

// TestNoClockDecidesHowCodeIsColoured runs a pattern for much longer than it says that it may, on longer texts until
// it takes that long on any computer.
func TestNoClockDecidesHowCodeIsColoured(t *testing.T) {
	_ = codeBlock("go", "x := 1", nil)
	slow := regexp2.MustCompile(`(?:(a|b|ab)*)*c`)
	slow.MatchTimeout = time.Millisecond
	for length, took := 10, time.Duration(0); took < 300*time.Millisecond; length++ {
		start := time.Now()
		_, err := slow.MatchString(strings.Repeat("ab", length))
		if took = time.Since(start); err != nil {
			t.Fatalf("after %v the clock gave a pattern up: %v", took, err)
		}
	}
}

func TestLongCodeIsShownInOneColour(t *testing.T) {
	var page body
	for _, code := range []string{strings.Repeat("a { color: red }\n", lesson.MaxColoured/16),
		"/* " + strings.Repeat("a{", 300) + " */"} {
		if got := codeBlock(page.inColour("css", code), code, nil); strings.Contains(got, "<span") {
			t.Errorf("%.40s… is coloured", code)
		}
	}
	short := strings.Repeat("a { color: red }\n", 100)
	coloured := 0
	for range 100 {
		if strings.Contains(codeBlock(page.inColour("css", short), short, nil), "<span") {
			coloured += len(short)
		}
	}
	if coloured == 0 || coloured > lesson.MaxColouredPage {
		t.Errorf("%d bytes of a page are coloured", coloured)
	}
}
