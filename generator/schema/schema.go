// Package schema describes the fields of a pack's files for editors, as JSON Schema of the draft 2020-12
// (https://json-schema.org/draft/2020-12/json-schema-core). The texts here are what an editor reads; that they agree
// with what parse takes is for the tests. An editor underlines nothing that trundle takes; trundle looks closer.
package schema

import (
	"embed"
	"strings"
)

//go:embed *.json
var files embed.FS

// Schema describes the fields of one kind of file.
type Schema struct {
	Name string // "lesson"
	Of   string // what it is of
	Text []byte
}

// All are the schemas there are, in the order in which a coach meets the files.
func All() []Schema {
	all := []Schema{
		{Name: "pack", Of: "pack.yaml"},
		{Name: "kits", Of: "kits.yaml"},
		{Name: "formulas", Of: "formulas.yaml"},
		{Name: "lesson", Of: "the header of a lesson"},
		{Name: "card", Of: "the header of a care card"},
		{Name: "words", Of: "the header of words.md"},
	}
	for i := range all {
		text, err := files.ReadFile(all[i].Name + ".json")
		if err != nil {
			panic("schema: " + err.Error()) // embedded
		}
		all[i].Text = text
	}
	return all
}

// Named finds a schema by its name.
func Named(name string) (Schema, bool) {
	for _, s := range All() {
		if strings.EqualFold(s.Name, name) {
			return s, true
		}
	}
	return Schema{}, false
}
