// Package site turns a worked pack into pages: HTML, style sheet, scripts. It lays
// out values and trees and works nothing out. The words of the interface stand in
// words/, one file a language.
package site

import (
	"bytes"
	"embed"
	"html/template"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/typography"
	"trundle/generator/work"
	"trundle/site/figure"
	"trundle/site/words"
)

//go:embed templates/*.html
var templateFiles embed.FS

//go:embed assets
var assetFiles embed.FS

// Edition is one of the two sites made from the same sources.
type Edition string

const (
	Students Edition = "students"
	Mentors  Edition = "mentors"
)

// Editions are both.
var Editions = []Edition{Students, Mentors}

// Site makes pages in one language. It is ready for use by several goroutines.
type Site struct {
	marked    bool    // pages say of each part which line of the source it is from
	following *Follow // nil in what is built
	words     words.Words
	marks     typography.Marks // of its language
	templates *template.Template
	names     *latestNames
	mentions  *mentions
	drafts    *sync.Pool // of buffers with pages whose marks are not set yet
}

// New makes a Site in a language, such as "en".
func New(language string) (*Site, error) {
	w, err := words.Load(language)
	if err != nil {
		return nil, err
	}
	return In(w)
}

// In makes a Site that says these words.
func In(w words.Words) (*Site, error) {
	var err error
	s := &Site{words: w, marks: typography.In(w.Forms()), names: &latestNames{}, mentions: &mentions{},
		drafts: &sync.Pool{}}
	s.templates, err = template.New("").Funcs(template.FuncMap{
		"say": w.Text, "address": addressOf, "papers": papersOf, "runs": s.runPapersOf, "svg": trusted,
		"number":  func(text string) template.HTML { return trusted(figure.Markup(text)) },
		"sure":    sureWord,
		"fact":    func(name string) string { return factLabel(s.words, name) },
		"blanks":  withBlanks,
		"step":    func(name string) string { return w.Step(withBlanks(name)) },
		"style":   func(name string) template.HTML { return trusted(styleLink(name)) },
		"symbol":  func(name string) template.HTML { return trusted(mathML(quantity.SymbolOf(name), "")) },
		"written": w.Number, // numbers of ours
		"between": w.Forms().Between,
		"elapsed": func(minute int) string { return lesson.ClockAt(nil, minute) },
		"add":     func(a, b int) int { return a + b },
	}).ParseFS(templateFiles, "templates/*.html")
	return s, err
}

// Say gives a text of the interface, its numbers put in. A name that is not in the
// language file is a mistake in the program.
func (s *Site) Say(name string, args ...any) string { return s.words.Say(name, args...) }

// labelled is a text of the interface with what it is said of: "Run sheet: Wheels".
func (s *Site) labelled(name, text string) string {
	return s.words.Say(name) + s.words.Say("colon") + " " + text
}

// Notation is how the site's language writes numbers and calculations.
func (s *Site) Notation() quantity.Notation { return s.words }

// Marks are how the site's language writes quotations.
func (s *Site) Marks() typography.Marks { return s.marks }

// SheetName is the name of a lesson's worksheet below the edition's folder.
func SheetName(slug, paper string) string { return "sheets/" + slug + "-" + paper + ".pdf" }

// RunSheetName is the name of a lesson's run sheet below the mentors' folder.
func RunSheetName(slug, paper string) string { return "sheets/" + slug + "-mentor-" + paper + ".pdf" }

// SeasonSheetName is the name of the file with the sheets of all lessons below an edition's folder: worksheets for
// students, run sheets for mentors.
func SeasonSheetName(e Edition, paper string) string {
	if e == Mentors {
		return ofSeason + "mentor-" + paper + ".pdf"
	}
	return ofSeason + paper + ".pdf"
}

// ofSeason is how the names of these files begin, and no lesson's: those start with digits.
const ofSeason = "sheets/season-"

// trusted marks HTML of our own printers or goldmark's as such. It is the only place
// that does.
func trusted(s string) template.HTML { return template.HTML(s) }

// Follow is what lets a page follow its source while that is written: a style sheet and a script, by
// their addresses, and leave to listen to the page's own server.
type Follow struct{ Style, Script string }

// frame is what every page has.
type frame struct {
	Follow   *Follow
	Edition  Edition
	Mentors  bool
	Language string
	Version  string // of the edition, once all of its files are there
	Base     string // what leads to the edition's folder, if the page lies outside: "mentors/"
	Title    string
	About    string // the page in a sentence or two, for those who find it by a search; "" if nothing is said
	Pack     *lesson.Pack
	Tape     tapeStrip
	Sheet    bool // the page has something to fill in
	Season   bool // the page lists lessons, and has a style sheet of its own for that
	Start    bool // the page that a bundle starts with, which has one too
	Weeks    bool // the page is that of the season, and has a script of its own
	Search   bool // the page can search all lessons
	Cards    bool // the page is that of care cards, which has a style sheet of its own
	Class    bool // the page is that of the class, which has a script and a style sheet of its own
	Glossary bool // the page is that of the pack's words, which has one too
	Bare     bool // the page belongs to no pack: nothing is said of its edition, and nothing is around it
	Content  any
}

// lessonPage is the content of a lesson's page.
type lessonPage struct {
	*work.Lesson
	Goals    []string
	Body     template.HTML
	Sheet    template.HTML // of a students' page with something to fill in
	Kits     []*lesson.Kit // to choose from
	Paper    template.HTML // links to the worksheets
	Parts    tapeStrip
	Evening  evening    // for mentors
	Cards    []cardView // what to take care of, before the work
	Previous *lesson.Lesson
	Next     *lesson.Lesson
	Earlier  []*lesson.Lesson // of the last lesson, whose page has the logs of all
}

// Lesson makes a lesson's page.
func (s *Site) Lesson(p *lesson.Pack, l *work.Lesson, e Edition) ([]byte, error) {
	b := &body{
		site: s, words: s.words, mentors: e == Mentors, pack: p,
		file: l.File.Name, source: l.File, lesson: l, markdown: l.Markdown,
		limited: p.LowestLimit(l.Lesson), unlimited: p.Unlimited(l.Lesson), parts: tapeParts(l.Lesson).in(s.marks),
	}
	b.here = b.firstUses(p, l.Lesson)
	b.explained = wordsIn(p, l.Lesson)
	var html string
	var top evening
	var err error
	if e == Mentors {
		html, top, err = b.evening(p, l)
	} else {
		html, err = b.render(l.Body)
	}
	if err != nil {
		return nil, err
	}
	page := lessonPage{
		Lesson: l, Body: trusted(html), Parts: b.parts,
		Paper: trusted(sheetLinks(s.words, l.Lesson)), Evening: top,
	}
	if e == Students {
		if page.Sheet, err = b.sheet(p); err != nil {
			return nil, err
		}
		page.Kits = choosable(p, l)
		page.Parts.punch(l)
	}
	for _, g := range l.Lesson.Goals {
		page.Goals = append(page.Goals, s.words.Goal(g, lowerFirst))
	}
	page.Cards = careLines(p, l.Lesson, e)
	for i, other := range p.Lessons {
		if other.Slug != l.Slug { // the pack may have outlines alone
			continue
		}
		if i > 0 {
			page.Previous = p.Lessons[i-1]
		}
		if i+1 < len(p.Lessons) {
			page.Next = p.Lessons[i+1]
		}
	}
	if n := len(p.Lessons) - 1; n > 0 && p.Lessons[n].Slug == l.Slug {
		page.Earlier = p.Lessons[:n]
	}
	name := "lesson.html"
	if e == Mentors {
		name = "lesson-mentors.html"
	}
	return s.page(name, frame{
		Edition: e, Title: l.Title, About: strings.Join(l.Lesson.Goals, " "),
		Pack: p, Tape: page.Parts, Sheet: page.Sheet != "", Content: page,
	})
}

// lowerFirst lets a sentence go on after "I can": its first letter is small, unless its first
// word is a single letter or all capitals.
func lowerFirst(s string) string {
	word, _, _ := strings.Cut(s, " ")
	letter, size := utf8.DecodeRuneInString(s)
	if size == len(word) || word == strings.ToUpper(word) {
		return s
	}
	return string(unicode.ToLower(letter)) + s[size:]
}

// upperFirst begins a sentence.
func upperFirst(s string) string {
	letter, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(letter)) + s[size:]
}

// A Notice is what a page says that has one thing to say, of no pack, and which lessons it leads to.
type Notice struct {
	Title, Text string
	Lessons     []*lesson.Lesson
}

// Notice makes such a page. It belongs to no edition and leads nowhere else, since that may not be there.
func (s *Site) Notice(e Edition, n Notice) ([]byte, error) {
	pack := &lesson.Pack{Title: n.Title, Language: s.words[words.Language]}
	return s.page("notice.html", frame{Edition: e, Title: n.Title, Pack: pack, Content: n, Bare: true})
}

// page fills a template in. The edition and the language come from what the frame has, so that they agree.
func (s *Site) page(name string, f frame) ([]byte, error) {
	f.Mentors, f.Language, f.Follow = f.Edition == Mentors, f.Pack.Language, s.following
	f.Version = Draft
	b, _ := s.drafts.Get().(*bytes.Buffer)
	if b == nil {
		b = &bytes.Buffer{}
	}
	defer s.drafts.Put(b)
	b.Reset()
	err := s.templates.ExecuteTemplate(b, name, f)
	return s.marks.HTML(b.Bytes()), err
}

// AssetNames are the files that an edition's pages refer to, by name below its folder.
func AssetNames() []string {
	var names []string
	for _, b := range pageScripts {
		names = append(names, b.name)
	}
	for _, sheet := range pageStyles {
		names = append(names, sheet.name)
	}
	entries, err := assetFiles.ReadDir("assets")
	if err != nil {
		panic("site: " + err.Error()) // embedded
	}
	for _, e := range entries {
		names = append(names, "assets/"+e.Name())
	}
	return names
}

// Unchanging tells which of them are the same whatever the pack is, but for its language.
func Unchanging(name string) bool {
	return name != StyleSheet && name != KeepScript && name != ClassScript && slices.Contains(AssetNames(), name)
}

// Asset makes one of them for a pack.
func (s *Site) Asset(p *lesson.Pack, name string) ([]byte, error) {
	for _, sheet := range pageStyles {
		if sheet.name == name {
			return pageStyle(sheet, p)
		}
	}
	for _, b := range pageScripts {
		if b.name != name {
			continue
		}
		script, err := s.pageScript(p, b)
		if (name == KeepScript || name == ClassScript) && err == nil {
			var table []byte
			table, err = s.Names(p)
			script = append(table, script...)
		}
		return script, err
	}
	return assetFiles.ReadFile(name)
}
