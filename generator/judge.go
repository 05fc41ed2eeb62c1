package generator

// Working one lesson out and checking it, and what is remembered of that.

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/work"
)

// remembered is what a lesson came to, stage by stage.
type remembered struct {
	parsed kept[*lesson.Lesson]

	files  []string // of runs that it works with
	kitted bool     // it names facts of the kit
	worked *work.Lesson
	needs  needs // of worked
	found  problem.List

	text   problem.List // found in what needs no values
	textOf *lesson.Lesson

	uses   *used // of the glossary's words
	usesOf usesOf

	pictures   map[string]bool
	picturesOf *lesson.Lesson

	care, links     problem.List
	careOf, linksOf looked
}

// needs is what working a lesson out depends on beside its text.
type needs struct {
	lesson *lesson.Lesson
	kit    *lesson.Kit // nil if the lesson never names it
	tables string
}

// usesOf is what finding a lesson's uses of words depends on.
type usesOf struct {
	lesson *lesson.Lesson
	words  *lesson.Glossary
}

// looked is what a check looked at: a lesson, and what its key has of the pack.
type looked struct {
	lesson *lesson.Lesson
	key    string
}

// judge works a lesson out and checks it, unless nothing that this looks at has changed. What needs no values is
// checked beside that: a save changes one lesson, and all other processors wait for it.
func (m *Memory) judge(p *lesson.Pack, e entry[remembered]) (*work.Lesson, problem.List) {
	r := e.kept
	var steps []func()
	if now := r.needsNow(p); r.worked == nil || r.needs != now {
		steps = append(steps, func() { r.work(p, now) })
	}
	steps = append(steps, r.toRead(p, m.keys, !p.Lessons[e.at].IsOutline())...)
	parallel(len(steps), func(i int) { steps[i]() })
	r.inKit(p.DefaultKit())
	var all problem.List
	all.Join(r.found)
	all.Join(r.text)
	all.Join(r.care)
	all.Join(r.links)
	return r.worked, all
}

// judgeOnce is judge for a lesson that was let go, and is again. One that is known to be in order is not even parsed.
func (m *Memory) judgeOnce(p *lesson.Pack, e entry[remembered], known *verdicts) (*work.Lesson, problem.List) {
	left := p.Lessons[e.at]
	key := known.key(left)
	if before, ok := known.of(key, left); ok {
		return before, problem.List{}
	}
	e.kept.parsed.with(e.file, p.Vocabulary, m.parse)
	worked, found := m.judge(p, e)
	*e.kept = remembered{}
	outline := worked.Outline(left)
	if found.Count() == 0 {
		known.keep(key, outline)
	}
	return outline, found
}

// needsNow is what working the lesson out depends on now.
func (r *remembered) needsNow(p *lesson.Pack) needs {
	l := r.parsed.value
	if r.needs.lesson != l {
		r.files, r.kitted = l.DataFiles(), lesson.NamesKit(l.Markdown)
	}
	now := needs{lesson: l, tables: tablesOf(p, r.files)}
	if r.kitted {
		now.kit = p.DefaultKit()
	}
	return now
}

// work works the lesson out and checks what it came to.
func (r *remembered) work(p *lesson.Pack, now needs) {
	r.worked, r.found = work.ForKits(r.parsed.value, p)
	r.found.Join(check.Worked(r.worked))
	r.needs = now
}

// inKit gives the lesson a kit that it never names; its page names it all the same.
func (r *remembered) inKit(kit *lesson.Kit) {
	if r.worked.Kit != kit {
		same := *r.worked
		same.Kit = kit
		r.worked = &same
	}
}

// toRead gives what checks the lesson as it is written, as far as that is another or the pack is. withUses also finds
// the pack's words in it.
func (r *remembered) toRead(p *lesson.Pack, now keys, withUses bool) []func() {
	var steps []func()
	l := r.parsed.value
	if r.textOf != l {
		steps = append(steps, func() { r.text, r.textOf = check.Text(l), l })
	}
	if care := (looked{l, now.care}); r.careOf != care {
		steps = append(steps, func() { r.care, r.careOf = check.Care(p, l), care })
	}
	if links := (looked{l, now.links}); r.linksOf != links {
		steps = append(steps, func() { r.links, r.linksOf = check.Links(p, l), links })
	}
	if uses := (usesOf{l, p.Words}); withUses && p.Words != nil && r.usesOf != uses {
		steps = append(steps, func() { r.uses, r.usesOf = r.uses.or(usedBy(l, p.Words)), uses })
	}
	return steps
}

// usesOf gives what each lesson uses of the glossary.
func (m *Memory) usesOf(p *lesson.Pack) []*used {
	all := make([]*used, len(p.Lessons))
	for i, l := range p.Lessons {
		if l.IsOutline() {
			all[i] = usedBy(l, p.Words)
		} else {
			all[i] = m.lessons[l.File.Name].uses
		}
	}
	return all
}

// tablesOf writes which files of runs there are of those that a lesson works with, and in
// which state; if one is missing, also which there are, since the problem names them.
func tablesOf(p *lesson.Pack, names []string) string {
	var b strings.Builder
	for _, name := range names {
		t, ok := p.Data[name]
		if !ok {
			fmt.Fprintf(&b, "%t %q;", p.IsUnread(name), slices.Sorted(maps.Keys(p.Data)))
			continue
		}
		// The pointer is enough: a file that is read again gets a table of its own.
		fmt.Fprintf(&b, "%q %p;", name, t)
	}
	return b.String()
}
