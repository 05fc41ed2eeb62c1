package generator

// What mentors can search: the texts of all lessons, taken from each while it is open.

import (
	"bytes"
	"errors"
	"io"
	"path"
	"sync"

	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site"
)

// SearchJob gives the job of what mentors can search.
func SearchJob(p *Proved, s *site.Site) Job {
	return Job{searchTextsName, func() ([]byte, error) {
		outlined, out := p.Pack.Outlined(), bytes.Buffer{}
		script := s.BeginSearchTexts(&out)
		for _, l := range p.Lessons {
			texts, err := s.SearchTextsOf(outlined, p.Open(l))
			if err != nil {
				return nil, err
			}
			script.Add(texts)
		}
		err := script.End(p.Pack)
		return out.Bytes(), err
	}}
}

var searchTextsName = path.Join(string(site.Mentors), site.SearchTexts)

// searchTexts writes what is searched of each lesson into a file, in the order of the lessons. Those that are done
// before their turn wait: they are as few as are drawn side by side, unless one takes much longer than others.
type searchTexts struct {
	pack     *lesson.Pack
	outlined *lesson.Pack // all that a lesson's texts are made with
	site     *site.Site
	files    Files

	lock    sync.Mutex
	next    int // the lesson whose turn it is
	waiting map[int][]byte
	file    io.WriteCloser // nil before the first lesson, and after the end
	script  *site.SearchScript
}

// of gives the texts of a lesson.
func (t *searchTexts) of(l *work.Lesson) ([]byte, error) { return t.site.SearchTextsOf(t.outlined, l) }

// add takes the texts of the lesson at a place in the pack.
func (t *searchTexts) add(at int, texts []byte) error {
	t.lock.Lock()
	defer t.lock.Unlock()
	if err := t.begin(); err != nil {
		return err
	}
	t.waiting[at] = texts
	for ; ; t.next++ {
		texts, done := t.waiting[t.next]
		if !done {
			return nil
		}
		t.script.Add(texts)
		delete(t.waiting, t.next)
	}
}

func (t *searchTexts) begin() (err error) {
	if t.file == nil {
		if t.file, err = t.files.Create(searchTextsName); err == nil {
			t.script = t.site.BeginSearchTexts(t.file)
		}
	}
	return err
}

// end completes the file when all lessons are in it.
func (t *searchTexts) end() error {
	if err := t.begin(); err != nil { // there is no lesson
		return err
	}
	return errors.Join(t.script.End(t.pack), t.close())
}

// close lets go of the file, as it is.
func (t *searchTexts) close() (err error) {
	if t.file != nil {
		err, t.file = t.file.Close(), nil
	}
	return err
}
