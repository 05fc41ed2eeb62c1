// Package wording has regular expressions that are compiled when something is first compared with them. Most commands
// need few of the many that the checks know, and none should wait for the others.
package wording

import (
	"regexp"
	"sync"
)

// A Pattern is a regular expression for several goroutines. Its methods are those of regexp.Regexp.
type Pattern struct{ compiled func() *regexp.Regexp }

// New gives a Pattern. What is wrong with its text is only noticed when it is used: by the tests of whoever made it.
func New(text string) *Pattern {
	return &Pattern{sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })}
}

// MatchString is that of regexp.Regexp.
func (p *Pattern) MatchString(s string) bool { return p.compiled().MatchString(s) }

// Match is that of regexp.Regexp.
func (p *Pattern) Match(b []byte) bool { return p.compiled().Match(b) }

// Find is that of regexp.Regexp.
func (p *Pattern) Find(b []byte) []byte { return p.compiled().Find(b) }

// FindString is that of regexp.Regexp.
func (p *Pattern) FindString(s string) string { return p.compiled().FindString(s) }

// FindStringIndex is that of regexp.Regexp.
func (p *Pattern) FindStringIndex(s string) []int { return p.compiled().FindStringIndex(s) }

// FindStringSubmatch is that of regexp.Regexp.
func (p *Pattern) FindStringSubmatch(s string) []string { return p.compiled().FindStringSubmatch(s) }

// FindStringSubmatchIndex is that of regexp.Regexp.
func (p *Pattern) FindStringSubmatchIndex(s string) []int {
	return p.compiled().FindStringSubmatchIndex(s)
}

// FindIndex is that of regexp.Regexp.
func (p *Pattern) FindIndex(b []byte) []int { return p.compiled().FindIndex(b) }

// FindSubmatch is that of regexp.Regexp.
func (p *Pattern) FindSubmatch(b []byte) [][]byte { return p.compiled().FindSubmatch(b) }

// FindSubmatchIndex is that of regexp.Regexp.
func (p *Pattern) FindSubmatchIndex(b []byte) []int { return p.compiled().FindSubmatchIndex(b) }

// ReplaceAllString is that of regexp.Regexp.
func (p *Pattern) ReplaceAllString(s, with string) string {
	return p.compiled().ReplaceAllString(s, with)
}

// FindAllSubmatchIndex is that of regexp.Regexp.
func (p *Pattern) FindAllSubmatchIndex(b []byte, n int) [][]int {
	return p.compiled().FindAllSubmatchIndex(b, n)
}

// Compiled is for the methods that few ask for.
func (p *Pattern) Compiled() *regexp.Regexp { return p.compiled() }
