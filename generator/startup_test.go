package generator_test

// What a program may do before its first line runs: nothing that takes time. Whoever asks for help waits for all of it.

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"testing"
)

// slow are functions that make tables of texts: they are for when something is first asked for. Replacers are not among
// them, since those wait by themselves.
var slow = map[string][]string{
	"regexp": {"MustCompile", "Compile"}, "csv": {"NewReader"}, "yaml": {"Unmarshal"}, "json": {"Unmarshal"},
	"template": {"Must", "New"},
}

func TestNothingIsCompiledOrReadBeforeItIsNeeded(t *testing.T) {
	for _, files := range sources(t) {
		var trees []*ast.File
		for _, f := range files {
			trees = append(trees, f.tree)
		}
		for _, call := range early(trees) {
			t.Errorf("%v: this is done at each start; let it wait, with wording.New or sync.OnceValue",
				files[0].set.Position(call.Pos()))
		}
	}
}

func TestWhatIsDoneAtEachStartIsFoundWhereverItStands(t *testing.T) {
	for text, want := range map[string]int{
		"var a = regexp.MustCompile(``)":                                               1,
		"var a = []any{regexp.MustCompile(``), csv.NewReader(nil)}":                    2,
		"var a = func() any { return regexp.MustCompile(``) }()":                       1,
		"var a = b()\nfunc b() any { return c() }\nfunc c() { yaml.Unmarshal() }":      1,
		"func init() { regexp.MustCompile(``) }":                                       1,
		"var a = sync.OnceValue(func() any { return regexp.MustCompile(``) })":         0,
		"var a = map[string]func(){ `x`: func() { regexp.MustCompile(``) } }":          0,
		"func a() { regexp.MustCompile(``) }":                                          0,
		"var a = wording.New(``)":                                                      0,
		"var a = b\nfunc b() { regexp.MustCompile(``) }":                               0,
		"var a = b()\nfunc b() any { return func() { c() } }\nfunc c() { yaml.New() }": 0,
	} {
		tree, err := parser.ParseFile(token.NewFileSet(), "", "package p\n"+text, 0)
		if err != nil {
			t.Fatal(err)
		}
		if got := early([]*ast.File{tree}); len(got) != want {
			t.Errorf("%s: %d calls found, want %d", text, len(got), want)
		}
	}
}

// early finds the slow calls that a package makes before its program runs.
func early(files []*ast.File) []*ast.CallExpr {
	functions := map[string]*ast.FuncDecl{}
	var first []ast.Node
	for _, f := range files {
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.GenDecl:
				first = append(first, d)
			case *ast.FuncDecl:
				if d.Name.Name == "init" {
					first = append(first, d.Body)
				} else if d.Recv == nil {
					functions[d.Name.Name] = d
				}
			}
		}
	}
	var found []*ast.CallExpr
	for _, n := range first {
		found = append(found, run(n, functions, nil)...)
	}
	return found
}

// run finds the slow calls of what runs when a piece of a program does: what it calls by name or on the spot, and not
// the functions that it only keeps.
func run(n ast.Node, functions map[string]*ast.FuncDecl, within []string) []*ast.CallExpr {
	var found []*ast.CallExpr
	ast.Inspect(n, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.FuncLit:
			return false
		case *ast.CallExpr:
			switch called := n.Fun.(type) {
			case *ast.FuncLit:
				found = append(found, run(called.Body, functions, within)...)
			case *ast.Ident:
				if f := functions[called.Name]; f != nil && !slices.Contains(within, called.Name) {
					found = append(found, run(f.Body, functions, append(within, called.Name))...)
				}
			case *ast.SelectorExpr:
				if x, ok := called.X.(*ast.Ident); ok && slices.Contains(slow[x.Name], called.Sel.Name) {
					found = append(found, n)
				}
			}
		}
		return true
	})
	return found
}
