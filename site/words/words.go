// Package words holds the texts of the interface, words.yaml of each language's folder. Templates, scripts
// and drawings name a text and hold none of their own.
package words

import (
	"fmt"
	"strings"

	"github.com/goccy/go-yaml"

	"trundle/generator/locale"
)

// Words are the texts of the interface in one language, by name.
type Words map[string]string

// Load gives the words of a language, such as "en"; an error if there is none.
func Load(language string) (Words, error) {
	data, err := locale.Read(language, "words.yaml")
	if err != nil {
		return nil, err
	}
	forms, err := locale.FormsOf(language)
	if err != nil {
		return nil, err
	}
	w := Words{}
	if err := yaml.Unmarshal(data, &w); err != nil {
		return nil, err
	}
	w.keep(forms)
	return w, nil
}

// Text gives a text, its numbers put in.
func (w Words) Text(name string, args ...any) (string, error) {
	text, ok := w[name]
	if !ok {
		return "", fmt.Errorf("words: no text %q in the language file", name)
	}
	if len(args) > 0 {
		return fmt.Sprintf(text, args...), nil
	}
	return text, nil
}

// Say is Text for names in code; a test sees to it that all of them are there.
func (w Words) Say(name string, args ...any) string {
	text, err := w.Text(name, args...)
	if err != nil {
		panic(err)
	}
	return text
}

// StartingWith gives the words whose names start with a prefix, by the rest of their names.
func (w Words) StartingWith(prefix string) map[string]string {
	some := map[string]string{}
	for name, text := range w {
		if rest, ok := strings.CutPrefix(name, prefix); ok {
			some[rest] = text
		}
	}
	return some
}
