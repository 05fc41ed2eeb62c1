package cache

import (
	"os"
	"path/filepath"
	"testing"
)

func TestTheLargestOfTheOthersGoFirst(t *testing.T) {
	place := t.TempDir()
	own := Open(place, Key{1}, Key{})
	own.Put(Key{}, make([]byte, 3000))
	for i, size := range []int{1000, 2000, 4000} {
		Open(place, Key{2 + byte(i)}, Key{}).Put(Key{}, make([]byte, size))
	}
	if err := os.MkdirAll(filepath.Join(place, "somebody's"), 0o700); err != nil {
		t.Fatal(err)
	}
	own.tidyOthers(7000)
	for name, want := range map[string]bool{filepath.Base(own.path): true, "0200000000000000": true,
		"0300000000000000": true, "0400000000000000": false, "somebody's": true} {
		if _, err := os.Stat(filepath.Join(place, name)); (err == nil) != want {
			t.Errorf("%s is there: %t, want %t", name, err == nil, want)
		}
	}
}
