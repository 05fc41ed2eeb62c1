package generator

// What files about all lessons need of each, gathered while the lesson is open: the texts that mentors search, and
// which records the page of the class may find in a file.

import (
	"encoding/json"
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

// parts give the lesson's parts of those files, each under the name of its file.
func (g *gathered) parts(l *work.Lesson) []Job {
	return []Job{
		{searchTextsName, func() ([]byte, error) { return g.texts.make(l) }},
		{classPageName, func() ([]byte, error) { return json.Marshal(site.ClassIndexOf(l)) }},
	}
}

// add takes the parts of a lesson.
func (g *gathered) add(name string, parts []Job) error {
	for _, part := range parts {
		if part.Name == searchTextsName {
			if err := g.texts.add(name, part.Make); err != nil {
				return err
			}
			continue
		}
		data, err := part.Make()
		if err != nil {
			return err
		}
		var index site.ClassIndex
		if err := json.Unmarshal(data, &index); err != nil {
			return err
		}
		g.lock.Lock()
		g.class[name] = index
		g.lock.Unlock()
	}
	return nil
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
