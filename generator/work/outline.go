package work

// What is left of a lesson that is let go after it was proved, and worked out again when its pages are drawn.

import "trundle/generator/lesson"

// Counts are what is said of a lesson whose values were let go.
type Counts struct {
	Finds, Agreeing int
	Steps           bool
}

// Counts gives those of a lesson.
func (l *Lesson) Counts() Counts {
	finds, agreeing := l.Keys()
	return Counts{finds, agreeing, l.HasSteps()}
}

// Outline gives what is left of a lesson without its body and its values.
func (l *Lesson) Outline(left *lesson.Lesson) *Lesson { return NewOutline(left, l.Kit, l.Counts()) }

// NewOutline is the same of a lesson that need not be worked out, as its counts are known.
func NewOutline(left *lesson.Lesson, kit *lesson.Kit, counts Counts) *Lesson {
	both := &struct { // in one piece
		lesson Lesson
		counts Counts
	}{Lesson{Lesson: left, Kit: kit}, counts}
	both.lesson.counts = &both.counts
	return &both.lesson
}

// Keys are how many finds a lesson has, and of how many the key agrees.
func (l *Lesson) Keys() (finds, agreeing int) {
	if l.counts != nil {
		return l.counts.Finds, l.counts.Agreeing
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
		return l.counts.Steps
	}
	return len(l.Fields)+len(l.Chooses)+len(l.Says)+len(l.KitUsed) > 0
}
