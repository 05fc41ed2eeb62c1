// Package mirror keeps the files of a folder in memory and follows what becomes of them on
// the disk. It gives snapshots that never change, each a file system to be read like the folder itself.
package mirror

import (
	"bytes"
	"cmp"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strings"
	"time"
)

// Concerns tells which names below the folder are of interest, slash-separated; of a folder,
// whether to look into it.
type Concerns func(name string, isDir bool) bool

// largest is how much of a file is held; what is larger is refused by whoever reads it.
const largest = 33 << 20

// Snapshot is a folder at a moment.
type Snapshot struct {
	nodes map[string]*node
	dirs  map[string][]fs.DirEntry // by name, sorted
}

// node is a file, a folder, or something that could not be read.
type node struct {
	entry fs.FileInfo // of the name itself, a link not followed
	info  fs.FileInfo // of what it leads to; nil if that could not be found
	data  []byte
	err   error // why the content is not there
	dir   bool  // it is looked into
}

// like tells whether two nodes are the same as far as the disk says without reading.
func (n *node) like(m *node) bool {
	same := func(a, b fs.FileInfo) bool {
		return a == nil && b == nil || a != nil && b != nil && a.Mode() == b.Mode() && a.Size() == b.Size() &&
			a.ModTime().Equal(b.ModTime()) && os.SameFile(a, b)
	}
	return same(n.entry, m.entry) && same(n.info, m.info)
}

// scan reads the whole folder; what is like before is taken from there unless it may have
// changed since without a trace.
func scan(dir string, concerns Concerns, before *Snapshot, sure bool) (*Snapshot, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	nodes := map[string]*node{}
	if err := below(root, ".", concerns, nodes, before, sure); err != nil {
		return nil, err
	}
	return newSnapshot(nodes), nil
}

// below adds what lies below a folder.
func below(root *os.Root, dir string, concerns Concerns, nodes map[string]*node, before *Snapshot, sure bool) error {
	d, err := root.Open(dir)
	if err != nil {
		return err
	}
	entries, err := d.ReadDir(-1)
	if closeErr := d.Close(); err == nil {
		err = closeErr
	}
	if err != nil {
		return err
	}
	for _, e := range entries {
		name := path.Join(dir, e.Name())
		if concerns(name, e.IsDir()) {
			add(root, name, concerns, nodes, before, sure)
		}
	}
	return nil
}

// add reads one name, and what is below it.
func add(root *os.Root, name string, concerns Concerns, nodes map[string]*node, before *Snapshot, sure bool) {
	entry, err := root.Lstat(name)
	if err != nil {
		return // gone meanwhile
	}
	n := &node{entry: entry}
	nodes[name] = n
	if n.info, err = root.Stat(name); err != nil {
		n.info, n.err = nil, bare(err)
		return
	}
	// A link to a folder is followed at the top alone, so that no circle can be walked.
	n.dir = entry.IsDir() || n.info.IsDir() && !strings.Contains(name, "/")
	switch {
	case n.dir:
		n.err = bare(below(root, name, concerns, nodes, before, sure))
	case !n.info.Mode().IsRegular():
		n.err = fs.ErrInvalid // a pipe or device would wait for ever
	default:
		if old := before.node(name); old != nil && !sure && old.err == nil && n.like(old) {
			n.data = old.data
			return
		}
		n.data, n.err = content(root, name)
		if old := before.node(name); old != nil && bytes.Equal(old.data, n.data) {
			n.data = old.data // so that others see at once that it is the same
		}
	}
}

// content reads a file, up to what is held at most.
func content(root *os.Root, name string) ([]byte, error) {
	f, err := root.Open(name)
	if err != nil {
		return nil, bare(err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, largest))
	return data, bare(err)
}

// bare takes the operation and the path off an error; a snapshot puts its own in front.
func bare(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}

// refresh gives the snapshot with some names read anew.
func (s *Snapshot) refresh(dir string, concerns Concerns, names []string) (*Snapshot, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	nodes := maps.Clone(s.nodes)
	for _, name := range names {
		delete(nodes, name)
		for other := range nodes {
			if strings.HasPrefix(other, name+"/") {
				delete(nodes, other)
			}
		}
		if info, err := root.Lstat(name); err == nil && concerns(name, info.IsDir()) {
			add(root, name, concerns, nodes, s, true)
		}
	}
	return newSnapshot(nodes), nil
}

// newSnapshot lists the folders once, so that reading a snapshot needs no search.
func newSnapshot(nodes map[string]*node) *Snapshot {
	s := &Snapshot{nodes: nodes, dirs: map[string][]fs.DirEntry{".": nil}}
	for name, n := range nodes {
		if _, listed := s.dirs[name]; n.dir && n.err == nil && !listed {
			s.dirs[name] = nil // an empty folder is one too
		}
		s.dirs[path.Dir(name)] = append(s.dirs[path.Dir(name)], fs.FileInfoToDirEntry(n.entry))
	}
	for _, entries := range s.dirs {
		slices.SortFunc(entries, func(a, b fs.DirEntry) int { return cmp.Compare(a.Name(), b.Name()) })
	}
	return s
}

func (s *Snapshot) node(name string) *node {
	if s == nil {
		return nil
	}
	return s.nodes[name]
}

// folders gives the folders below the top that are looked into.
func (s *Snapshot) folders() []string {
	var all []string
	for name, n := range s.nodes {
		if n.dir {
			all = append(all, name)
		}
	}
	slices.Sort(all)
	return all
}

// changed gives the names of files that differ between two snapshots.
func changed(a, b *Snapshot) []string {
	var names []string
	for name, n := range b.nodes {
		if old := a.node(name); old == nil || old.dir != n.dir || !n.dir &&
			(!bytes.Equal(old.data, n.data) || (old.err == nil) != (n.err == nil)) {
			names = append(names, name)
		}
	}
	if a != nil {
		for name := range a.nodes {
			if b.nodes[name] == nil {
				names = append(names, name)
			}
		}
	}
	slices.Sort(names)
	return names
}

// emptied tells whether a file that held something holds nothing now, as it does for a
// moment while an editor writes it.
func emptied(a, b *Snapshot, names []string) bool {
	return slices.ContainsFunc(names, func(name string) bool {
		old, now := a.node(name), b.node(name)
		return old != nil && len(old.data) > 0 && (now == nil || !now.dir && len(now.data) == 0)
	})
}

// Open opens a file or folder of the snapshot.
func (s *Snapshot) Open(name string) (fs.File, error) {
	if !fs.ValidPath(name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrInvalid}
	}
	if name == "." {
		return nil, &fs.PathError{Op: "open", Path: name, Err: errors.ErrUnsupported} // ReadDir is there
	}
	n := s.nodes[name]
	if n == nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	if n.err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: n.err}
	}
	return &file{n.info, bytes.NewReader(n.data)}, nil
}

// Held tells that files are held in memory; see read.Held.
func (s *Snapshot) Held() {}

// ReadFile gives a file's content, which must not be changed.
func (s *Snapshot) ReadFile(name string) ([]byte, error) {
	n := s.nodes[name]
	if n == nil || n.err != nil || n.dir {
		_, err := s.Open(name)
		if err == nil {
			err = &fs.PathError{Op: "read", Path: name, Err: fs.ErrInvalid}
		}
		return nil, err
	}
	return n.data, nil
}

// Stat tells of what a name leads to.
func (s *Snapshot) Stat(name string) (fs.FileInfo, error) {
	if name == "." {
		return top{}, nil
	}
	n := s.nodes[name]
	switch {
	case n == nil:
		return nil, &fs.PathError{Op: "stat", Path: name, Err: fs.ErrNotExist}
	case n.info == nil:
		return nil, &fs.PathError{Op: "stat", Path: name, Err: n.err}
	}
	return n.info, nil
}

// ReadDir lists a folder, sorted.
func (s *Snapshot) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, ok := s.dirs[name]
	if n := s.nodes[name]; n != nil && n.err != nil {
		return nil, &fs.PathError{Op: "open", Path: name, Err: n.err}
	}
	if !ok || name != "." && !s.nodes[name].dir {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return slices.Clone(entries), nil
}

// file is a file of a snapshot, opened.
type file struct {
	info fs.FileInfo
	*bytes.Reader
}

func (f *file) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *file) Close() error               { return nil }

// top is the folder itself.
type top struct{}

func (top) Name() string       { return "." }
func (top) Size() int64        { return 0 }
func (top) Mode() fs.FileMode  { return fs.ModeDir | 0o755 }
func (top) ModTime() time.Time { return time.Time{} }
func (top) IsDir() bool        { return true }
func (top) Sys() any           { return nil }
