// Package starter holds a small pack to begin with: two lessons that teach the author's
// language while they teach something else.
package starter

import (
	"embed"
	"io/fs"
	"strconv"
	"strings"
)

//go:embed */*
var files embed.FS

// English is what a pack is begun in if nobody names a language.
const English = "en"

// Languages are those that the pack is written in, by their tags.
func Languages() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		panic("starter: " + err.Error()) // embedded
	}
	var tags []string
	for _, e := range entries {
		tags = append(tags, e.Name())
	}
	return tags
}

// A NewLesson is what one more lesson of a pack begins with.
type NewLesson struct {
	Title string // as YAML
	ID    string
	Week  int
	Care  []string
}

// Lesson gives the text of a lesson with all its parts, in a language.
func Lesson(language string, l NewLesson) ([]byte, error) {
	text, err := files.ReadFile(language + "/lesson.md")
	if err != nil {
		return nil, err
	}
	filled := strings.NewReplacer("@title@", l.Title, "@id@", l.ID, "@week@", strconv.Itoa(l.Week),
		"@care@", strings.Join(l.Care, ", ")).Replace(string(text))
	return []byte(filled), nil
}

// Pack gives the files of the pack in a language by their names below its folder.
func Pack(language string) (map[string][]byte, error) {
	pack := map[string][]byte{}
	err := fs.WalkDir(files, language+"/pack", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		pack[name[len(language+"/pack/"):]], err = files.ReadFile(name)
		return err
	})
	return pack, err
}
