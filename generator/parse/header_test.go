package parse_test

// What may stand around a set of fields, and what is refused before the YAML parser sees it.

import (
	"strings"
	"testing"

	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// yamlProblems gives the problems of a pack.yaml or kits.yaml, as line:column and text, and without what is missing.
func yamlProblems(text string) []string {
	var all []string
	_, found := parse.PackFile(source.NewFile("pack.yaml", []byte(text)))
	_, ofKits := parse.Kits(source.NewFile("kits.yaml", []byte(text)))
	for _, list := range []problem.List{found, ofKits} {
		for _, p := range list.Sorted() {
			if p.Slug == "yaml" {
				all = append(all, problem.Place("", p.File, p.Span)+" "+p.What)
			}
		}
	}
	return all
}

func TestFieldsMayEndInAFence(t *testing.T) {
	for _, text := range []string{"heron: {title: Heron, wheel: 65 mm}\n---\n",
		"---\nheron: {title: Heron, wheel: 65 mm}\n---\n",
		"heron: {title: Heron, wheel: 65 mm}\n---\n# end\n", "heron: {title: Heron, wheel: 65 mm}\n---",
		"---\n", "---\n---\n", "---\n# nothing\n---\n", "# nothing\n", "..."} {
		if found := yamlProblems(text); len(found) > 0 {
			t.Errorf("%q: %q", text, found)
		}
		kits, _ := parse.Kits(source.NewFile("kits.yaml", []byte(text)))
		if strings.Contains(text, "Heron") && len(kits) != 1 {
			t.Errorf("%q has %d kits", text, len(kits))
		}
	}
}

func TestASecondSetOfFieldsIsAProblem(t *testing.T) {
	for text, at := range map[string]string{
		"a: {title: A, wheel: 65 mm}\n---\nb: {title: B, wheel: 65 mm}\n": ":2:1 ",
		"a: {title: A, wheel: 65 mm}\n---\n---\n":                         ":3:1 ",
		"a: {title: A, wheel: 65 mm}\n---\n---\nb: 1\n":                   ":3:1 ",
		"---\n---\na: {title: A, wheel: 65 mm}\n":                         ":2:1 ",
	} {
		found := yamlProblems(text)
		if len(found) != 2 || !strings.Contains(found[0], at) || !strings.Contains(found[1], at) ||
			!strings.HasSuffix(found[0], "there is more than one set of fields here") {
			t.Errorf("%q: %q", text, found)
		}
	}
}

func TestDeepFieldsAreRefusedBeforeTheyAreParsed(t *testing.T) {
	for _, mark := range []string{"- ", "? ", ": ", "[", "{", "-\t", "- ? ", "a: - "} {
		found := yamlProblems("title: A\nx: \n" + strings.Repeat(mark, 20000) + "x\n")
		if len(found) != 2 || !strings.HasSuffix(found[0], "these fields are too long or too deep to be fields") {
			t.Errorf("%q: %q", mark, found)
		}
	}
	if found := yamlProblems("# " + strings.Repeat("- ", 40) + "\ntitle: {title: A - B - C}\n"); len(found) > 0 {
		t.Errorf("a line of a comment is taken for fields: %q", found)
	}
}
