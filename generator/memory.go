package generator

// Proving a pack again and again: what is remembered of each file, and when it must be done anew. A build uses the
// same code with an empty memory.

import (
	"context"
	"io/fs"
	"maps"
	"slices"

	"github.com/yuin/goldmark"

	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/picture"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/read"
	"trundle/generator/source"
	"trundle/generator/table"
	"trundle/generator/work"
	"trundle/site"
)

// Memory proves a pack again and again, and does anew only what has changed: a lesson whose
// text is another, those that use a kit or a file of runs that is another, what depends on
// the headings and cards of other files. The zero Memory is ready; it is for one caller
// at a time. What comes out is the same as without it.
type Memory struct {
	once     bool                 // nothing is proved again, so nothing has to be remembered
	whole    int                  // of how many lessons, at most, all are kept when it is done once
	storeOf  func(pack Key) Store // for what a build has found before, nil if it finds everything anew
	read     read.Memory
	markdown goldmark.Markdown
	own      *quantity.Vocabulary // what the pack named itself the last time
	language string               // of the pack then
	kits     kept[[]*lesson.Kit]
	parts    putIn
	lessons  map[string]*remembered
	cards    map[string]*rememberedCard
	judged   judgedWords
	names    judgedNames
	keys     keys
	words    kept[*lesson.Glossary]
	remarks  map[string]*kept[check.Remarks]
	tables   map[string]*kept[*table.Table]
	pictures map[string]*kept[*picture.Picture]
}

// kept is what a file's text came to.
type kept[T any] struct {
	file     *source.File
	words    *quantity.Vocabulary // with which it was read
	value    T
	problems problem.List
}

// with gives what derive makes of a file, from memory if its text and the pack's own units and formulas are the same.
func (k *kept[T]) with(f *source.File, words *quantity.Vocabulary,
	derive func(*source.File, *quantity.Vocabulary) (T, problem.List)) (T, problem.List) {
	if k.words != words {
		k.file, k.words = nil, words
	}
	return k.of(f, func(f *source.File) (T, problem.List) { return derive(f, words) })
}

// of gives what derive makes of a file, from memory if its text is the same.
func (k *kept[T]) of(f *source.File, derive func(*source.File) (T, problem.List)) (T, problem.List) {
	if k.file == nil || !k.file.Equal(f) {
		k.value, k.problems = derive(f)
		k.file = f
	}
	return k.value, k.problems
}

// Prove reads a pack, works everything in it out and compares it with its keys. An
// error means that the folder cannot be read, or that ctx was cancelled; whatever is
// wrong with the pack is among the problems.
func Prove(ctx context.Context, folder fs.FS) (*Proved, error) {
	return (&Memory{once: true, whole: mostWhole}).Prove(ctx, folder)
}

// ProveFor is Prove for a build, which may take from a store what an earlier one has found to be in order. storeOf
// gives the store of a pack, under a name that all its versions have.
func ProveFor(ctx context.Context, folder fs.FS, storeOf func(pack Key) Store) (*Proved, error) {
	return (&Memory{once: true, whole: mostWhole, storeOf: storeOf}).Prove(ctx, folder)
}

// Prove is the same as the function Prove.
func (m *Memory) Prove(ctx context.Context, folder fs.FS) (*Proved, error) {
	if m.markdown == nil {
		m.markdown = parse.NewMarkdown()
	}
	m.read.Once, m.read.Whole = m.once, m.whole
	files, problems, err := m.read.Pack(folder, parse.IsLessonName)
	if err != nil {
		return nil, err
	}
	p, found := m.pack(files)
	problems.Join(found)
	lessons := entries(&m.lessons, m.parts.into(ctx, p, files, &problems))
	cards := entries(&m.cards, files.Cards)
	p.Cards, found = each(ctx, cards, func(e entry[rememberedCard]) (*lesson.Card, problem.List) {
		return e.kept.parsed.with(e.file, p.Vocabulary, m.card)
	})
	problems.Join(found)
	letGo := m.once && len(lessons) > m.whole
	phrases := check.Phrases(p)
	p.Lessons, found = each(ctx, lessons, func(e entry[remembered]) (*lesson.Lesson, problem.List) {
		l, found := e.kept.parsed.with(e.file, p.Vocabulary, m.parse)
		if letGo {
			l = l.Outline(p.Words, lesson.Noticed{Phrases: phrases(l), Cards: site.CardsOf(p, l, site.Students)})
			e.kept.parsed = kept[*lesson.Lesson]{}
		}
		return l, found
	})
	problems.Join(found)
	problems.Join(check.Pack(p))
	p.Pictures, found = m.look(ctx, folder, files, m.shown(p))
	problems.Join(found)
	problems.Join(check.Logo(p))
	problems.Join(m.names.check(p))
	if ctx.Err() != nil {
		return nil, context.Cause(ctx)
	}

	m.keys = m.keys.of(p)
	var store Store
	if m.storeOf != nil {
		store = m.storeOf(packKey(p))
	}
	known := verdictsOf(p, files, m.keys, store)
	worked, found := each(ctx, lessons, func(e entry[remembered]) (*work.Lesson, problem.List) {
		if !letGo {
			return m.judge(p, e)
		}
		return m.judgeOnce(p, e, known)
	})
	problems.Join(found)
	for _, e := range cards {
		problems.Join(e.kept.check(p, m.keys))
	}
	if p.Words != nil {
		problems.Join(m.judged.check(p, m.usesOf(p), m.keys))
	}
	if !problems.HasErrors() { // who has errors to fix is not asked for ids as well
		problems.Join(check.IDs(p))
	}
	accepted := check.Accept(m.remarksIn(files), problems.Sorted())
	if err := unchanged(files); err != nil {
		return nil, err
	}
	proved := &Proved{Pack: p, Lessons: worked, Problems: problem.Bounded(accepted), Store: store,
		files: files}
	if letGo {
		proved.open = m.opener(p)
	}
	return proved, context.Cause(ctx)
}

// opener gives what works a lesson out again. It holds nothing of what is remembered.
func (m *Memory) opener(p *lesson.Pack) func(*work.Lesson) *work.Lesson {
	once := &Memory{markdown: m.markdown, language: m.language}
	return func(l *work.Lesson) *work.Lesson {
		whole, _ := once.parse(l.File, p.Vocabulary) // its problems are known
		worked, _ := work.ForKits(whole, p)
		return worked
	}
}

// card parses a care card.
func (m *Memory) card(f *source.File, words *quantity.Vocabulary) (*lesson.Card, problem.List) {
	return parse.CardIn(m.language, m.markdown, f, words)
}

// parse parses a lesson.
func (m *Memory) parse(f *source.File, words *quantity.Vocabulary) (*lesson.Lesson, problem.List) {
	return parse.LessonIn(m.language, m.markdown, f, words)
}

// remarksIn are those of the files in which a coach can accept a caution.
func (m *Memory) remarksIn(files *read.Files) []check.Remarks {
	sources := slices.Concat([]*source.File{files.Pack, files.Kits, files.Renamed, files.Words, files.Formulas},
		files.Lessons, files.Parts, files.Cards)
	there := slices.DeleteFunc(sources, func(f *source.File) bool { return f == nil })
	read := func(f *source.File) (check.Remarks, problem.List) { return check.RemarksIn(f), problem.List{} }
	all := make([]check.Remarks, len(there))
	for i, e := range entries(&m.remarks, there) {
		all[i], _ = e.kept.of(e.file, read)
	}
	return all
}

// entry is a file with what is remembered of it.
type entry[T any] struct {
	at   int
	file *source.File
	kept *T
}

// entries finds what is remembered of files, and forgets what is of no file.
func entries[T any](memory *map[string]*T, files []*source.File) []entry[T] {
	all, still := make([]entry[T], len(files)), make(map[string]*T, len(files))
	for i, f := range files {
		k := (*memory)[f.Name]
		if k == nil {
			k = new(T)
		}
		still[f.Name] = k
		all[i] = entry[T]{i, f, k}
	}
	*memory = still
	return all
}

// shown gives the names of the pictures that pages show.
func (m *Memory) shown(p *lesson.Pack) map[string]bool {
	if m.once {
		return lesson.PicturesShown(p, true)
	}
	rest := *p
	rest.Lessons = nil
	all := lesson.PicturesShown(&rest, true)
	for _, l := range p.Lessons {
		r := m.lessons[l.File.Name]
		if r.picturesOf != l {
			r.pictures, r.picturesOf = l.Pictures(), l
		}
		maps.Copy(all, r.pictures)
	}
	return all
}

// pack parses the files that concern the whole pack.
func (m *Memory) pack(files *read.Files) (*lesson.Pack, problem.List) {
	var problems problem.List
	f := files.Pack
	if f == nil {
		f = source.NewFile("pack.yaml", nil)
	}
	p, found := parse.PackFile(f)
	p.Refused, p.Unread = files.Refused, slices.Clone(files.Unread)
	switch {
	case p.IsUnread(f.Name):
		found = problem.List{}
	case files.Pack == nil:
		found = problem.List{}
		found.Error(f, source.Span{}, "no-pack-file", "the folder has no pack.yaml",
			"add one with  title: …  and  version: …, or name the folder that it is in")
	}
	problems.Join(found)
	problems.Join(m.vocabulary(p, files.Formulas))
	if files.Kits != nil {
		p.Kits, found = m.kits.with(files.Kits, p.Vocabulary, parse.KitsWith)
		if len(p.Kits) == 0 && found.HasErrors() {
			p.Unread = append(p.Unread, files.Kits.Name)
		}
		problems.Join(found)
	}
	if files.Renamed != nil {
		p.Renamed, found = parse.Renamed(files.Renamed)
		problems.Join(found)
	}
	if files.Words != nil {
		p.Words, found = m.words.of(files.Words, func(f *source.File) (*lesson.Glossary, problem.List) {
			return parse.Glossary(m.markdown, f)
		})
		problems.Join(found)
	}
	p.Data = make(map[string]*table.Table, len(files.Data))
	for _, e := range entries(&m.tables, files.Data) {
		p.Data[e.file.Name], found = e.kept.with(e.file, p.Vocabulary, table.Read)
		problems.Join(found)
	}
	for _, name := range files.UnreadIn("data/") { // there, and reported: an empty one keeps it from being missed as well
		p.Data[name] = &table.Table{File: source.NewFile(name, nil)}
	}
	return p, problems
}

// vocabulary completes what the pack names itself. As long as that is the same, so is what was read with it.
func (m *Memory) vocabulary(p *lesson.Pack, formulas *source.File) problem.List {
	var problems problem.List
	if formulas != nil && p.Vocabulary != nil {
		problems = parse.Formulas(formulas, p.Vocabulary)
	}
	if m.own == nil || !m.own.Same(p.Vocabulary) || m.language != p.Language {
		m.own, m.language = p.Vocabulary, p.Language
	}
	p.Vocabulary = m.own
	return problems
}
