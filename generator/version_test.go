package generator_test

// The version of an edition is in every file that the worker looks for it in.

import (
	"path"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/site"
)

// TestEveryPageAndScriptCarriesTheVersion has a page at an earlier address, too: a page without its edition's version
// would be left out each time that the edition is fetched, so that it would never be whole.
func TestEveryPageAndScriptCarriesTheVersion(t *testing.T) {
	pack := packOf("```work\nfind n in cm to 1 = 2 cm + 3 cm \"How far?\"\nkey n = 5 cm\n```\n")
	pack["renamed.yaml"] = &fstest.MapFile{Data: []byte("lessons:\n  07-before: 01-t\n")}
	files := drawn(t, pack)
	if files["students/07-before.html"] == "" {
		t.Fatal("there is no page at the earlier address")
	}
	for _, e := range site.Editions {
		version := regexp.MustCompile(`[0-9a-f]{16}`).FindString(files[path.Join(string(e), site.VersionScript)])
		if version == "" {
			t.Fatalf("the %s' edition has no version", e)
		}
		for name, data := range files {
			isLooked := path.Ext(name) == ".html" || path.Ext(name) == ".js"
			if strings.HasPrefix(name, string(e)+"/") && isLooked && !strings.Contains(data, version) {
				t.Errorf("%s has not the version %s", name, version)
			}
		}
	}
}
