package generator_test

// How the sources look, as far as a machine can say it: short lines, and a head that says what belongs in a file.

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// widest is the longest line, in characters, a tab counted as one: two of them fit side by side on a wide screen.
const widest = 120

func TestNoLineOfTheSourcesIsTooLong(t *testing.T) {
	files := 0
	err := filepath.WalkDir("..", func(name string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() && name != ".." && strings.HasPrefix(e.Name(), ".") {
			return filepath.SkipDir
		}
		if !slices.Contains([]string{".go", ".js"}, filepath.Ext(name)) {
			return nil
		}
		text, err := os.ReadFile(name)
		files++
		for _, line := range longLines(string(text)) {
			t.Errorf("%s:%s", filepath.ToSlash(strings.TrimPrefix(name, ".."+string(filepath.Separator))), line)
		}
		return err
	})
	if err != nil || files < 100 {
		t.Errorf("%d files read, %v", files, err)
	}
}

// longLines gives the numbers of lines that are too long, each with its length.
func longLines(text string) (all []string) {
	n := 0
	for line := range strings.Lines(text) {
		n++
		if length := utf8.RuneCountInString(strings.TrimRight(line, "\r\n")); length > widest {
			all = append(all, fmt.Sprintf("%d: %d characters, more than %d", n, length, widest))
		}
	}
	return all
}

func TestALongLineIsNoticed(t *testing.T) {
	text := strings.Repeat("x", widest) + "\r\n" + strings.Repeat("–", widest) + "\n\t" + strings.Repeat("x", widest)
	if got := longLines(text); len(got) != 1 || got[0] != "3: 121 characters, more than 120" {
		t.Errorf("found %q, want the third line alone", got)
	}
}

func TestEveryFileSaysWhatBelongsInIt(t *testing.T) {
	for _, files := range sources(t) {
		for _, f := range files {
			if !hasHead(f.tree) {
				t.Errorf("%s:1: the file has no comment at its head that says what belongs in it", f.name)
			}
		}
	}
}

// hasHead tells whether a file has a comment above its package clause, or between that and its
// first declaration. The comment of the declaration itself does not count.
func hasHead(f *ast.File) bool {
	if f.Doc != nil {
		return true
	}
	return slices.ContainsFunc(f.Comments, func(c *ast.CommentGroup) bool {
		above := c.Pos() < f.Package
		below := len(f.Decls) > 0 && c.End() < f.Decls[0].Pos() && c != docOf(f.Decls[0])
		return (above || below) && !isDirective(c)
	})
}

// isDirective tells whether a comment is for the compiler.
func isDirective(c *ast.CommentGroup) bool { return strings.HasPrefix(c.List[0].Text, "//go:") }

func docOf(d ast.Decl) *ast.CommentGroup {
	switch d := d.(type) {
	case *ast.FuncDecl:
		return d.Doc
	case *ast.GenDecl:
		return d.Doc
	}
	return nil
}

func TestTheCommentOfADeclarationIsNotAHead(t *testing.T) {
	for text, want := range map[string]bool{
		"// Package p is about x.\npackage p\n":                     true,
		"// About x.\n\npackage p\n":                                true,
		"package p\n\n// About x.\n\nimport \"fmt\"\n":              true,
		"package p\n\n// About x.\n\n// A is x.\ntype A int\n":      true,
		"package p\n\n// A is x.\ntype A int\n":                     false,
		"package p\n\nimport \"fmt\"\n\n// A is x.\ntype A int\n":   false,
		"//go:build linux\n\npackage p\n\n// A is x.\nvar a = 1\n":  false,
		"package p\n\n// a is x.\nfunc a() {}\n\n// b\nvar b int\n": false,
	} {
		f, err := parser.ParseFile(token.NewFileSet(), "x.go", text, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		if got := hasHead(f); got != want {
			t.Errorf("a head is found: %v, want %v, in\n%s", got, want, text)
		}
	}
}
