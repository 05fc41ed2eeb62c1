package generator

// What mentors can search: the texts of all lessons, taken from each while it is open.

import (
	"bytes"
	"compress/flate"
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
		texts, out := newSearchTexts(p, s), bytes.Buffer{}
		for _, l := range p.Lessons {
			err := texts.add(l.Slug, func() ([]byte, error) { return texts.make(p.Open(l)) })
			if err != nil {
				return nil, err
			}
		}
		err := texts.write(&out)
		return out.Bytes(), err
	}}
}

var searchTextsName = path.Join(string(site.Mentors), site.SearchTexts)

// searchTexts are what is searched of each lesson. They wait compressed, as they are a third of all lessons' sources.
type searchTexts struct {
	proved   *Proved
	outlined *lesson.Pack // all that a lesson's texts are made with
	site     *site.Site

	lock sync.Mutex
	of   map[string][]byte // by the lesson's slug
}

func newSearchTexts(p *Proved, s *site.Site) *searchTexts {
	return &searchTexts{proved: p, outlined: p.Pack.Outlined(), site: s, of: map[string][]byte{}}
}

// make gives the texts of a lesson.
func (t *searchTexts) make(l *work.Lesson) ([]byte, error) {
	return t.site.SearchTextsOf(t.outlined, l)
}

// add takes the texts of a lesson from what makes them.
func (t *searchTexts) add(name string, made func() ([]byte, error)) error {
	texts, err := made()
	if err != nil {
		return err
	}
	var packed bytes.Buffer
	z, err := flate.NewWriter(&packed, flate.BestSpeed)
	if err != nil {
		return err
	}
	if _, err := z.Write(texts); err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	t.lock.Lock()
	defer t.lock.Unlock()
	t.of[name] = bytes.Clone(packed.Bytes())
	return nil
}

// write writes the script with the texts of all lessons, in their order.
func (t *searchTexts) write(to io.Writer) error {
	return t.site.SearchTexts(to, t.proved.Pack, func(yield func([]byte, error) bool) {
		for _, l := range t.proved.Lessons {
			if !yield(io.ReadAll(flate.NewReader(bytes.NewReader(t.of[l.Slug])))) {
				return
			}
		}
	})
}
