package main

// What the program does before it reads what was typed.

import (
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"testing"
)

// TestAllOfOursTogetherDoLittleBeforeTheStart counts what the runtime says that our packages allocate when they are
// initialized: it is the same on any machine, which the time is not. Patterns and tables that do not wait took 7 MB.
func TestAllOfOursTogetherDoLittleBeforeTheStart(t *testing.T) {
	t.Parallel()
	const limit = 400_000
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	packages, all := 0, 0
	for _, m := range regexp.MustCompile(`(?m)^init trundle/.* (\d+) bytes, \d+ allocs$`).FindAllSubmatch(out, -1) {
		bytes, _ := strconv.Atoi(string(m[1]))
		packages, all = packages+1, all+bytes
	}
	if packages < 10 || all > limit {
		t.Errorf("%d packages allocate %d bytes before the start, more than %d:\n%s", packages, all, limit, out)
	}
}

// TestTheParserIsMadeWithoutLookingThroughAllTextsForEachFlag counts what a parser allocates, for the same reason. With
// the texts as variables of the parser it is twice as much.
func TestTheParserIsMadeWithoutLookingThroughAllTextsForEachFlag(t *testing.T) {
	const limit = 4000
	made := testing.AllocsPerRun(1, func() {
		if _, err := newParser(); err != nil {
			t.Fatal(err)
		}
	})
	if made > limit {
		t.Errorf("a parser takes %.0f allocations, more than %d", made, limit)
	}
}
