package generator

// What comes out of reading, working and checking a pack, before anything is drawn.

import (
	"fmt"
	"io/fs"

	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/read"
	"trundle/generator/work"
	"trundle/site"
)

// Proved is a pack worked out and checked.
type Proved struct {
	Pack     *lesson.Pack
	Lessons  []*work.Lesson
	Problems []problem.Problem // in source order

	// Start is when a lesson begins, in minutes after midnight, for the plans of run sheets; nil if nobody has typed it.
	Start *int

	// Store keeps what is drawn from one run to the next; nil if nothing is kept.
	Store Store
	files *read.Files                     // that it was read from
	open  func(*work.Lesson) *work.Lesson // works an outline out again; nil if there is none
	in    *site.Site                      // what a test has pages made with; nil for the pack's language
}

// site makes the pages in the pack's language.
func (p *Proved) site() (*site.Site, error) {
	if p.in != nil {
		return p.in, nil
	}
	return site.New(p.Pack.Language)
}

// mostWhole is how many lessons a pack may have for all of them to be kept as they were worked out. Those of a larger
// pack are let go one by one when they have been checked, and are worked out again when they are drawn: all at once
// they would take half a megabyte each.
const mostWhole = 52

// LessonsIn counts the lessons of the pack in a folder, for whoever has to prepare for many.
func LessonsIn(folder fs.FS) int { return read.CountLessons(folder, parse.IsLessonName) }

// Open gives a lesson with its body and its values, whether they were kept or not.
func (p *Proved) Open(l *work.Lesson) *work.Lesson {
	if !l.IsOutline() {
		return l
	}
	return p.open(l)
}

// unchanged gives an error if a file was saved while the pack was in use: some of what was made would be of one
// version, and some of the other.
func unchanged(files *read.Files) error {
	if files == nil || files.Changed() == "" {
		return nil
	}
	return fmt.Errorf("%s was saved, moved or removed in the meantime; try again", files.Changed())
}

// HasErrors tells whether the pack must not be built.
func (p *Proved) HasErrors() bool {
	errors, _ := problem.Counts(p.Problems)
	return errors > 0
}

// SpareTime is how long a lesson's meeting takes, and how long without what is for when there is time.
type SpareTime struct {
	File             string
	Minutes, Without int
}

// WithSpareTime are the lessons that have something for when there is time.
func (p *Proved) WithSpareTime() []SpareTime {
	var all []SpareTime
	for _, l := range p.Lessons {
		if spare := lesson.SpareMinutes(l.Lesson); spare > 0 {
			all = append(all, SpareTime{l.File.Name, l.Minutes, l.Minutes - spare})
		}
	}
	return all
}
