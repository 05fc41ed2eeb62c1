package generator_test

// Letters with accents that are stored taken apart, as some systems store names of files.

import (
	"strings"
	"testing"
	"testing/fstest"

	"golang.org/x/text/unicode/norm"

	"trundle/generator"
)

// accented is a pack with accents in the names of its files, links, headings, and units.
func accented() fstest.MapFS {
	pack := packOf("La [señal](#señal-única), [otra](02-más.md#señal), [paño](care/paño.md).\n\n" +
		"![a](pictures/año/año.svg)\n\n" +
		"```chart data/año.csv\ntitle \"Días\"\ngroup base\ndots día in cm = 2 cm \"Día\"\n```\n\n## Señal única\n\nFin.\n")
	pack["02-más.md"] = &fstest.MapFile{Data: []byte("---\ntitle: Más\nweek: 2\nminutes: 10\ncare: [paño]\n---\n\n" +
		"## Señal (10 min)\n\n[T](01-t.md#señal-única)\n")}
	pack["care/paño.md"], pack["pictures/año/año.svg"] = pack["care/cloth.md"], pack["pictures/shown.svg"]
	pack["data/año.csv"] = &fstest.MapFile{Data: []byte("base,día (cm)\nA,1\nA,2\nB,3\nB,4\n")}
	return pack
}

func TestAccentsMayBeStoredInEitherWay(t *testing.T) {
	want := drawn(t, accented())
	for what, change := range map[string]func(name string, text []byte) (string, []byte){
		"names": func(name string, text []byte) (string, []byte) { return norm.NFD.String(name), text },
		"texts": func(name string, text []byte) (string, []byte) { return name, norm.NFD.Bytes(text) },
		"links": func(name string, text []byte) (string, []byte) {
			return name, []byte(strings.NewReplacer("#señal", "#sen%CC%83al", "más.md", "ma%CC%81s.md").Replace(string(text)))
		},
	} {
		pack := fstest.MapFS{}
		for name, f := range accented() {
			name, text := change(name, f.Data)
			pack[name] = &fstest.MapFile{Data: text}
		}
		got := drawn(t, pack)
		for name, text := range want {
			if got[name] != text {
				t.Errorf("%s taken apart: %s is another file", what, name)
			}
		}
	}
}

func TestOfTwoLessonsWhoseAccentsAreStoredOtherwiseTheOneTakenApartIsReported(t *testing.T) {
	pack := accented()
	pack[norm.NFD.String("02-más.md")] = pack["02-más.md"]
	proved, err := generator.Prove(t.Context(), pack)
	if err != nil || len(proved.Pack.Lessons) != 2 {
		t.Fatal(err, len(proved.Pack.Lessons))
	}
	for _, p := range proved.Problems {
		if p.Slug == "not-a-lesson" {
			return
		}
	}
	t.Error("nothing is said of the other one")
}
