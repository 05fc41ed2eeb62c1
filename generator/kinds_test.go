package generator_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/site/words"
)

// The kinds of statements, blocks, charts, figures, gauges, links and nodes are closed sets of package lesson. Each
// is known in several places of the house, which must know all of it: whoever adds one is told where.

// optOut is how a place says on its first line that it need not know all of a set, and why.
const optOut = "// the others: "

func TestEveryPlaceKnowsAllOfAClosedSet(t *testing.T) {
	packages := sources(t)
	sets := closedSets(packages["generator/lesson"])
	for _, name := range []string{"StatementKind", "BlockKind", "ChartKind", "FigureKind", "GaugeKind",
		"LinkKind", "PieceKind",
		nodes, renderers} {
		if len(sets[name]) < 2 {
			t.Fatalf("the set %s has the members %v", name, sets[name])
		}
	}
	places := 0
	for name, files := range packages {
		aliases := aliasesOf(files, sets)
		for _, f := range files {
			found := placesIn(f, name == "generator/lesson", sets, aliases)
			places += len(found)
			for _, p := range found {
				if missing := p.missing(sets); len(missing) > 0 {
					t.Errorf("%s knows some of %s and not %s; add it, or say why not on that line: %s…", p.at, p.set,
						strings.Join(missing, ", "), optOut)
				}
			}
		}
	}
	if places < 20 {
		t.Errorf("only %d places were found; does this test still see them?", places)
	}
}

// TestEveryKeywordHasItsWordsAndItsLineInTheReadme looks where no Go is.
func TestEveryKeywordHasItsWordsAndItsLineInTheReadme(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	en, err := words.Load(lesson.DefaultLanguage)
	if err != nil {
		t.Fatal(err)
	}
	var keywords, texts []string
	for _, k := range lesson.StatementKinds {
		keywords = append(keywords, string(k))
		if !k.BelongsAbove() {
			texts = append(texts, string(k))
		}
	}
	for _, k := range lesson.GaugeKinds {
		keywords, texts = append(keywords, string(k)), append(texts, "gauge-"+string(k))
	}
	for _, k := range lesson.ChartKinds {
		keywords = append(keywords, string(k))
	}
	for _, k := range lesson.FigureKinds {
		keywords = append(keywords, string(k))
	}
	for _, k := range lesson.BlockKinds {
		keywords = append(keywords, string(k))
	}
	for _, name := range texts {
		if en[name] == "" {
			t.Errorf("generator/locale/en/words.yaml has no text %s", name)
		}
	}
	for _, k := range keywords {
		if !regexp.MustCompile("(?m)(?:^ *(?:```)?|`)" + k + `\b`).Match(readme) {
			t.Errorf("README.md does not show the keyword %s", k)
		}
	}
}

// TestAMissingKindIsSeen holds the finder itself against a file with gaps.
func TestAMissingKindIsSeen(t *testing.T) {
	for _, c := range []struct{ name, code, want string }{
		{"a switch", "switch k {\ncase lesson.Given, lesson.Find:\n}", "StatementKind: Measure"},
		{"a switch with a default", "switch k {\ncase lesson.Given:\ndefault:\n}", "StatementKind: Find Measure"},
		{"a whole switch", "switch k {\ncase lesson.Given:\ncase lesson.Find, lesson.Measure:\n}", ""},
		{"a switch that says why", "switch k { " + optOut + "a reason\ncase lesson.Given:\n}", ""},
		{"a switch that gives no reason", "switch k { " + optOut + "\ncase lesson.Given:\n}",
			"StatementKind: Find Measure"},
		{"a switch over something else", "switch k {\ncase \"given\":\n}", ""},
		{"a map", "_ = map[lesson.StatementKind]int{lesson.Given: 1, lesson.Find: 2}", "StatementKind: Measure"},
		{"a list", "_ = []lesson.StatementKind{lesson.Given, lesson.Find}", "StatementKind: Measure"},
		{"a table of rows", "_ = []row{{string(lesson.Given), 1}, {word: string(lesson.Find)}}",
			"StatementKind: Measure"},
		{"tables in a map", "_ = map[string][]row{\"a\": {{word: string(lesson.Given)}}}",
			"StatementKind: Find Measure"},
		{"a switch over types", "switch n.(type) {\ncase *lesson.WorkBlock:\n}", "nodes: Value"},
		{"names of its own", "switch k {\ncase Mine:\n}", "StatementKind: Find Measure"},
		{"renderers", "reg.Register(lesson.KindWorkBlock, f)", "renderers: KindValue"},
	} {
		t.Run(c.name, func(t *testing.T) {
			set := token.NewFileSet()
			tree, err := parser.ParseFile(set, "x.go",
				"package x\n\nconst Mine = lesson.Given\n\nfunc f() {\n"+c.code+"\n}\n", parser.ParseComments)
			if err != nil {
				t.Fatal(err)
			}
			sets := map[string][]string{
				"StatementKind": {"Given", "Find", "Measure"}, nodes: {"WorkBlock",
					"Value"}, renderers: {"KindWorkBlock", "KindValue"},
			}
			f := sourceFile{"x.go", tree, set}
			got := ""
			for _, p := range placesIn(f, false, sets, aliasesOf([]sourceFile{f}, sets)) {
				if missing := p.missing(sets); len(missing) > 0 && p.kind != "const" {
					got += p.set + ": " + strings.Join(missing, " ")
				}
			}
			if got != c.want {
				t.Errorf("it misses %q, want %q", got, c.want)
			}
		})
	}
}

// Sets that are no constants: the nodes that trundle adds to Markdown, and their names for goldmark's renderer.
const (
	nodes     = "nodes"
	renderers = "renderers"
)

// closedSets finds the constants of each type of a package, and the nodes.
func closedSets(files []sourceFile) map[string][]string {
	sets := map[string][]string{}
	for _, f := range files {
		for _, d := range f.tree.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok {
				continue
			}
			of := ""
			for _, spec := range g.Specs {
				switch s := spec.(type) {
				case *ast.ValueSpec:
					if name, ok := s.Type.(*ast.Ident); ok {
						of = name.Name
					} else if len(s.Values) > 0 {
						of = "" // a constant without a type
					}
					for _, name := range s.Names {
						if g.Tok == token.CONST && of != "" {
							sets[of] = append(sets[of], name.Name)
						}
						if strings.HasPrefix(name.Name, "Kind") && g.Tok == token.VAR {
							sets[renderers] = append(sets[renderers], name.Name)
							sets[nodes] = append(sets[nodes], strings.TrimPrefix(name.Name, "Kind"))
						}
					}
				}
			}
		}
	}
	return sets
}

// aliasesOf are a package's own names for members of a set.
func aliasesOf(files []sourceFile, sets map[string][]string) map[string]string {
	aliases := map[string]string{}
	for _, f := range files {
		ast.Inspect(f.tree, func(n ast.Node) bool {
			if s, ok := n.(*ast.ValueSpec); ok && len(s.Names) == 1 && len(s.Values) == 1 {
				if _, member, ok := memberOf(s.Values[0], false, sets, nil); ok {
					aliases[s.Names[0].Name] = member
				}
			}
			return true
		})
	}
	return aliases
}

// A place is code that knows members of a set.
type place struct {
	kind, at, set string
	members       []string
	excused       bool
}

func (p place) missing(sets map[string][]string) []string {
	var missing []string
	for _, m := range sets[p.set] {
		if !slices.Contains(p.members, m) && !p.excused {
			missing = append(missing, m)
		}
	}
	slices.Sort(missing)
	return missing
}

// memberOf tells which member of which set an expression names: lesson.Given, string(lesson.Given), *lesson.Value.
func memberOf(e ast.Expr, inside bool, sets map[string][]string, aliases map[string]string) (set, member string,
	ok bool) {
	star, isType := e.(*ast.StarExpr) // a case of a switch over types
	if isType {
		e = star.X
	}
	switch x := e.(type) {
	case *ast.CallExpr:
		if f, isName := x.Fun.(*ast.Ident); isName && f.Name == "string" && len(x.Args) == 1 {
			return memberOf(x.Args[0], inside, sets, aliases)
		}
	case *ast.SelectorExpr:
		if of, isName := x.X.(*ast.Ident); isName && of.Name == "lesson" {
			member = x.Sel.Name
		}
	case *ast.Ident:
		if inside {
			member = x.Name
		} else {
			member = aliases[x.Name]
		}
	}
	for _, set := range slices.Sorted(maps.Keys(sets)) {
		if typed := set == nodes; typed == isType && slices.Contains(sets[set], member) {
			return set, member, true
		}
	}
	return "", "", false
}

// placesIn finds the switches, tables, groups of constants and registered renderers of a file.
func placesIn(f sourceFile, inside bool, sets map[string][]string, aliases map[string]string) []place {
	var all []place
	add := func(kind string, at token.Pos, members []ast.Expr) {
		bySet := map[string][]string{}
		for _, e := range members {
			if set, member, ok := memberOf(e, inside, sets, aliases); ok {
				bySet[set] = append(bySet[set], member)
			}
		}
		for set, members := range bySet {
			all = append(all, place{kind, strings.TrimPrefix(f.set.Position(at).String(), "../"), set, members,
				f.says(optOut, at)})
		}
	}
	var registered []ast.Expr
	var registeredAt token.Pos
	ast.Inspect(f.tree, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SwitchStmt:
			add("switch", n.Pos(), cases(n.Body))
		case *ast.TypeSwitchStmt:
			add("switch", n.Pos(), cases(n.Body))
		case *ast.CompositeLit:
			switch of := n.Type.(type) {
			case *ast.ArrayType:
				add("table", n.Pos(), rows(n))
			case *ast.MapType:
				add("table", n.Pos(), rows(n))
				if _, tables := of.Value.(*ast.ArrayType); tables {
					for _, e := range n.Elts {
						if table, ok := e.(*ast.KeyValueExpr).Value.(*ast.CompositeLit); ok {
							add("table", table.Pos(), rows(table))
						}
					}
				}
			}
		case *ast.GenDecl:
			var values []ast.Expr
			for _, spec := range n.Specs {
				if s, ok := spec.(*ast.ValueSpec); ok && n.Tok == token.CONST {
					values = append(values, s.Values...)
				}
			}
			add("const", n.Pos(), values)
		case *ast.CallExpr:
			if s, ok := n.Fun.(*ast.SelectorExpr); ok && s.Sel.Name == "Register" && len(n.Args) > 0 {
				registered, registeredAt = append(registered, n.Args[0]), n.Pos()
			}
		}
		return true
	})
	add("renderers", registeredAt, registered)
	return all
}

func cases(body *ast.BlockStmt) []ast.Expr {
	var all []ast.Expr
	for _, c := range body.List {
		all = append(all, c.(*ast.CaseClause).List...)
	}
	return all
}

// rows are what a table is keyed by: its keys, its elements, or a field of each of its elements.
func rows(table *ast.CompositeLit) []ast.Expr {
	var all []ast.Expr
	for _, e := range table.Elts {
		switch e := e.(type) {
		case *ast.KeyValueExpr:
			all = append(all, e.Key)
		case *ast.CompositeLit:
			for _, field := range e.Elts {
				if pair, ok := field.(*ast.KeyValueExpr); ok {
					field = pair.Value
				}
				all = append(all, field)
			}
		default:
			all = append(all, e)
		}
	}
	return all
}

// says tells whether the line of a place has a comment that starts so and goes on.
func (f sourceFile) says(start string, at token.Pos) bool {
	if !at.IsValid() {
		return false
	}
	line := f.set.Position(at).Line
	for _, group := range f.tree.Comments {
		for _, c := range group.List {
			if f.set.Position(c.Pos()).Line == line && strings.HasPrefix(c.Text, start) && len(c.Text) > len(start) {
				return true
			}
		}
	}
	return false
}
