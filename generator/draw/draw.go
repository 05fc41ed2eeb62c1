// Package draw turns a worked pack into the files of both editions, by name. It
// computes nothing and touches no disk.
package draw

import (
	"path"
	"strings"

	"trundle/generator/hazard"
	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site"
	"trundle/worksheets"
)

// Files are the files of the output, by slash-separated name.
type Files map[string][]byte

// Lesson draws a lesson's files in an edition.
func Lesson(s *site.Site, p *lesson.Pack, l *work.Lesson, e site.Edition) (Files, error) {
	page, err := s.Lesson(p, l, e)
	if err != nil {
		return nil, err
	}
	files := Files{path.Join(string(e), l.Slug+".html"): page}
	if e == site.Students {
		steps, err := s.Steps(l)
		if err != nil {
			return nil, err
		}
		if steps != nil {
			files[path.Join(string(e), "steps", l.Slug+".js")] = steps
		}
	}
	return files, nil
}

// Common draws what an edition has beside its lessons: the front page, the care
// cards, the pictures and the assets.
func Common(s *site.Site, p *lesson.Pack, e site.Edition) (Files, error) {
	files := Files{}
	var err error
	if files[path.Join(string(e), "index.html")], err = s.Front(p, e); err != nil {
		return nil, err
	}
	if files[path.Join(string(e), "care.html")], err = s.Care(p, e, hazard.Statement); err != nil {
		return nil, err
	}
	for name := range lesson.PicturesShown(p, e == site.Mentors) {
		if data, ok := p.Pictures[name]; ok {
			files[path.Join(string(e), name)] = data
		}
	}
	assets, err := s.Assets(p)
	if err != nil {
		return nil, err
	}
	for name, data := range assets {
		files[path.Join(string(e), name)] = data
	}
	sheet := path.Join(string(e), site.StyleSheet)
	files[sheet] = append(files[sheet], worksheets.PageRule()...)
	return files, nil
}

// Offline draws the script that keeps an edition for use without a network, from all of
// the edition's other files.
func Offline(s *site.Site, files Files, e site.Edition) (Files, error) {
	own := Files{}
	for name, data := range files {
		if below, ok := strings.CutPrefix(name, string(e)+"/"); ok {
			own[below] = data
		}
	}
	script, err := s.Offline(own)
	return Files{path.Join(string(e), site.OfflineScript): script}, err
}
