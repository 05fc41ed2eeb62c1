package preview

// What goes wrong beside something else.

import (
	"errors"
	"strings"
	"testing"
)

func TestWhatGoesWrongBesideReachesTheCaller(t *testing.T) {
	fine := func() error { return nil }
	one, other := errors.New("one"), errors.New("other")
	err := sideBySide(func() error { return one }, func() error { return other })
	if !errors.Is(err, one) || !errors.Is(err, other) || sideBySide(fine, fine) != nil {
		t.Errorf("the error is %v", err)
	}
	mistake := func() error { panic("a mistake") }
	for _, both := range [][2]func() error{{fine, mistake}, {mistake, fine}} {
		func() {
			defer func() {
				if wrong, _ := recover().(string); !strings.HasPrefix(wrong, "a mistake") {
					t.Errorf("what can be caught is %q", wrong)
				}
			}()
			_ = sideBySide(both[0], both[1])
		}()
	}
}
