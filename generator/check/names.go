package check

// Ids of lessons, the ids to propose, and the table of names that have changed.

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// idsAndRenames checks that no two lessons keep their entries under one name, and that old names lead to new ones.
func idsAndRenames(p *lesson.Pack, problems *problem.List) {
	idTwice(p, problems)
	if p.Renamed == nil || p.LacksLesson() { // a lesson that could not be read may be the one that is named
		return
	}
	packRenames(p, problems)
	lessonRenames(p, problems)
	boxRenames(p, problems)
}

// idTwice reports an id that another lesson has too, or that is the name of another lesson's file. Case makes no
// difference, since nobody could tell such ids apart.
func idTwice(p *lesson.Pack, problems *problem.List) {
	type owner struct {
		lesson *lesson.Lesson
		at     source.Span
		what   string
	}
	owners := make(map[string]owner, 2*len(p.Lessons))
	for _, l := range p.Lessons {
		owners[strings.ToLower(l.Slug)] = owner{l, source.Span{}, "this lesson's file has that name"}
	}
	for _, l := range p.Lessons {
		id := strings.ToLower(l.ID.Value)
		if id == "" {
			continue
		}
		other, taken := owners[id]
		if !taken || other.lesson == l {
			owners[id] = owner{l, l.ID.At, "it is the id of this lesson"}
			continue
		}
		problems.Add(problem.Problem{
			Slug: "id-twice", File: l.File, Span: l.ID.At, What: "the id " + l.ID.Value + " is taken",
			Hint:    "give one of the two lessons another id; the newer one, so that no team loses its work",
			Related: []problem.Related{{File: other.lesson.File, Span: other.at, What: other.what}},
		})
	}
}

// packRenames checks the earlier titles and ids of the pack.
func packRenames(p *lesson.Pack, problems *problem.List) {
	first := map[string]lesson.Text{}
	for _, old := range p.Renamed.Packs {
		key := lesson.KeyOfTitle(old.Value)
		switch other, twice := first[key]; {
		case key == lesson.KeyOfTitle(p.Title) || old.Value == p.ID.Value:
			inUse(p.Renamed.File, old, "of the pack", problems)
		case twice:
			renamedTwice(p.Renamed.File, old, other, problems)
		default:
			first[key] = old
		}
	}
}

// lessonRenames checks the earlier ids of lessons and names of their files.
func lessonRenames(p *lesson.Pack, problems *problem.List) {
	var known []string
	for _, l := range p.Lessons {
		known = append(known, l.Slug)
		if l.ID.Value != "" {
			known = append(known, l.ID.Value)
		}
	}
	renames(p.Renamed.File, p.Renamed.Lessons, known, "of a lesson", problems)
}

// boxRenames checks the earlier names of boxes, lesson by lesson.
func boxRenames(p *lesson.Pack, problems *problem.List) {
	f := p.Renamed.File
	for _, b := range p.Renamed.Boxes {
		if p.LessonNow(b.Lesson.Value) == nil {
			problems.Error(f, b.Lesson.At, "renamed-unknown", "there is no lesson "+b.Lesson.Value,
				cmp.Or(quantity.DidYouMean(b.Lesson.Value, lessonNames(p)), "name it by its id or its file"))
		}
	}
	all := p.BoxNames()
	for _, l := range p.Lessons {
		if len(all[l]) > 0 {
			renames(f, all[l], l.Boxes(), "of a box in "+l.File.Name, problems)
		}
	}
}

// renames checks one list of old and new names. whose says in a sentence what has them.
func renames(f *source.File, all []lesson.Rename, known []string, whose string, problems *problem.List) {
	olds := map[string]lesson.Rename{}
	for _, r := range all {
		if slices.Contains(known, r.Old.Value) {
			inUse(f, r.Old, whose, problems)
		}
		if other, twice := olds[r.Old.Value]; twice {
			renamedTwice(f, r.Old, other.Old, problems)
			continue
		}
		olds[r.Old.Value] = r
	}
	reported := map[string]bool{}
	for _, r := range all {
		if circle(olds, r.Old.Value) {
			if !reported[r.Old.Value] && !reported[r.New.Value] {
				problems.Error(f, r.Old.At, "renamed-circle",
					"these old names lead round in a circle, and never to a name that is in use",
					"write what it is called now only to the right of a colon")
			}
			for name := r.Old.Value; !reported[name]; name = olds[name].New.Value {
				reported[name] = true
			}
			continue
		}
		if _, again := olds[r.New.Value]; again || slices.Contains(known, r.New.Value) {
			continue
		}
		problems.Error(f, r.New.At, "renamed-unknown", "“"+r.New.Value+"” is not the name "+whose,
			cmp.Or(quantity.DidYouMean(r.New.Value, known), "write what it is called now after the colon"))
	}
}

// circle tells whether a name leads back to a name that was there on the way.
func circle(olds map[string]lesson.Rename, name string) bool {
	for range len(olds) + 1 {
		r, ok := olds[name]
		if !ok {
			return false
		}
		name = r.New.Value
	}
	return true
}

// inUse reports an old name that something has now: entries under it would belong to both.
func inUse(f *source.File, old lesson.Text, whose string, problems *problem.List) {
	problems.Error(f, old.At, "renamed-in-use", "“"+old.Value+"” is still the name "+whose,
		"take this line out, or give another name to what has this one now")
}

// renamedTwice reports an old name with two new ones.
func renamedTwice(f *source.File, old, other lesson.Text, problems *problem.List) {
	problems.Add(problem.Problem{Slug: "renamed-twice", File: f, Span: old.At,
		What: "the old name “" + old.Value + "” appears twice", Hint: "keep one of the two lines",
		Related: []problem.Related{{File: f, Span: other.At, What: "it is here already"}}})
}

// mostProposed is how many ids are proposed in one go; the others come when these are there.
const mostProposed = 20

// IDs proposes ids where there are none, in one caution however many lessons there are. A pack of one lesson is being
// tried out, and is left alone.
func IDs(p *lesson.Pack) problem.List {
	var problems problem.List
	var without []*lesson.Lesson
	for _, l := range p.Lessons {
		if l.ID.Value == "" {
			without = append(without, l)
		}
	}
	if len(p.Lessons) < 2 || len(without) == 0 && p.ID.Value != "" {
		return problems
	}
	ids := proposals(p)
	about := problem.Problem{Severity: problem.Caution, Slug: "no-id"}
	const why = ", so teams lose sight of their work when "
	lines := without
	if p.ID.Value == "" {
		about.File = p.File
		about.What = "the pack has no id" + why + "its title changes"
		about.Hint = "add the line  id: " + packID(p) + "  to pack.yaml"
		if len(without) > 0 {
			about.Hint += ", and to each lesson's header the line that is given here"
		}
	} else {
		about.File, about.Span = without[0].File, without[0].HeaderAt
		about.What = "this lesson has no id" + why + "its file gets another name"
		about.Hint = "add to its header the line  id: " + ids[without[0]]
		lines = without[1:]
		if len(lines) > 0 {
			about.Hint += "  and the lines for the others that are given here"
		}
	}
	if more := len(lines) - mostProposed; more > 0 {
		about.Hint += fmt.Sprintf(" (the other %d are proposed once these are there)", more)
		lines = lines[:mostProposed]
	}
	for _, l := range lines {
		// Below the first line, and without a text to show there, since all headers begin in the same way.
		place := source.NewFile(l.File.Name, []byte("\n"))
		about.Related = append(about.Related, problem.Related{File: place, Span: source.Span{Start: 1, End: 1},
			What: "id: " + ids[l]})
	}
	problems.Add(about)
	return problems
}

// proposals makes an id for each lesson without one, from its file's name; the same for the same pack.
func proposals(p *lesson.Pack) map[*lesson.Lesson]string {
	taken := map[string]bool{}
	for _, l := range p.Lessons {
		taken[strings.ToLower(l.ID.Value)], taken[strings.ToLower(l.Slug)] = true, true
	}
	ids := map[*lesson.Lesson]string{}
	for _, l := range p.Lessons {
		if l.ID.Value != "" {
			continue
		}
		_, rest, _ := strings.Cut(l.Slug, "-")
		ids[l] = shortName(rest, taken)
		taken[ids[l]] = true
	}
	return ids
}

// packID makes an id for the pack, from its title.
func packID(p *lesson.Pack) string { return shortName(p.Title, nil) }

// littleWords say least of what a name means. Other languages' stay, which only makes an id longer.
var littleWords = strings.Fields("a an and at by for from in is it its of on or the to with")

// shortName makes an id of some words: the first two that mean something, or as many more as it takes to be the only
// one of its name.
func shortName(text string, taken map[string]bool) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsNumber(r)
	})
	all := slices.DeleteFunc(slices.Clone(words), func(w string) bool { return slices.Contains(littleWords, w) })
	if len(all) == 0 {
		all = words
	}
	if len(all) == 0 {
		all = []string{"lesson"}
	}
	name := ""
	for n := min(2, len(all)); n <= len(all); n++ {
		if name = strings.Join(all[:n], "-"); !taken[name] {
			break
		}
	}
	for utf8.RuneCountInString(name) > longestProposal {
		_, size := utf8.DecodeLastRuneInString(name)
		name = strings.TrimRight(name[:len(name)-size], "-")
	}
	unique := name
	for n := 2; taken[unique]; n++ {
		unique = name + "-" + strconv.Itoa(n)
	}
	return unique
}

// longestProposal leaves room for a number.
const longestProposal = 30
