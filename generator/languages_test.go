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
