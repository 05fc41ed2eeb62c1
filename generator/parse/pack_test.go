package parse_test

import (
	"testing"

	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/source"
)

func TestAPackKeepsTheLanguageThatItNames(t *testing.T) {
	for _, c := range []struct {
		field, want string
		sound       bool
	}{{"", "en", true}, {"language: en\n", "en", true}, {"language: de\n", "de", true},
		{"language: it\n", "it", false}, {"language: es-MX\n", "es-MX", false}} {
		p, problems := parse.PackFile(source.NewFile("pack.yaml", []byte("title: P\nversion: 1\n"+c.field)))
		p.Lessons = []*lesson.Lesson{{}}
		problems.Join(check.Pack(p))
		if p.Language != c.want || problems.HasErrors() == c.sound {
			t.Errorf("with %q the language is %q; errors: %v", c.field, p.Language, problems.HasErrors())
		}
	}
}
