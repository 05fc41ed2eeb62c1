package bundle

// This file checks a bundle: that every file is there, is as it was packed, and may be unpacked.

import (
	"archive/zip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"slices"
	"strings"
)

// Limits of a zip that is checked: whoever made it may have meant no good.
const (
	MaxFiles = 100_000
	mostSums = 16 << 20 // bytes
	MaxAll   = 4 << 30  // bytes, unpacked
)

// ErrNoBundle says that a file is not a bundle at all.
var ErrNoBundle = errors.New("it is not a bundle made by trundle")

// A Fault is what is wrong with one file of a bundle.
type Fault struct{ Name, What string }

// Found is what was found out about a bundle.
type Found struct {
	Folder string // what it unpacks into
	Files  int    // those that are there as they were packed, the sums not counted
	Faults []Fault
}

// Check compares every file of a bundle with its checksum, and reports files that are missing, were added or
// would not be unpacked where they belong. The error is ErrNoBundle if the checksums cannot be read.
func Check(ctx context.Context, r io.ReaderAt, size int64) (Found, error) {
	z, folder, faults, err := open(r, size)
	if err != nil {
		return Found{}, err
	}
	found := Found{Folder: folder, Faults: faults}
	sums, asMade, err := readSums(z[Sums])
	if err != nil {
		return Found{}, err
	}
	if !asMade {
		found.Faults = append(found.Faults, Fault{Sums, "does not have the lines that trundle writes; somebody changed it"})
	}
	left := int64(MaxAll)
	for _, name := range slices.Sorted(maps.Keys(z)) {
		if name == Sums {
			continue
		}
		want, listed := sums[name]
		if !listed {
			found.Faults = append(found.Faults, Fault{name, "is not in the list of checksums; somebody added it"})
			continue
		}
		delete(sums, name)
		got, err := sumOf(ctx, z[name], &left)
		switch {
		case ctx.Err() != nil:
			return Found{}, ctx.Err()
		case err != nil:
			found.Faults = append(found.Faults, Fault{name, "cannot be unpacked: " + err.Error()})
		case got != want:
			found.Faults = append(found.Faults, Fault{name, "is not as it was packed"})
		default:
			found.Files++
		}
	}
	for _, name := range slices.Sorted(maps.Keys(sums)) {
		found.Faults = append(found.Faults, Fault{name, "is missing"})
	}
	return found, nil
}

// open gives the files of a bundle by their names below its one folder. Entries for folders
// are left out: other programs add them when they pack.
func open(r io.ReaderAt, size int64) (files map[string]*zip.File, folder string, faults []Fault, err error) {
	z, err := zip.NewReader(r, size)
	if err != nil && !errors.Is(err, zip.ErrInsecurePath) {
		return nil, "", nil, fmt.Errorf("%w: %v", ErrNoBundle, err)
	}
	if len(z.File) > MaxFiles {
		return nil, "", nil, fmt.Errorf("%w: it has more than %d files", ErrNoBundle, MaxFiles)
	}
	folder = folderOf(z)
	if !gapless(r, size, z) {
		faults = append(faults, Fault{"the zip", "has more in it than its list of files says; somebody changed it"})
	}
	files = map[string]*zip.File{}
	for _, f := range z.File {
		name := strings.TrimPrefix(f.Name, folder+"/")
		switch fault := entryFault(f, folder); {
		case fault.What != "":
			faults = append(faults, fault)
		case strings.HasSuffix(f.Name, "/"):
		case files[name] != nil:
			faults = append(faults, Fault{name, "is there twice"})
		default:
			files[name] = f
		}
	}
	if twins := apart(slices.Collect(maps.Keys(files))); twins != nil {
		faults = append(faults, Fault{twins[1], "is " + twins[0] + " to many computers; somebody added one of them"})
	}
	if files[Sums] == nil || files[Start] == nil {
		return nil, "", nil, fmt.Errorf("%w: it has no %s beside a %s", ErrNoBundle, Sums, Start)
	}
	return files, folder, faults, nil
}

// folderOf gives the folder that a bundle unpacks into: the one at the top that holds the checksums.
func folderOf(z *zip.Reader) string {
	folder := ""
	for _, f := range z.File {
		if below, ok := strings.CutSuffix(f.Name, "/"+Sums); ok && !strings.Contains(below, "/") {
			folder = below
		}
	}
	return folder
}

// entryFault says what is wrong with an entry of a zip, before its content is looked at. The zero Fault says that
// nothing is.
func entryFault(f *zip.File, folder string) Fault {
	full, isFolder := strings.CutSuffix(f.Name, "/")
	name, below := strings.CutPrefix(full, folder+"/")
	if why := Unsafe(full); why != "" {
		return Fault{f.Name, "must not be unpacked: " + why}
	}
	if isFolder {
		empty := f.CompressedSize64 == 0 && f.UncompressedSize64 == 0
		if f.Mode().Type() == fs.ModeDir && empty && (below || full == folder) {
			if what := oddHeader(f); what != "" {
				return Fault{f.Name, what}
			}
			return Fault{}
		}
		return Fault{f.Name, "is not a folder of the bundle; somebody added it"}
	}
	switch {
	case f.Flags&encrypted != 0:
		return Fault{name, "asks for a password; somebody repacked it"}
	case !below:
		return Fault{name, "is outside the folder " + folder + "; somebody added it"}
	case !f.Mode().IsRegular():
		return Fault{name, "is not a plain file; somebody added it"}
	}
	if what := oddHeader(f); what != "" {
		return Fault{name, what}
	}
	return Fault{}
}

// encrypted is the flag of a file that needs a password (APPNOTE.TXT 4.4.4, bit 0).
const encrypted = 1

// readSums reads lines as sha256sum writes them, and says whether they are the very lines that Make writes: other
// programs take two lines for one file, or other line ends, for something else than we do.
func readSums(f *zip.File) (sums map[string]string, asMade bool, err error) {
	if f.UncompressedSize64 > mostSums {
		return nil, false, fmt.Errorf("%w: its %s is too large", ErrNoBundle, Sums)
	}
	r, err := f.Open()
	if err != nil {
		return nil, false, fmt.Errorf("%w: %v", ErrNoBundle, err)
	}
	defer r.Close()
	text, err := io.ReadAll(io.LimitReader(r, mostSums))
	if err != nil {
		return nil, false, fmt.Errorf("%w: its %s cannot be read to its end", ErrNoBundle, Sums)
	}
	sums = map[string]string{}
	n := 0
	for line := range strings.Lines(string(text)) {
		n++
		sum, name, ok := strings.Cut(strings.TrimRight(line, "\r\n"), "  ")
		if raw, err := hex.DecodeString(sum); !ok || err != nil || len(raw) != sha256.Size || name == "" {
			return nil, false, fmt.Errorf("%w: line %d of its %s is not a checksum and a name", ErrNoBundle, n, Sums)
		}
		sums[name] = strings.ToLower(sum)
	}
	return sums, string(text) == sumLines(sums), nil
}

// sumOf unpacks a file as far as its size says, and takes that from what may be unpacked: a small zip can be made to
// unpack to more than any disk has.
func sumOf(ctx context.Context, f *zip.File, left *int64) (string, error) {
	if f.UncompressedSize64 > uint64(*left) {
		return "", fmt.Errorf("the bundle comes to more than %d GB", MaxAll>>30)
	}
	*left -= int64(f.UncompressedSize64)
	r, err := f.Open()
	if err != nil {
		return "", err
	}
	defer r.Close()
	sum := sha256.New()
	if n, err := io.Copy(sum, io.LimitReader(stopping{ctx, r}, int64(f.UncompressedSize64)+1)); err != nil {
		return "", err
	} else if uint64(n) > f.UncompressedSize64 {
		return "", errors.New("it is longer than it says")
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}

// stopping reads until somebody says to stop.
type stopping struct {
	ctx context.Context
	r   io.Reader
}

// Read gives the context's error instead of more bytes.
func (s stopping) Read(p []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.r.Read(p)
}
