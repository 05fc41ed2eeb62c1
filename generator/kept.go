package generator

// What is drawn and kept from one run to the next, and the keys that it is kept under: each has in it all that the
// drawing reads. Whoever lets a page read more of a pack than its key has must add that to the key.

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"hash"
	"io"
	"maps"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/source"
	"trundle/generator/work"
	"trundle/site"
)

// A Key stands for all that something is made from, but for the program that makes it.
type Key = [sha256.Size]byte

// A Store keeps what was made under its key, for this program alone. Several goroutines use it. It may forget
// everything at any time.
type Store interface {
	Get(key Key) (data []byte, ok bool)
	Put(key Key, data []byte)
}

// shelf makes jobs that look into the store first. A nil one lets jobs be.
type shelf struct {
	store    Store
	pack     *lesson.Pack
	start    []byte
	shared   Key // all files but lessons, parts, runs and pictures, and what lessons may know of each other
	whole    Key // everything
	language string
	pictures map[string]Key
}

// shelfFor reads the whole pack, for which nobody should wait if nothing is kept.
func shelfFor(p *Proved) *shelf {
	if p.Store == nil || p.files == nil {
		return nil
	}
	k := &shelf{store: p.Store, pack: p.Pack, language: p.Pack.Language, pictures: map[string]Key{}}
	if p.Start != nil {
		k.start = binary.AppendVarint(nil, int64(*p.Start))
	}
	for name, picture := range p.Pack.Pictures {
		if picture != nil { // some page shows it
			k.pictures[name] = picture.Sum()
		}
	}
	sum := newSum("shared", k.start)
	sum.files(p.files)
	for _, l := range p.Pack.Outlined().Lessons {
		sum.add(fmt.Appendf(nil, "%#v", *l)) // whatever is in it
	}
	k.shared = sum.key()
	k.whole = k.everything()
	return k
}

// everything is the key of what is made from the whole pack.
func (k *shelf) everything() Key {
	sum := newSum("whole", k.shared[:])
	for _, l := range k.pack.Lessons {
		sum.file(l.File)
	}
	k.runs(sum, slices.Sorted(maps.Keys(k.pack.Data)))
	k.shown(sum, slices.Sorted(maps.Keys(k.pictures)))
	return sum.key()
}

// ofLesson looks first for what is drawn of a lesson.
func (k *shelf) ofLesson(l *work.Lesson, jobs []Job) []Job {
	if k == nil {
		return jobs
	}
	sum := newSum("lesson", k.shared[:])
	sum.file(l.File) // with its parts
	k.runs(sum, l.DataFiles())
	pictures := l.Lesson.Pictures()
	if logo := k.pack.LogoName(); logo != "" {
		pictures[logo] = true
	}
	k.shown(sum, slices.Sorted(maps.Keys(pictures)))
	return k.under(sum.key(), jobs)
}

// common looks first for what is drawn of all lessons together. Assets that are the same for every pack are kept for
// all of them.
func (k *shelf) common(jobs []Job) []Job {
	if k == nil {
		return jobs
	}
	language := newSum("asset", []byte(k.language)).key()
	jobs = slices.Clone(jobs)
	for i, j := range jobs {
		_, below, _ := strings.Cut(j.Name, "/")
		key := k.whole
		if site.Unchanging(below) {
			key = language
		}
		jobs[i] = k.under(key, []Job{j})[0]
	}
	return jobs
}

// largest is what is kept of a season at most, in bytes: it is written bit by bit, and would have to be in memory
// whole.
const largest = 16 << 20

// season looks first for the sheets of all lessons in one file.
func (k *shelf) season(to Files, name string, bind func(io.Writer) error) error {
	var key Key
	if k != nil {
		key = newSum("file", k.whole[:], []byte(name)).key()
		if data, ok := k.store.Get(key); ok {
			return to.Put(name, data)
		}
	}
	w, err := to.Create(name)
	if err != nil {
		return err
	}
	copied := &copyOf{Writer: w, off: k == nil}
	if err := errors.Join(bind(copied), w.Close()); err != nil || copied.off {
		return err
	}
	k.store.Put(key, copied.text.Bytes())
	return nil
}

// copyOf copies what is written, unless it gets too large.
type copyOf struct {
	io.Writer
	text bytes.Buffer
	off  bool
}

func (c *copyOf) Write(data []byte) (int, error) {
	if c.off = c.off || c.text.Len()+len(data) > largest; c.off {
		c.text = bytes.Buffer{}
	} else {
		c.text.Write(data)
	}
	return c.Writer.Write(data)
}

// under gives jobs that look into the store, and put there what they make.
func (k *shelf) under(key Key, jobs []Job) []Job {
	all := make([]Job, len(jobs))
	for i, j := range jobs {
		all[i] = Job{j.Name, func() ([]byte, error) {
			own := newSum("file", key[:], []byte(j.Name)).key()
			if data, ok := k.store.Get(own); ok {
				return data, nil
			}
			data, err := j.Make()
			if err == nil {
				k.store.Put(own, data)
			}
			return data, err
		}}
	}
	return all
}

// runs adds files of runs. If one is missing, its place stays empty.
func (k *shelf) runs(sum sum, names []string) {
	for _, name := range names {
		sum.add([]byte(name))
		if t := k.pack.Data[name]; t != nil {
			sum.file(t.File)
		}
	}
}

// shown adds pictures; those that are not there have the empty key.
func (k *shelf) shown(sum sum, names []string) {
	for _, name := range names {
		key := k.pictures[name]
		sum.add([]byte(name), key[:])
	}
}

// sum makes a key. Each text goes in with its length, so that no two lists of texts are the same.
type sum struct{ hash.Hash }

func newSum(of string, texts ...[]byte) sum {
	s := sum{sha256.New()}
	s.add([]byte(of))
	s.add(texts...)
	return s
}

func (s sum) add(texts ...[]byte) {
	for _, text := range texts {
		s.Write(binary.AppendUvarint(nil, uint64(len(text))))
		s.Write(text)
	}
}

// file adds a file, which may be missing.
func (s sum) file(f *source.File) {
	if f == nil {
		s.add([]byte("none"))
		return
	}
	s.add([]byte(f.Name), f.Text())
}

func (s sum) key() Key { return Key(s.Sum(nil)) }

// packKey is under which name the store of a pack may be found: that of all its versions.
func packKey(p *lesson.Pack) Key { return newSum("pack", []byte(site.PackID(p))).key() }
