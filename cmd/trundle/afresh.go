package main

// This file has what is kept of a pack from run to run, so that lessons that stay the same need not be checked and
// drawn again.

import (
	"path/filepath"

	"trundle/generator"
	"trundle/generator/cache"
)

// keeping is the flag of commands that draw.
type keeping struct {
	Afresh bool `help:"afresh"`
}

// A keeper has a pack checked and drawn with what earlier runs have kept.
type keeper struct {
	cache   string
	program cache.Key
	folder  *cache.Folder // of the pack, once somebody has asked for it
}

// keep gives what keeps. Without a place for it, or with one that cannot be used, it is nil, everything is made anew,
// and nothing is said: the result is the same.
func (k keeping) keep(p *program) *keeper {
	if k.Afresh || p.cache == "" {
		return nil
	}
	program, err := cache.Program()
	if err != nil {
		return nil
	}
	return &keeper{cache: p.cache, program: program}
}

// of gives the store of a pack.
func (k *keeper) of(pack generator.Key) generator.Store {
	if k == nil {
		return nil
	}
	k.folder = cache.Open(k.cache, pack, k.program)
	return k.folder
}

// tidy is for when all went well.
func (k *keeper) tidy() {
	if k != nil && k.folder != nil {
		k.folder.Tidy()
	}
}

// cacheOf is the program's own folder among those that the system has for such things.
func cacheOf(all string, err error) string {
	if err != nil {
		return ""
	}
	return filepath.Join(all, "trundle")
}
