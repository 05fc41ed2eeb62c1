package lesson

// Which pictures belong into which edition.

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
	note := func(pictures []pictureShown) {
		for _, picture := range pictures {
			if mentors || !picture.forMentors {
				shown[picture.name] = true
			}
		}
	}
	if p.Logo.Value != "" {
		shown[p.LogoName()] = true
	}
	for _, l := range p.Lessons {
		note(l.picturesShown())
	}
	for _, c := range p.Cards {
		note(picturesIn(c.File.Name, c.Body))
	}
	if p.Words != nil {
		note(picturesIn(p.Words.File.Name, p.Words.Body))
	}
	return shown
}

// Pictures gives the names of those that a lesson shows to anybody.
func (l *Lesson) Pictures() map[string]bool {
	shown := make(map[string]bool)
	for _, picture := range l.picturesShown() {
		shown[picture.name] = true
	}
	return shown
}

func (l *Lesson) picturesShown() []pictureShown {
	if l.IsOutline() {
		return l.outline.pictures
	}
	return picturesIn(l.File.Name, l.Body)
}
