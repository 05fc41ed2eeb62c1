// Package write puts files into a folder, all or none. It never empties or replaces
// a folder that trundle did not make.
package write

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Marker is the file by which trundle knows a folder of its own making.
const Marker = ".made-by-trundle"

// markerText is for people who look into the marker.
const markerText = "trundle made this folder and replaces it as a whole. Keep nothing of your own in it.\n"

// ReportMarker is the same of a report: the one never replaces the other.
const ReportMarker = ".made-by-trundle-tally"

// ErrNotOurs says that the output folder holds something that trundle did not write.
var ErrNotOurs = errors.New("the folder is not empty and was not made by trundle")

// ErrInside says that one of the output folder and the pack is inside the other.
var ErrInside = errors.New("the output folder is inside the pack's folder, or the pack's folder inside it")

// Folder writes files, by slash-separated name, into dir, which then holds just
// them. They are written beside dir first and swapped in at the end, so that dir
// keeps what it had if anything fails. Between the two renames of the swap dir is
// missing for a moment; no file system offers less for folders everywhere.
func Folder(dir, pack string, files map[string][]byte) error {
	r, err := Begin(context.Background(), dir, pack, nil)
	return whole(r, err, files)
}

// Report writes a report's files as Folder does a pack's.
func Report(dir, beside string, files map[string][]byte) error {
	r, err := BeginReport(context.Background(), dir, beside, nil)
	return whole(r, err, files)
}

// whole puts all files and takes the folder's place.
func whole(r *Replacement, err error, files map[string][]byte) error {
	if err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(files)) { // in one order, so that a failure can be repeated
		if err := r.Put(name, files[name]); err != nil {
			return errors.Join(err, r.Abandon())
		}
	}
	return r.Commit()
}

// Check returns why dir may not be written, nil if it may: it is not there, is empty, or is of our
// making, and it does not lie in the pack nor around it.
func Check(dir, pack string) error { return check(dir, pack, Marker) }

// CheckReport is the same for a report.
func CheckReport(dir, beside string) error { return check(dir, beside, ReportMarker) }

// check says why a folder must not be replaced.
func check(dir, pack, marker string) error {
	inside, err := nested(dir, pack)
	if err != nil {
		return err
	}
	if inside {
		return fmt.Errorf("%s: %w", dir, ErrInside)
	}
	if dir == "" {
		return fmt.Errorf("the output folder has no name: %w", ErrNotOurs)
	}
	info, err := os.Stat(dir)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Lstat(dir); err == nil { // a link to nowhere, which a swap would lose
			return fmt.Errorf("%s: %w", dir, ErrNotOurs)
		}
		return nil
	}
	if err != nil {
		return err
	}
	if !info.IsDir() {
		return fmt.Errorf("%s: %w", dir, ErrNotOurs)
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	ours := slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == marker && e.Type().IsRegular() })
	if len(entries) > 0 && !ours {
		return fmt.Errorf("%s: %w", dir, ErrNotOurs)
	}
	return nil
}

// nested is true if one folder is inside the other, links followed.
func nested(a, b string) (bool, error) {
	a, err := resolve(a)
	if err != nil {
		return false, err
	}
	b, err = resolve(b)
	if err != nil {
		return false, err
	}
	return within(a, b) || within(b, a), nil
}

// within is true if inner is outer, or somewhere in it.
func within(inner, outer string) bool {
	rel, err := filepath.Rel(outer, inner)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// resolve follows the links of the part of a path that exists.
func resolve(p string) (string, error) {
	asked := p
	p, err := filepath.Abs(p)
	if err != nil {
		return "", err
	}
	rest := ""
	for {
		real, err := filepath.EvalSymlinks(p)
		if err == nil {
			return filepath.Join(real, rest), nil
		}
		if !errors.Is(err, fs.ErrNotExist) || filepath.Dir(p) == p {
			return "", fmt.Errorf("%s: %w", asked, err)
		}
		rest = filepath.Join(filepath.Base(p), rest)
		p = filepath.Dir(p)
	}
}

// fill writes files below a folder, in the order of their names, and the marker last: without it a folder is not
// complete.
func fill(dir, marker string, files map[string][]byte) error {
	if err := os.Chmod(dir, 0o755); err != nil {
		return err
	}
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	root, err := os.OpenRoot(dir)
	if err != nil {
		return err
	}
	defer root.Close()
	made := map[string]bool{".": true}
	for _, name := range names {
		name := filepath.FromSlash(name)
		if parent := filepath.Dir(name); !made[parent] {
			if err := root.MkdirAll(parent, 0o755); err != nil {
				return err
			}
			made[parent] = true
		}
		if err := root.WriteFile(name, files[filepath.ToSlash(name)], 0o644); err != nil {
			return err
		}
	}
	if marker == "" {
		return nil
	}
	return root.WriteFile(marker, []byte(markerText), 0o644)
}

// swap puts fresh in dir's place; if that fails, dir is as it was.
func (m mover) swap(fresh, dir string) error {
	if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return m.move(fresh, dir, dir)
	}
	old, err := os.MkdirTemp(filepath.Dir(dir), "."+filepath.Base(dir)+"-old-*")
	if err != nil {
		return err
	}
	kept := filepath.Join(old, "site")
	if err := m.move(dir, kept, dir); err != nil {
		return errors.Join(err, os.Remove(old))
	}
	if err := m.move(fresh, dir, dir); err != nil {
		if back := m.move(kept, dir, dir); back != nil {
			return fmt.Errorf("%w; what was in %s is now in %s: %w", err, dir, kept, back)
		}
		return errors.Join(fmt.Errorf("%w; %s is as it was", err, dir), os.Remove(old))
	}
	if err := m.patiently(func() error { return remove(old) }); err != nil {
		// Not ErrInUse any more: there is nothing to do again.
		return fmt.Errorf("%s is the new one; the one before is left over in %s, delete that later: %v", dir, old, err)
	}
	return nil
}

// New writes files into a folder that is not there yet, or is empty; unlike Folder's, it is
// its owner's from then on. They are written beside it and swapped in, so that there are all or none.
func New(dir string, files map[string][]byte) (err error) {
	dir, err = filepath.Abs(dir)
	if err != nil {
		return err
	}
	switch entries, err := os.ReadDir(dir); {
	case err == nil && len(entries) > 0:
		return fmt.Errorf("%s: %w", dir, ErrNotOurs)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		if _, statErr := os.Lstat(dir); statErr == nil { // a file, or a folder that cannot be read
			return fmt.Errorf("%s: %w", dir, ErrNotOurs)
		}
		return err
	}
	if err := os.MkdirAll(filepath.Dir(dir), 0o755); err != nil {
		return err
	}
	fresh, err := os.MkdirTemp(filepath.Dir(dir), "."+filepath.Base(dir)+"-new-*")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(fresh)) }()
	if err := fill(fresh, "", files); err != nil {
		return err
	}
	if err := os.Remove(dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err // it is empty no more
	}
	return ofSystem.move(fresh, dir, dir)
}
