package write

// What tests write in one go, where the program puts files one by one.

import (
	"context"
	"errors"
	"maps"
	"slices"
)

// Folder writes files, by slash-separated name, into dir, which then holds just them. For how, see Replacement.
func Folder(dir, pack string, files map[string][]byte) error {
	r, err := Begin(context.Background(), dir, pack, nil)
	return whole(r, err, files)
}

// Report writes a report's files as Folder does a pack's.
func Report(dir, beside string, files map[string][]byte) error {
	r, err := BeginReport(context.Background(), dir, beside, nil)
	return whole(r, err, files)
}

// Into puts files beside whatever dir holds; for how, see Addition.
func Into(dir string, files map[string][]byte) error {
	a, err := BeginInto(context.Background(), dir, nil)
	if err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(files)) { // in one order, so that a failure can be repeated
		if err := a.Put(name, files[name]); err != nil {
			return errors.Join(err, a.Abandon())
		}
	}
	return a.Commit()
}

// Put writes a file. Several goroutines may put files; each name may be put once.
func (a *Addition) Put(name string, data []byte) error {
	return unwritten(a.asked, name, a.fresh.put(name, data))
}
