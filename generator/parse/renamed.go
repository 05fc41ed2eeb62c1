package parse

// Ids, seasons and their first days in headers, and renamed.yaml, the file of old names.

import (
	"cmp"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// idForm is what an id looks like. It stands in addresses and file names, so it has nothing that these would write
// in another way.
var idForm = wording.New(`^[\pL\pN]+(-[\pL\pN]+)*$`)

// The most characters of an id and of a season's name.
const (
	MaxID     = 40
	MaxSeason = 40
)

// firstYear keeps a year of two digits, 0026-09-07, from being taken for one long ago.
const firstYear = 1900

// idLike makes an id of a text that is none.
func idLike(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text),
		func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	id := ""
	for _, word := range words {
		if longer := strings.TrimPrefix(id+"-"+word, "-"); utf8.RuneCountInString(longer) <= MaxID {
			id = longer
		}
	}
	return cmp.Or(id, "rotations")
}

// id takes a field that names a pack or a lesson for good.
func (fs *fields) id() lesson.Text {
	if !fs.has("id") {
		return lesson.Text{}
	}
	t := fs.text("id", true)
	if t.Value == "" || idForm.MatchString(t.Value) && utf8.RuneCountInString(t.Value) <= MaxID {
		return t
	}
	fs.error(t.At, "bad-id", "an id has only letters, digits and hyphens between them, and at most 40 characters",
		"write it as in  id: "+idLike(t.Value))
	return lesson.Text{At: t.At}
}

// season takes a field that tells one season of a pack from another.
func (fs *fields) season() lesson.Text {
	t := fs.text("season", false)
	t.Value = strings.Join(strings.Fields(t.Value), " ")
	if utf8.RuneCountInString(t.Value) > MaxSeason {
		fs.error(t.At, "field-kind", "the field season must have at most 40 characters", "write it as in  season: 2026-27")
	}
	return t
}

// start takes the day of the first week's lesson. A week of the season begins on its weekday.
func (fs *fields) start() time.Time {
	t := fs.text("start", false)
	text := strings.TrimSpace(t.Value)
	if text == "" {
		return time.Time{}
	}
	day, err := time.Parse(time.DateOnly, text)
	if err != nil || day.Year() < firstYear {
		fs.error(t.At, "bad-start", "the field start is not a date", "write year, month and day, as in  start: 2026-09-07")
		return time.Time{}
	}
	return day
}

// Renamed reads renamed.yaml.
func Renamed(f *source.File) (*lesson.Renamed, problem.List) {
	var problems problem.List
	r := &lesson.Renamed{File: f}
	fs := readFields(f, &problems, f.Text(), source.Span{}, "pack", "lessons", "boxes")
	if fs == nil {
		return r, problems
	}
	r.Packs = fs.list("pack")
	if inner := fs.inner("lessons"); inner != nil {
		r.Lessons = inner.renames()
	}
	if boxes := fs.inner("boxes"); boxes != nil {
		for _, e := range boxes.entries {
			one := &fields{file: f, problems: &problems, at: e.key.At}
			if one.mapping(e.value) {
				r.Boxes = append(r.Boxes, lesson.BoxRenames{Lesson: withoutEnding(e.key), Boxes: one.renames()})
			}
		}
	}
	fs.done()
	return r, problems
}

// inner takes a field that holds fields, nil if there is none or it holds something else.
func (fs *fields) inner(name string) *fields {
	n := fs.take(name)
	if n == nil {
		return nil
	}
	inner := &fields{file: fs.file, problems: fs.problems, at: fs.span(n.GetToken())}
	if !inner.mapping(n) {
		return nil
	}
	return inner
}

// renames reads lines of an old name and a new one.
func (fs *fields) renames() []lesson.Rename {
	var all []lesson.Rename
	for _, e := range fs.entries {
		now, ok := fs.scalar(e.value)
		if !ok || strings.TrimSpace(now.Value) == "" {
			fs.error(e.key.At, "field-missing", "“"+e.key.Value+"” has no new name", "write its new name after the colon")
			continue
		}
		old := withoutEnding(e.key)
		all = append(all, lesson.Rename{Old: old, New: withoutEnding(now), IsFile: IsLessonName(old.Value + ".md")})
	}
	return all
}

// withoutEnding lets a lesson be named by its file, as links do.
func withoutEnding(t lesson.Text) lesson.Text {
	t.Value = strings.TrimSuffix(strings.TrimSpace(t.Value), ".md")
	return t
}
