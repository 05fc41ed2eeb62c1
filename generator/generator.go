// Package generator is the pipeline from a pack's folder to its site:
//
//	read ─▶ parse ─▶ work ─▶ check ─▶ draw ─▶ write
//
// Each stage is a package below this one and looks at nothing after it. Here they
// are joined, lessons side by side on all processors, in an order that does not
// depend on which is done first.
package generator

import (
	"context"
	"io"
	"path"
	"sync/atomic"

	"trundle/site"
)

// Draw makes the files of both editions in memory.
func Draw(ctx context.Context, p *Proved) (map[string][]byte, error) {
	files := &inMemory{all: map[string][]byte{}}
	return files.all, DrawTo(ctx, p, files, func(done, all int) {})
}

// DrawTo makes the files of both editions. tell is for those who wait: it gets how many files are drawn, of how many,
// and may be called from several goroutines.
func DrawTo(ctx context.Context, p *Proved, files Files, tell func(done, all int)) error {
	_, err := drawTo(ctx, p, files, tell)
	return err
}

// drawTo gives the files with their sizes as well.
func drawTo(ctx context.Context, p *Proved, to Files, tell func(done, all int)) (*noted, error) {
	s, err := p.site()
	if err != nil {
		return nil, err
	}
	files := newNoted(to)
	press, shelf := printerOf(p, s), shelfFor(p)
	gathered := newGathered(p, press, files)
	defer gathered.texts.close() // if something goes wrong before its end
	tasks, seasons := tasksOf(p, press, gathered, shelf), seasons()
	all := len(seasons)
	for _, t := range tasks {
		all += t.files
	}
	var done atomic.Int64
	err = parallelUntil(ctx, len(tasks), func(i int) error {
		return tasks[i].run(func(j Job) error {
			data, err := j.Make()
			if err != nil {
				return err
			}
			tell(int(done.Add(1)), all)
			return files.Put(j.Name, data)
		})
	})
	if err == nil {
		err = gathered.put()
	}
	if err != nil {
		return nil, err
	}
	err = parallelUntil(ctx, len(seasons), func(i int) error {
		read := func(name string) ([]byte, error) { return readFrom(files, name) }
		defer func() { tell(int(done.Add(1)), all) }()
		return shelf.season(files, seasons[i].name, func(to io.Writer) error {
			return press.bind(to, seasons[i], p.Lessons, read)
		})
	})
	for _, e := range site.Editions {
		if err == nil {
			err = complete(ctx, s, files, e)
		}
	}
	if err == nil {
		err = unchanged(p.files)
	}
	return files, err
}

// complete puts in what takes all of an edition's files: its version, and the scripts that tell it and that keep the
// edition for use without a network.
func complete(ctx context.Context, s *site.Site, files *noted, e site.Edition) error {
	own := files.in(string(e))
	done, err := s.Complete(own)
	if err != nil {
		return err
	}
	names := own.Names()
	err = parallelUntil(ctx, len(names), func(i int) error {
		if !site.HasVersion(names[i]) {
			return nil
		}
		return files.Amend(path.Join(string(e), names[i]), func(to io.Writer, from io.Reader) error {
			return site.PutVersion(to, names[i], from, done.Version)
		})
	})
	for name, data := range done.Added {
		if err == nil {
			err = files.Put(path.Join(string(e), name), data)
		}
	}
	return err
}
