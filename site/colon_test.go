package site_test

// Colons and quotation marks beside texts of the interface are the language's: French has a blank before a colon, so no
// template, script or Go code writes its own.

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func TestNoTemplateWritesAColonAfterAText(t *testing.T) {
	own := regexp.MustCompile(`\}\}(?:</a>)?:[ <].{0,20}`)
	names, err := filepath.Glob("templates/*.html")
	if err != nil || len(names) < 10 {
		t.Fatalf("%d templates: %v", len(names), err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, found := range own.FindAll(text, -1) {
			t.Errorf(`%s: %s: write {{say "colon"}}`, name, found)
		}
	}
}

// ownMarks are those of English, which a script or Go code puts beside what it says. In Go, faults have them.
var ownMarks = map[string]*regexp.Regexp{
	".js": regexp.MustCompile("[“”]|\\}: |(?:join\\(|\\+ )\": \""),
	".go": regexp.MustCompile(`(?:(?:say|Say)\([^\n]*\)|Title) ?\+ ?":`),
}

func TestNothingPutsMarksOfItsOwnBesideATextOfTheInterface(t *testing.T) {
	looked := 0
	for _, root := range []string{".", "../worksheets"} {
		err := filepath.WalkDir(root, func(name string, e fs.DirEntry, err error) error {
			own := ownMarks[filepath.Ext(name)]
			if err != nil || own == nil || strings.HasSuffix(name, "_test.go") || strings.Contains(name, "testdata") {
				return err
			}
			text, err := os.ReadFile(name)
			looked++
			for line := range bytes.Lines(text) {
				isRemark := bytes.HasPrefix(bytes.TrimSpace(line), []byte("//"))
				if found := own.Find(line); found != nil && !isRemark && !bytes.Contains(line, []byte("const typed =")) {
					t.Errorf(`%s: %s in %s: say "colon" or "quote"`, name, found, line)
				}
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if looked < 100 {
		t.Errorf("%d files", looked)
	}
}
