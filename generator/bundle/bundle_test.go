package bundle_test

// Tests of bundles: the same bytes everywhere, and every fault that a zip may have.

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"trundle/generator/bundle"
)

func pack() map[string][]byte {
	return map[string][]byte{
		"START-HERE.html": []byte("start"), "CONTENTS.txt": []byte("list"),
		"students/a.html": []byte("page"), "students/sheets/a-a4.pdf": bytes.Repeat([]byte("x"), 9000),
	}
}

// epoch is a time that a zip can hold.
var epoch = time.Date(1980, time.January, 2, 0, 0, 0, 0, time.UTC)

// zipped makes a zip in memory.
func zipped(folder string, files map[string][]byte, times bundle.Times) ([]byte, error) {
	inside := bundle.Files{}
	for name, data := range files {
		inside[name] = bundle.Text(data)
	}
	var zip bytes.Buffer
	err := bundle.Write(&zip, folder, inside, times)
	return zip.Bytes(), err
}

func made(t testing.TB, at time.Time) []byte {
	t.Helper()
	data, err := zipped("day-1-students", pack(), bundle.Fixed(at))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func checked(t testing.TB, data []byte) (bundle.Found, error) {
	t.Helper()
	return bundle.Check(t.Context(), bytes.NewReader(data), int64(len(data)))
}

func TestTheSameFilesMakeTheSameBytes(t *testing.T) {
	first := made(t, epoch)
	for range 5 {
		if !bytes.Equal(first, made(t, epoch.In(time.FixedZone("far", 14*3600)))) {
			t.Fatal("the bytes differ")
		}
	}
	if bytes.Equal(first, made(t, epoch.Add(time.Hour))) {
		t.Error("another time makes the same bytes")
	}
}

// TestOtherProgramsReadABundle has unzip and sha256sum look a bundle over, which know nothing of us.
func TestOtherProgramsReadABundle(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "b.zip"), made(t, time.Date(2024, 2, 29, 12, 0, 0, 0, time.UTC)),
		0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		dir, want string
		command   []string
	}{
		{dir, "No errors detected", []string{"unzip", "-t", "b.zip"}},
		{dir, "day-1-students/students/sheets/a-a4.pdf", []string{"unzip", "b.zip"}},
		{filepath.Join(dir, "day-1-students"), "students/a.html: OK", []string{"sha256sum", "-c", "SHA256SUMS"}},
	} {
		run := exec.Command(c.command[0], c.command[1:]...)
		run.Dir, run.Env = c.dir, append(os.Environ(), "LC_ALL=C")
		if out, err := run.CombinedOutput(); err != nil || !strings.Contains(string(out), c.want) {
			t.Errorf("%v: %v\n%s", c.command, err, out)
		}
	}
	info, err := os.Stat(filepath.Join(dir, "day-1-students", "START-HERE.html"))
	if err != nil || info.Mode().Perm()&0o111 != 0 || info.ModTime().UTC().Format(time.DateOnly) != "2024-02-29" {
		t.Errorf("unpacked: %v, %v", info, err)
	}
}

func TestABundleThatIsAsItWasMadeHasNoFaults(t *testing.T) {
	found, err := checked(t, made(t, epoch))
	if err != nil || len(found.Faults) > 0 || found.Files != 4 || found.Folder != "day-1-students" {
		t.Errorf("found %+v, %v", found, err)
	}
}

// repacked unpacks a bundle, lets change have its files, and packs them as other programs do,
// with entries for folders.
func repacked(t testing.TB, change func(files map[string]string)) []byte {
	t.Helper()
	data := made(t, epoch)
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{"day-1-students/": "", "day-1-students/students/": ""}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		files[f.Name] = string(text)
	}
	change(files)
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for name, text := range files {
		one, err := w.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(one, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestFaultsOfABundle(t *testing.T) {
	const in = "day-1-students/"
	for what, c := range map[string]struct {
		change func(files map[string]string)
		want   string
	}{
		"packed again": {func(f map[string]string) {}, ""},
		"changed": {func(f map[string]string) { f[in+"students/a.html"] = "Page" },
			"students/a.html is not as it was packed"},
		"left out": {func(f map[string]string) { delete(f, in+"CONTENTS.txt") }, "CONTENTS.txt is missing"},
		"added": {func(f map[string]string) { f[in+"students/b.html"] = "" },
			"students/b.html is not in the list of checksums; somebody added it"},
		"added beside": {func(f map[string]string) { f["b.html"] = "" },
			"b.html is outside the folder day-1-students; somebody added it"},
		"leads out": {func(f map[string]string) { f["../b"] = "" },
			"../b must not be unpacked: its name leads elsewhere"},
		"leads to a root": {func(f map[string]string) { f["/b"] = "" },
			"/b must not be unpacked: its name leads elsewhere"},
		"another system's way out": {func(f map[string]string) { f[in+`..\b`] = "" },
			`day-1-students/..\b must not be unpacked: its name has a character that not every computer can store, ` +
				`one of \ : * ? " < > | or one that cannot be seen`},
		"a folder that leads out": {func(f map[string]string) { f["../../b/"] = "" },
			"../../b/ must not be unpacked: its name leads elsewhere"},
		"a folder beside": {func(f map[string]string) { f["b/"] = "" },
			"b/ is not a folder of the bundle; somebody added it"},
		"a device's name": {func(f map[string]string) { f[in+"students/NUL.png"] = "" },
			"day-1-students/students/NUL.png must not be unpacked: some computers keep the name NUL.png for a device"},
		"several": {func(f map[string]string) {
			f[in+"students/a.html"] = ""
			delete(f,
				in+"students/sheets/a-a4.pdf")
		},
			"students/a.html is not as it was packed; students/sheets/a-a4.pdf is missing"},
	} {
		found, err := checked(t, repacked(t, c.change))
		var said []string
		for _, f := range found.Faults {
			said = append(said, f.Name+" "+f.What)
		}
		if got := strings.Join(said, "; "); err != nil || got != c.want {
			t.Errorf("%s: %q, %v; want %q", what, got, err, c.want)
		}
	}
}

func TestWhatIsNoBundle(t *testing.T) {
	const in = "day-1-students/"
	whole := made(t, epoch)
	for what, data := range map[string][]byte{
		"nothing": nil, "a text": []byte("text"), "half": whole[:len(whole)/2],
		"no sums":  repacked(t, func(f map[string]string) { delete(f, in+"SHA256SUMS") }),
		"no start": repacked(t, func(f map[string]string) { delete(f, in+"START-HERE.html") }),
		"no sum":   repacked(t, func(f map[string]string) { f[in+"SHA256SUMS"] = "1234  START-HERE.html\n" }),
		"no name": repacked(t, func(f map[string]string) {
			f[in+"SHA256SUMS"] = strings.Repeat("0", 64) +
				"  \n"
		}),
		"one long line": repacked(t, func(f map[string]string) { f[in+"SHA256SUMS"] = strings.Repeat("0", 100_000) }),
	} {
		if found, err := checked(t, data); !errors.Is(err, bundle.ErrNoBundle) {
			t.Errorf("%s: %+v, error is %v", what, found, err)
		}
	}
}

// TestAFileIsNotUnpackedBeyondWhatItSays changes the size that the zip gives for a file; what
// is packed is longer.
func TestAFileIsNotUnpackedBeyondWhatItSays(t *testing.T) {
	data := made(t, epoch)
	size := []byte{0x28, 0x23, 0, 0} // 9000
	at := bytes.LastIndex(data, size)
	if at < 0 {
		t.Fatal("the size is not there")
	}
	data = slices.Clone(data)
	data[at+1] = 0
	found, err := checked(t, data)
	if err != nil || len(found.Faults) != 2 || !strings.Contains(found.Faults[1].What, "cannot be unpacked") {
		t.Errorf("found %+v, %v", found, err)
	}
}

func TestAZipWithMoreThanTheBundleHasFaults(t *testing.T) {
	data := made(t, epoch)
	flagged := slices.Clone(data)
	central := bytes.LastIndex(flagged, []byte("PK\x01\x02"))
	flagged[central+8] |= 1 // needs a password
	link := slices.Clone(data)
	link[central+41] = 0xa1 // a link's mode
	commented := append(slices.Clone(data[:len(data)-2]), 2, 0, 'h', 'i')
	renamed := slices.Clone(data)
	renamed[bytes.Index(renamed, []byte("a.html"))] = 'b' // the name in front of the file, not the one in the list
	const changed = "has more in it than its list of files says"
	for what, c := range map[string]struct {
		zip  []byte
		want string
	}{
		"before":             {append([]byte("#!/bin/sh\n"), data...), changed},
		"behind":             {append(slices.Clone(data), "more"...), changed},
		"another zip before": {append(slices.Clone(data), data...), changed}, "a comment": {commented, changed},
		"a hole":                {holed(data), changed},
		"another name in front": {renamed, changed}, "a link": {link, "is not a plain file"},
		"with a password": {flagged, "asks for a password"},
		"twice":           {repeated(t), "is there twice"},
		"capitals": {repacked(t, func(f map[string]string) { f["day-1-students/Contents.txt"] = "list" }),
			"to many computers"},
	} {
		found, err := checked(t, c.zip)
		if err != nil || !slices.ContainsFunc(found.Faults,
			func(f bundle.Fault) bool { return strings.Contains(f.What, c.want) }) {
			t.Errorf("%s: found %+v, %v; want %q", what, found, err, c.want)
		}
	}
}

// sized gives a bundle whose list of files tells another size of a file.
func sized(data []byte, name string, size uint32) []byte {
	out := slices.Clone(data)
	at := bytes.LastIndex(out, []byte(name)) - 46 // the name stands behind so many bytes of its entry
	binary.LittleEndian.PutUint32(out[at+24:], size)
	return out
}

func TestWhatIsUnpackedHasLimits(t *testing.T) {
	data := made(t, epoch)
	if _, err := checked(t, sized(data, "day-1-students/SHA256SUMS", 17<<20)); !errors.Is(err, bundle.ErrNoBundle) ||
		!strings.Contains(err.Error(), "too large") {
		t.Errorf("sums of 17 MB: error is %v", err)
	}
	large := sized(sized(data, "day-1-students/students/a.html", 1<<32-16), "day-1-students/students/sheets/a-a4.pdf",
		1<<32-16)
	found, err := checked(t, large)
	if err != nil || !slices.ContainsFunc(found.Faults,
		func(f bundle.Fault) bool { return strings.Contains(f.What, "more than 4 GB") }) {
		t.Errorf("8 GB: found %+v, %v", found, err)
	}
	many := repacked(t, func(f map[string]string) {
		for i := range 100_000 {
			f[fmt.Sprintf("day-1-students/%d/", i)] = ""
		}
	})
	if _, err := checked(t, many); !errors.Is(err, bundle.ErrNoBundle) ||
		!strings.Contains(err.Error(), "more than 100000 files") {
		t.Errorf("many files: error is %v", err)
	}
}

// holed has bytes between the last file and the list of files, which is told to start later.
func holed(data []byte) []byte {
	list := bytes.Index(data, []byte("PK\x01\x02"))
	out := slices.Concat(data[:list], []byte("MZ junk."), data[list:])
	out[len(out)-6] += 8 // the low byte of where the list starts
	return out
}

// repeated has one file twice.
func repeated(t *testing.T) []byte {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range []string{"START-HERE.html", "SHA256SUMS", "SHA256SUMS"} {
		if _, err := z.Create("day-1-students/" + name); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestACheckStopsWhenItIsTold(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	data := made(t, epoch)
	if _, err := bundle.Check(ctx, bytes.NewReader(data), int64(len(data))); !errors.Is(err, context.Canceled) {
		t.Errorf("error is %v", err)
	}
}

func TestNamesThatCannotBeHandedOut(t *testing.T) {
	for _, name := range []string{"../a", "/a", "a//b", "", ".", `a\b`, "a:b", "a?", "a\nb", "a.", "b /c", "con.png",
		"x/Aux/y", "lpt1", "com¹.png", "conin$", "a\u202eb", "a\u200bb", "students/A.html"} {
		files := pack()
		files[name] = nil
		if _, err := zipped("f", files, bundle.Following("1")); !errors.Is(err, bundle.ErrName) {
			t.Errorf("%q: error is %v", name, err)
		}
	}
	twins := pack()
	twins["students/\u00e9.png"], twins["students/e\u0301.png"] = nil, nil
	if _, err := zipped("f", twins, bundle.Following("1")); !errors.Is(err, bundle.ErrName) {
		t.Errorf("two ways to write an accent: error is %v", err)
	}
	files := pack()
	files["students/pictures/Schleuse – groß.png"] = nil
	if _, err := zipped("f", files, bundle.Following("1")); err != nil {
		t.Error(err)
	}
}

func TestTimesThatAZipHolds(t *testing.T) {
	for year, want := range map[int]bool{1979: false, 1980: true, 2026: true, 2037: true, 2038: false} {
		if got := bundle.Holds(time.Date(year, 6, 1, 0, 0, 0, 0, time.UTC)); got != want {
			t.Errorf("%d: %v, want %v", year, got, want)
		}
	}
}

func FuzzCheck(f *testing.F) {
	f.Add(made(f, epoch))
	f.Add(repacked(f, func(files map[string]string) { files["../b"] = "" }))
	f.Add(repacked(f, func(files map[string]string) { files["day-1-students/SHA256SUMS"] = "x" }))
	f.Fuzz(func(t *testing.T, data []byte) {
		found, err := checked(t, data)
		if err == nil && len(found.Faults) == 0 && found.Files == 0 {
			t.Error("a bundle without a file is said to be as it was packed")
		}
	})
}

func BenchmarkMake(b *testing.B) {
	files := map[string][]byte{}
	for i := range 200 {
		files[fmt.Sprintf("students/%03d.html", i)] = bytes.Repeat([]byte(fmt.Sprint("line ", i, "\n")), 4000)
	}
	for b.Loop() {
		if _, err := zipped("f", files, bundle.Following("1")); err != nil {
			b.Fatal(err)
		}
	}
}
