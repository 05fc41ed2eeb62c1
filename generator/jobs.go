package generator

// Which files there are, by name, and what makes each: the pages and scripts of both editions, and what goes into a
// bundle. Sheets are in paper.go. Nothing is drawn before a Job runs.

import (
	"maps"
	"path"
	"slices"
	"sync"

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

// Jobs gives what makes each file of both editions, but for what TakesAll.
func Jobs(p *Proved, s *site.Site) []Job {
	var jobs []Job
	for _, t := range tasksOf(p, printerOf(p, s), nil, nil) {
		_ = t.run(func(j Job) error {
			jobs = append(jobs, j)
			return nil
		})
	}
	return append(append(jobs, SearchJob(p, s), ClassJob(p, s)), SeasonJobs(p, s)...)
}

// A task is jobs that are done by the same goroutine: those of a lesson share what is laid out for its sheets.
type task struct {
	files int // how many there are
	run   func(do func(Job) error) error
}

// tasksOf are those of both editions, but for what is made of other files.
func tasksOf(p *Proved, press *printer, all *gathered, shelf *shelf) []task {
	var tasks []task
	var pages []Job
	asset := assetsOf(press.site, p.Pack)
	for _, e := range site.Editions {
		for _, j := range shelf.common(commonJobs(press.site, p.Pack, e, asset)) {
			if path.Ext(j.Name) == ".html" {
				pages = append(pages, j)
				continue
			}
			tasks = append(tasks, inTurn([]Job{j}))
		}
	}
	tasks = append(tasks, inTurn(pages)) // of all lessons: two at a time of a large pack would take much memory
	tasks = append(tasks, pictureTasks(p.Pack)...)
	for i := range p.Lessons {
		tasks = append(tasks, lessonTask(p, i, press, all, shelf))
	}
	return tasks
}

// inTurn is a task of jobs that are done one after the other.
func inTurn(jobs []Job) task {
	return task{len(jobs), func(do func(Job) error) error {
		for _, j := range jobs {
			if err := do(j); err != nil {
				return err
			}
		}
		return nil
	}}
}

// lessonTask is that of the lesson at a place in the pack. One that was let go is worked out only when something of it
// is not kept.
func lessonTask(p *Proved, at int, press *printer, all *gathered, shelf *shelf) task {
	left := p.Lessons[at]
	jobsOf := func(l *work.Lesson) []Job {
		return slices.Concat(lessonJobs(press, l, site.Students), lessonJobs(press, l, site.Mentors), all.parts(l))
	}
	files := len(jobsOf(left)) - len(all.parts(left)) // counted, and let go until it is their turn
	return task{files, func(do func(Job) error) error {
		jobs := jobsOf(left)
		var opened *work.Lesson
		of := sync.OnceValue(func() []Job {
			opened = p.Open(left)
			return jobsOf(opened)
		})
		defer func() { press.forget(opened) }()
		ready := make([]Job, len(jobs))
		for i, j := range jobs {
			ready[i] = Job{j.Name, func() ([]byte, error) {
				return of()[i].Make()
			}}
		}
		ready = shelf.ofLesson(left, ready)
		for _, j := range ready[:files] {
			if err := do(j); err != nil {
				return err
			}
		}
		return all.add(at, ready[files:])
	}}
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
			jobs = append(jobs, Job{path.Join(string(e), name), func() ([]byte, error) { return shown.Handed(), nil }})
		}
	}
	return jobs
}

// pictureTasks are those of the pictures of both editions, which share what is handed out.
func pictureTasks(p *lesson.Pack) []task {
	editions := map[string][]site.Edition{}
	for _, e := range site.Editions {
		for name := range lesson.PicturesShown(p, e == site.Mentors) {
			if p.Pictures[name] != nil {
				editions[name] = append(editions[name], e)
			}
		}
	}
	var tasks []task
	for _, name := range slices.Sorted(maps.Keys(editions)) {
		tasks = append(tasks, task{len(editions[name]), func(do func(Job) error) error {
			handed := sync.OnceValue(p.Pictures[name].Handed)
			for _, e := range editions[name] {
				err := do(Job{path.Join(string(e), name), func() ([]byte, error) { return handed(), nil }})
				if err != nil {
					return err
				}
			}
			return nil
		}})
	}
	return tasks
}

// CommonJobs gives the jobs of what an edition has beside its lessons and pictures: the front page, the care
// cards, the assets, and pages at old addresses.
func CommonJobs(s *site.Site, p *lesson.Pack, e site.Edition) []Job {
	return commonJobs(s, p, e, assetsOf(s, p))
}

// commonJobs are those with what gives the assets by their names.
func commonJobs(s *site.Site, p *lesson.Pack, e site.Edition, asset func(name string) ([]byte, error)) []Job {
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
		jobs = append(jobs, Job{named(name), func() ([]byte, error) { return asset(name) }})
	}
	return jobs
}

// assetsOf gives a pack's assets, each made once for both editions: to make scripts small takes a while.
func assetsOf(s *site.Site, p *lesson.Pack) func(name string) ([]byte, error) {
	made := map[string]func() ([]byte, error){}
	for _, name := range site.AssetNames() {
		made[name] = sync.OnceValues(func() ([]byte, error) {
			data, err := s.Asset(p, name)
			if name == site.PrintSheet {
				data = append(slices.Clip(data), worksheets.PageRule()...)
			}
			return data, err
		})
	}
	return func(name string) ([]byte, error) { return made[name]() }
}

// TakesAll is true of a file that can be made only when all others of its edition are there.
func TakesAll(name string) bool {
	return path.Base(name) == site.OfflineScript || path.Base(name) == site.VersionScript
}
