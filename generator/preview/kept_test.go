package preview_test

// What is kept of a build never makes the next one another, whatever has been edited meanwhile.

import (
	"bytes"
	"fmt"
	"maps"
	"math/rand/v2"
	"path"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"trundle/generator"
)

// memory is a store that forgets nothing, and counts.
type memory struct {
	lock    sync.Mutex
	all     map[generator.Key][]byte
	got, in int
}

func (m *memory) Get(key generator.Key) ([]byte, bool) {
	m.lock.Lock()
	defer m.lock.Unlock()
	data, ok := m.all[key]
	if ok {
		m.got++
	}
	return data, ok
}

func (m *memory) Put(key generator.Key, data []byte) {
	m.lock.Lock()
	defer m.lock.Unlock()
	m.in++
	m.all[key] = slices.Clone(data)
}

// drawn draws a pack that has no errors, with and without a store, and reports how they differ. It is false if the pack
// has errors.
func drawn(t *testing.T, files fstest.MapFS, store generator.Store, start *int) bool {
	t.Helper()
	proved, err := generator.Prove(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	if proved = proved.WithoutDrafts(); proved.HasErrors() {
		return false
	}
	proved.Start = start
	want, err := generator.Draw(t.Context(), proved)
	if err != nil {
		t.Fatal(err)
	}
	proved.Store = store
	got, err := generator.Draw(t.Context(), proved)
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(slices.Sorted(maps.Keys(got)), slices.Sorted(maps.Keys(want))) {
		t.Error("there are other files")
	}
	for name, data := range want {
		if !bytes.Equal(data, got[name]) {
			t.Errorf("%s has %d bytes, want %d others", name, len(got[name]), len(data))
		}
	}
	return true
}

// editWithin changes what pages of other lessons do not show: a line of a lesson, and a picture.
func editWithin(r *rand.Rand, files fstest.MapFS) {
	if r.IntN(2) == 0 {
		files["pictures/lock.svg"] = &fstest.MapFile{Data: []byte(drawing(3 * r.IntN(9)))}
		return
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if path.Ext(name) == ".md" && !strings.Contains(name, "/") && r.IntN(3) == 0 {
			line := fmt.Sprintf("\nMore %d. ![Lock](pictures/lock.svg)\n", r.IntN(90))
			files[name] = &fstest.MapFile{Data: append(slices.Clone(files[name].Data), line...)}
		}
	}
}

func TestWhatIsKeptNeverMakesABuildAnother(t *testing.T) {
	t.Parallel()
	store := &memory{all: map[generator.Key][]byte{}}
	r := rand.New(rand.NewPCG(3, 22))
	files := pack()
	compared := 0
	for n := range *edits / 30 { // each is a build or two
		before := maps.Clone(files)
		if r.IntN(2) == 0 {
			edit(r, files)
		} else {
			editWithin(r, files)
		}
		var start *int
		if r.IntN(5) == 0 {
			minute := 60 * r.IntN(3)
			start = &minute
		}
		if drawn(t, files, store, start) {
			compared++
		} else {
			files = before // most edits are of packs without errors
		}
		if t.Failed() {
			t.Fatalf("after edit %d", n)
		}
	}
	if compared < *edits/60 || store.got == 0 {
		t.Errorf("%d builds are compared; %d files are kept and taken %d times", compared, store.in, store.got)
	}
}

func TestALessonThatChangesIsDrawnAloneButForThePagesOfAll(t *testing.T) {
	t.Parallel()
	store := &memory{all: map[generator.Key][]byte{}}
	files := pack()
	drawn(t, files, store, nil)
	first := store.in
	drawn(t, files, store, nil)
	if store.in != first || store.got != first {
		t.Errorf("%d files are kept; the second time %d are taken, and %d drawn", first, store.got, store.in-first)
	}
	files["02-b.md"] = &fstest.MapFile{Data: append(slices.Clone(files["02-b.md"].Data), "\nMore.\n"...)}
	store.got = 0
	drawn(t, files, store, nil)
	// Its two pages, its steps, what the class's page knows of it, six sheets; in both editions the season, cards, the
	// style sheet and table of names; for mentors materials, what is sure, and the class's script; the season's four
	// files of sheets. What is searched of it and what the class's page lists of it are kept as parts.
	if most := 10 + 8 + 3 + 4 + 2; store.in-first > most {
		t.Errorf("of %d files %d are drawn anew, more than %d", first, store.in-first, most)
	}
}

func TestALessonIsDrawnAnewWhenItsPictureIsAnother(t *testing.T) {
	t.Parallel()
	store := &memory{all: map[generator.Key][]byte{}}
	files := pack()
	shows := append(slices.Clone(files["02-b.md"].Data), "\n![Lock](pictures/lock.svg)\n"...)
	files["02-b.md"] = &fstest.MapFile{Data: shows}
	for _, width := range []int{30, 60} { // pages say how large a picture is
		text := fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="20"><rect/></svg>`, width)
		files["pictures/lock.svg"] = &fstest.MapFile{Data: []byte(text)}
		if !drawn(t, files, store, nil) {
			t.Fatal("the pack has errors")
		}
	}
}
