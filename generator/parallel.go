package generator

// Work that is spread over all processors, its results in an order that does not depend on which is done first.

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"

	"trundle/generator/problem"
)

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

// parallelUntil calls do for 0 to n−1 side by side until one fails or ctx is cancelled, and gives the error of the
// first in order.
func parallelUntil(ctx context.Context, n int, do func(i int) error) error {
	errs := make([]error, n)
	var failed atomic.Bool
	parallel(n, func(i int) {
		if ctx.Err() == nil && !failed.Load() {
			errs[i] = do(i)
			failed.CompareAndSwap(false, errs[i] != nil)
		}
	})
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return context.Cause(ctx)
}

// parallel calls do for 0 to n−1 on as many goroutines as there are processors.
func parallel(n int, do func(i int)) {
	if n == 1 {
		do(0)
		return
	}
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
