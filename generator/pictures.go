package generator

// Looking into the pictures that a pack shows: one after the other, and what is large is not kept until it is drawn.

import (
	"context"
	"io/fs"
	"maps"
	"slices"
	"sync/atomic"

	"trundle/generator/picture"
	"trundle/generator/problem"
	"trundle/generator/read"
	"trundle/generator/source"
)

const (
	// MaxPictures is how large the pictures of a pack may be together, as their authors saved them: eighty photos of a
	// telephone.
	MaxPictures = 400 << 20
	// mostHeld is how large those that are handed out may be together for all to be kept: far more than a season has.
	// Beyond that each is looked into again when it is drawn.
	mostHeld = 48 << 20
	// mostUnpacked is how many are unpacked at a time, since one alone may take hundreds of megabytes.
	mostUnpacked = 2
)

// look looks into the pictures that pages show; of the others only the names count.
func (m *Memory) look(ctx context.Context, folder fs.FS, files *read.Files, shown map[string]bool) (
	map[string]*picture.Picture, problem.List) {
	wanted, all, problems := shownOf(files, shown)
	see := newViewer(folder, files, m.once, mostHeld)
	named := make([]*source.File, len(wanted))
	for i, name := range wanted {
		named[i] = source.NewFile(name, nil)
	}
	type seen struct {
		picture *picture.Picture
		refused string
	}
	looked, _ := each(ctx, entries(&m.pictures, named), func(e entry[kept[*picture.Picture]]) (seen, problem.List) {
		p, refused := see.look(e.file.Name, e.kept)
		return seen{p, refused}, problem.List{} // its faults become problems where it is shown
	})
	for i, s := range looked {
		if all[wanted[i]] = s.picture; s.picture == nil {
			files.Refused[wanted[i]] = s.refused
			delete(all, wanted[i])
		}
	}
	return all, problems
}

// shownOf gives the names of the pictures to be looked into, and those of all that there are.
func shownOf(files *read.Files, shown map[string]bool) (wanted []string, all map[string]*picture.Picture,
	problems problem.List) {
	all = make(map[string]*picture.Picture, len(files.Pictures))
	sum := int64(0)
	for _, name := range slices.Sorted(maps.Keys(files.Pictures)) {
		if all[name] = nil; !shown[name] {
			continue
		}
		before := sum
		if sum += files.Pictures[name]; sum <= MaxPictures {
			wanted = append(wanted, name)
		} else if before <= MaxPictures {
			problems.Error(source.NewFile(name, nil), source.Span{}, "pictures-too-large",
				"with this picture those that the pack shows are larger together than trundle accepts",
				"save photos smaller, or show fewer; 400 MB are the most")
		}
	}
	return wanted, all, problems
}

// A viewer looks into the pictures of a pack, a few at a time.
type viewer struct {
	folder fs.FS
	files  *read.Files
	once   bool  // nothing is looked into again, but to draw it
	most   int64 // bytes of what is kept to be handed out
	free   chan struct{}
	held   atomic.Int64
}

func newViewer(folder fs.FS, files *read.Files, once bool, most int64) *viewer {
	return &viewer{folder: folder, files: files, once: once, most: most, free: make(chan struct{}, mostUnpacked)}
}

// look reads a picture and looks into it. Why one cannot be read is said in plain words.
func (v *viewer) look(name string, before *kept[*picture.Picture]) (p *picture.Picture, refused string) {
	v.free <- struct{}{}
	defer func() { <-v.free }()
	data, refused := read.Picture(v.folder, name)
	if refused != "" {
		return nil, refused
	}
	f := source.NewFile(name, data)
	if !v.once {
		p, _ = before.of(f, func(f *source.File) (*picture.Picture, problem.List) { return picture.Look(f), problem.List{} })
		return p, ""
	}
	p = picture.Look(f)
	isMuch := v.held.Add(int64(p.Size)) > v.most
	p.LetGo(v.files.PictureAgain(v.folder, f), isMuch, v.lookAgain)
	return p, ""
}

// lookAgain gives what was let go.
func (v *viewer) lookAgain(saved *source.File) []byte {
	v.free <- struct{}{}
	defer func() { <-v.free }()
	return picture.Look(saved).Data
}
