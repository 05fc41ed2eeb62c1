package main

// This file makes one more lesson in a pack.

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"trundle/cmd/trundle/starter"
	"trundle/generator"
	"trundle/generator/wording"
	"trundle/generator/write"
)

// lesson writes a file beside the others. It is a draft, so that nothing of it is handed out before the coach says so.
func (c *startCommand) lesson(p *program) error {
	root, proved, err := p.workedOut(c.Dir, nil)
	if err != nil {
		return err
	}
	defer root.Close()
	names, err := fs.Glob(root.FS(), "*.md")
	if err != nil {
		return err
	}
	name, slug := lessonFile(c.Lesson, names)
	if slug == "" {
		return p.misuse(fmt.Errorf("%q has no letter or digit that a file can be named by", c.Lesson),
			"write it as in: trundle start --lesson 'Round the bend' "+c.Dir)
	}
	if len(proved.Pack.Cards) == 0 {
		return p.misuse(errors.New("the pack has no care card, and every lesson needs one"),
			"write one into the folder care first; a new pack made by trundle start has two")
	}
	text, err := starter.Lesson(starterLanguage(proved.Pack.Language), starter.NewLesson{
		Title: lessonTitle(c.Lesson), ID: freeID(slug, proved), Week: nextWeek(proved), Care: cardsFor(proved)})
	if err != nil {
		return err
	}
	switch err := write.NewFile(filepath.Join(c.Dir, name), text); {
	case errors.Is(err, fs.ErrExist):
		return p.misuse(fmt.Errorf("%s is there already; nothing was changed", name), "choose another name")
	case err != nil:
		return err
	}
	fmt.Fprintf(p.stdout, "%s: a lesson with all its parts, as a draft, for you to change\ntrundle preview %s\n",
		filepath.Join(c.Dir, name), c.Dir)
	return nil
}

// starterLanguage is that of a pack, or the first one where no new lesson is written in it.
func starterLanguage(pack string) string {
	if slices.Contains(starter.Languages(), pack) {
		return pack
	}
	return starter.English
}

// numbered is a name that brings its number along.
var numbered = wording.New(`^([0-9]{2,})[-_ ]+(.+)$`)

// lessonFile gives the name of a lesson's file, and what of it is the lesson's own. The number is the next one unless
// it was typed.
func lessonFile(name string, others []string) (file, slug string) {
	name, number := strings.TrimSuffix(name, ".md"), 0
	for _, other := range others {
		if m := numbered.FindStringSubmatch(other); m != nil {
			n, _ := strconv.Atoi(m[1])
			number = max(number, n)
		}
	}
	prefix := fmt.Sprintf("%02d", number+1)
	if m := numbered.FindStringSubmatch(name); m != nil {
		prefix, name = m[1], m[2]
	}
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	slug = strings.Join(words, "-")
	return prefix + "-" + slug + ".md", slug
}

// plainTitle is one that YAML reads as it is.
var plainTitle = wording.New(`^\pL[\pL\pN ,.'’-]*$`)

// lessonTitle is what was typed, as YAML; of a name in small letters it makes a title.
func lessonTitle(name string) string {
	name = strings.TrimSuffix(name, ".md")
	if m := numbered.FindStringSubmatch(name); m != nil {
		name = m[2]
	}
	if name = strings.Join(strings.Fields(name), " "); !strings.Contains(name, " ") {
		name = strings.ReplaceAll(name, "-", " ")
	}
	letters := []rune(name)
	letters[0] = unicode.ToUpper(letters[0])
	if name = string(letters); plainTitle.MatchString(name) {
		return name
	}
	return strconv.Quote(name)
}

// longestID is as long as an id may be, less room for a number.
const longestID = 36

// freeID is an id that no lesson has, nor the name of another's file.
func freeID(slug string, proved *generator.Proved) string {
	taken := map[string]bool{}
	for _, l := range proved.Pack.Lessons {
		taken[strings.ToLower(l.ID.Value)], taken[l.Slug] = true, true
	}
	letters := []rune(slug)
	base := strings.Trim(string(letters[:min(len(letters), longestID)]), "-")
	id := base
	for n := 2; taken[id]; n++ {
		id = base + "-" + strconv.Itoa(n)
	}
	return id
}

// nextWeek is the week after the last lesson's.
func nextWeek(proved *generator.Proved) int {
	week := 0
	for _, l := range proved.Pack.Lessons {
		week = max(week, l.Week)
	}
	return week + 1
}

// cardsFor are the cards that the pack asks of a lesson with runs; of a pack that asks for none its first.
func cardsFor(proved *generator.Proved) []string {
	var names []string
	for _, ref := range proved.Pack.Driving {
		if _, ok := proved.Pack.Card(ref.Value); ok {
			names = append(names, ref.Value)
		}
	}
	for _, c := range proved.Pack.Cards { // one for adults alone would be no card of theirs
		if len(names) == 0 && !c.Adults {
			names = append(names, c.Name)
		}
	}
	if len(names) == 0 {
		names = append(names, proved.Pack.Cards[0].Name)
	}
	return names
}
