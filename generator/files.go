package generator

// Where the files of a build go: each as soon as it is made, so that no more of them are in memory than are being made.

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"sync"

	"trundle/site"
)

// Files takes the files of a build, by their slash-separated names, and gives them again to what is made of others.
// Several goroutines use it.
type Files interface {
	Put(name string, data []byte) error
	Create(name string) (io.WriteCloser, error) // for one that is written bit by bit
	Open(name string) (io.ReadCloser, error)
	Amend(name string, do func(to io.Writer, from io.Reader) error) error // has do write a file that was put anew
}

// inMemory keeps files in memory.
type inMemory struct {
	lock sync.Mutex
	all  map[string][]byte
}

func (m *inMemory) Put(name string, data []byte) error {
	m.lock.Lock()
	defer m.lock.Unlock()
	m.all[name] = data
	return nil
}

func (m *inMemory) Create(name string) (io.WriteCloser, error) {
	return &inMemoryFile{to: m, name: name}, nil
}

func (m *inMemory) Open(name string) (io.ReadCloser, error) {
	m.lock.Lock()
	defer m.lock.Unlock()
	data, ok := m.all[name]
	if !ok {
		return nil, fmt.Errorf("%s was not made", name)
	}
	return io.NopCloser(bytes.NewReader(data)), nil
}

// readFrom gives a file as a whole.
func readFrom(files Files, name string) ([]byte, error) {
	r, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer r.Close()
	var all bytes.Buffer
	if f, ok := r.(fs.File); ok {
		if info, err := f.Stat(); err == nil {
			all.Grow(int(info.Size()) + bytes.MinRead)
		}
	}
	_, err = all.ReadFrom(r)
	return all.Bytes(), err
}

func (m *inMemory) Amend(name string, do func(to io.Writer, from io.Reader) error) error {
	from, err := m.Open(name)
	if err != nil {
		return err
	}
	var to bytes.Buffer
	if err := do(&to, from); err != nil {
		return err
	}
	return m.Put(name, to.Bytes())
}

// inMemoryFile is one that is being written.
type inMemoryFile struct {
	bytes.Buffer
	to   *inMemory
	name string
}

func (f *inMemoryFile) Close() error { return f.to.Put(f.name, f.Bytes()) }

// noted takes files on to others and notes their names and sizes.
type noted struct {
	Files
	lock  sync.Mutex
	sizes map[string]int
}

func newNoted(to Files) *noted { return &noted{Files: to, sizes: map[string]int{}} }

func (n *noted) note(name string, size int) {
	n.lock.Lock()
	defer n.lock.Unlock()
	n.sizes[name] = size
}

func (n *noted) Put(name string, data []byte) error {
	n.note(name, len(data))
	return n.Files.Put(name, data)
}

func (n *noted) Create(name string) (io.WriteCloser, error) {
	w, err := n.Files.Create(name)
	return &notedFile{sized: sized{Writer: w}, file: w, in: n, name: name}, err
}

func (n *noted) Amend(name string, do func(to io.Writer, from io.Reader) error) error {
	return n.Files.Amend(name, func(to io.Writer, from io.Reader) error {
		w := &sized{Writer: to}
		err := do(w, from)
		n.note(name, w.size)
		return err
	})
}

// in gives the files of a folder, by their names in it.
func (n *noted) in(folder string) site.Files {
	sizes := map[string]int{}
	for name, size := range n.sizes {
		if below, ok := strings.CutPrefix(name, folder+"/"); ok {
			sizes[below] = size
		}
	}
	return site.Files{Sizes: sizes, Open: func(name string) (io.ReadCloser, error) { return n.Open(folder + "/" + name) }}
}

// sized counts what is written.
type sized struct {
	io.Writer
	size int
}

func (s *sized) Write(data []byte) (int, error) {
	n, err := s.Writer.Write(data)
	s.size += n
	return n, err
}

// notedFile is one that is being written.
type notedFile struct {
	sized
	file io.Closer
	in   *noted
	name string
}

func (f *notedFile) Close() error {
	f.in.note(f.name, f.size)
	return f.file.Close()
}
