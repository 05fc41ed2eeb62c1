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
	boxes, questions packed
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

// Outline gives a lesson without its body. words are the pack's, nil if it has none. All that is its own is in few
// pieces, since collecting garbage takes longer the more there are.
func (l *Lesson) Outline(words *Glossary, noticed Noticed) *Lesson {
	both := &struct {
		lesson Lesson
		outline
	}{*l, outline{boxes: packedOf(l.Boxes()), questions: packedOf(l.Questions()),
		pictures: slices.Clip(picturesIn(l.File.Name, l.Body)), data: DataFiles(l.Body), noticed: noticed}}
	left, o := &both.lesson, &both.outline
	left.Body, left.Markdown, left.outline = nil, nil, o
	left.Care, left.Sections = slices.Clone(l.Care), copiesOf(l.Sections)
	own := texts{(*string)(&o.boxes), (*string)(&o.questions), &left.Slug, &left.ID.Value, &left.Title}
	for i := range left.Care {
		own = append(own, &left.Care[i].Value)
	}
	for i := range o.pictures {
		own = append(own, &o.pictures[i].name)
	}
	for _, s := range left.Sections {
		own = append(own, &s.ID, &s.Title)
	}
	own.andOf(&left.Goals, &left.Materials, &left.Standards, &o.data)
	own.setApart()
	if words != nil {
		o.noteUses(words.UsedIn(l))
	}
	return left
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

// packed are names in one piece, which few ask for: collecting garbage takes longer the more there is that leads on.
type packed string

// packedOf packs names, none of which has a line break in it.
func packedOf(names []string) packed { return packed(strings.Join(names, "\n")) }

func (p packed) names() []string {
	if p == "" {
		return nil
	}
	return strings.Split(string(p), "\n")
}

// texts are those of an outline, where it has them.
type texts []*string

// andOf adds lists, which become parts of one.
func (t *texts) andOf(lists ...*[]string) {
	size := 0
	for _, list := range lists {
		size += len(*list)
	}
	all := make([]string, 0, size)
	for _, list := range lists {
		if len(*list) == 0 {
			continue
		}
		start := len(all)
		all = append(all, *list...)
		*list = all[start:len(all):len(all)]
		for i := range *list {
			*t = append(*t, &(*list)[i])
		}
	}
}

// setApart copies them, since they are cut out of longer ones, which would be held with them. They are cut out of one
// again, of them alone.
func (t texts) setApart() {
	var all strings.Builder
	for _, text := range t {
		all.WriteString(*text)
	}
	joined := strings.Clone(all.String()) // a builder has room for more
	for _, text := range t {
		n := len(*text)
		*text, joined = joined[:n], joined[n:]
	}
}

// copiesOf copies sections, all in one piece.
func copiesOf(sections []*Section) []*Section {
	copies, all := make([]Section, len(sections)), make([]*Section, len(sections))
	for i, s := range sections {
		copies[i], all[i] = *s, &copies[i]
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
