package write

// Tests of what is cleared after killed runs, and of runs that are stopped at the last moment.

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
)

func TestWhatKilledRunsLeftIsClearedAndNothingElse(t *testing.T) {
	top := t.TempDir()
	mine := []string{".new-1", ".r-trundle-new-mine", ".trundle-new-", "a.zip", "r"}
	for _, name := range append(slices.Clone(mine[:3]), ".r-trundle-new-12", ".trundle-new-34") {
		if err := os.Mkdir(filepath.Join(top, name), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(Into(top, map[string][]byte{"a.zip": nil}), File(filepath.Join(top, "r"), nil)); err != nil {
		t.Fatal(err)
	}
	if got := beside(t, filepath.Join(top, "r")); !slices.Equal(got, mine) {
		t.Errorf("the folder holds %q, want %q", got, mine)
	}
}

func TestARunThatIsStoppedBeforeTheSwapChangesNothing(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	r, dir := site(t, ofSystem)
	r.ctx = ctx
	if err := r.Commit(); !errors.Is(err, context.Canceled) {
		t.Errorf("the error is %v", err)
	}
	wants(t, dir, "old")

	top := t.TempDir()
	a, err := BeginInto(t.Context(), top, nil)
	if err == nil {
		err = a.Put("a.zip", nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	a.ctx = ctx
	if err := a.Commit(); !errors.Is(err, context.Canceled) {
		t.Errorf("the error is %v", err)
	}
	if got := beside(t, filepath.Join(top, "a.zip")); len(got) != 0 {
		t.Errorf("the folder holds %v", got)
	}
}

func TestAClaimIsHadByOneAtATime(t *testing.T) {
	name := filepath.Join(t.TempDir(), "lock")
	var within atomic.Int32
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for done := 0; done < 80; {
				release, err := tryClaim(name)
				if errors.Is(err, errClaimed) {
					runtime.Gosched()
					continue
				}
				if err != nil || within.Add(1) != 1 {
					t.Errorf("two have the claim, or there is an error: %v", err)
					return
				}
				runtime.Gosched()
				within.Add(-1)
				release()
				done++
			}
		})
	}
	all.Wait()
	if exists(name) {
		t.Error("the claim is left over")
	}
}
