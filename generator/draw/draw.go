// Package draw turns a worked pack into the files of both editions, by name. It
// computes nothing and touches no disk.
package draw

import (
	"maps"
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
	paper, err := sheets(s, p, l, e)
	maps.Copy(files, paper)
	return files, err
}

// sheets draws a lesson's worksheets, one for each size of paper.
func sheets(s *site.Site, p *lesson.Pack, l *work.Lesson, e site.Edition) (Files, error) {
	about := worksheets.About{Pack: p.Title, Version: p.Version, Language: p.Language, Address: p.Address, Words: s.Say}
	var cards []worksheets.Card
	for _, ref := range l.Care {
		if c, ok := p.Card(ref.Value); ok && (!c.Adults || e == site.Mentors) {
			cards = append(cards, short(c))
		}
	}
	files := Files{}
	for _, paper := range worksheets.Papers {
		data, err := worksheets.Make(paper, about, l, cards, e == site.Mentors)
		if err != nil {
			return nil, err
		}
		files[path.Join(string(e), site.SheetName(l.Slug, paper.Name))] = data
	}
	return files, nil
}

// short is a care card's short form.
func short(c *lesson.Card) worksheets.Card {
	out := worksheets.Card{Title: c.Title, Adults: c.Adults, Wear: c.Wear}
	codes := make([]string, len(c.Hazards))
	for i, h := range c.Hazards {
		codes[i] = h.Value
		text, _ := hazard.Statement(h.Value)
		out.Statements = append(out.Statements, h.Value+" "+text)
	}
	out.SignalWord = hazard.SignalWord(codes)
	return out
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
