package work

// What is left of a lesson that is let go after it was proved, and worked out again when its pages are drawn.

import "trundle/generator/lesson"

// counts are what is said of a lesson whose values were let go.
type counts struct {
	finds, agreeing int
	steps           bool
}

// Outline gives what is left of a lesson without its body and its values.
func (l *Lesson) Outline(left *lesson.Lesson) *Lesson {
	finds, agreeing := l.Keys()
	return &Lesson{Lesson: left, Kit: l.Kit, counts: &counts{finds, agreeing, l.HasSteps()}}
}

// Keys are how many finds a lesson has, and of how many the key agrees.
func (l *Lesson) Keys() (finds, agreeing int) {
	if l.counts != nil {
		return l.counts.finds, l.counts.agreeing
	}
	for _, s := range l.Finds {
		if k := l.Of(s).Key; k != nil && k.Holds {
			agreeing++
		}
	}
	return len(l.Finds), agreeing
}

// HasSteps tells whether students fill something in, which is then checked step by step.
func (l *Lesson) HasSteps() bool {
	if l.counts != nil {
		return l.counts.steps
	}
	return len(l.Fields)+len(l.Chooses)+len(l.Says)+len(l.KitUsed) > 0
}
