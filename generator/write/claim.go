package write

// This file keeps two runs from writing the same thing at the same time.

import (
	"context"
	"errors"
	"time"
)

// errClaimed says that another run has a claim.
var errClaimed = errors.New("another run is at work there")

// A claim is a file that one run at a time has. The system takes it back from a run that is killed.
type claim struct{ release func() }

// claimName waits until nobody else has a claim to a name, and has it then. waits is called once if there is a wait.
// Where the file system knows no claims everybody gets one: that two runs meet there is rarer than that there is one.
func claimName(ctx context.Context, name string, waits func()) (*claim, error) {
	const look = 50 * time.Millisecond
	for told := false; ; told = true {
		release, err := tryClaim(name)
		if err == nil {
			return &claim{release}, nil
		}
		if !errors.Is(err, errClaimed) {
			return nil, err
		}
		if !told {
			waits()
		}
		select {
		case <-ctx.Done():
			return nil, context.Cause(ctx)
		case <-time.After(look):
		}
	}
}
