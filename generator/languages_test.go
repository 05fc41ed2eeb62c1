package generator_test

// That a language is a folder of data and no more: no code names one, and what lists them all lists all of them.

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator"
	"trundle/generator/locale"
)

// noTags are texts that look like the tag of a language, by the file that they are in.
var noTags = map[string]string{
	"generator/prose/mentorwords.go": "es", // an ending
	"generator/prose/phrases.go":     "es",
	"generator/prose/mentor.go":      "it", // an English word
}

func TestNoCodeNamesALanguage(t *testing.T) {
	tags := slices.DeleteFunc(locale.Tags(), func(tag string) bool { return tag == "en" })
	looked := 0
	err := filepath.WalkDir("..", func(name string, e fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			return err
		}
		looked++
		ast.Inspect(file, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			text, err := strconv.Unquote(lit.Value)
			if err == nil && slices.Contains(tags, text) && noTags[filepath.ToSlash(name[len("../"):])] != text {
				t.Errorf("%s has %q: what belongs to a language is in its folder", name, text)
			}
			return true
		})
		return nil
	})
	if err != nil || looked < 300 {
		t.Errorf("%d files: %v", looked, err)
	}
}

func TestAMarkWithASlipOfThePenIsReportedInTheLanguageOfThePack(t *testing.T) {
	for _, c := range [][3]string{
		{"de", "wenn zeit isst", "wenn zeit ist"}, {"de", "auf Papir", "auf papier"},
		{"es", "si queda tienpo", "si queda tiempo"},
		{"de", "Wenn Zeit ist", ""}, {"de", "auf kariertem Papier", ""},
	} {
		pack := commaPack(t, c[0])
		pack["01-t.md"].Data = []byte(strings.Replace(string(pack["01-t.md"].Data), "(10 min)", "(10 min) ("+c[1]+")", 1))
		proved, err := generator.Prove(t.Context(), pack)
		if err != nil {
			t.Fatal(err)
		}
		found := ""
		for _, p := range proved.Problems {
			if _, mark, is := strings.Cut(p.Hint, "write  ("); is && (p.Slug == "if-time" || p.Slug == "paper-mark") {
				found, _, _ = strings.Cut(mark, ")")
			}
		}
		if found != c[2] {
			t.Errorf("%s: of (%s) it is said that (%s) was meant, and not (%s)", c[0], c[1], found, c[2])
		}
	}
}

func TestTheGuideListsAllLanguages(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	all := locale.Either(locale.Tags())
	for _, part := range []string{"language (" + all + ")", "in " + all + " with --language"} {
		if !strings.Contains(string(readme), part) {
			t.Errorf("README.md lacks %q", part)
		}
	}
}
