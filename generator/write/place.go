package write

// This file tells whether a folder may be replaced.

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Why a folder may not be written. All but the last are about the name that was typed.
var (
	// ErrNoName says that the folder has no name.
	ErrNoName = errors.New("the output folder has no name")
	// ErrNotOurs says that the output folder holds something that trundle did not write.
	ErrNotOurs = errors.New("the folder is not empty and was not made by trundle")
	// ErrInside says that one of the output folder and the pack is inside the other.
	ErrInside = errors.New("the output folder is inside the pack's folder, or the pack's folder inside it")
	// ErrFile says that there is a file instead of a folder.
	ErrFile = errors.New("is a file, and not a folder")
	// ErrNowhere says that there is a link, and nothing that it leads to.
	ErrNowhere = errors.New("is a link that leads nowhere")
	// ErrMount says that a folder is where another disk begins: that can be filled, but never replaced.
	ErrMount = errors.New("is where another disk begins, which cannot be replaced as a folder can")
)

// A place is a folder that is to be replaced.
type place struct {
	asked  string // as it was typed
	apart  string // the pack, or the files, that it must not lie in or around; "" if there are none
	marker string // by which trundle knows it; "" of a folder that must be empty
}

// Check returns why dir may not be written, nil if it may: it is not there, is empty, or is of our
// making, and it does not lie in the pack nor around it. Begin looks closer.
func Check(dir, pack string) error { return place{dir, pack, Marker}.check() }

// CheckReport is the same for a report.
func CheckReport(dir, beside string) error { return place{dir, beside, ReportMarker}.check() }

// check says why a folder must not be replaced.
func (p place) check() error {
	if p.asked == "" {
		return ErrNoName
	}
	real, err := resolve(p.asked)
	if err != nil {
		return err
	}
	if p.apart != "" {
		other, err := resolve(p.apart)
		if err != nil {
			return err
		}
		if within(real, other) || within(other, real) {
			return fmt.Errorf("%s: %w", p.asked, ErrInside)
		}
	}
	info, err := os.Stat(p.asked)
	switch {
	case err != nil && exists(p.asked) && errors.Is(err, fs.ErrNotExist): // a swap would lose the link
		return fmt.Errorf("%s %w", p.asked, ErrNowhere)
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return fmt.Errorf("%s: %w", p.asked, Reason(err))
	case !info.IsDir():
		return fmt.Errorf("%s %w", p.asked, ErrFile)
	case isMount(real):
		return fmt.Errorf("%s %w", p.asked, ErrMount)
	}
	return p.checkEntries()
}

// checkEntries says whether a folder that is there is empty, or ours by its marker.
func (p place) checkEntries() error {
	entries, err := os.ReadDir(p.asked)
	if err != nil {
		return fmt.Errorf("%s: %w", p.asked, Reason(err))
	}
	for _, e := range entries {
		if e.Name() == p.marker && e.Type().IsRegular() {
			return nil
		}
	}
	for _, e := range entries {
		if !ofTheSystem(e.Name()) {
			return fmt.Errorf("%s: %w", p.asked, ErrNotOurs)
		}
	}
	return nil
}

// within is true if inner is outer, or somewhere in it.
func within(inner, outer string) bool {
	rel, err := filepath.Rel(outer, inner)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// resolve follows the links of the part of a path that exists.
func resolve(p string) (string, error) {
	asked := p
	p, err := filepath.Abs(p)
	if err != nil {
		return "", err
	}
	rest := ""
	for {
		real, err := filepath.EvalSymlinks(p)
		if err == nil {
			if info, err := os.Stat(real); rest != "" && err == nil && !info.IsDir() {
				return "", fmt.Errorf("%s cannot be made: %s %w", asked, real, ErrFile)
			}
			return filepath.Join(real, rest), nil
		}
		if !isMissing(err) || filepath.Dir(p) == p {
			return "", fmt.Errorf("%s: %w", asked, Reason(err))
		}
		rest = filepath.Join(filepath.Base(p), rest)
		p = filepath.Dir(p)
	}
}
