// Package preview keeps a pack worked out while it is written and serves its pages, which
// follow their sources. It is the pipeline of the build with a memory.
package preview

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"html/template"
	"io/fs"
	"maps"
	"path"
	"runtime"
	"slices"
	"strings"
	"sync"

	"trundle/generator"
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/work"
	"trundle/site"
	"trundle/site/words"
	"trundle/worksheets"
)

// Preview is a pack while it is written. Its methods may be called from several goroutines.
type Preview struct {
	memory generator.Memory // of Update alone

	drawing sync.Mutex // one at a time draws what takes the whole pack; costly is under it
	costly  costly
	turns   chan struct{} // so many other files are made at the same time

	lock    sync.Mutex
	state   state
	changed chan struct{}     // closed and replaced with every new state
	assets  map[string][]byte // by language and name

	styleSum struct { // of the style sheet in a state
		version int
		sum     string
	}
}

// state is the pack as it was when all was right, and what is wrong now.
type state struct {
	version  int
	in       *language
	good     *generator.Proved       // nil if all was never right
	lessons  map[string]*work.Lesson // of good, by their slugs
	latest   map[string]*work.Lesson // as they are now, right or not
	ids      map[string]string       // of all lessons that ever were, by their slugs; "" for one without
	problems []problem.Problem
	notice   string
}

// New gives a Preview that has seen nothing yet.
func New() (*Preview, error) {
	in, err := speak(lesson.DefaultLanguage)
	if err != nil {
		return nil, err
	}
	first := state{in: in, ids: map[string]string{}}
	return &Preview{state: first, changed: make(chan struct{}), assets: map[string][]byte{},
		turns: make(chan struct{}, runtime.GOMAXPROCS(0))}, nil
}

// language is what the preview shows pages and strip with, in the language of the pack.
type language struct {
	name   string
	words  words.Words
	strip  *template.Template
	plain  *site.Site // makes pages as a build does
	served *site.Site // makes the same pages, which follow their sources
	marked *site.Site // and those that say where each of their parts comes from
}

func speak(name string) (*language, error) {
	s, err := site.New(name)
	if err != nil {
		return nil, err
	}
	w, err := words.Load(name)
	if err != nil {
		return nil, err
	}
	t, err := stripTemplate(w)
	if err != nil {
		return nil, err
	}
	return &language{
		name: name, words: w, strip: t,
		plain: s, served: s.Following(liveFolder+"live.css", liveFolder+"live.js"), marked: s.Marked(),
	}, nil
}

// Update takes the pack's folder as it is now. It is called from one goroutine.
func (p *Preview) Update(ctx context.Context, folder fs.FS, notice string) (*generator.Proved, error) {
	proved, err := p.memory.Prove(ctx, folder)
	if err != nil {
		return nil, err
	}
	p.lock.Lock()
	defer p.lock.Unlock()
	// Proving was done without the lock: pages are served meanwhile, from the state before.
	p.state.problems, p.state.notice = proved.Problems, notice
	p.state.latest = make(map[string]*work.Lesson, len(proved.Lessons))
	for _, l := range proved.Lessons {
		p.state.latest[l.Slug] = l
	}
	if spoken := proved.Pack.Language; !proved.HasErrors() && spoken != p.state.in.name {
		if p.state.in, err = speak(spoken); err != nil {
			return nil, err
		}
	}
	if !proved.HasErrors() {
		p.state.good, p.state.lessons = proved, p.state.latest
		ids := maps.Clone(p.state.ids) // states that pages are served from stay as they are
		for _, l := range proved.Lessons {
			ids[l.Slug] = l.ID.Value
		}
		p.state.ids = ids
	}
	p.next()
	return proved, nil
}

// Gone says that the pack's folder is not there; what was good stays.
func (p *Preview) Gone() {
	p.lock.Lock()
	defer p.lock.Unlock()
	p.state.problems, p.state.notice = nil, "live-gone"
	p.next()
}

// next makes the state a new one and wakes all who wait for it. The lock is held.
func (p *Preview) next() {
	p.state.version++
	close(p.changed)
	p.changed = make(chan struct{})
}

// now gives the state and what closes when there is another.
func (p *Preview) now() (state, <-chan struct{}) {
	p.lock.Lock()
	defer p.lock.Unlock()
	return p.state, p.changed
}

// File gives a file of the output as a build would write it, but for the edition's version, which takes all files. ok
// is false if there is none.
func (p *Preview) File(name string) (data []byte, ok bool, err error) {
	s, _ := p.now()
	return p.file(s, s.in.plain, name)
}

// file makes a file of a state by one of the sites.
func (p *Preview) file(s state, pages *site.Site, name string) ([]byte, bool, error) {
	if s.good == nil {
		return s.bare(name)
	}
	if data, ok := p.asset(s, name); ok {
		return data, true, nil
	}
	if generator.TakesAll(name) {
		return p.whole(s, name)
	}
	for _, e := range site.Editions {
		if !strings.HasPrefix(name, string(e)+"/") {
			continue
		}
		if job, ok := s.job(pages, e, name); ok {
			if generator.IsOfSeason(name) {
				return p.season(s, job)
			}
			p.turns <- struct{}{}
			defer func() { <-p.turns }()
			data, err := job.Make()
			p.keep(s, name, data)
			return data, true, err
		}
	}
	return nil, false, nil
}

// job finds what makes a file. Pictures come last, since all lessons are looked through for them.
func (s state) job(pages *site.Site, e site.Edition, name string) (generator.Job, bool) {
	named := func(jobs []generator.Job) (generator.Job, bool) {
		if i := slices.IndexFunc(jobs, func(j generator.Job) bool { return j.Name == name }); i >= 0 {
			return jobs[i], true
		}
		return generator.Job{}, false
	}
	for _, l := range s.lessonsOf(name) {
		if job, ok := named(generator.LessonJobs(pages, s.good.Pack, l, e)); ok {
			return job, true
		}
	}
	for _, job := range []generator.Job{generator.SearchJob(s.good, pages), generator.ClassJob(s.good, pages)} {
		if job.Name == name {
			return job, true
		}
	}
	if generator.IsOfSeason(name) {
		return named(generator.SeasonJobs(s.good, pages))
	}
	job, ok := named(generator.CommonJobs(pages, s.good.Pack, e))
	if ok || !strings.HasPrefix(name, string(e)+"/pictures/") {
		return job, ok
	}
	return named(generator.PictureJobs(s.good.Pack, e))
}

// bare gives what a page needs that says that there is nothing yet.
func (s state) bare(name string) ([]byte, bool, error) {
	edition, below, _ := strings.Cut(name, "/")
	if !slices.Contains(site.Editions, site.Edition(edition)) || !slices.Contains(site.AssetNames(), below) {
		return nil, false, nil
	}
	data, err := s.in.plain.Asset(&lesson.Pack{}, below)
	return data, true, err
}

// lessonOf finds the lesson that a file belongs to by its name.
func (s state) lessonOf(name string) *work.Lesson {
	if all := s.lessonsOf(name); len(all) > 0 {
		return all[0]
	}
	return nil
}

// lessonsOf finds the lessons that a file may belong to by its name: the sheet 01-a-a4.pdf is of 01-a, even if there is
// a lesson 01-a-a4 as well.
func (s state) lessonsOf(name string) []*work.Lesson {
	slug := strings.TrimSuffix(path.Base(name), path.Ext(name))
	candidates := []string{slug}
	// A worksheet's name ends with its paper.
	if i := strings.LastIndexByte(slug, '-'); i >= 0 && path.Ext(name) == ".pdf" {
		candidates = append(candidates, slug[:i], strings.TrimSuffix(slug[:i], "-mentor")) // the latter of a run sheet
	}
	var all []*work.Lesson
	for _, of := range candidates {
		if l := s.lessons[of]; l != nil {
			all = append(all, l)
		}
	}
	return all
}

// unchanging tells what is kept for good: scripts are the same whatever the pack is; making them small takes a while.
func unchanging(name string) bool {
	_, below, _ := strings.Cut(name, "/")
	return site.Unchanging(below)
}

// asset gives a kept file.
func (p *Preview) asset(s state, name string) ([]byte, bool) {
	p.lock.Lock()
	defer p.lock.Unlock()
	data, ok := p.assets[s.in.name+" "+name]
	return data, ok
}

// keep keeps a file that no change of the pack can change.
func (p *Preview) keep(s state, name string, data []byte) {
	if !unchanging(name) {
		return
	}
	p.lock.Lock()
	defer p.lock.Unlock()
	p.assets[s.in.name+" "+name] = data // scripts have words in them
}

// news is what a page hears of a new state.
type news struct {
	Version int    `json:"version"`
	Edition string `json:"edition"`
	Page    string `json:"page,omitempty"` // if it is another than before
	Steps   string `json:"steps"`          // changes with what checks answers
	Style   string `json:"style"`
	Strip   string `json:"strip"`
	Gone    bool   `json:"gone,omitempty"`  // there is no such page now
	Moved   string `json:"moved,omitempty"` // where the lesson is that it was of
}

// news makes what a page hears. A page that is not there, or not yet, gets the strip alone.
func (p *Preview) news(s state, name string, author bool) (news, error) {
	edition, _, _ := strings.Cut(name, "/")
	out := news{Version: s.version, Edition: edition}
	pages := s.in.plain
	if author {
		pages = s.in.marked
	}
	l := s.lessonOf(name)
	if path.Ext(name) != ".html" {
		l = nil
	}
	var page []byte
	var ok bool
	var steps, style string
	err := sideBySide(func() (err error) {
		page, ok, err = p.file(s, pages, name)
		return err
	}, func() (err error) {
		steps, style, err = p.beside(s, site.Edition(edition), l)
		return err
	})
	if err != nil {
		return out, err
	}
	shown := strip{Edition: site.Edition(edition), Problems: s.problems, Notice: s.notice, Nothing: s.good == nil}
	if s.good != nil {
		shown.Pages = s.pages(edition)
	}
	if !ok && s.good != nil {
		out.Gone, out.Moved = true, s.moved(name)
	}
	if ok {
		out.Page, out.Steps, out.Style = string(page), steps, style
		shown.Other = other(name)
		if l != nil {
			shown.Lesson = l
			// The strip counts the keys of the lesson as it is now, though the page stays at the last state without errors.
			if now := s.latest[l.Slug]; now != nil {
				shown.Lesson = now
			}
			for _, paper := range worksheets.Papers {
				label := s.in.words.Say("paper-" + paper.Name)
				shown.Sheets = append(shown.Sheets, stripLink{label, "/" + edition + "/" + site.SheetName(l.Slug, paper.Name)})
				if edition == string(site.Mentors) {
					shown.Runs = append(shown.Runs, stripLink{label, "/" + edition + "/" + site.RunSheetName(l.Slug, paper.Name)})
				}
			}
		}
	}
	if author {
		out.Strip, err = s.in.stripOf(shown)
	}
	return out, err
}

// beside is what a page hears beside itself: of what checks its answers if it is a lesson's, and of its style sheet.
func (p *Preview) beside(s state, e site.Edition, l *work.Lesson) (steps, style string, err error) {
	if s.good == nil || !slices.Contains(site.Editions, e) {
		return "", "", nil
	}
	if l != nil {
		script, _, err := p.file(s, s.in.plain, path.Join(string(e), "steps", l.Slug+".js"))
		if err != nil {
			return "", "", err
		}
		table, err := s.in.plain.Names(s.good.Pack) // with it go the names that entries are kept under
		if err != nil {
			return "", "", err
		}
		steps = sum(slices.Concat(script, table, []byte(site.PackID(s.good.Pack))))
	}
	style, err = p.style(s, string(e))
	return steps, style, err
}

// pages are those of an edition by the files that they are made from.
func (s state) pages(edition string) map[string]string {
	all := map[string]string{}
	for _, l := range s.good.Pack.Lessons {
		all[l.File.Name] = "/" + edition + "/" + l.Slug + ".html"
	}
	for _, c := range s.good.Pack.Cards {
		all[c.File.Name] = "/" + edition + "/care.html"
	}
	if w := s.good.Pack.Words; w != nil {
		all[w.File.Name] = "/" + edition + "/" + site.WordsPage
	}
	return all
}

// moved is where a lesson's page is now whose file has another name, "" if that cannot be known.
func (s state) moved(name string) string {
	edition, below, _ := strings.Cut(name, "/")
	id := s.ids[strings.TrimSuffix(below, ".html")]
	for _, l := range s.good.Pack.Lessons {
		if id != "" && l.ID.Value == id {
			return "/" + edition + "/" + l.Slug + ".html"
		}
	}
	return ""
}

// style tells one style sheet from another; it is made once for each state.
func (p *Preview) style(s state, edition string) (string, error) {
	p.lock.Lock()
	known := p.styleSum
	p.lock.Unlock()
	if known.version == s.version {
		return known.sum, nil
	}
	style, _, err := p.file(s, s.in.plain, edition+"/"+site.StyleSheet)
	if err != nil {
		return "", err
	}
	p.lock.Lock()
	defer p.lock.Unlock()
	p.styleSum.version, p.styleSum.sum = s.version, sum(style)
	return p.styleSum.sum, nil
}

// other is the same page of the other edition.
func other(name string) string {
	edition, below, _ := strings.Cut(name, "/")
	for _, e := range site.Editions {
		if string(e) != edition {
			return "/" + string(e) + "/" + below
		}
	}
	return ""
}

// sum tells two texts apart; six bytes are enough for one afternoon of edits.
func sum(data []byte) string {
	s := sha256.Sum256(data)
	return hex.EncodeToString(s[:6])
}
