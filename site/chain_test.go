package site_test

// Finds that each use the one before: what the page does with them must not grow faster than they do.

import (
	"fmt"
	"testing"
	"time"
)

// TestAChainOfFindsIsLookedThroughOnce would take years if each find looked twice at the one before.
func TestAChainOfFindsIsLookedThroughOnce(t *testing.T) {
	t.Parallel()
	fields := []map[string]any{{"k": "measure", "n": "d", "u": "cm"}}
	entries := map[string]string{}
	last := "d"
	for i := range 60 {
		name := fmt.Sprintf("f%d", i)
		fields = append(fields, map[string]any{"k": "find", "n": name, "u": "cm", "p": last + " " + last + " +"})
		entries[name], last = "1", name
	}
	start := time.Now()
	got := verdicts(t, []judged{{Fields: fields, Entries: entries, Name: last}})
	if got[0].Right || got[0].Text == "" {
		t.Errorf("a find without its measurement is %+v", got[0])
	}
	if took := time.Since(start); took > 30*time.Second {
		t.Errorf("it took %v", took)
	}
}

// TestSumsThatCancelAreZeroOnThePage has the rule of quantity's TestDecimalsThatCancelComeToZero.
func TestSumsThatCancelAreZeroOnThePage(t *testing.T) {
	t.Parallel()
	const run = `
process.stdin.on("data", () => {}).on("end", () => process.stdout.write(JSON.stringify(
	["0.1 0.2 + 0.3 -", "0.3 0.1 - 0.2 - sqrt:1", "0.1 0.2 -0.3 sum:3", "0.1 0.2 -0.3 mean:3", "1.00000000001 1 -",
	"1 0.1 0.2 + 0.3 - /", "10 -330 ^", "10 -200 ^ 10 -200 ^ *", "0 5 /", "0 3 ^"].map((program) =>
		trundle.run(program, {})))));`
	want := []any{0.0, 0.0, 0.0, 0.0, 1.000000082740371e-11, nil, nil, nil, 0.0, 0.0}
	got := nodeReads[[]any](t, showScript+runScript+run, nil)
	for i, w := range want {
		if got[i] != w {
			t.Errorf("program %d comes to %v, want %v", i, got[i], w)
		}
	}
}
