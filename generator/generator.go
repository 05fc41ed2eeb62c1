// Package generator is the pipeline from a pack's folder to its site:
//
//	read ─▶ parse ─▶ work ─▶ check ─▶ draw ─▶ write
//
// Each stage is a package below this one and looks at nothing after it. Here they
// are joined, lessons side by side on all processors, in an order that does not
// depend on which is done first.
package generator

import (
	"context"
	"sync/atomic"

	"trundle/site"
)

// Draw makes the files of both editions.
func Draw(ctx context.Context, p *Proved) (map[string][]byte, error) {
	return DrawTelling(ctx, p, func(done, all int) {})
}

// DrawTelling is Draw for those who wait: tell gets how many files are drawn, of how many.
// It may be called from several goroutines.
func DrawTelling(ctx context.Context, p *Proved, tell func(done, all int)) (map[string][]byte, error) {
	s, err := site.New(p.Pack.Language)
	if err != nil {
		return nil, err
	}
	jobs := Jobs(p, s)
	made, errs := make([][]byte, len(jobs)), make([]error, len(jobs))
	var done atomic.Int64
	parallel(len(jobs), func(i int) {
		if ctx.Err() == nil {
			made[i], errs[i] = jobs[i].Make()
			tell(int(done.Add(1)), len(jobs))
		}
	})
	all := make(map[string][]byte, len(jobs)+len(site.Editions))
	for i, job := range jobs {
		if errs[i] != nil {
			return nil, errs[i]
		}
		all[job.Name] = made[i]
	}
	for _, e := range site.Editions {
		if err := complete(s, all, e); err != nil {
			return nil, err
		}
	}
	return all, context.Cause(ctx)
}
