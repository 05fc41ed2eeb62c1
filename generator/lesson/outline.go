package lesson

// What is left of a lesson whose tree is let go: all that pages, checks and other lessons look at from outside it. A
// tree takes thirty times the room of its text, so those of a large pack cannot all be kept.

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// outline is what the body of a lesson came to.
type outline struct {
	boxes, questions []string
	pictures         []pictureShown
	data             []string // files of runs
	terms            []*Term  // of the pack's words that it uses
	phrases          []int    // and which of those that mean something else
	noticed          Noticed
}

// pictureShown is a picture that a text shows.
type pictureShown struct {
	name       string
	forMentors bool
}

// IsOutline tells whether the body of a lesson was let go.
func (l *Lesson) IsOutline() bool { return l.outline != nil }

// Noticed is what others than this package find in the body of a lesson.
type Noticed struct {
	Phrases []string // those that its pack means otherwise
	Cards   []*Card  // that students are shown with it
}

// Outline gives a lesson without its body. words are the pack's, nil if it has none.
func (l *Lesson) Outline(words *Glossary, noticed Noticed) *Lesson {
	left := *l
	left.Body, left.Markdown = nil, nil
	left.outline = &outline{boxes: apart(l.Boxes()), questions: apart(l.Questions()),
		pictures: slices.Clip(picturesIn(l.File.Name, l.Body)), data: DataFiles(l.Body), noticed: noticed}
	left.Goals, left.Materials, left.Standards = apart(l.Goals), apart(l.Materials), apart(l.Standards)
	left.Sections = sectionsApart(l.Sections)
	if words != nil {
		left.outline.noteUses(words.UsedIn(l))
	}
	return &left
}

// noteUses keeps what is used without its places, which are looked for again when the lesson is drawn.
func (o *outline) noteUses(uses []Use) {
	for _, u := range uses {
		if u.Term == nil {
			o.phrases = append(o.phrases, u.Phrase)
		} else if !slices.Contains(o.terms, u.Term) {
			o.terms = append(o.terms, u.Term)
		}
	}
	o.terms, o.phrases = slices.Clone(o.terms), slices.Clone(o.phrases)
}

// uses gives what was kept of them.
func (o *outline) uses() []Use {
	all := make([]Use, 0, len(o.terms)+len(o.phrases))
	for _, t := range o.terms {
		all = append(all, Use{Term: t, Phrase: -1})
	}
	for _, phrase := range o.phrases {
		all = append(all, Use{Phrase: phrase})
	}
	return all
}

// Noticed gives what was noticed before the body was let go; ok is false while it is there.
func (l *Lesson) Noticed() (noticed Noticed, ok bool) {
	if l.IsOutline() {
		return l.outline.noticed, true
	}
	return noticed, false
}

// apart copies texts that are cut out of longer ones, which would be held with them. They are cut out of one again, of
// them alone: collecting garbage takes longer the more pieces there are.
func apart(texts []string) []string {
	if len(texts) == 0 {
		return nil
	}
	joined, all := strings.Clone(strings.Join(texts, "")), make([]string, len(texts)) // what is joined of one is that one
	for i, text := range texts {
		all[i], joined = joined[:len(text)], joined[len(text):]
	}
	return all
}

// sectionsApart copies sections, for the same reasons.
func sectionsApart(sections []*Section) []*Section {
	copies, all := make([]Section, len(sections)), make([]*Section, len(sections))
	var texts []string
	for i, s := range sections {
		copies[i], all[i] = *s, &copies[i]
		texts = append(texts, s.ID, s.Title)
	}
	for i, text := range apart(texts) {
		if s := all[i/2]; i%2 == 0 {
			s.ID = text
		} else {
			s.Title = text
		}
	}
	return all
}

// picturesIn are the pictures that a text shows.
func picturesIn(file string, body ast.Node) []pictureShown {
	var all []pictureShown
	_ = ast.Walk(body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if image, ok := n.(*ast.Image); ok && entering {
			all = append(all, pictureShown{PictureName(file, string(image.Destination)), ForMentors(n)})
		}
		return ast.WalkContinue, nil
	})
	return all
}
