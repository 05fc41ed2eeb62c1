package generator

// What tests outside of this package set that nobody else may.

import (
	"context"
	"io/fs"

	"trundle/generator/work"
	"trundle/site"
)

// ProveKeeping is Prove with so many lessons, at most, that are kept whole.
func ProveKeeping(ctx context.Context, whole int, folder fs.FS) (*Proved, error) {
	return (&Memory{once: true, whole: whole}).Prove(ctx, folder)
}

// ProveLettingGo is ProveFor that keeps no lesson whole.
func ProveLettingGo(ctx context.Context, folder fs.FS, store Store) (*Proved, error) {
	return (&Memory{once: true, storeOf: func(Key) Store { return store }}).Prove(ctx, folder)
}

// OnOpen has told called whenever a lesson that was let go is worked out again.
func (p *Proved) OnOpen(told func()) {
	open := p.open
	p.open = func(l *work.Lesson) *work.Lesson {
		told()
		return open(l)
	}
}

// SpeakIn has pages and sheets made with other words than those of the pack's language.
func SpeakIn(p *Proved, s *site.Site) { p.in = s }

// ToDraw is all that is held of a pack's files before the first is drawn.
func ToDraw(p *Proved, s *site.Site) any {
	press := printerOf(p, s)
	return tasksOf(p, press, newGathered(p, press, &inMemory{}), nil)
}
