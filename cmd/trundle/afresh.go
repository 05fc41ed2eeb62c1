package main

// This file has what is kept of a pack's pages and sheets, so that those of lessons that stay the same need not be
// drawn again.

import (
	"path/filepath"

	"trundle/generator"
	"trundle/generator/cache"
)

// keeping is the flag of commands that draw.
type keeping struct {
	Afresh bool `help:"${afresh}"`
}

// keep lets a pack be drawn with what earlier runs have kept. What it returns is for when all went well. Without a
// place for it, or with one that cannot be used, everything is drawn anew, and nothing is said: the result is the
// same.
func (k keeping) keep(p *program, proved *generator.Proved) (tidy func()) {
	if k.Afresh || p.cache == "" {
		return func() {}
	}
	program, err := cache.Program()
	if err != nil {
		return func() {}
	}
	folder := cache.Open(p.cache, proved.PackKey(), program)
	proved.Store = folder
	return folder.Tidy
}

// cacheOf is the program's own folder among those that the system has for such things.
func cacheOf(all string, err error) string {
	if err != nil {
		return ""
	}
	return filepath.Join(all, "trundle")
}
