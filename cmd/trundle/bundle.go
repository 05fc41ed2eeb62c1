package main

// This file makes the bundles of a pack, and checks bundles.

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"syscall"
	"time"

	"trundle/generator"
	"trundle/generator/bundle"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/write"
	"trundle/site"
)

// bundleCommand makes bundles, or with --check looks at some. The pack is optional for the sake of the latter, and what
// follows the first file to check stands where it would: a shell writes  --check a.zip b.zip  for  --check *.zip.
type bundleCommand struct {
	Packs []string `arg:"" optional:"" name:"pack" also:".zip" help:"The pack's folder."`
	Out   string   `short:"o" placeholder:"DIR" help:"bundle_out"`
	Check *string  `placeholder:"FILE.zip" help:"check"`
	starting
	keeping
	reporting
	quieting
}

// epochVariable says when the files of a bundle were written, in seconds of Unix time; a
// convention of reproducible builds, https://reproducible-builds.org/specs/source-date-epoch/.
const epochVariable = "SOURCE_DATE_EPOCH"

// Run refuses what it can before the drawing starts: the zip files that would be replaced are only known when the pack
// has been read, since they are named after its title and version.
func (c *bundleCommand) Run(p *program) error {
	p = c.hushed(p)
	if c.Check != nil {
		if slices.ContainsFunc(c.Packs, isFolder) || c.Out != "" || c.Report != nil || c.Start != nil || c.Afresh {
			return p.misuse(errors.New("--check only checks bundles and makes nothing"),
				"leave out the pack, -o, --start, --afresh and --report")
		}
		return checkBundles(p, append([]string{*c.Check}, c.Packs...))
	}
	switch len(c.Packs) {
	case 0:
		return p.misuse(errors.New("bundle needs the pack's folder"), "write it as in: trundle bundle lessons -o club")
	case 1:
		return c.bundle(p, c.Packs[0])
	}
	tooMany := wordTooMany(c.Packs[1], "bundle")
	return p.misuse(tooMany, tooMany.hint)
}

// isFolder tells whether there is a folder of a name.
func isFolder(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// bundle makes the bundles of a pack.
func (c *bundleCommand) bundle(p *program, pack string) error {
	at, err := written(os.LookupEnv(epochVariable))
	if err != nil {
		return p.misuse(err, "leave out the variable "+epochVariable+", or set it to the seconds since 1970")
	}
	start, err := c.minutes(p)
	if err != nil {
		return err
	}
	out := filepath.Clean(c.Out)
	if err := c.folders(p, pack, out); err != nil {
		return err
	}
	shown := p.progress() // from here on somebody waits
	kept := c.keep(p)
	proved, err := p.finished(c.reporting, pack, kept)
	if err != nil {
		// Without a proved pack something else was wrong, and it is plain that nothing came of it.
		if proved != nil {
			fmt.Fprintln(p.stderr, "no bundle was made")
		}
		return err
	}
	proved.Start = start
	for _, e := range site.Editions { // both before either is drawn: half a bundle would be handed out
		if err := replaceable(p, filepath.Join(out, generator.BundleName(proved, e)+".zip")); err != nil {
			return err
		}
	}
	err = zipped(p, out, func(drawn generator.Files, create func(string) (io.WriteCloser, error)) error {
		return generator.BundlesTo(p.ctx, proved, at, drawn, create, shown.update)
	})
	shown.end()
	if errors.Is(err, bundle.ErrName) { // of a picture, most likely; a caution has named it already
		p.fail(hasProblems, err)
		fmt.Fprintln(p.stderr, "   rename the file, and change what leads to it")
		return codeError(hasProblems)
	}
	if err != nil {
		return err
	}
	kept.tidy()
	p.summary(proved)
	for _, e := range site.Editions {
		fmt.Fprintln(p.stdout, filepath.Join(out, generator.BundleName(proved, e)+".zip"))
	}
	p.codesLeadTo(proved)
	return nil
}

// zipped adds files to a folder that are made of others, which lie beside them meanwhile: of a large pack there is more
// than fits into memory.
func zipped(p *program, out string, pack func(generator.Files, func(string) (io.WriteCloser, error)) error) error {
	if _, missing := os.Stat(out); errors.Is(missing, fs.ErrNotExist) {
		defer os.Remove(out) //nolint:errcheck // fails, as it should, if there is something in it by then
	}
	into, err := write.BeginInto(p.ctx, out, p.tell)
	if err != nil {
		return err
	}
	drawn, err := write.NewScratch(out)
	if err != nil {
		return errors.Join(err, into.Abandon())
	}
	if err := errors.Join(pack(drawn, into.Create), drawn.Close()); err != nil {
		return errors.Join(err, into.Abandon())
	}
	return into.Commit()
}

// folders says what is wrong with the folders that were typed. The pack's own folder cannot take the bundles: what is
// made must not get among what it is made of.
func (c *bundleCommand) folders(p *program, pack, out string) error {
	if err := p.isFolder(pack); err != nil {
		return err
	}
	switch err := write.CheckInto(out, pack); {
	case errors.Is(err, write.ErrInside), errors.Is(err, write.ErrFile), errors.Is(err, write.ErrNowhere):
		return p.misuse(err, "choose another folder for -o")
	case err != nil:
		return err
	}
	if c.Report != nil && filepath.Clean(*c.Report) == out {
		return p.misuse(fmt.Errorf("%s cannot be the folder for the bundles and the report as well", out),
			"choose another name for one of them")
	}
	return nil
}

// written is the time that the files of a bundle carry, if the variable is set. Otherwise it is zero, and times follow
// what is in the files: the same pack must give the same bytes tomorrow and on another computer.
func written(seconds string, set bool) (time.Time, error) {
	if !set || seconds == "" {
		return time.Time{}, nil
	}
	n, err := strconv.ParseInt(seconds, 10, 64)
	if err != nil {
		return time.Time{}, fmt.Errorf("%s=%s is not a number of seconds", epochVariable, seconds)
	}
	at := time.Unix(n, 0).UTC()
	if !bundle.Holds(at) {
		return time.Time{}, fmt.Errorf("%s=%s is not a time that a zip can record; those go from 1980 to 2037",
			epochVariable, seconds)
	}
	return at, nil
}

// replaceable refuses to replace anything but a bundle that is as it was made. A bundle with faults may have been
// changed on purpose, by somebody who added a page of their own, and is left to them.
func replaceable(p *program, name string) error {
	if info, err := os.Lstat(name); err == nil && info.Mode().Type() == fs.ModeSymlink {
		return p.misuse(fmt.Errorf("%s is there already, and is a link; nothing was changed", name),
			"move it, or choose another folder for -o")
	}
	found, err := checked(p.ctx, name)
	switch {
	case errors.Is(err, fs.ErrNotExist), err == nil && len(found.Faults) == 0:
		return nil
	case err == nil:
		return p.misuse(fmt.Errorf("%s is there already, and %s %s; nothing was changed", name,
			plain(found.Faults[0].Name), found.Faults[0].What),
			"move it, or choose another folder for -o")
	case errors.Is(err, bundle.ErrNoBundle), errors.Is(err, errNotFile):
		return p.misuse(fmt.Errorf("%s is there already, and is not a bundle made by trundle; nothing was changed",
			name),
			"move it, or choose another folder for -o")
	}
	return err
}

// errNotFile is for pipes, devices, folders and links to nowhere; reading some of them would never end.
var errNotFile = errors.New("it is not a file")

// checked compares every file of a bundle with its checksum.
func checked(ctx context.Context, name string) (bundle.Found, error) {
	info, err := os.Stat(name) // before it is opened, since a pipe would wait for ever
	if _, link := os.Lstat(name); errors.Is(err, fs.ErrNotExist) && link == nil {
		return bundle.Found{}, errNotFile // a link to nowhere
	}
	if err != nil {
		return bundle.Found{}, err
	}
	if !info.Mode().IsRegular() {
		return bundle.Found{}, errNotFile
	}
	f, err := os.Open(name)
	if err != nil {
		return bundle.Found{}, err
	}
	defer f.Close()
	return bundle.Check(ctx, f, info.Size())
}

// checkBundles looks at one after the other. The exit code is that of the worst.
func checkBundles(p *program, names []string) error {
	names, err := expanded(p, names, "name zip files that trundle bundle made, or a pattern such as club/*.zip")
	if err != nil {
		return err
	}
	worst := fine
	for _, name := range names {
		worst = max(worst, p.ended(checkBundle(p, name)))
		if p.ctx.Err() != nil { // and that was said
			break
		}
	}
	if worst == fine {
		return nil
	}
	return codeError(worst)
}

// checkBundle says of a bundle whether it is as it was made. Faults go to stderr as problems of a pack do, and the exit
// code is that of problems: the command did its work.
func checkBundle(p *program, file string) error {
	found, err := checked(p.ctx, file)
	name := plain(file) // a shell may have found it, and somebody else have named it
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		return p.misuse(fmt.Errorf("there is no file %s", name), "name a zip file that trundle bundle made")
	case errors.Is(err, errNotFile):
		return p.misuse(fmt.Errorf("%s is not a file", name),
			"name the zip file; in a folder of unpacked files, sha256sum -c "+bundle.Sums+" does the same")
	case errors.Is(err, bundle.ErrNoBundle):
		p.fail(hasProblems, fmt.Errorf("%s: %w", name, err))
		fmt.Fprintln(p.stderr, "   ask for the file again, or make it again with: trundle bundle PACK")
		return codeError(hasProblems)
	case err != nil:
		return err
	case len(found.Faults) == 0 && write.Unfinished(filepath.Dir(file)):
		p.fail(hasProblems, fmt.Errorf("%s is as it was packed, but the run that made it was ended before it had replaced "+
			"all bundles in that folder: students and mentors would get different ones", name))
		fmt.Fprintln(p.stderr, "   make them again with: trundle bundle PACK")
		return codeError(hasProblems)
	case len(found.Faults) == 0:
		fmt.Fprintf(p.stdout, "%s: %s, all as they were packed\n", name, problem.Plural(found.Files, "file"))
		return nil
	}
	const most = 100 // shown one by one; who has as many needs no list
	for _, fault := range found.Faults[:min(len(found.Faults), most)] {
		fmt.Fprintf(p.stderr, "%s: %s %s\n", name, short(plain(fault.Name)), fault.What)
	}
	if more := len(found.Faults) - most; more > 0 {
		fmt.Fprintf(p.stderr, "… and %s more\n", quantity.Grouped(more))
	}
	fmt.Fprintf(p.stderr, "\n%s: %s, do not hand it out\n"+
		"   ask for the file again, or make it again with: trundle bundle PACK\n", name,
		problem.Plural(len(found.Faults), "fault"))
	return codeError(hasProblems)
}

// short cuts a name that is longer than any that a disk stores.
func short(name string) string {
	const most = 500 // characters
	if runes := []rune(name); len(runes) > most {
		return string(runes[:most]) + " …"
	}
	return name
}
