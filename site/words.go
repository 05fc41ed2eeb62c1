package site

import (
	"embed"
	"fmt"
	"strings"

	"github.com/goccy/go-yaml"
)

//go:embed words/*.yaml
var wordFiles embed.FS

// words are the texts of the interface in one language, by name.
type words map[string]string

func loadWords(language string) (words, error) {
	data, err := wordFiles.ReadFile("words/" + language + ".yaml")
	if err != nil {
		return nil, err
	}
	w := words{}
	return w, yaml.Unmarshal(data, &w)
}

// Words gives the texts of the interface in a language, by name; nil if there are none.
func Words(language string) map[string]string {
	w, err := loadWords(language)
	if err != nil {
		return nil
	}
	return w
}

// say gives a text, its numbers put in.
func (w words) say(name string, args ...any) (string, error) {
	text, ok := w[name]
	if !ok {
		return "", fmt.Errorf("site: no word %q in the language file", name)
	}
	if len(args) > 0 {
		return fmt.Sprintf(text, args...), nil
	}
	return text, nil
}

// must is say for names in code; a test sees to it that all of them are there.
func (w words) must(name string, args ...any) string {
	text, err := w.say(name, args...)
	if err != nil {
		panic(err)
	}
	return text
}

// of gives the words whose names start with a prefix, by the rest of their names.
func (w words) of(prefix string) map[string]string {
	some := map[string]string{}
	for name, text := range w {
		if rest, ok := strings.CutPrefix(name, prefix); ok {
			some[rest] = text
		}
	}
	return some
}
