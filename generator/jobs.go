package generator

// Which files there are, by name, and what makes each: the pages and scripts of both editions, and what goes into a
// bundle. Sheets are in paper.go. Nothing is drawn before a Job runs.

import (
	"maps"
	"path"
	"slices"
	"strings"

	"trundle/generator/bundle"
	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/site"
	"trundle/worksheets"
)

// A Job makes one file of the output.
type Job struct {
	Name string // slash-separated, below the output's folder
	Make func() ([]byte, error)
}

// Jobs gives what makes each file of both editions, but for what TakesAll. The season's sheets come last, as they are
// made of the lessons' pages.
func Jobs(p *Proved, s *site.Site) []Job {
	press := &printer{site: s, pack: p.Pack, start: p.Start}
	var jobs []Job
	for _, e := range site.Editions {
		jobs = append(jobs, CommonJobs(s, p.Pack, e)...)
		jobs = append(jobs, PictureJobs(p.Pack, e)...)
		if e == site.Mentors {
			jobs = append(jobs, SearchJob(p, s), ClassJob(p, s))
		}
		for _, l := range p.Lessons {
			jobs = append(jobs, lessonJobs(press, l, e)...)
		}
	}
	return append(jobs, press.seasonJobs(p.Lessons)...)
}

// LessonJobs gives the jobs of a lesson in an edition.
func LessonJobs(s *site.Site, p *lesson.Pack, l *work.Lesson, e site.Edition) []Job {
	return lessonJobs(&printer{site: s, pack: p}, l, e)
}

// lessonJobs are those with what prints the lessons of the pack.
func lessonJobs(press *printer, l *work.Lesson, e site.Edition) []Job {
	s, p := press.site, press.pack
	jobs := []Job{{path.Join(string(e), l.Slug+".html"), func() ([]byte, error) { return s.Lesson(p, l, e) }}}
	if e == site.Students && site.HasSteps(l) {
		jobs = append(jobs, Job{path.Join(string(e), "steps", l.Slug+".js"), func() ([]byte, error) { return s.Steps(l) }})
	}
	if e == site.Mentors {
		jobs = append(jobs, Job{path.Join(string(e), site.ClassLesson(l.Lesson)),
			func() ([]byte, error) { return s.ClassLesson(p, l) }})
	}
	return append(jobs, press.lessonJobs(l, e)...)
}

// PictureJobs gives the jobs of the pictures that an edition shows.
func PictureJobs(p *lesson.Pack, e site.Edition) []Job {
	var jobs []Job
	for _, name := range slices.Sorted(maps.Keys(lesson.PicturesShown(p, e == site.Mentors))) {
		if shown := p.Pictures[name]; shown != nil {
			jobs = append(jobs, Job{path.Join(string(e), name), func() ([]byte, error) { return shown.Data, nil }})
		}
	}
	return jobs
}

// CommonJobs gives the jobs of what an edition has beside its lessons and pictures: the front page, the care
// cards, the assets, and pages at old addresses.
func CommonJobs(s *site.Site, p *lesson.Pack, e site.Edition) []Job {
	named := func(name string) string { return path.Join(string(e), name) }
	jobs := []Job{
		{named("index.html"), func() ([]byte, error) { return s.Front(p, e) }},
		{named("care.html"), func() ([]byte, error) { return s.Care(p, e) }},
	}
	if p.Words != nil {
		jobs = append(jobs, Job{named(site.WordsPage), func() ([]byte, error) { return s.Words(p, e) }})
	}
	for _, m := range p.Moves() {
		jobs = append(jobs, Job{named(m.Old + ".html"), func() ([]byte, error) { return s.Moved(p, m, e) }})
	}
	if e == site.Mentors {
		jobs = append(jobs, Job{named(site.SurePage), func() ([]byte, error) { return s.Sure(p) }},
			Job{named(site.MaterialsPage), func() ([]byte, error) { return s.Materials(p) }})
	}
	for _, name := range site.AssetNames() {
		if e == site.Students && site.IsOfClass(name) { // students' devices keep all that their edition has
			continue
		}
		jobs = append(jobs, Job{named(name), func() ([]byte, error) {
			data, err := s.Asset(p, name)
			if name == site.PrintSheet {
				data = append(slices.Clip(data), worksheets.PageRule()...)
			}
			return data, err
		}})
	}
	return jobs
}

// SearchJob gives the job of what mentors can search.
func SearchJob(p *Proved, s *site.Site) Job {
	return Job{path.Join(string(site.Mentors), site.SearchTexts), func() ([]byte, error) {
		return s.SearchTexts(p.Pack, p.Lessons)
	}}
}

// ClassJob gives the job of the mentors' page of the class.
func ClassJob(p *Proved, s *site.Site) Job {
	return Job{path.Join(string(site.Mentors), site.ClassPage), func() ([]byte, error) {
		return s.Class(p.Pack, p.Lessons)
	}}
}

// complete puts in what takes all of an edition's files: its version, and the scripts that tell it and that keep the
// edition for use without a network.
func complete(s *site.Site, files map[string][]byte, e site.Edition) error {
	own := map[string][]byte{}
	for name, data := range files {
		if below, ok := strings.CutPrefix(name, string(e)+"/"); ok {
			own[below] = data
		}
	}
	changed, err := s.Complete(own)
	for name, data := range changed {
		files[path.Join(string(e), name)] = data
	}
	return err
}

// TakesAll is true of a file that can be made only when all others of its edition are there.
func TakesAll(name string) bool {
	return path.Base(name) == site.OfflineScript || path.Base(name) == site.VersionScript
}

// bundled gives the files that go into an edition's zip: its own in a folder, what they are, and the
// page to start with. Mentors get the students' worksheets too, to print them.
func bundled(s *site.Site, p *lesson.Pack, files map[string][]byte, e site.Edition) (map[string][]byte, error) {
	inside := map[string][]byte{}
	for name, data := range files {
		printed := e == site.Mentors && strings.HasPrefix(name, string(site.Students)+"/sheets/")
		if printed || strings.HasPrefix(name, string(e)+"/") {
			inside[name] = data
		}
	}
	start, err := s.StartHere(p, e)
	if err != nil {
		return nil, err
	}
	inside[bundle.Start], inside[bundle.Index] = start, start
	// The list is among what is kept, and names the script that keeps it. So the script is made from a list without
	// itself, which changes whenever one of the other files does.
	inside[bundle.Contents] = s.Contents(p, e, inside)
	if inside[site.OfflineScript], err = s.Above(aboveEdition(inside, e)); err != nil {
		return nil, err
	}
	inside[bundle.Contents] = s.Contents(p, e, inside)
	return inside, nil
}

// aboveEdition gives the files of a bundle that an edition's own worker cannot see to, since they are above its folder
// or beside it, and those inside that the page to start with is made of.
func aboveEdition(inside map[string][]byte, e site.Edition) map[string][]byte {
	above := map[string][]byte{}
	for name, data := range inside {
		if !strings.HasPrefix(name, string(e)+"/") {
			above[name] = data
		}
	}
	for _, name := range site.StartAssets() {
		above[path.Join(string(e), name)] = inside[path.Join(string(e), name)]
	}
	return above
}
