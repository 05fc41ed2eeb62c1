package generator

// The zip files that a club hands out: how they are named, and that all of them are made from one drawing of the
// files. How a zip is written is known to package bundle; which files go in, to jobs.go.

import (
	"context"
	"errors"
	"io"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"trundle/generator/bundle"
	"trundle/generator/lesson"
	"trundle/site"
)

// Bundles makes the zip files that a club hands out in memory, by name.
func Bundles(ctx context.Context, p *Proved, at time.Time, tell func(done, all int)) (map[string][]byte, error) {
	zips := &inMemory{all: map[string][]byte{}}
	return zips.all, BundlesTo(ctx, p, at, &inMemory{all: map[string][]byte{}}, zips.Create, tell)
}

// BundlesTo makes the zip files that a club hands out: one for each edition, with at as the time of every file in it,
// or if that is zero with times that follow what is in the files. The files themselves go to drawn, and the zips where
// create says. tell gets how many files are drawn, of how many; it may be called from several goroutines.
func BundlesTo(ctx context.Context, p *Proved, at time.Time, drawn Files,
	create func(name string) (io.WriteCloser, error), tell func(done, all int)) error {
	p = p.WithoutDrafts() // whoever calls: a bundle is handed out
	files, err := drawTo(ctx, p, drawn, tell)
	if err != nil {
		return err
	}
	s, err := p.site()
	if err != nil {
		return err
	}
	times := bundle.Fixed(at)
	if at.IsZero() {
		times = bundle.Following(p.Pack.Version)
	}
	return parallelUntil(ctx, len(site.Editions), func(i int) error {
		e := site.Editions[i]
		inside, err := bundled(s, p.Pack, files, e)
		if err != nil {
			return err
		}
		w, err := create(BundleName(p, e) + ".zip")
		if err != nil {
			return err
		}
		return errors.Join(bundle.Write(w, BundleName(p, e), inside.files, times), w.Close())
	})
}

// insides are the files that go into a zip, with their sizes.
type insides struct {
	files bundle.Files
	sizes map[string]int
}

func (in insides) put(name string, data []byte) {
	in.files[name], in.sizes[name] = bundle.Text(data), len(data)
}

// only are those of some names, as the site takes them.
func (in insides) only(isIn func(name string) bool) site.Files {
	sizes := map[string]int{}
	for name, size := range in.sizes {
		if isIn(name) {
			sizes[name] = size
		}
	}
	return site.Files{Sizes: sizes, Open: func(name string) (io.ReadCloser, error) { return in.files[name]() }}
}

// bundled gives the files that go into an edition's zip: its own in a folder, what they are, and the
// page to start with. Mentors get the students' worksheets too, to print them.
func bundled(s *site.Site, p *lesson.Pack, drawn *noted, e site.Edition) (insides, error) {
	inside := insides{bundle.Files{}, map[string]int{}}
	for name, size := range drawn.sizes {
		printed := e == site.Mentors && strings.HasPrefix(name, string(site.Students)+"/sheets/")
		if printed || strings.HasPrefix(name, string(e)+"/") {
			inside.files[name] = func() (io.ReadCloser, error) { return drawn.Open(name) }
			inside.sizes[name] = size
		}
	}
	start, err := s.StartHere(p, e)
	if err != nil {
		return inside, err
	}
	inside.put(bundle.Start, start)
	inside.put(bundle.Index, start)
	// The list is among what is kept, and names the script that keeps it. So the script is made from a list without
	// itself, which changes whenever one of the other files does.
	inside.put(bundle.Contents, s.Contents(p, e, inside.sizes))
	above, err := s.Above(inside.only(func(name string) bool { return isAbove(name, e) }))
	inside.put(site.OfflineScript, above)
	inside.put(bundle.Contents, s.Contents(p, e, inside.sizes))
	return inside, err
}

// isAbove is true of the files of a bundle that an edition's own worker cannot see to, since they are above its folder
// or beside it, and of those inside that the page to start with is made of.
func isAbove(name string, e site.Edition) bool {
	below, inside := strings.CutPrefix(name, string(e)+"/")
	return !inside || slices.Contains(site.StartAssets(), below)
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
