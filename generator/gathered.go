package generator

// What files about all lessons need of each, gathered while the lesson is open: the texts that mentors search, and
// which records the page of the class may find in a file.

import (
	"encoding/json"
	"path"

	"trundle/generator/work"
	"trundle/site"
)

var classPageName = path.Join(string(site.Mentors), site.ClassPage)

// gathered is filled by several goroutines, each of which has lessons of its own. A nil one wants nothing.
type gathered struct {
	files Files
	texts *searchTexts
	class []site.ClassIndex // by the lesson's place in the pack
}

func newGathered(p *Proved, press *printer, files Files) *gathered {
	return &gathered{files: files, class: make([]site.ClassIndex, len(p.Lessons)), texts: &searchTexts{pack: p.Pack,
		outlined: press.pack, site: press.site, files: files, waiting: map[int][]byte{}}}
}

// parts give the lesson's parts of those files, each under the name of its file.
func (g *gathered) parts(l *work.Lesson) []Job {
	if g == nil {
		return nil
	}
	return []Job{
		{searchTextsName, func() ([]byte, error) { return g.texts.of(l) }},
		{classPageName, func() ([]byte, error) { return json.Marshal(site.ClassIndexOf(l)) }},
	}
}

// add takes the parts of the lesson at a place in the pack.
func (g *gathered) add(at int, parts []Job) error {
	for _, part := range parts {
		data, err := part.Make()
		if err != nil {
			return err
		}
		if part.Name == searchTextsName {
			err = g.texts.add(at, data)
		} else {
			err = json.Unmarshal(data, &g.class[at])
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// put completes the files.
func (g *gathered) put() error {
	if err := g.texts.end(); err != nil {
		return err
	}
	page, err := g.texts.site.Class(g.texts.pack, g.class)
	if err != nil {
		return err
	}
	return g.files.Put(classPageName, page)
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
