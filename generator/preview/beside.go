package preview

// Two things done at the same time, for whoever waits for both.

import (
	"errors"
	"fmt"
	"runtime/debug"
	"sync"
)

// sideBySide does both. What goes wrong in either reaches the caller, who can catch it.
func sideBySide(one, other func() error) error {
	var err error
	var wrong any
	var beside sync.WaitGroup
	beside.Go(func() {
		defer func() {
			if r := recover(); r != nil {
				wrong = fmt.Sprintf("%v\n%s", r, debug.Stack())
			}
		}()
		err = other()
	})
	first := one()
	beside.Wait()
	if wrong != nil {
		panic(wrong)
	}
	return errors.Join(first, err)
}
