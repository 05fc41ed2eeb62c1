package parse_test

import (
	"testing"
	"time"

	"trundle/generator/parse"
	"trundle/generator/source"
)

// TestASeasonStartsOnADate tries what coaches write for one.
func TestASeasonStartsOnADate(t *testing.T) {
	for text, want := range map[string]string{
		"2026-09-07": "2026-09-07", "'2026-09-07'": "2026-09-07", "\" 2028-02-29 \"": "2028-02-29", "": "", "''": "",
		"2026-9-7": "bad-start", "07.09.2026": "bad-start", "2026-13-01": "bad-start", "2027-02-29": "bad-start",
		"20260907": "bad-start", "Monday": "bad-start", "0026-09-07": "bad-start", "2026-09-07T17:00:00Z": "bad-start",
		"[2026-09-07]": "field-kind",
	} {
		p, problems := parse.PackFile(source.NewFile("pack.yaml", []byte("title: T\nversion: 1\nstart: "+text+"\n")))
		got := ""
		for _, found := range problems.Sorted() {
			got += found.Slug
		}
		if !p.Start.IsZero() {
			got += p.Start.Format(time.DateOnly)
		}
		if got != want {
			t.Errorf("start: %s is read as %q, want %q", text, got, want)
		}
	}
}
