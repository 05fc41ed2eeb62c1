package main

// The notices of all that is linked into the program, compared with notices.txt, or with -update written into it.

import (
	"bytes"
	"cmp"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// noticesHead stands above the notices.
const noticesHead = `trundle is made of its own parts and of the libraries and fonts below, which are
linked into the program. Pages that trundle makes have none of these libraries in
them; pages and worksheets have the typeface, whose licence comes first. The terms
under which trundle itself may be used and handed on are its authors' to give;
these notices do not give them.

Freetype-Go is used under the FreeType License, one of the two that it offers.
`

// typeface is what its licence is called among the notices, and where that is.
const (
	typeface        = "Trundle Sheet, the typeface of pages and worksheets"
	typefaceLicence = "../../site/assets/fonts.txt"
)

// A linkedModule is a module with packages in the program.
type linkedModule struct {
	name, dir string
	packages  []string // their folders
}

// standardLibrary is what the modules' list calls Go itself.
const standardLibrary = "Go, its standard library and runtime"

// linkedModules asks Go what is linked into the program, on every system that there are archives for.
func linkedModules(t *testing.T) []linkedModule {
	t.Helper()
	const form = `{{if .Standard}}std{{else if ne .Module.Path "trundle"}}` +
		`{{.Module.Path}} {{.Module.Version}}{{"\t"}}{{.Module.Dir}}{{"\t"}}{{.Dir}}{{end}}`
	goRoot, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	byName := map[string]*linkedModule{}
	for _, system := range []string{"linux", "darwin", "windows"} {
		list := exec.Command("go", "list", "-deps", "-f", form, ".")
		list.Env = append(os.Environ(), "GOOS="+system, "GOARCH=amd64", "CGO_ENABLED=0")
		out, err := list.Output()
		if err != nil {
			t.Fatalf("go list for %s: %v", system, err)
		}
		for line := range strings.FieldsFuncSeq(string(out), func(r rune) bool { return r == '\n' || r == '\r' }) {
			if line == "std" {
				byName[standardLibrary] = &linkedModule{name: standardLibrary, dir: strings.TrimSpace(string(goRoot))}
				continue
			}
			parts := strings.Split(line, "\t")
			m := byName[parts[0]]
			if m == nil {
				m = &linkedModule{name: parts[0], dir: parts[1]}
				byName[parts[0]] = m
			}
			m.packages = append(m.packages, parts[2])
		}
	}
	var all []linkedModule
	for _, m := range byName {
		all = append(all, *m)
	}
	slices.SortFunc(all, func(a, b linkedModule) int { return cmp.Compare(a.name, b.name) })
	return all
}

// isNotice is for the names of files that have licences in them, and what belongs to these.
var isNotice = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents|attrib)`)

// One that isNotice would find and that does not apply: see noticesHead.
const (
	noNotice = "gpl.txt"
)

// files are the notices of a module: those at its top, those beside and above the packages that are linked, and
// whole folders of them.
func (m linkedModule) files(t *testing.T) []string {
	t.Helper()
	var found []string
	add := func(dir string, all bool) {
		entries, err := os.ReadDir(dir)
		if err != nil {
			return // the module has no such folder
		}
		for _, e := range entries {
			name := filepath.Join(dir, e.Name())
			isCode := strings.HasSuffix(e.Name(), ".go")
			if e.Type().IsRegular() && !isCode && e.Name() != noNotice && (all || isNotice.MatchString(e.Name())) {
				found = append(found, name)
			}
		}
	}
	add(m.dir, false)
	add(filepath.Join(m.dir, "licenses"), true)
	add(filepath.Join(m.dir, "THIRD_PARTY_LICENSES"), true)
	for _, dir := range m.packages {
		for ; len(dir) > len(m.dir); dir = filepath.Dir(dir) {
			add(dir, false)
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}

// A notice is a text with all that it is about.
type notice struct {
	of   []string
	text string
}

// noticesOf puts the notices of modules together, a text that several have only once.
func noticesOf(t *testing.T, modules []linkedModule) string {
	t.Helper()
	licence, err := os.ReadFile(typefaceLicence)
	if err != nil {
		t.Fatal(err)
	}
	all := []*notice{{of: []string{typeface}, text: strings.TrimSpace(string(licence))}}
	bySense := map[string]*notice{} // texts that differ in blanks alone are one
	for _, m := range modules {
		files := m.files(t)
		if len(files) == 0 {
			t.Errorf("%s has no file that says under which terms it may be used", m.name)
		}
		for _, name := range files {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			text := strings.Trim(strings.ReplaceAll(string(data), "\r\n", "\n"), "\n")
			about := m.name
			if rel, _ := filepath.Rel(m.dir, name); len(files) > 1 {
				about += " (" + filepath.ToSlash(rel) + ")"
			}
			sense := strings.Join(strings.Fields(text), " ")
			if bySense[sense] == nil {
				bySense[sense] = &notice{text: text}
				all = append(all, bySense[sense])
			}
			bySense[sense].of = append(bySense[sense].of, about)
		}
	}
	var b strings.Builder
	b.WriteString(noticesHead)
	for _, n := range all {
		fmt.Fprintf(&b, "\n%s\n%s\n\n%s\n", strings.Repeat("=", helpWidth), strings.Join(n.of, "\n"), n.text)
	}
	return b.String()
}

func TestTheNoticesAreThoseOfAllThatIsLinked(t *testing.T) {
	modules := linkedModules(t)
	if len(modules) < 10 {
		t.Fatalf("only %d modules are linked", len(modules))
	}
	want := noticesOf(t, modules)
	if *update {
		if err := os.WriteFile("notices.txt", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	for _, m := range modules {
		if !strings.Contains(notices, "\n"+m.name+"\n") && !strings.Contains(notices, "\n"+m.name+" (") {
			t.Errorf("notices.txt lacks %s", m.name)
		}
	}
	if notices != want {
		t.Error("notices.txt is not what the modules say; write it with: " +
			"go test ./cmd/trundle -run Notices -update, and read the difference")
	}
}

func TestTheNoticesArePrintedWhole(t *testing.T) {
	var out, errs bytes.Buffer
	if code := run(t.Context(), []string{"help", "notices"}, &out, &errs); code != fine || out.String() != notices {
		t.Errorf("exit code %d, %d bytes, %s", code, out.Len(), errs.String())
	}
	for _, font := range []string{`Reserved Font Names "Andika" and "SIL"`, "SIL OPEN FONT LICENSE"} {
		if !strings.Contains(notices, font) {
			t.Errorf("the notices of the fonts lack %s", font)
		}
	}
}
