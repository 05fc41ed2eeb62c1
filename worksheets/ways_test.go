package worksheets_test

// Numbers that are each made of all before, so that a great many ways lead to the first.

import (
	"fmt"
	"strings"
	"testing"
)

// TestNumbersMadeOfAllBeforeAreLaidOut would take a day for each sheet if every way were gone.
func TestNumbersMadeOfAllBeforeAreLaidOut(t *testing.T) {
	t.Parallel()
	for _, first := range []string{"given g0 = 2\nfind g1 = 2 * g0 \"1\"\n",
		"record g0[3] in cm = 1, 2, 3 \"How far?\"\nfind g1 = 2 * mean(g0) \"1\"\n"} {
		var b strings.Builder
		b.WriteString("```work\n" + first)
		for i := 2; i < 45; i++ {
			fmt.Fprintf(&b, "find g%d = g1", i)
			for j := 2; j < i; j++ {
				fmt.Fprintf(&b, " + g%d", j)
			}
			fmt.Fprintf(&b, " \"%d\"\n", i)
		}
		if _, files := built(t, packOf(b.String()+"```\n\n## Mentor notes\n\nWatch.\n")); len(files) == 0 {
			t.Error("nothing is drawn")
		}
	}
}
