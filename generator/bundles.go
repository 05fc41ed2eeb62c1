package generator

// The zip files that a club hands out: how they are named, and that all of them are made from one drawing of the
// files. How a zip is written is known to package bundle; which files go in, to jobs.go.

import (
	"context"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"trundle/generator/bundle"
	"trundle/site"
)

// Bundles makes the zip files that a club hands out, by name: one for each edition, with at as the time of every file
// in it, or if that is zero with times that follow what is in the files. tell gets how many files are drawn, of how
// many; it may be called from several goroutines.
func Bundles(ctx context.Context, p *Proved, at time.Time, tell func(done, all int)) (map[string][]byte, error) {
	p = p.WithoutDrafts() // whoever calls: a bundle is handed out
	files, err := DrawTelling(ctx, p, tell)
	if err != nil {
		return nil, err
	}
	s, err := site.New(p.Pack.Language)
	if err != nil {
		return nil, err
	}
	times := bundle.Fixed(at)
	if at.IsZero() {
		times = bundle.Following(p.Pack.Version)
	}
	zips, errs := make([][]byte, len(site.Editions)), make([]error, len(site.Editions))
	parallel(len(site.Editions), func(i int) {
		e := site.Editions[i]
		inside, err := bundled(s, p.Pack, files, e)
		if err == nil {
			zips[i], err = bundle.Make(BundleName(p, e), inside, times)
		}
		errs[i] = err
	})
	all := map[string][]byte{}
	for i, e := range site.Editions {
		if errs[i] != nil {
			return nil, errs[i]
		}
		all[BundleName(p, e)+".zip"] = zips[i]
	}
	return all, context.Cause(ctx)
}

// BundleName is the name of an edition's bundle and of the folder that it unpacks into, such
// as canal-day-1.0.0-students. It comes from the pack's title and version alone.
func BundleName(p *Proved, e site.Edition) string {
	// Without points, since "con.fusion" would be a device for some systems.
	name := strings.ToLower(strings.ReplaceAll(plainName(p.Pack.Title), ".", "-"))
	if name == "" {
		name = "pack"
	}
	if version := plainName(p.Pack.Version); version != "" {
		name += "-" + version
	}
	return name + "-" + string(e)
}

// longestName is in bytes, as file systems count, and leaves room for the rest.
const longestName = 80

// plainName keeps letters, digits and points within; anything else is a hyphen.
func plainName(s string) string {
	words := strings.FieldsFunc(s, func(r rune) bool {
		return r == utf8.RuneError || r != '.' && !unicode.In(r, unicode.L, unicode.M, unicode.Nd)
	})
	name := strings.Join(words, "-")
	for len(name) > longestName {
		_, last := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-last]
	}
	return strings.Trim(name, "-.")
}
