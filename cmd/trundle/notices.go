package main

// This file shows the notices of what others wrote and this program is made of. notices.txt is written by the test
// beside it, from the modules themselves: go test ./cmd/trundle -run Notices -update

import (
	_ "embed"
	"io"
)

// notices goes with the program wherever it goes, as the licences in it ask.
//
//go:embed notices.txt
var notices string

// printNotices prints all of them, as their authors wrote them.
func printNotices(w io.Writer, words []string) (unknown string) {
	if len(words) > 0 {
		return words[0]
	}
	_, _ = io.WriteString(w, notices)
	return ""
}
