// Package starter holds a small pack to begin with: two lessons that teach the author's
// language while they teach something else.
package starter

import (
	"embed"
	"io/fs"
)

//go:embed pack
var files embed.FS

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
