package cache_test

// What is damaged, cut off, of another key or another program is not there; nothing ends a program.

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"trundle/generator/cache"
)

func key(n int) cache.Key { return sha256.Sum256(fmt.Append(nil, n)) }

// files are those of the only folder below a place.
func files(t *testing.T, place string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(place, "*", "*"))
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func TestWhatIsKeptIsThereForTheSameProgramAlone(t *testing.T) {
	place := t.TempDir()
	text := []byte("a sheet")
	cache.Open(place, key(0), key(1)).Put(key(2), text)
	if got, ok := cache.Open(place, key(0), key(1)).Get(key(2)); !ok || !bytes.Equal(got, text) {
		t.Errorf("it is %q, %t", got, ok)
	}
	for what, other := range map[string]*cache.Folder{
		"another program": cache.Open(place, key(0), key(3)), "another pack": cache.Open(place, key(3), key(1)),
		"another place": cache.Open(t.TempDir(), key(0), key(1)),
	} {
		if got, ok := other.Get(key(2)); ok {
			t.Errorf("%s gets %q", what, got)
		}
	}
	if got, ok := cache.Open(place, key(0), key(1)).Get(key(3)); ok {
		t.Errorf("another key gets %q", got)
	}
}

func TestADamagedFileIsNotThere(t *testing.T) {
	place := t.TempDir()
	f := cache.Open(place, key(0), key(1))
	text := bytes.Repeat([]byte("x"), 50)
	f.Put(key(2), text)
	f.Put(key(3), text)
	names := files(t, place)
	whole, err := os.ReadFile(names[0])
	other, err2 := os.ReadFile(names[1])
	if err != nil || err2 != nil || len(names) != 2 {
		t.Fatal(err, err2, names)
	}
	broken := [][]byte{nil, other, append(slices.Clone(whole), 'x')} // empty, another's, too long
	for i := range whole {
		flipped := slices.Clone(whole)
		flipped[i] ^= 1
		broken = append(broken, flipped, whole[:i])
	}
	for i, data := range broken {
		if err := os.WriteFile(names[0], data, 0o600); err != nil {
			t.Fatal(err)
		}
		got := 0
		for _, k := range []cache.Key{key(2), key(3)} {
			if found, ok := f.Get(k); ok {
				got++
				if !bytes.Equal(found, text) {
					t.Errorf("damage %d: it is %q", i, found)
				}
			}
		}
		if got != 1 {
			t.Errorf("damage %d: %d of two are there, want the other one", i, got)
		}
	}
}

func TestWhereNothingCanBeWrittenNothingIsKept(t *testing.T) {
	place := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(place, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	f := cache.Open(place, key(0), key(1))
	f.Put(key(2), []byte("x"))
	if _, ok := f.Get(key(2)); ok {
		t.Error("it is kept in a file's place")
	}
	f.Tidy()
}

func TestManyAtATimeDisturbNobody(t *testing.T) {
	place := t.TempDir()
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			f := cache.Open(place, key(0), key(1))
			for n := range 40 {
				want := bytes.Repeat(fmt.Append(nil, n%5), 10_000)
				f.Put(key(n%5), want)
				if got, ok := f.Get(key(n % 5)); ok && !bytes.Equal(got, want) {
					t.Error("it is another")
				}
			}
			f.Tidy()
		})
	}
	wait.Wait()
}

func TestWhatNoRunNeedsAnyMoreGoesWhenItIsTooMuch(t *testing.T) {
	place := t.TempDir()
	large := bytes.Repeat([]byte("x"), 5<<20)
	one := cache.Open(place, key(0), key(1))
	one.Put(key(2), large)
	one.Put(key(3), large)
	two := cache.Open(place, key(0), key(1))
	two.Get(key(2))
	if two.Tidy(); len(files(t, place)) != 2 {
		t.Error("an edit or two cannot be taken back")
	}
	for n := range 2 {
		one.Put(key(4+n), large)
	}
	if err := os.WriteFile(filepath.Join(filepath.Dir(files(t, place)[0]), "new-123"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	two.Tidy()
	if left := files(t, place); len(left) != 1 {
		t.Errorf("%q are left, want what the last run needed alone", left)
	}
	if _, ok := two.Get(key(2)); !ok {
		t.Error("what the last run needed is gone")
	}
}

func TestTheProgramThatRunsHasAKey(t *testing.T) {
	a, err := cache.Program()
	b, err2 := cache.Program()
	if err != nil || err2 != nil || a != b || a == (cache.Key{}) {
		t.Error(a, b, err, err2)
	}
}
