package generator

// What files about all lessons need of each, gathered while the lesson is open: the texts that mentors search, and
// which records the page of the class may find in a file.

import (
	"path"
	"sync"

	"trundle/generator/work"
	"trundle/site"
)

var classPageName = path.Join(string(site.Mentors), site.ClassPage)

// gathered is filled by several goroutines.
type gathered struct {
	texts *searchTexts

	lock  sync.Mutex
	class map[string]site.ClassIndex // by the lesson's slug
}

func newGathered(p *Proved, s *site.Site) *gathered {
	return &gathered{texts: newSearchTexts(p, s), class: map[string]site.ClassIndex{}}
}

// add takes what is needed of a lesson.
func (g *gathered) add(name string, l *work.Lesson) error {
	index := site.ClassIndexOf(l)
	g.lock.Lock()
	g.class[name] = index
	g.lock.Unlock()
	return g.texts.add(name, l)
}

// put makes the files.
func (g *gathered) put(files Files) error {
	if err := written(files, searchTextsName, g.texts.write); err != nil {
		return err
	}
	p := g.texts.proved
	lessons := make([]site.ClassIndex, len(p.Lessons))
	for i, l := range p.Lessons {
		lessons[i] = g.class[l.Slug]
	}
	page, err := g.texts.site.Class(p.Pack, lessons)
	if err != nil {
		return err
	}
	return files.Put(classPageName, page)
}

// ClassJob gives the job of the mentors' page of the class.
func ClassJob(p *Proved, s *site.Site) Job {
	return Job{classPageName, func() ([]byte, error) {
		lessons := make([]site.ClassIndex, len(p.Lessons))
		for i, l := range p.Lessons {
			lessons[i] = site.ClassIndexOf(p.Open(l))
		}
		return s.Class(p.Pack, lessons)
	}}
}
