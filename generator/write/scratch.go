package write

// This file keeps files for as long as a run needs them, and lets what was put be read again.

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"sync"
)

// Open gives a file that was put to be read.
func (r *Replacement) Open(name string) (io.ReadCloser, error) {
	f, err := r.open()
	if err != nil {
		return nil, r.unwritten(name, err)
	}
	return f.root.Open(filepath.FromSlash(name))
}

// A Scratch is a folder of files that others are made of. It goes when it is closed; none of it has to be on the disk
// before that.
type Scratch struct {
	path string
	root *os.Root

	lock    sync.Mutex
	folders map[string]bool // that are there already
}

// NewScratch makes one within a folder, and not where the system keeps such: that may be in memory.
func NewScratch(within string) (*Scratch, error) {
	path, err := os.MkdirTemp(within, freshName+"*")
	if err != nil {
		return nil, err
	}
	root, err := os.OpenRoot(path)
	if err != nil {
		return nil, errors.Join(err, os.Remove(path))
	}
	return &Scratch{path: path, root: root, folders: map[string]bool{}}, nil
}

// Create begins a file that is written bit by bit.
func (s *Scratch) Create(name string) (io.WriteCloser, error) {
	name = filepath.FromSlash(name)
	s.lock.Lock()
	defer s.lock.Unlock()
	if parent := filepath.Dir(name); !s.folders[parent] {
		if err := s.root.MkdirAll(parent, 0o755); err != nil {
			return nil, err
		}
		s.folders[parent] = true
	}
	return s.root.Create(name)
}

// Put writes a file. Several goroutines may put files.
func (s *Scratch) Put(name string, data []byte) error {
	w, err := s.Create(name)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return errors.Join(err, w.Close())
}

// Open gives a file that was put to be read.
func (s *Scratch) Open(name string) (io.ReadCloser, error) {
	return s.root.Open(filepath.FromSlash(name))
}

// Amend reads a file and writes what do makes of it.
func (s *Scratch) Amend(name string, do func(to io.Writer, from io.Reader) error) error {
	f, err := s.root.OpenFile(filepath.FromSlash(name), os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(amendInPlace(f, f.Write, do), f.Close())
}

// Close takes all of it away.
func (s *Scratch) Close() error { return errors.Join(s.root.Close(), remove(s.path)) }
