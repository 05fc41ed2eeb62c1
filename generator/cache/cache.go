// Package cache keeps bytes under keys in a folder, from one run of the program to the next. All of it may be deleted
// at any time, by anybody, while it is used; then the bytes are made anew. What is damaged or of another program
// counts as not there.
package cache

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"sync"
)

// Key stands for all that something is made from, but for the program that makes it.
type Key = [sha256.Size]byte

// A Folder keeps what belongs together, such as all of a pack. It never fails: what cannot be written is not kept. It
// is for several goroutines, and several programs may use the same one.
type Folder struct {
	path    string
	program Key

	lock  sync.Mutex
	used  map[string]bool // names of the files that this run has read or written
	bytes int64           // in them
}

// Program is a key for the very program that runs: what another one has made may be otherwise.
func Program() (Key, error) {
	name, err := os.Executable()
	if runtime.GOOS == "linux" {
		name = "/proc/self/exe" // stays the one that runs when another is put in its place
	}
	if err != nil {
		return Key{}, err
	}
	f, err := os.Open(name)
	if err != nil {
		return Key{}, err
	}
	defer f.Close()
	sum := sha256.New()
	_, err = io.Copy(sum, f)
	return Key(sum.Sum(nil)), err
}

// Open gives the folder of some things below that of all of them. Nothing is made before there is something to keep.
func Open(all string, of, program Key) *Folder {
	return &Folder{path: filepath.Join(all, hex.EncodeToString(of[:8])), program: program, used: map[string]bool{}}
}

// Get gives what was kept under a key, if it is there and whole.
func (f *Folder) Get(key Key) (data []byte, ok bool) {
	name := f.name(key)
	file, err := os.ReadFile(filepath.Join(f.path, name))
	if err != nil || len(file) < sha256.Size {
		return nil, false
	}
	data = file[sha256.Size:]
	if sum := f.sum(key, data); !bytes.Equal(file[:sha256.Size], sum[:]) {
		return nil, false
	}
	f.use(name, len(file))
	return data, true
}

// Put keeps something under a key. A file is there whole or not at all for whoever looks; what a power cut leaves of
// it is found out by its sum, so that nobody has to wait for the disk.
func (f *Folder) Put(key Key, data []byte) {
	if os.MkdirAll(f.path, 0o700) != nil { // for nobody else: there are keys in it
		return
	}
	file, err := os.CreateTemp(f.path, unfinished+"*")
	if err != nil {
		return
	}
	sum, name := f.sum(key, data), f.name(key)
	_, err = file.Write(append(sum[:], data...))
	if closed := file.Close(); err != nil || closed != nil || os.Rename(file.Name(), filepath.Join(f.path, name)) != nil {
		_ = os.Remove(file.Name())
		return
	}
	f.use(name, sha256.Size+len(data))
}

// unfinished begins the name of a file that is being written, or was when its program ended.
const unfinished = "new-"

func (f *Folder) use(name string, size int) {
	f.lock.Lock()
	defer f.lock.Unlock()
	if !f.used[name] {
		f.used[name] = true
		f.bytes += int64(size)
	}
}

// name is that of the file for a key.
func (f *Folder) name(key Key) string {
	sum := sha256.Sum256(append(f.program[:], key[:]...))
	return hex.EncodeToString(sum[:16])
}

// sum is different for each program, key and text, so that no file passes for another.
func (f *Folder) sum(key Key, data []byte) Key {
	sum := sha256.New()
	sum.Write(f.program[:])
	sum.Write(key[:])
	sum.Write(data)
	return Key(sum.Sum(nil))
}
