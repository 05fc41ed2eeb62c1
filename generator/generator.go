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
	"fmt"
	"io/fs"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/work"
	"trundle/site"
)

// Proved is a pack worked out and checked.
type Proved struct {
	Pack     *lesson.Pack
	Lessons  []*work.Lesson
	Problems []problem.Problem // in source order
}

// HasErrors tells whether the pack must not be built.
func (p *Proved) HasErrors() bool {
	errors, _ := problem.Counts(p.Problems)
	return errors > 0
}

// Prove reads a pack, works everything in it out and compares it with its keys. An
// error means that the folder cannot be read, or that ctx was cancelled; whatever is
// wrong with the pack is among the problems.
func Prove(ctx context.Context, folder fs.FS) (*Proved, error) { return new(Memory).Prove(ctx, folder) }

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
		script, err := offline(s, all, e)
		if err != nil {
			return nil, err
		}
		all[OfflineName(e)] = script
	}
	return all, context.Cause(ctx)
}

// each turns every item into another, side by side, and joins the problems in the
// items' order.
func each[A, B any](ctx context.Context, items []A, do func(A) (B, problem.List)) ([]B, problem.List) {
	out := make([]B, len(items))
	lists := make([]problem.List, len(items))
	parallel(len(items), func(i int) {
		if ctx.Err() == nil {
			out[i], lists[i] = do(items[i])
		}
	})
	var problems problem.List
	for _, l := range lists {
		problems.Join(l)
	}
	if ctx.Err() != nil {
		return nil, problems
	}
	return out, problems
}

// parallel calls do for 0 to n−1 on as many goroutines as there are processors.
func parallel(n int, do func(i int)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	var panicked atomic.Value
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			// A bug in one lesson must reach the caller, not end the program from a
			// goroutine that nobody watches.
			defer func() {
				if r := recover(); r != nil {
					panicked.CompareAndSwap(nil, fmt.Sprintf("%v\n%s", r, debug.Stack()))
				}
			}()
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	wg.Wait()
	if r := panicked.Load(); r != nil {
		panic(r)
	}
}
