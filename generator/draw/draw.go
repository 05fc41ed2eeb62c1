// Package draw turns a worked pack into the files of both editions, by name. It
// computes nothing and touches no disk.
package draw

import (
	"path"

	"trundle/generator/hazard"
	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site"
	"trundle/worksheets"
)

// Files are the files of the output, by slash-separated name.
type Files map[string][]byte

// Lesson draws a lesson's page in an edition and gives its name.
func Lesson(s *site.Site, p *lesson.Pack, l *work.Lesson, e site.Edition) (name string, page []byte, err error) {
	page, err = s.Lesson(p, l, e)
	return path.Join(string(e), l.Slug+".html"), page, err
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
	for name, data := range site.Assets() {
		files[path.Join(string(e), name)] = data
	}
	sheet := path.Join(string(e), site.StyleSheet)
	files[sheet] = append(files[sheet], worksheets.PageRule()...)
	return files, nil
}
