package cache

// What is thrown away, so that the folders do not grow for ever. No clock is needed for it.

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"
)

// spare is how much more than the last run needed may lie in a folder, in bytes: an edit or two that are taken back.
const spare = 8 << 20

// most is how much all folders together may take, in bytes.
const most = 1 << 30

// Tidy is for the end of a run that went well. Once a folder has more than twice what the run needed, all else in it
// goes; once all folders together have too much, the largest of the others go.
func (f *Folder) Tidy() {
	f.lock.Lock()
	defer f.lock.Unlock()
	if len(f.used) == 0 {
		return
	}
	if sizeOf(f.path) > 2*f.bytes+spare {
		for _, e := range entriesOf(f.path) {
			if !f.used[e.Name()] {
				_ = os.Remove(filepath.Join(f.path, e.Name()))
			}
		}
	}
	f.tidyOthers(most)
}

// tidyOthers takes the largest of the other folders away until all have no more than limit.
func (f *Folder) tidyOthers(limit int64) {
	all := filepath.Dir(f.path)
	type folder struct {
		path string
		size int64
	}
	var folders []folder
	var total int64
	for _, e := range entriesOf(all) {
		one := folder{filepath.Join(all, e.Name()), sizeOf(filepath.Join(all, e.Name()))}
		total += one.size
		if len(e.Name()) == len(filepath.Base(f.path)) && e.IsDir() && one.path != f.path { // nothing else is ours
			folders = append(folders, one)
		}
	}
	slices.SortFunc(folders, func(a, b folder) int { return cmp.Compare(b.size, a.size) })
	for _, one := range folders {
		if total <= limit {
			return
		}
		total -= one.size
		_ = os.RemoveAll(one.path)
	}
}

func entriesOf(path string) []os.DirEntry {
	entries, _ := os.ReadDir(path)
	return entries
}

// sizeOf adds up the files of a folder; those that go meanwhile count nothing.
func sizeOf(path string) (size int64) {
	for _, e := range entriesOf(path) {
		if info, err := e.Info(); err == nil && info.Mode().IsRegular() {
			size += info.Size()
		}
	}
	return size
}
