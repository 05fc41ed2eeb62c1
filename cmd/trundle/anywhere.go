package main

// This file opens files of runs by the names that were typed: they may lie anywhere, come as a pattern that no shell
// has expanded, or from standard input.

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// standardInput is the name that stands for what another program hands over; a file of that name is typed ./-.
const standardInput = "-"

// mostInput is how much is taken from standard input: more than a file of runs may have, so that the reader of files
// says that it is too large.
const mostInput = 16 << 20

// anywhere is all files by the names that were typed, and standard input, which can be read only once.
type anywhere struct{ input []byte }

// anywhereFor reads standard input if it is among the names.
func anywhereFor(p *program, names []string) (anywhere, error) {
	if !slices.Contains(names, standardInput) {
		return anywhere{}, nil
	}
	input, err := io.ReadAll(io.LimitReader(p.stdin, mostInput))
	return anywhere{input}, err
}

// Open does not keep to one folder, since files of teams may be anywhere.
func (a anywhere) Open(name string) (fs.File, error) {
	if name == standardInput {
		return inputFile{bytes.NewReader(a.input)}, nil
	}
	return os.Open(name)
}

// inputFile is what came from standard input, as a file that looks at itself.
type inputFile struct{ *bytes.Reader }

// These make it a file and what is known of one.

func (f inputFile) Close() error               { return nil }
func (f inputFile) Stat() (fs.FileInfo, error) { return f, nil }
func (f inputFile) Name() string               { return standardInput }
func (f inputFile) Mode() fs.FileMode          { return 0 }
func (f inputFile) ModTime() time.Time         { return time.Time{} }
func (f inputFile) IsDir() bool                { return false }
func (f inputFile) Sys() any                   { return nil }

// expanded puts the files that a pattern stands for in its place, in the order of their names. The shells of Windows
// leave that to the program. A file whose own name has a bracket in it is taken as it is.
func expanded(p *program, names []string, hint string) ([]string, error) {
	var all []string
	for _, name := range names {
		if _, err := os.Lstat(name); err == nil || !strings.ContainsAny(name, "*?[") {
			all = append(all, name)
			continue
		}
		found, err := filepath.Glob(name)
		if err != nil || len(found) == 0 {
			return nil, p.misuse(fmt.Errorf("there is no file that fits %s", plain(name)), hint)
		}
		slices.Sort(found)
		all = append(all, found...)
	}
	return all, nil
}
