package generator_test

// The list of limits is made of the constants that are asked, and has all of them.

import (
	"go/ast"
	"go/token"
	"path"
	"slices"
	"strings"
	"testing"

	"trundle/generator"
)

// uses is how often the sources name constants, by package and name: where they are defined, where they are asked,
// and in the list.
type uses struct{ defined, asked, listed map[string]int }

// usesOfLimits finds all names that begin with Max, and constants that begin with max, which would be overlooked.
func usesOfLimits(packages map[string][]sourceFile) (u uses, hidden []string) {
	u = uses{map[string]int{}, map[string]int{}, map[string]int{}}
	for name, files := range packages {
		for _, f := range files {
			ast.Inspect(f.tree, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.GenDecl:
					for _, one := range constants(n) {
						if strings.HasPrefix(one, "max") && len(one) > 3 {
							hidden = append(hidden, f.name+": "+one)
						} else if isLimit(one) {
							u.defined[path.Base(name)+"."+one]++
							u.asked[path.Base(name)+"."+one]-- // its own definition
						}
					}
				case *ast.CallExpr:
					if called, ok := n.Fun.(*ast.Ident); ok && f.name == "generator/limits.go" && len(n.Args) == 2 &&
						(called.Name == "count" || called.Name == "size") {
						u.listed[limitIn(n.Args[0])]++
						return false
					}
				case *ast.SelectorExpr:
					if of, ok := n.X.(*ast.Ident); ok && isLimit(n.Sel.Name) {
						u.asked[of.Name+"."+n.Sel.Name]++
						return false
					}
				case *ast.Ident:
					if isLimit(n.Name) {
						u.asked[path.Base(name)+"."+n.Name]++
					}
				}
				return true
			})
		}
	}
	return u, hidden
}

func isLimit(name string) bool {
	rest, ok := strings.CutPrefix(name, "Max")
	return ok && rest != "" && rest[0] >= 'A' && rest[0] <= 'Z'
}

// constants are the names that a declaration gives to constants.
func constants(d *ast.GenDecl) (names []string) {
	if d.Tok != token.CONST {
		return nil
	}
	for _, s := range d.Specs {
		for _, name := range s.(*ast.ValueSpec).Names {
			names = append(names, name.Name)
		}
	}
	return names
}

// limitIn is the constant of a row; what is none has a name that no constant has.
func limitIn(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.SelectorExpr:
		return e.X.(*ast.Ident).Name + "." + e.Sel.Name
	case *ast.Ident:
		return "generator." + e.Name
	}
	return "a number"
}

func TestEachLimitIsListedAndAsked(t *testing.T) {
	u, hidden := usesOfLimits(sources(t))
	for _, name := range hidden {
		t.Errorf("%s: if authors meet it, call it Max… and list it in limits.go; if not, call it most…", name)
	}
	for name := range u.defined {
		if u.listed[name] != 1 {
			t.Errorf("%s has %d rows in limits.go, not 1", name, u.listed[name])
		}
		if u.asked[name] < 1 {
			t.Errorf("%s is listed, and nothing asks it", name)
		}
	}
	for name := range u.listed {
		if u.defined[name] == 0 {
			t.Errorf("limits.go has a row for %s, which is no limit", name)
		}
	}
	if len(u.defined) < 60 {
		t.Errorf("only %d limits found", len(u.defined))
	}
}

func TestLimitsAreWrittenAsPeopleReadThem(t *testing.T) {
	var rows []generator.Limit
	for _, about := range generator.AllLimits() {
		rows = append(rows, about.Rows...)
	}
	for _, want := range []generator.Limit{
		{Most: "256 kB", Of: "a lesson, a part, a care card or words.md"},
		{Most: "8 MB", Of: "a lesson with its parts put in"},
		{Most: "4 GB", Of: "all of them together, unpacked"}, {Most: "1,000", Of: "lines of a block"},
	} {
		if !slices.Contains(rows, want) {
			t.Errorf("there is no row %q", want)
		}
	}
}
