// Package locale holds what belongs to a language of lessons, a folder of data each: the words of the interface, the
// forms of numbers and lists, the words that the checks read.
package locale

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

//go:embed */*
var folders embed.FS

// Tags are the languages that have words, by their BCP 47 tags, in order.
func Tags() []string {
	files, err := fs.Glob(folders, "*/words.yaml")
	if err != nil {
		panic("locale: " + err.Error()) // a pattern
	}
	tags := make([]string, len(files))
	for i, name := range files {
		tags[i] = path.Dir(name)
	}
	return tags
}

// Read gives a file of a language's folder, such as words.yaml; an error if there is none.
func Read(tag, name string) ([]byte, error) { return folders.ReadFile(path.Join(tag, name)) }

// Either names several languages in a sentence of the command's: de, en, es or fr.
func Either(tags []string) string {
	last := len(tags) - 1
	return strings.Join(tags[:last], ", ") + " or " + tags[last]
}
