package write

// This file fills a fresh folder, from several goroutines, and sees to it that all of it is on the disk.

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"hash"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"sync"
)

// syncing is how many files are on their way to the disk at the same time: a disk takes many with one turn, and a build
// that draws faster than its disk writes should wait for it, not fill the memory.
const syncing = 8

// A fresh folder is written before it, or what is in it, takes its place.
type fresh struct {
	on   system
	path string
	root *os.Root

	lock    sync.Mutex
	sums    sums
	folders map[string]bool // that are there already, by the system's names
	failed  error           // what went wrong while files were on their way

	way  sync.WaitGroup
	room chan struct{}
}

// newFresh makes a folder for which the name is only a beginning.
func newFresh(on system, parent, prefix string) (*fresh, error) {
	path, err := os.MkdirTemp(parent, prefix+"*")
	if err != nil {
		return nil, err
	}
	root, err := os.OpenRoot(path)
	if err == nil {
		err = os.Chmod(path, 0o755)
	}
	if err != nil {
		return nil, errors.Join(err, os.Remove(path))
	}
	return &fresh{on: on, path: path, root: root, sums: sums{}, folders: map[string]bool{".": true},
		room: make(chan struct{}, syncing)}, nil
}

// put writes a file, which is then on its way to the disk.
func (f *fresh) put(name string, data []byte) error {
	w, err := f.create(name)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return errors.Join(err, w.Close())
}

// create begins a file. Each name can be created once.
func (f *fresh) create(name string) (*file, error) {
	if err := f.admit(name); err != nil {
		return nil, err
	}
	return f.openFile(name, os.O_WRONLY|os.O_CREATE|os.O_TRUNC)
}

// admit takes a name down and makes the folders that it needs.
func (f *fresh) admit(name string) error {
	f.lock.Lock()
	defer f.lock.Unlock()
	if _, twice := f.sums[name]; twice || strings.Contains(name, "\n") { // which a list of files cannot name
		return fmt.Errorf("the file %q cannot be written, or was already", name)
	}
	f.sums[name] = [sha256.Size]byte{}
	parent := filepath.Dir(filepath.FromSlash(name))
	if f.folders[parent] {
		return nil
	}
	if err := f.root.MkdirAll(parent, 0o755); err != nil {
		return err
	}
	for ; !f.folders[parent]; parent = filepath.Dir(parent) {
		f.folders[parent] = true
	}
	return nil
}

// openFile opens a file to be written.
func (f *fresh) openFile(name string, how int) (*file, error) {
	to, err := f.root.OpenFile(filepath.FromSlash(name), how, 0o644)
	if err != nil {
		return nil, err
	}
	return &file{in: f, name: name, to: to, sum: sha256.New()}, nil
}

// amend reads a file that was put and writes what do makes of it.
func (f *fresh) amend(name string, do func(to io.Writer, from io.Reader) error) error {
	w, err := f.openFile(name, os.O_RDWR)
	if err != nil {
		return err
	}
	return errors.Join(amendInPlace(w.to, w.Write, do), w.Close())
}

// A file is one that is being written.
type file struct {
	in   *fresh
	name string
	to   *os.File
	sum  hash.Hash
}

// Write adds to the file.
func (w *file) Write(data []byte) (int, error) {
	w.sum.Write(data)
	if err := w.in.on.write(w.to, data); err != nil {
		return 0, err
	}
	return len(data), nil
}

var _ io.WriteCloser = (*file)(nil)

// Close ends the file and sends it on its way to the disk. What goes wrong there is reported by settle.
func (w *file) Close() error {
	f := w.in
	f.lock.Lock()
	f.sums[w.name] = [sha256.Size]byte(w.sum.Sum(nil))
	f.lock.Unlock()
	f.room <- struct{}{}
	f.way.Go(func() {
		err := w.finish()
		<-f.room
		if err != nil {
			f.lock.Lock()
			f.failed = errors.Join(f.failed, err)
			f.lock.Unlock()
		}
	})
	return nil
}

// finish sees to it that a file is on the disk. A panic would end the program from where nobody watches.
func (w *file) finish() (err error) {
	defer func() {
		if wrong := recover(); wrong != nil {
			err = fmt.Errorf("this is a mistake in trundle: %v\n%s", wrong, debug.Stack())
		}
	}()
	return errors.Join(w.in.on.sync(w.to), w.to.Close())
}

// settle waits until all is on the disk, the names in each folder too, and closes the folder.
func (f *fresh) settle() error {
	f.way.Wait()
	if f.failed != nil {
		return f.failed
	}
	for name := range f.folders {
		if err := f.on.syncFolder(filepath.Join(f.path, name)); err != nil {
			return err
		}
	}
	return f.close()
}

// close lets go of the folder: some systems move none that is open.
func (f *fresh) close() error {
	f.way.Wait()
	return f.root.Close()
}

// discard takes the folder away again.
func (f *fresh) discard() error {
	return errors.Join(f.close(), f.on.remove(f.path))
}

// marker gives the text of a marker for what was put.
func (f *fresh) marker() []byte {
	f.lock.Lock()
	defer f.lock.Unlock()
	return f.sums.marker()
}
