package generator

// What checks found the last time in files that concern all lessons, for as long as what they looked at is the same.

import (
	"slices"

	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// keys hold all that checks read of the pack beside their file: the same key, the same verdict.
type keys struct{ care, links string }

// of gives those of a pack. One that is the same stays the same string, so that comparing it with what a thousand
// lessons remember takes no time.
func (k keys) of(p *lesson.Pack) keys {
	now := keys{check.CareKey(p), check.LinksKey(p)}
	if now.care == k.care {
		now.care = k.care
	}
	if now.links == k.links {
		now.links = k.links
	}
	return now
}

// rememberedCard is what a care card came to.
type rememberedCard struct {
	parsed   kept[*lesson.Card]
	checked  *lesson.Card
	linksKey string
	found    problem.List
}

// check checks the card, unless nothing that this looks at has changed.
func (r *rememberedCard) check(p *lesson.Pack, now keys) problem.List {
	if c := r.parsed.value; r.checked != c || r.linksKey != now.links {
		r.found = check.Card(p, c)
		r.checked, r.linksKey = c, now.links
	}
	return r.found
}

// used is which of the glossary's words and phrases a lesson uses, wherever in it. One that stays the same stays the
// same pointer, since a thousand lessons have fifty thousand of them.
type used struct{ uses []lesson.Use }

func usedBy(l *lesson.Lesson, words *lesson.Glossary) *used {
	uses := words.UsedIn(l)
	for i := range uses {
		uses[i].At = source.Span{}
	}
	return &used{uses}
}

// or gives what is used now, as u if that is the same.
func (u *used) or(now *used) *used {
	if u != nil && slices.Equal(u.uses, now.uses) {
		return u
	}
	return now
}

// judgedWords is what was found in the pack's words.
type judgedWords struct {
	words    *lesson.Glossary
	uses     []*used // by each lesson
	linksKey string
	found    problem.List
}

// check checks the words, unless nothing that this looks at has changed.
func (j *judgedWords) check(p *lesson.Pack, uses []*used, now keys) problem.List {
	if j.words != p.Words || j.linksKey != now.links || !slices.Equal(j.uses, uses) {
		j.found = check.Words(p, together(uses))
		j.words, j.uses, j.linksKey = p.Words, uses, now.links
	}
	return j.found
}

// together gives what lessons use, each word once.
func together(lessons []*used) []lesson.Use {
	var all []lesson.Use
	known := map[lesson.Use]bool{}
	for _, l := range lessons {
		for _, u := range l.uses {
			if !known[u] {
				known[u] = true
				all = append(all, u)
			}
		}
	}
	return all
}

// judgedNames are the names of a pack's files, if all were found to be in order.
type judgedNames struct{ sound []string }

// check checks the names, unless they are the same.
func (j *judgedNames) check(p *lesson.Pack) problem.List {
	names := check.NamesOf(p)
	if slices.Equal(names, j.sound) {
		return problem.List{}
	}
	found := check.FileNames(p, names)
	if j.sound = nil; found.Count() == 0 {
		j.sound = names
	}
	return found
}
