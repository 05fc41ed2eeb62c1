package bundle_test

// Zips whose files are as they were packed, and whose headers would have them unpacked as something else.

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io/fs"
	"maps"
	"slices"
	"strings"
	"testing"

	"trundle/generator/bundle"
)

// page is the file whose header is changed.
const page = "day-1-students/students/a.html"

// crafted gives the test's bundle after change had the header of its page.
func crafted(t testing.TB, change func(h *zip.FileHeader)) []byte {
	t.Helper()
	files := pack()
	files["SHA256SUMS"] = sumsOf(files)
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range slices.Sorted(maps.Keys(files)) {
		h := &zip.FileHeader{Name: "day-1-students/" + name, Method: zip.Deflate, Modified: epoch}
		if h.Name == page {
			change(h)
		}
		w, err := z.CreateHeader(h)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write(files[name]); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// sumsOf are the lines of checksums of files.
func sumsOf(files map[string][]byte) []byte {
	var lines []string
	for name, data := range files {
		lines = append(lines, fmt.Sprintf("%x  %s\n", sha256.Sum256(data), name))
	}
	slices.SortFunc(lines, func(a, b string) int { return strings.Compare(a[66:], b[66:]) })
	return []byte(strings.Join(lines, ""))
}

// field is an extra field.
func field(id uint16, data ...byte) []byte {
	return append(binary.LittleEndian.AppendUint16(binary.LittleEndian.AppendUint16(nil, id),
		uint16(len(data))), data...)
}

// unicodePath is the field by which a file has another name (APPNOTE.TXT 4.6.9).
func unicodePath(name string) []byte {
	sum := binary.LittleEndian.AppendUint32([]byte{1}, crc32.ChecksumIEEE([]byte(page)))
	return field(0x7075, append(sum, name...)...)
}

func TestHeadersThatUnpackSomethingElseAreFaults(t *testing.T) {
	const named = "has a field that may give it another name"
	for what, c := range map[string]struct {
		change func(h *zip.FileHeader)
		want   string
	}{
		"nothing":           {func(*zip.FileHeader) {}, ""},
		"a time":            {func(h *zip.FileHeader) { h.Extra = field(0x000a, 0, 0, 0, 0) }, ""},
		"an owner":          {func(h *zip.FileHeader) { h.Extra = field(0x7875, 1, 1, 0, 1, 0) }, ""},
		"a path in Unicode": {func(h *zip.FileHeader) { h.Extra = unicodePath("evil/x") }, named},
		"a link":            {func(h *zip.FileHeader) { h.Extra = field(0x000d, make([]byte, 12)...) }, named},
		"a field of nobody": {func(h *zip.FileHeader) { h.Extra = field(0xbeef) }, named},
		"half a field":      {func(h *zip.FileHeader) { h.Extra = []byte{0x75, 0x78, 9, 0, 1} }, named},
		"a comment":         {func(h *zip.FileHeader) { h.Comment = "see evil/x" }, "has a comment"},
		"another user's":    {func(h *zip.FileHeader) { h.SetMode(fs.ModeSetuid | 0o755) }, "asks for rights"},
		"a group's":         {func(h *zip.FileHeader) { h.SetMode(fs.ModeSetgid | 0o755) }, "asks for rights"},
		"may be run":        {func(h *zip.FileHeader) { h.SetMode(0o755) }, ""},
		"a name of no kind": {func(h *zip.FileHeader) { h.Name, h.NonUTF8 = "day-1-students/é", true },
			"does not say how its name"},
		"a name too long": {func(h *zip.FileHeader) {
			h.Name = "day-1-students/" + strings.Repeat("n",
				256)
		}, "is longer than the 255 bytes"},
		"a letter of a disk": {func(h *zip.FileHeader) { h.Name = "C:/x" }, "must not be unpacked"},
		"an end of zero":     {func(h *zip.FileHeader) { h.Name = page + "\x00.png" }, "must not be unpacked"},
		"a file and a folder": {func(h *zip.FileHeader) { h.Name = "day-1-students/STUDENTS" },
			"is STUDENTS to many computers"},
	} {
		found, err := checked(t, crafted(t, c.change))
		if err != nil {
			t.Errorf("%s: %v", what, err)
			continue
		}
		if c.want == "" && len(found.Faults) > 0 || c.want != "" && !slices.ContainsFunc(found.Faults,
			func(f bundle.Fault) bool { return strings.Contains(f.What, c.want) }) {
			t.Errorf("%s: found %+v, want %q", what, found.Faults, c.want)
		}
	}
}

// TestHeadersInFrontAreThoseOfTheList changes what stands in front of a file, by which a zip is unpacked that arrives
// bit by bit.
func TestHeadersInFrontAreThoseOfTheList(t *testing.T) {
	for what, change := range map[string]func(header []byte){
		"a flag":   func(h []byte) { h[7] ^= 8 },
		"a method": func(h []byte) { h[8] = 0 },
		"a size":   func(h []byte) { h[22] = 1 },
		"a field": func(h []byte) { // that of the time, which is after the name
			binary.LittleEndian.PutUint16(h[30+len(page):], 0x7075)
		},
	} {
		data := crafted(t, func(*zip.FileHeader) {})
		change(data[bytes.Index(data, []byte(page))-30:])
		found, err := checked(t, data)
		if err != nil || len(found.Faults) == 0 {
			t.Errorf("%s: found %+v, %v", what, found, err)
		}
	}
}

// TestASecondListOfFilesIsAFault puts a list of its own in front of the one that the last record is about.
func TestASecondListOfFilesIsAFault(t *testing.T) {
	data := crafted(t, func(*zip.FileHeader) {})
	list := bytes.Index(data, []byte("PK\x01\x02"))
	end := len(data) - 22
	twice := slices.Concat(data[:end], data[list:end], data[end:])
	start := binary.LittleEndian.AppendUint32(nil, uint32(end))
	copy(twice[len(twice)-6:], start)
	found, err := checked(t, twice)
	if err != nil || len(found.Faults) != 1 || !strings.Contains(found.Faults[0].What, "has more in it") {
		t.Errorf("found %+v, %v", found, err)
	}
}

// TestALargeZipsEndIsReadToo gives a bundle the last records of one of 4 GB: a small one may have them.
func TestALargeZipsEndIsReadToo(t *testing.T) {
	data := crafted(t, func(*zip.FileHeader) {})
	list, end := bytes.Index(data, []byte("PK\x01\x02")), len(data)-22
	large := func(between string) []byte {
		count := uint64(binary.LittleEndian.Uint16(data[end+10:]))
		record := binary.LittleEndian.AppendUint64([]byte("PK\x06\x06"), 44)
		record = append(record, 45, 0, 45, 0, 0, 0, 0, 0, 0, 0, 0, 0)
		for _, n := range []uint64{count, count, uint64(end - list), uint64(list)} {
			record = binary.LittleEndian.AppendUint64(record, n)
		}
		at := uint64(end + len(between))
		locator := binary.LittleEndian.AppendUint64([]byte("PK\x06\x07\x00\x00\x00\x00"), at)
		locator = append(locator, 1, 0, 0, 0)
		last := slices.Clone(data[end:])
		copy(last[8:], bytes.Repeat([]byte{0xff}, 12))
		return slices.Concat(data[:end], []byte(between), record, locator, last)
	}
	if found, err := checked(t, large("")); err != nil || len(found.Faults) > 0 {
		t.Errorf("found %+v, %v", found.Faults, err)
	}
	if found, err := checked(t, large("more")); err == nil && len(found.Faults) == 0 {
		t.Error("four bytes more are not noticed")
	}
}

func TestChecksumsAreTheLinesThatTrundleWrites(t *testing.T) {
	const sums = "day-1-students/SHA256SUMS"
	for what, change := range map[string]func(text string) string{
		"a line twice": func(text string) string { return text + text[:strings.Index(text, "\n")+1] },
		"two sums for one file": func(text string) string {
			return strings.Repeat("0", 64) +
				text[64:strings.Index(text, "\n")+1] + text
		},
		"line ends of Windows": func(text string) string { return strings.ReplaceAll(text, "\n", "\r\n") },
		"large letters":        func(text string) string { return strings.ToUpper(text[:64]) + text[64:] },
		"no last line end":     func(text string) string { return strings.TrimSuffix(text, "\n") },
	} {
		found, err := checked(t, repacked(t, func(f map[string]string) { f[sums] = change(f[sums]) }))
		if err != nil || !slices.Contains(found.Faults,
			bundle.Fault{Name: "SHA256SUMS", What: "does not have the lines that trundle writes; somebody " +
				"changed it"}) {
			t.Errorf("%s: found %+v, %v", what, found, err)
		}
	}
}

func TestNamesThatOneComputerDoesNotTellApart(t *testing.T) {
	for _, pair := range [][2]string{
		{"pictures/a.png", "pictures/A.png"}, {"é.html", "e\u0301.html"}, {"É.html", "e\u0301.html"},
		{"straße.html", "STRASSE.html"}, {"ſ.html", "s.html"}, {"\u212a.html", "k.html"}, {"a", "A/b"},
	} {
		_, err := zipped("f", map[string][]byte{pair[0]: nil, pair[1]: nil}, bundle.Fixed(epoch))
		if err == nil || !strings.Contains(err.Error(), "many computers take it for") {
			t.Errorf("%q: error is %v", pair, err)
		}
	}
	if _, err := zipped("f", map[string][]byte{"a.html": nil, "ä.html": nil, "a/b": nil},
		bundle.Fixed(epoch)); err != nil {
		t.Error(err)
	}
}

// FuzzCheckSums builds a sound zip around what is tried, since a zip that is spoiled at random falls at its
// last record:
// the list of sums, or the right one where none is given, a file's name, its extra fields and its mode.
func FuzzCheckSums(f *testing.F) {
	right := string(sumsOf(pack()))
	f.Add("", "students/a.html", []byte(nil), uint32(0o644))
	f.Add(right, "students/a.html", field(0x5455, 1, 0, 0, 0, 0), uint32(0o755))
	f.Add(right+right, "students/b.html", unicodePath("evil/x"), uint32(0o4755))
	f.Add(strings.ReplaceAll(right, "\n", "\r\n"), "../b", []byte{0x75}, uint32(0))
	f.Add("1234  x\n", "students/", field(1, 0), uint32(fs.ModeDir))
	f.Fuzz(func(t *testing.T, sums, name string, extra []byte, mode uint32) {
		files := pack()
		files["students/a.html"] = []byte("page")
		if sums == "" {
			sums = string(sumsOf(files))
		}
		data, ok := zipAround(t, files, sums, &zip.FileHeader{Name: name, Extra: extra}, fs.FileMode(mode))
		if !ok {
			return
		}
		found, err := checked(t, data)
		if err != nil || len(found.Faults) > 0 {
			return
		}
		z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		listed := "" // by the names that unzip has
		for _, f := range z.File {
			if bytes.Contains(f.Extra, []byte("evil")) || f.Mode()&^fs.ModeDir != f.Mode().Perm() {
				t.Errorf("%q passes with the mode %v and more: %q", f.Name, f.Mode(), f.Extra)
			}
			if bundle.Unsafe(strings.TrimSuffix(f.Name, "/")) != "" || !strings.HasPrefix(f.Name, "day-1-students/") {
				t.Errorf("%q passes", f.Name)
			}
			listed += f.Name + "\n"
		}
		for line := range strings.Lines(sums) {
			if !strings.Contains(listed, "day-1-students/"+line[66:]) {
				t.Errorf("a sum of %q passes, and the zip has no such file", line[66:])
			}
		}
	})
}

// zipAround packs files with sums, the page among them by a header of its own; false if archive/zip refuses that.
func zipAround(t testing.TB, files map[string][]byte, sums string, h *zip.FileHeader, mode fs.FileMode) ([]byte,
	bool) {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	put := func(h *zip.FileHeader, data []byte) bool {
		w, err := z.CreateHeader(h)
		if err != nil {
			return false
		}
		_, err = w.Write(data)
		return err == nil
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		header := &zip.FileHeader{Name: name, Method: zip.Deflate}
		if name == "students/a.html" {
			header = h
			header.SetMode(mode)
		}
		header.Name = "day-1-students/" + header.Name
		if !put(header, files[name]) && header == h {
			return nil, false
		}
	}
	if !put(&zip.FileHeader{Name: "day-1-students/SHA256SUMS"}, []byte(sums)) || z.Close() != nil {
		return nil, false
	}
	return b.Bytes(), true
}
