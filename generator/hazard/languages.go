package hazard

// The statements in other languages than English, from their folders of data.

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io/fs"
	"sync"

	"trundle/generator/locale"
)

// English is the language of the table here.
const English = "en"

// translated keeps the texts of a language by their codes.
var translated sync.Map

// In gives a statement in a language, and is false if that has no such text; then it stays as it is.
func (s Statement) In(language string) (Statement, bool) {
	if language == English || language == "" {
		return s, true
	}
	read, _ := translated.LoadOrStore(language, sync.OnceValue(func() map[string]string { return textsIn(language) }))
	text, found := read.(func() map[string]string)()[plain(s.Code)]
	if found {
		s.Text = text
	}
	return s, found
}

// textsIn reads those of a language, none if its folder has none.
func textsIn(language string) map[string]string {
	texts := map[string]string{}
	data, err := locale.Read(language, "statements.csv")
	if errors.Is(err, fs.ErrNotExist) {
		return texts
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		panic("hazard: " + language + "/statements.csv: " + err.Error()) // embedded
	}
	for _, row := range rows[1:] {
		texts[plain(row[0])] = row[1]
	}
	return texts
}
