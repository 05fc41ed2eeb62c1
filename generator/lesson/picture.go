package lesson

// Which pictures belong into which edition.

import "github.com/yuin/goldmark/ast"

// LogoName is the logo's name among the pictures, "" if there is none or it lies elsewhere.
func (p *Pack) LogoName() string {
	if p.Logo.Value == "" {
		return ""
	}
	return PictureName("pack.yaml", p.Logo.Value)
}

// PicturesShown gives the names of the pictures that an edition's pages show. One that
// only mentors see must not lie among the students' files.
func PicturesShown(p *Pack, mentors bool) map[string]bool {
	shown := make(map[string]bool)
	if p.Logo.Value != "" {
		shown[p.LogoName()] = true
	}
	for _, l := range p.Lessons {
		picturesIn(l.File.Name, l.Body, mentors, shown)
	}
	for _, c := range p.Cards {
		picturesIn(c.File.Name, c.Body, mentors, shown)
	}
	if p.Words != nil {
		picturesIn(p.Words.File.Name, p.Words.Body, mentors, shown)
	}
	return shown
}

// Pictures gives the names of those that a lesson shows to anybody.
func (l *Lesson) Pictures() map[string]bool {
	shown := make(map[string]bool)
	picturesIn(l.File.Name, l.Body, true, shown)
	return shown
}

// picturesIn adds the names of the pictures in a text.
func picturesIn(file string, body ast.Node, mentors bool, shown map[string]bool) {
	_ = ast.Walk(body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if image, ok := n.(*ast.Image); ok && entering && (mentors || !ForMentors(n)) {
			shown[PictureName(file, string(image.Destination))] = true
		}
		return ast.WalkContinue, nil
	})
}
