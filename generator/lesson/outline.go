package lesson

// What is left of a lesson whose tree is let go: all that pages, checks and other lessons look at from outside it. A
// tree takes thirty times the room of its text, so those of a large pack cannot all be kept.

import (
	"slices"

	"github.com/yuin/goldmark/ast"
)

// outline is what the body of a lesson came to.
type outline struct {
	boxes, questions []string
	pictures         []pictureShown
	data             []string // files of runs
	uses             []Use    // of the pack's words
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
	left.outline = &outline{boxes: l.Boxes(), questions: l.Questions(), pictures: picturesIn(l.File.Name, l.Body),
		data: DataFiles(l.Body), noticed: noticed}
	if words != nil {
		left.outline.uses = slices.Clip(words.UsedIn(l))
	}
	return &left
}

// Noticed gives what was noticed before the body was let go; ok is false while it is there.
func (l *Lesson) Noticed() (noticed Noticed, ok bool) {
	if l.IsOutline() {
		return l.outline.noticed, true
	}
	return noticed, false
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
