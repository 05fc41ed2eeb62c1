// Package read brings a pack's files into memory. It is the only stage but the last
// that touches a file system, and it sees no more of that than the folder it is
// given: a link that leads out of it is refused by the file system itself when that
// is an os.Root's.
package read

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync/atomic"
	"unicode/utf8"

	"trundle/generator/problem"
	"trundle/generator/source"
)

// glossary is the file that says what the pack's words mean.
const glossary = "words.md"

// Files are a pack's files. Texts are UTF-8 without a byte-order mark, their lines end with a line feed.
type Files struct {
	Pack     *source.File // pack.yaml; empty if missing
	Kits     *source.File // kits.yaml; nil if missing
	Renamed  *source.File // renamed.yaml; nil if missing
	Words    *source.File // words.md; nil if missing
	Formulas *source.File // formulas.yaml; nil if missing
	Lessons  []*source.File
	Parts    []*source.File // texts that lessons put in
	Cards    []*source.File
	Data     []*source.File
	Pictures map[string]int64  // sizes of pictures, which are read one by one when they are shown
	Refused  map[string]string // pictures that are there and cannot be used: name → why
	Unread   []string          // other files and folders that are there and could not be read, which was reported

	changed atomic.Pointer[string]
}

// UnreadIn are the files of a folder that could not be read. The folder's name ends in a slash.
func (f *Files) UnreadIn(folder string) []string {
	var all []string
	for _, name := range f.Unread {
		if strings.HasPrefix(name, folder) {
			all = append(all, name)
		}
	}
	return all
}

// Memory reads a pack again and again, and reads again only what is not the very same bytes in
// memory as before. The zero Memory is ready; it is for one caller at a time.
type Memory struct {
	Once  bool // the pack is read once
	Whole int  // of how many lessons, at most, the texts stay in memory then
	texts map[string]keptText
}

// keptText is a text that was found to be in order.
type keptText struct {
	raw   []byte
	file  *source.File
	found problem.List // of characters that cannot be seen
}

// Pack reads a pack from its folder. isLesson tells which names are lessons'. An error means that the folder itself
// cannot be read.
func (m *Memory) Pack(folder fs.FS, isLesson func(name string) bool) (*Files, problem.List, error) {
	r := &reader{fs: folder, before: m.texts, texts: make(map[string]keptText, len(m.texts)),
		files: &Files{Pictures: map[string]int64{}, Refused: map[string]string{}}}
	top, err := r.list(".")
	if err != nil {
		return nil, problem.List{}, err
	}
	large := m.Once && lessonsIn(top, isLesson) > m.Whole
	r.files.Pack = r.named(top, "pack.yaml")
	r.files.Kits = r.named(top, "kits.yaml")
	r.files.Renamed = r.named(top, "renamed.yaml")
	r.files.Words = r.named(top, glossary)
	r.files.Formulas = r.named(top, "formulas.yaml")
	for _, e := range top {
		switch name := e.Name(); {
		case isLesson(name):
			f := r.text(name)
			if f != nil && large {
				f = r.files.readAgain(r.fs, f)
			}
			if f != nil {
				r.files.Lessons = append(r.files.Lessons, f)
			}
		case name == glossary: // read above
		case strings.EqualFold(name, glossary):
			r.stray(name, "this file is not read as the pack's words, because of its capitals", "call it "+glossary)
		case strings.HasSuffix(name, ".md") && !aboutFolder(name) && !hidden(name):
			r.problems.Caution(source.NewFile(name, nil), source.Span{}, "not-a-lesson",
				"this file is not read as a lesson, because of its name",
				"call a lesson like 03-rotations.md: a number, a hyphen, a few words")
		case strayText(name):
			r.stray(name, "this file is not read as a lesson, because of its ending",
				"save it as plain text with Markdown, and call it like 03-rotations.md, with .md in small letters")
		case e.IsDir():
			r.strayFolder(name, isLesson)
		}
	}
	r.files.Parts = r.folder("parts", ".md")
	r.files.Cards = r.folder("care", ".md")
	r.files.Data = r.folder("data", ".csv")
	r.pictures("pictures")
	r.files.Unread = r.unread
	m.texts = r.texts
	return r.files, r.problems, nil
}

// CountLessons counts a pack's lessons by their names, before anything is read; a folder that cannot be read has none,
// and one with more files than a pack may have has as many as that.
func CountLessons(folder fs.FS, isLesson func(name string) bool) int {
	top, err := fs.ReadDir(folder, ".")
	if err != nil {
		return 0
	}
	return min(lessonsIn(top, isLesson), MaxFiles)
}

// lessonsIn counts the lessons among entries.
func lessonsIn(top []fs.DirEntry, isLesson func(name string) bool) int {
	count := 0
	for _, e := range top {
		if isLesson(e.Name()) {
			count++
		}
	}
	return count
}

// folders are those of a pack that are looked into.
var folders = []string{"care", "data", "parts", "pictures"}

// Concerns is true for the files that a pack is made of, by their names below its folder; of a
// folder, whether there can be any in it.
func Concerns(name string, isDir bool) bool {
	dir, base := path.Split(name)
	top, _, _ := strings.Cut(name, "/")
	switch {
	case hidden(base):
		return false
	case isDir:
		return dir == "" && slices.Contains(folders, name) || top == "pictures"
	case dir == "":
		return slices.Contains([]string{"pack.yaml", "kits.yaml", "renamed.yaml", "formulas.yaml"}, name) ||
			strings.HasSuffix(name, ".md") || strayText(name) ||
			slices.Contains(folders, name) // something else in a folder's place
	}
	return (dir == "care/" || dir == "parts/") && strings.HasSuffix(name, ".md") ||
		dir == "data/" && strings.HasSuffix(name, ".csv") || top == "pictures"
}

// Texts reads single files from wherever they lie. Those that cannot be read are among the problems.
func Texts(files fs.FS, names []string) ([]*source.File, problem.List) {
	r := &reader{fs: files}
	var all []*source.File
	for _, name := range names {
		all = r.append(all, name)
	}
	return all, r.problems
}

// hidden is true for names that editors and systems use for files of their own, and for drafts (_).
func hidden(name string) bool {
	return strings.HasPrefix(name, ".") || strings.HasPrefix(name, "_") || strings.HasSuffix(name, "~")
}

// aboutFolder is true for a text that says what its folder is for.
func aboutFolder(name string) bool { return strings.EqualFold(name, "readme.md") }

// reader reads the files of one pack.
type reader struct {
	fs       fs.FS
	before   map[string]keptText
	texts    map[string]keptText
	files    *Files
	problems problem.List
	count    int
	unread   []string
}

// named reads a file at the top of the pack, nil if there is none.
func (r *reader) named(entries []fs.DirEntry, name string) *source.File {
	if !slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == name }) {
		return nil
	}
	return r.text(name)
}

// append adds a file to others unless it cannot be read.
func (r *reader) append(to []*source.File, name string) []*source.File {
	if f := r.text(name); f != nil {
		return append(to, f)
	}
	return to
}

// folder reads the files of a folder with a suffix; a folder that is not there is empty.
func (r *reader) folder(dir, suffix string) []*source.File {
	entries, err := r.list(dir)
	if err != nil {
		r.noFolder(dir, err)
		return nil
	}
	var files []*source.File
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), suffix) || hidden(e.Name()) || dir == "parts" && aboutFolder(e.Name()) {
			continue
		}
		files = r.append(files, path.Join(dir, e.Name()))
	}
	return files
}

// noFolder reports a folder that is there and cannot be read.
func (r *reader) noFolder(name string, err error) {
	if errors.Is(err, fs.ErrNotExist) {
		return
	}
	r.unread = append(r.unread, name)
	r.problems.Error(source.NewFile(name, nil), source.Span{}, "unreadable",
		"this folder cannot be read: "+reason(err), "check its permissions")
}

// pictures finds all files of a folder and below, and reads none of them: photos that no lesson shows must not fill the
// memory.
func (r *reader) pictures(dir string) {
	var onDisk []string
	_ = fs.WalkDir(r.fs, dir, func(name string, e fs.DirEntry, err error) error {
		if err != nil {
			r.noFolder(name, err)
			return nil
		}
		if !e.IsDir() && !hidden(e.Name()) {
			onDisk = append(onDisk, name)
		}
		return nil
	})
	names := composedNames(onDisk)
	for _, name := range onDisk {
		name := names[name]
		size, err := r.usable(name, MaxPicture)
		if err != nil {
			r.files.Refused[name] = reason(err)
			continue
		}
		r.files.Pictures[name] = size
	}
}

// Picture reads one picture. Why it cannot be read is said in plain words.
func Picture(folder fs.FS, name string) (data []byte, refused string) {
	data, err := (&reader{fs: folder}).bytes(name, MaxPicture)
	if err != nil {
		return nil, reason(err)
	}
	return data, ""
}

// text reads a file, nil if it cannot be read.
func (r *reader) text(name string) *source.File {
	f := r.accepted(name)
	if f == nil {
		r.unread = append(r.unread, name)
	}
	return f
}

// accepted reads a file and refuses what nobody writes by hand, before anything has to work with it.
func (r *reader) accepted(name string) *source.File {
	data, err := r.bytes(name, MaxText)
	if err != nil {
		r.problems.Error(source.NewFile(name, nil), source.Span{}, "unreadable",
			"this file cannot be read: "+reason(err),
			"put a copy of the file itself into the pack, and check its permissions")
		return nil
	}
	if k, ok := r.before[name]; ok && len(data) > 0 && len(k.raw) == len(data) && &k.raw[0] == &data[0] {
		r.texts[name] = k
		r.problems.Join(k.found)
		return k.file
	}
	raw := data
	data = bytes.TrimPrefix(data, byteOrderMark)
	f := source.NewFile(name, data)
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		r.problems.Error(f, source.Span{}, "not-utf-8", "this file is in the encoding UTF-16",
			"save it as UTF-8; spreadsheets offer “CSV UTF-8” beside “Unicode text”")
		return nil
	}
	if at := invalid(data); at >= 0 {
		r.problems.Error(f, source.Span{Start: at, End: at + 1}, "not-utf-8", "from here on the text is not UTF-8",
			"save the file in the encoding UTF-8; most editors offer it under “save as”")
		return nil
	}
	if r.beyond(f) {
		return nil
	}
	if i := bytes.IndexByte(data, '\r'); i >= 0 && bytes.IndexByte(data, '\n') < 0 {
		r.problems.Error(f, source.Span{Start: i, End: i + 1}, "line-ends", "this file has old-style line ends (CR)",
			"save it with line ends LF or CRLF; most editors offer it under “save as”")
		return nil
	}
	if i := bytes.IndexByte(data, 0); i >= 0 {
		r.problems.Error(f, source.Span{Start: i, End: i + 1}, "not-text",
			"there is a zero byte here, so this is not a text file", "save it as plain text")
		return nil
	}
	if plain, apart := plain(data); !bytes.Equal(plain, data) {
		f = source.NewFile(name, plain, apart...)
	}
	unseen := unseenIn(f)
	r.problems.Join(unseen)
	if _, held := r.fs.(Held); held && r.texts != nil {
		r.texts[name] = keptText{raw, f, unseen}
	}
	return f
}

// byteOrderMark is what some editors put before a text.
var byteOrderMark = []byte("\uFEFF")

// windowsEnd is how lines end on Windows.
var windowsEnd = []byte("\r\n")

// plain is a text without what depends on where it was checked out or copied from: how lines end, and how letters with
// accents are stored. That is settled here, once for all that reads texts. Lines stay what they were.
func plain(data []byte) ([]byte, []source.Apart) {
	if bytes.Contains(data, windowsEnd) {
		data = bytes.ReplaceAll(data, windowsEnd, []byte("\n"))
	}
	return composed(data)
}

// invalid gives the offset of the first byte that is not UTF-8, or −1.
func invalid(data []byte) int {
	for i := 0; i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size <= 1 {
			return i
		}
		i += size
	}
	return -1
}

var (
	errTooLarge = errors.New("it is larger than trundle accepts")
	errTooMany  = errors.New("the pack has more files than trundle accepts")
	errNotFile  = errors.New("it is not a file")
)

// bytes reads a file whole, and refuses what would fill the memory: each file has its limit, and so has their number.
func (r *reader) bytes(name string, limit int64) ([]byte, error) {
	if _, err := r.usable(name, limit); err != nil {
		return nil, err
	}
	data, err := r.content(name, limit)
	if err == nil && int64(len(data)) > limit {
		err = errTooLarge
	}
	return data, err
}

// usable gives a file's size, and looks before it is opened: a pipe or device would wait for ever.
func (r *reader) usable(name string, limit int64) (int64, error) {
	if r.count++; r.count > MaxFiles {
		return 0, errTooMany
	}
	info, err := fs.Stat(r.fs, r.onDisk(name))
	switch {
	case err != nil:
		return 0, err
	case !info.Mode().IsRegular():
		return 0, errNotFile
	case info.Size() > limit:
		return 0, errTooLarge
	}
	return info.Size(), nil
}

// content reads up to one byte beyond a limit.
func (r *reader) content(name string, limit int64) ([]byte, error) {
	name = r.onDisk(name)
	if files, ok := r.fs.(Held); ok {
		return files.ReadFile(name)
	}
	f, err := r.fs.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var all bytes.Buffer
	if info, err := f.Stat(); err == nil {
		all.Grow(int(min(info.Size(), limit)) + bytes.MinRead)
	}
	_, err = all.ReadFrom(io.LimitReader(f, limit+1))
	return all.Bytes(), err
}

// Held is a folder whose files are held in memory: ReadFile gives the same bytes as long as
// they are the same, and costs nothing.
type Held interface {
	fs.ReadFileFS
	Held()
}

// reason says in plain words why a file could not be read, without a path of the
// computer in it.
func reason(err error) string {
	var at *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "it is not there, or it is a link to nowhere"
	case errors.Is(err, fs.ErrPermission):
		return "permission is denied"
	case errors.As(err, &at) && strings.Contains(at.Err.Error(), "escapes"):
		return "it is a link that leads out of the pack"
	case errors.As(err, &at):
		return at.Err.Error()
	}
	return err.Error()
}
