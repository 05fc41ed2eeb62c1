package generator_test

// Tests that the list of kinds of problems is complete, and that each kind is made by some test.

import (
	"go/ast"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/problem"
)

// TestEveryProblemIsInTheListAndOnlyThose compares the slugs in the source with problem.Kinds.
func TestEveryProblemIsInTheListAndOnlyThose(t *testing.T) {
	used := slugsInSource(t)
	if len(used) < 100 {
		t.Fatalf("only %d slugs were found in the source: %v", len(used), slices.Sorted(maps.Keys(used)))
	}
	listed := map[string]bool{}
	for i, k := range problem.Kinds() {
		listed[k.Slug] = true
		if used[k.Slug] == "" {
			t.Errorf("kinds.csv has a row for %s, which nothing in the source uses", k.Slug)
		}
		if i > 0 && problem.Kinds()[i-1].Slug >= k.Slug {
			t.Errorf("kinds.csv: %s is out of order", k.Slug)
		}
		for _, text := range []string{k.Meaning, k.Do} {
			if text != "" && !strings.ContainsAny(text[len(text)-1:], ".?") && !strings.HasSuffix(text, "…") {
				t.Errorf("kinds.csv: %q of %s is not a sentence", text, k.Slug)
			}
		}
		if k.Meaning == "" {
			t.Errorf("kinds.csv does not say what %s means", k.Slug)
		}
	}
	for slug, at := range used {
		if !listed[slug] {
			t.Errorf("%s uses %s, which has no row in generator/problem/kinds.csv", at, slug)
		}
	}
}

// TestEveryProblemIsMadeByATest looks for each slug in what scripts and tests expect.
func TestEveryProblemIsMadeByATest(t *testing.T) {
	expected := expectations(t)
	for _, k := range problem.Kinds() {
		if !expected[k.Slug] {
			t.Errorf("no test expects %s; make it in cmd/trundle/testdata/script", k.Slug)
		}
	}
}

var slugForm = regexp.MustCompile(`^[a-z]+(?:-[a-z0-9]+)*$`)

// slugsInSource finds every literal that becomes a slug, with the file it is in: those that are passed on for a
// parameter of that name, and those that a field or variable of that name is set to.
func slugsInSource(t *testing.T) map[string]string {
	t.Helper()
	type function struct {
		name       string
		parameters int
	}
	places := map[function]int{} // of the slug among the parameters
	packages := sources(t)
	for _, files := range packages {
		for _, f := range files {
			ast.Inspect(f.tree, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.FuncDecl:
					if at, count := slugParameter(n.Type); at >= 0 {
						places[function{n.Name.Name, count}] = at
					}
				case *ast.AssignStmt:
					for i, value := range n.Rhs {
						literal, isFunction := value.(*ast.FuncLit)
						if !isFunction {
							continue
						}
						if at, count := slugParameter(literal.Type); at >= 0 {
							places[function{lastName(n.Lhs[i]), count}] = at
						}
					}
				}
				return true
			})
		}
	}
	used := map[string]string{}
	for _, files := range packages {
		for _, f := range files {
			note := func(e ast.Expr) {
				if literal, ok := e.(*ast.BasicLit); ok && literal.Kind == token.STRING {
					if slug, _ := strconv.Unquote(literal.Value); slugForm.MatchString(slug) {
						used[slug] = f.name
					}
				}
			}
			ast.Inspect(f.tree, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.CallExpr:
					if at, ok := places[function{lastName(n.Fun), len(n.Args)}]; ok {
						note(n.Args[at])
					}
				case *ast.KeyValueExpr:
					if strings.EqualFold(lastName(n.Key), "slug") {
						note(n.Value)
					}
				case *ast.AssignStmt:
					for i := range min(len(n.Lhs), len(n.Rhs)) {
						if strings.EqualFold(lastName(n.Lhs[i]), "slug") {
							note(n.Rhs[i])
						}
					}
				}
				return true
			})
		}
	}
	return used
}

// slugParameter gives the place of the parameter slug, -1 if there is none, and how many parameters there are.
func slugParameter(f *ast.FuncType) (at, count int) {
	at = -1
	for _, field := range f.Params.List {
		for _, name := range field.Names {
			if name.Name == "slug" {
				at = count
			}
			count++
		}
	}
	return at, count
}

// lastName is the name of x, and of a.b.x.
func lastName(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return e.Sel.Name
	}
	return ""
}

// expectations are the words of what tests expect: of scripts the lines in which a problem is printed and those that
// look for one, of Go tests the literals.
func expectations(t *testing.T) map[string]bool {
	t.Helper()
	words := map[string]bool{}
	word := regexp.MustCompile(`[a-z]+(?:-[a-z0-9]+)*`)
	// A slug of one word is a word like any other, and counts only where it stands as slugs do.
	single := regexp.MustCompile(`"([a-z]+)"|\(([a-z]+)\\?\)|'([a-z]+)'`)
	printed := regexp.MustCompile(`(?m)^\S+:\d+:\d+: (?:error|caution): .*\(([a-z0-9-]+)\)$`)
	mistaken := regexp.MustCompile(`(?m)^(?:error|caution) ([a-z0-9-]+)(?: \||$)`) // of testdata/mistakes
	looked := regexp.MustCompile(`(?m)^(?:stderr|exec grep) .*$`)
	goText := regexp.MustCompile("\"[^\"\n]*\"|`[^`]*`")
	err := filepath.WalkDir("..", func(name string, e fs.DirEntry, err error) error {
		script := strings.Contains(filepath.ToSlash(name), "testdata/script/")
		mistakes := filepath.Dir(name) == filepath.Join("..", "generator", "testdata", "mistakes")
		if err != nil || e.IsDir() || !script && !mistakes && !strings.HasSuffix(name, "_test.go") {
			return err
		}
		text, err := os.ReadFile(name)
		for _, m := range printed.FindAllSubmatch(text, -1) {
			words[string(m[1])] = true
		}
		if mistakes {
			for _, m := range mistaken.FindAllSubmatch(text, -1) {
				words[string(m[1])] = true
			}
			return err
		}
		pattern := goText
		if script {
			pattern = looked
		}
		for _, line := range pattern.FindAll(text, -1) {
			for _, w := range word.FindAll(line, -1) {
				words[string(w)] = words[string(w)] || strings.Contains(string(w), "-")
			}
			for _, m := range single.FindAllSubmatch(line, -1) {
				words[string(slices.Concat(m[1:]...))] = true
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return words
}
