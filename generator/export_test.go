package generator

// What tests outside of this package set that nobody else may.

import (
	"context"
	"io/fs"

	"trundle/site"
)

// ProveKeeping is Prove with so many lessons, at most, that are kept whole.
func ProveKeeping(ctx context.Context, whole int, folder fs.FS) (*Proved, error) {
	return (&Memory{once: true, whole: whole}).Prove(ctx, folder)
}

// SpeakIn has pages and sheets made with other words than those of the pack's language.
func SpeakIn(p *Proved, s *site.Site) { p.in = s }
