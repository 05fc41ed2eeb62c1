package parse

// The files of a pack, one function each: pack.yaml, kits.yaml, lessons.

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// PackFile reads pack.yaml.
func PackFile(f *source.File) (*lesson.Pack, problem.List) {
	var problems problem.List
	p := &lesson.Pack{File: f, Language: lesson.DefaultLanguage}
	fs := readFields(f, &problems, f.Text(), source.Span{}, "title", "id", "version", "season", "start", "language", "kit",
		"address", "club", "logo", "cards", "meant-otherwise", "units", "money")
	if fs == nil {
		p.Vocabulary = &quantity.Vocabulary{}
		p.Vocabulary.Lose("")
		return p, problems
	}
	p.Title = fs.title("title", true)
	p.Version = fs.version()
	if language := fs.text("language", false); language.Value != "" {
		p.Language, p.LanguageAt = language.Value, language.At
	}
	p.Kit = fs.text("kit", false)
	p.Address = fs.address("address")
	p.Club = strings.Join(strings.Fields(fs.title("club", false)), " ")
	p.Logo = fs.text("logo", false)
	p.Driving = fs.list("cards")
	p.ID, p.Season, p.Start = fs.id(), fs.season(), fs.start()
	p.MeantOtherwise = fs.meantOtherwise("meant-otherwise")
	p.Vocabulary = fs.vocabulary(p.Language)
	fs.done() // after the last field was taken
	return p, problems
}

// meantOtherwise reads a field of phrases, each with the reason why it needs no care card. A phrase without a reason
// does not count: mentors have to be able to judge it.
func (fs *fields) meantOtherwise(name string) []lesson.MeantOtherwise {
	inner := fs.inner(name)
	if inner == nil {
		return nil
	}
	var all []lesson.MeantOtherwise
	for _, e := range inner.entries {
		reason, ok := inner.scalar(e.value)
		if !ok || strings.TrimSpace(reason.Value) == "" {
			fs.error(e.key.At, "field-missing", "“"+e.key.Value+"” has no reason",
				"write after its colon why it needs no care card; mentors see it")
			continue
		}
		all = append(all, lesson.MeantOtherwise{Phrase: e.key, Reason: reason})
	}
	return all
}

// Kits reads kits.yaml, in the order of the file: the one in which pages offer them.
func Kits(f *source.File) ([]*lesson.Kit, problem.List) { return KitsWith(f, nil) }

// KitsWith reads kits.yaml of a pack that names units itself.
func KitsWith(f *source.File, words *quantity.Vocabulary) ([]*lesson.Kit, problem.List) {
	var problems problem.List
	fs := readFields(f, &problems, f.Text(), source.Span{})
	if fs == nil {
		return nil, problems
	}
	fs.words = words
	if len(fs.entries) > MaxKits { // every lesson is worked out for each
		fs.problems.Error(fs.file, fs.entries[MaxKits].key.At, "too-many",
			"a pack has at most "+problem.Plural(MaxKits, "kit")+", and this is one more",
			"take out those that no team has, or make a second pack")
		fs.entries = fs.entries[:MaxKits]
	}
	own := ownFacts(fs)
	var kits []*lesson.Kit
	for _, e := range fs.entries {
		kits = append(kits, kit(fs, e, own))
	}
	return kits, problems
}

// kit reads one kit. Only the wheel is needed: lessons that use another fact of a kit without it
// say so themselves, and a club that never turns on the spot need not measure a track width. own are the facts that the
// pack names itself, each with the kind that the first kit gives it.
func kit(fs *fields, e entry, own *facts) *lesson.Kit {
	k := &lesson.Kit{Key: e.key.Value}
	if isNameless(k.Key) {
		fs.problems.Error(fs.file, e.key.At, "kit-unnamed", "this kit has no name that pages can call it by",
			"begin its line with a name and a colon, as in  heron: {title: Heron, wheel: 65 mm}")
	}
	if k.Key == lesson.OwnKit {
		fs.problems.Error(fs.file, e.key.At, "kit-ours",
			"a kit cannot be called ours: that is what a team picks that measures its own robot",
			"choose another name for it")
	}
	if what, hint := nameTooLong(k.Key); what != "" {
		fs.problems.Error(fs.file, e.key.At, "name-too-long", what, hint)
	}
	inner := &fields{file: fs.file, problems: fs.problems, at: e.key.At, known: []string{"title"}, words: fs.words}
	if !inner.mapping(e.value) {
		return k
	}
	k.Title = inner.title("title", true)
	for _, field := range lesson.KitFields {
		inner.known = append(inner.known, field.Name)
		written := inner.has(field.Name) || field.Name == "wheel"
		// A fact that is written wrong is kept without its value: the kit has it, and lessons that
		// use it have no second problem.
		if lit := inner.quantity(field.Name, field.Like, field.Name == "wheel"); written {
			k.Fields = append(k.Fields, lesson.Field{Name: field.Name, Literal: lit})
		}
	}
	own.take(inner, k)
	inner.done()
	return k
}

// isNameless is true for what stands before the colon when somebody left the name out, and for the one name that a
// script cannot have.
func isNameless(key string) bool {
	return strings.TrimSpace(key) == "" || key == "~" || key == "null" || key == "__proto__"
}

// IsLessonName tells whether a file name is one of a lesson: a number, a hyphen, a slug. A preview asks that of all
// names at each save, which is why this is no pattern.
func IsLessonName(name string) bool {
	rest := strings.TrimLeft(name, "0123456789")
	slug, ok := strings.CutSuffix(rest, ".md")
	if !ok || len(name)-len(rest) < 2 || len(slug) < 2 || slug[0] != '-' {
		return false
	}
	return strings.IndexFunc(slug, func(c rune) bool {
		return c == utf8.RuneError || !unicode.IsLetter(c) && !unicode.IsNumber(c) && c != '_' && c != '-'
	}) < 0
}

// The longest lesson and season that a header may name.
const (
	MaxMinutes = 600
	MaxWeek    = 60
)

// Lesson reads a lesson file.
func Lesson(md goldmark.Markdown, f *source.File) (*lesson.Lesson, problem.List) {
	return LessonWith(md, f, nil)
}

// LessonWith reads a lesson file of a pack that names units and formulas itself.
func LessonWith(md goldmark.Markdown, f *source.File, words *quantity.Vocabulary) (*lesson.Lesson, problem.List) {
	return LessonIn(lesson.DefaultLanguage, md, f, words)
}

// LessonIn reads a lesson file of a pack in a language.
func LessonIn(language string, md goldmark.Markdown, f *source.File, words *quantity.Vocabulary) (
	*lesson.Lesson, problem.List) {
	l := &lesson.Lesson{File: f, Slug: strings.TrimSuffix(f.Name, ".md"), Words: words, Language: language}
	header, body, at, problems := headerOf(f)
	l.Markdown, l.HeaderAt = body, at
	if header != nil {
		fs := readFields(f, &problems, header, at,
			"id", "title", "week", "minutes", "goals", "materials", "standards", "care", "care-by-hand",
			"draft")
		if fs != nil {
			l.HasHeader = true
			l.Title = fs.title("title", true)
			l.Week, _ = fs.number("week", 1, MaxWeek)
			l.Minutes, l.MinutesAt = fs.number("minutes", 1, MaxMinutes)
			l.Goals = textsOf(fs.list("goals"))
			l.Materials = textsOf(fs.list("materials"))
			l.Standards = textsOf(fs.list("standards"))
			l.Care = fs.list("care")
			l.CareByHand = fs.flag("care-by-hand")
			l.ID = fs.id()
			l.Draft = fs.flag("draft")
			fs.done()
		}
	}
	var inBody problem.List // joined last, so that the header's problems come first
	l.Body, l.Sections, inBody = markdownWith(language, md, f, body, words)
	problems.Join(inBody)
	return l, problems
}

// headerOf splits a lesson or card into its two halves; without a header the body is all of it, so
// that its own problems are reported in the same go.
func headerOf(f *source.File) (header, body []byte, at source.Span, problems problem.List) {
	header, body, at, ok := splitHeader(f)
	if !ok {
		what, hint := "the file does not start with a header between two lines of ---",
			"put  ---  on the first line, then  title: …  and the other fields, then  ---  again"
		if isFence(f.Line(1)) {
			what, hint = "the header is not closed", "put  ---  alone on the line after its last field"
		}
		problems.Error(f, source.Span{}, "no-header", what, hint)
	}
	return header, body, at, problems
}
