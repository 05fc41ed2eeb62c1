// That no text is left over when what said it has gone.

package words

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// Where words are said: what is there in quotes may be the name of one.
var speakers = []string{"../../site", "../../worksheets", "../../generator/preview", "../../generator/lesson",
	"../../cmd"}

var (
	imports   = regexp.MustCompile(`(?s)\nimport \(.*?\n\)`)
	ofScripts = regexp.MustCompile(`words: "([a-z]+-)"`) // the words that a script of the pages is given
	begins    = regexp.MustCompile(`"([a-z-]+-)"`)       // whose rest comes of a kind
)

// said is the text of all files with an ending, without tests and imports.
func said(t *testing.T, ending string) string {
	t.Helper()
	var all strings.Builder
	for _, dir := range speakers {
		err := filepath.WalkDir(dir, func(name string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() || !strings.HasSuffix(name, ending) || strings.HasSuffix(name, "_test.go") {
				return err
			}
			text, err := os.ReadFile(name)
			all.Write(imports.ReplaceAll(text, nil))
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return all.String()
}

// TestNoTextIsLeftOver finds texts whose name stands nowhere in the program: they would be translated for nobody.
func TestNoTextIsLeftOver(t *testing.T) {
	en, err := Load("en")
	if err != nil {
		t.Fatal(err)
	}
	program, scripts := said(t, ".go")+said(t, ".html"), said(t, ".js")
	kinds := []string{"given", "measure", "record", "predict", "find", "say"} // of statements, which name their word
	var ofKinds, bundles []string
	for _, m := range ofScripts.FindAllStringSubmatch(program, -1) {
		bundles = append(bundles, m[1])
	}
	for _, m := range begins.FindAllStringSubmatch(program, -1) {
		if !slices.Contains(bundles, m[1]) {
			ofKinds = append(ofKinds, m[1])
		}
	}
	startsAny := func(name string, prefixes []string) string {
		for _, p := range prefixes {
			if strings.HasPrefix(name, p) {
				return p
			}
		}
		return ""
	}
	for name := range en {
		name := strings.TrimSuffix(name, OneForm)
		rest := strings.TrimPrefix(name, startsAny(name, bundles))
		inScript := rest != name && regexp.MustCompile("[\"'`{,.\\s]"+rest+`\b`).MatchString(scripts)
		switch {
		case inScript, strings.Contains(program, `"`+name+`"`), slices.Contains(kinds, name), startsAny(name, ofKinds) != "":
		default:
			t.Errorf("nothing says %q", name)
		}
	}
	if len(bundles) == 0 || len(ofKinds) == 0 {
		t.Error("the scripts' words, or those of kinds, were not found")
	}
}
