package generator_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// A floor is one package of the module: what of ours it may import, and why no more.
type floor struct {
	imports string // packages of ours, by their names below the module
	reason  string
}

// patterns is open to all above the ground floor, as the standard library's regular expressions are.
const patterns = "generator/wording"

// floors is the order of the house. A package that is not here, or that reaches for
// one not in its row, fails the test; so does a row without a package.
var floors = map[string]floor{
	"generator/quantity": {"", "the ground floor; it could be a library of its own"},
	"generator/pairs": {"generator/quantity",
		"it reads plain text and knows units; lessons and their places are for others"},
	"generator/source": {"", "files and places; it knows no language"},
	"generator/hazard": {"generator/locale", "tables of official statements; it knows no pack"},
	"generator/locale": {"", "it gives the data of a language, whoever reads them"},
	"generator/reading": {"generator/hazard generator/locale",
		"it gives the words of a language to whoever reads; it knows no lesson"},
	"generator/runs":       {"", "statistics of plain numbers; it knows no unit and no file"},
	"generator/cache":      {"", "it keeps bytes under keys, and never knows what they are"},
	"generator/write":      {"", "it sees names and bytes, and never what they mean"},
	patterns:               {"", "it compiles patterns, whatever they are for"},
	"generator/schema":     {"", "texts for editors; its tests compare them with what parse takes"},
	"generator/typography": {"generator/locale", "it sees characters and tags, and knows no lesson"},
	"generator/bundle":     {"", "it packs names and bytes, and never knows what they mean"},

	"generator/problem": {"generator/quantity generator/source",
		"a problem has a place; those of formulas are reported in its words"},
	"generator/table": {"generator/problem generator/quantity generator/source",
		"it reads files of runs and says what is wrong with them; what they mean is worked out elsewhere"},
	"generator/picture": {"generator/source", "it looks into a picture's bytes, and knows no pack and no lesson"},
	"generator/lesson": {"generator/picture generator/quantity generator/source generator/table",
		"a tree of what is written, formulas in it; nothing worked out"},
	"generator/prose": {"generator/hazard generator/lesson generator/pairs generator/reading generator/source",
		"it reads what a lesson says; what is wrong with that is for the checks"},
	"generator/read": {"generator/problem generator/source",
		"it gives files and says what it refused; it parses nothing"},
	"generator/parse": {"generator/lesson generator/locale generator/problem generator/quantity generator/reading " +
		"generator/source",
		"it makes trees of text and works nothing out, so that it needs no values"},
	"generator/language": {"generator/locale generator/parse generator/quantity",
		"it lists what those read who read a pack, and reads none itself"},
	"generator/work": {"generator/lesson generator/problem generator/quantity generator/runs generator/source " +
		"generator/table",
		"it gives trees their values; how they were read or will be shown is not its business"},
	"generator/check": {"generator/bundle generator/hazard generator/lesson generator/locale generator/pairs " +
		"generator/picture generator/problem generator/prose generator/quantity generator/source generator/work worksheets",
		"it checks a worked pack and changes nothing; it asks whether a gauge fits the paper and knows no page"},
	"generator/tally": {"generator/problem generator/quantity generator/runs generator/source generator/table",
		"it puts files of runs together; what a pack says of its records is told to it"},
	"site/chart": {"", "it draws numbers with an axis; what they are is for others to say"},
	"site/words": {"generator/locale", "texts by their names; what they are said of is for others to say"},
	"site/figure": {"generator/lesson generator/locale generator/quantity generator/runs generator/tally generator/work " +
		"site/chart site/words",
		"it says and draws what runs come to, wherever that is shown; it knows no page"},
	"site/drawn": {"generator/lesson generator/quantity generator/work site/words",
		"it draws the figures of a show block as they are before a script does; it knows no page"},
	"site": {"generator/hazard generator/lesson generator/locale generator/prose generator/quantity " +
		"generator/source generator/tally " +
		"generator/typography generator/work site/chart site/drawn site/figure site/words worksheets",
		"it lays values out; a page that checked would judge a pack twice"},
	"worksheets/pdf": {"", "it makes PDF documents of lines and text; what they say is for others"},
	"worksheets": {"generator/lesson generator/locale generator/quantity generator/typography generator/work " +
		"site/figure worksheets/pdf",
		"it lays values out on paper as site does on pages, and does not know the pages; figures are the pages'"},

	"generator/mirror": {"", "it follows a folder on the disk and knows nothing of what is in it"},
	"generator/preview": {"generator generator/lesson generator/problem generator/work site site/words worksheets",
		"it is the pipeline with a memory, and a server; the folder comes in as fs.FS"},
	"generator": {"generator/bundle generator/check generator/hazard generator/lesson generator/parse " +
		"generator/picture generator/problem generator/quantity generator/read generator/source generator/table " +
		"generator/tally generator/work site site/figure site/words worksheets",
		"it joins the stages; the disk comes in as fs.FS and goes out as bytes, so it imports no write"},
	"cmd/trundle/starter": {"", "files to begin with; it knows nothing of what is in them"},
	"cmd/trundle": {"cmd/trundle/starter generator generator/bundle generator/cache generator/language generator/locale " +
		"generator/mirror generator/preview generator/problem generator/quantity generator/read generator/runs " +
		"generator/schema generator/tally generator/write site site/words",
		"it reads flags and prints; stages are joined elsewhere"},
}

func TestPackagesImportOnlyWhatLiesBelow(t *testing.T) {
	packages := sources(t)
	for name, files := range packages {
		row, known := floors[name]
		if !known {
			t.Errorf("package %s is not in the table of packages; give it a row and a reason", name)
			continue
		}
		may := strings.Fields(row.imports)
		for _, f := range files {
			for _, imported := range ownImports(f.tree) {
				forAll := imported == patterns && name != "generator/quantity"
				if !slices.Contains(may, imported) && !forAll {
					t.Errorf("%s imports %s, and must not: %s", f.name, imported, row.reason)
				}
			}
		}
	}
	for name := range floors {
		if packages[name] == nil {
			t.Errorf("the table has a row for %s, and there is no such package", name)
		}
	}
}

func TestGroundFloorImportsTheStandardLibraryAndGonumAlone(t *testing.T) {
	for _, f := range sources(t)["generator/quantity"] {
		for _, imported := range imports(f.tree) {
			if strings.Contains(imported, ".") && !strings.HasPrefix(imported, "gonum.org/v1/gonum/") {
				t.Errorf("%s imports %s; quantity imports the standard library and gonum alone", f.name, imported)
			}
		}
	}
}

func TestOnlyTheEndsTouchTheDisk(t *testing.T) {
	ends := []string{"generator/cache", "generator/read", "generator/mirror", "generator/write", "cmd/trundle"}
	disk := []string{"os", "io/ioutil", "os/exec", "syscall"}
	for name, files := range sources(t) {
		for _, f := range files {
			for _, imported := range imports(f.tree) {
				if slices.Contains(disk, imported) && !slices.Contains(ends, name) {
					t.Errorf("%s imports %s; only %s may touch the disk", f.name, imported, strings.Join(ends, ", "))
				}
			}
		}
	}
}

func TestStagesKnowNoClockAndNoChance(t *testing.T) {
	for name, files := range sources(t) {
		if name == "cmd/trundle" || name == "generator/preview" { // deadlines of a server
			continue
		}
		for _, f := range files {
			for _, imported := range imports(f.tree) {
				if strings.HasSuffix(imported, "/rand") || strings.HasSuffix(imported, "/rand/v2") {
					t.Errorf("%s imports %s; the same sources must give the same bytes", f.name, imported)
				}
			}
			if n := len(calls(f.tree, "time", "Now", "Since", "Until")); n > 0 {
				t.Errorf("%s asks for the time; the same sources must give the same bytes", f.name)
			}
		}
	}
}

// TestPagesAndPaperWorkNothingOut sees to it that what shows values never makes them: steps, answers
// and programs come from work, once.
func TestPagesAndPaperWorkNothingOut(t *testing.T) {
	for _, name := range []string{"site", "site/figure", "site/chart", "worksheets", "generator/preview"} {
		for _, f := range sources(t)[name] {
			for _, worker := range []string{"Eval", "EvalScaled", "Worked", "WorkedOpen", "Compile", "NewParser", "ParseExpr"} {
				if n := len(calls(f.tree, "quantity", worker)); n > 0 {
					t.Errorf("%s calls quantity.%s; let work do it and show the result", f.name, worker)
				}
			}
		}
	}
}

// TestOnePlaceTrustsHTML finds every conversion to a type that switches escaping off.
func TestOnePlaceTrustsHTML(t *testing.T) {
	var found []string
	for name, files := range sources(t) {
		for _, f := range files {
			for _, declaration := range f.tree.Decls {
				for range trustedConversions(declaration) {
					found = append(found, name+"."+declared(declaration))
				}
			}
		}
	}
	if want := []string{"site.trusted"}; !slices.Equal(found, want) {
		t.Errorf("HTML is declared safe in %v; it must be in %v alone", found, want)
	}
}

func trustedConversions(n ast.Node) []*ast.CallExpr {
	return calls(n, "template", "HTML", "HTMLAttr", "CSS", "JS", "JSStr", "URL", "Srcset")
}

// calls finds the calls below a node of names of a package.
func calls(n ast.Node, of string, names ...string) []*ast.CallExpr {
	var found []*ast.CallExpr
	ast.Inspect(n, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		selector, ok := call.Fun.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		if x, ok := selector.X.(*ast.Ident); ok && x.Name == of && slices.Contains(names, selector.Sel.Name) {
			found = append(found, call)
		}
		return true
	})
	return found
}

func declared(d ast.Decl) string {
	if f, ok := d.(*ast.FuncDecl); ok {
		return f.Name.Name
	}
	return "a declaration outside functions"
}

func TestTopOfTheRepository(t *testing.T) {
	want := []string{"DEVELOPERS.md", "README.md", "cmd", "generator", "go.mod", "go.sum", "lessons", "site",
		"testdata", "worksheets"}
	entries, err := os.ReadDir("..")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") {
			got = append(got, e.Name())
		}
	}
	if !slices.Equal(got, want) {
		t.Errorf("the top of the repository holds\n%v\nand must hold\n%v\nand dot files", got, want)
	}
}

func TestPackagesAreNamedForWhatTheyDo(t *testing.T) {
	idle := []string{"util", "utils", "common", "helper", "helpers", "types", "misc", "shared", "manager"}
	for name := range sources(t) {
		if slices.Contains(idle, path.Base(name)) {
			t.Errorf("package %s has a name that says nothing", name)
		}
	}
}

type sourceFile struct {
	name string
	tree *ast.File
	set  *token.FileSet
}

// sources parses every file of the module that is not a test, by package.
func sources(t *testing.T) map[string][]sourceFile {
	t.Helper()
	packages := map[string][]sourceFile{}
	set := token.NewFileSet()
	err := filepath.WalkDir("..", func(name string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() {
			if base := e.Name(); base == "testdata" || base != ".." && strings.HasPrefix(base, ".") {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		tree, err := parser.ParseFile(set, name, nil, parser.SkipObjectResolution|parser.ParseComments)
		if err != nil {
			return err
		}
		below := strings.TrimPrefix(filepath.ToSlash(name), "../")
		packages[path.Dir(below)] = append(packages[path.Dir(below)], sourceFile{below, tree, set})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(packages) < 10 {
		t.Fatalf("only %v found", slices.Collect(maps.Keys(packages)))
	}
	return packages
}

func imports(f *ast.File) []string {
	var all []string
	for _, s := range f.Imports {
		name, _ := strconv.Unquote(s.Path.Value)
		all = append(all, name)
	}
	return all
}

// ownImports are the imports from this module, by their names below it.
func ownImports(f *ast.File) []string {
	var own []string
	for _, name := range imports(f) {
		if below, ok := strings.CutPrefix(name, "trundle/"); ok {
			own = append(own, below)
		}
	}
	return own
}
