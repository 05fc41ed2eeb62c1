// Package starter holds a small pack to begin with: two lessons that teach the author's
// language while they teach something else.
package starter

import (
	"embed"
	"io/fs"
	"strconv"
	"strings"
)

//go:embed pack lesson.md
var files embed.FS

// A NewLesson is what one more lesson of a pack begins with.
type NewLesson struct {
	Title string // as YAML
	ID    string
	Week  int
	Care  []string
}

// Lesson gives the text of a lesson with all its parts.
func Lesson(l NewLesson) ([]byte, error) {
	text, err := files.ReadFile("lesson.md")
	if err != nil {
		return nil, err
	}
	filled := strings.NewReplacer("@title@", l.Title, "@id@", l.ID, "@week@", strconv.Itoa(l.Week),
		"@care@", strings.Join(l.Care, ", ")).Replace(string(text))
	return []byte(filled), nil
}

// Pack gives the pack's files by their names below its folder.
func Pack() (map[string][]byte, error) {
	pack := map[string][]byte{}
	err := fs.WalkDir(files, "pack", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		pack[name[len("pack/"):]], err = files.ReadFile(name)
		return err
	})
	return pack, err
}
