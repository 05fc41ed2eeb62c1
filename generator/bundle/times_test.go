package bundle_test

// Times that follow what is in a file: what web servers and copiers make of them.

import (
	"archive/zip"
	"bytes"
	"testing"
	"time"

	"trundle/generator/bundle"
)

func timeOf(t *testing.T, times bundle.Times, name, text string) time.Time {
	t.Helper()
	at, err := times(name, bundle.Text([]byte(text)))
	if err != nil {
		t.Fatal(err)
	}
	return at
}

func TestTimesFollowTheContentOfAFile(t *testing.T) {
	following := bundle.Following("1.0.0")
	at := timeOf(t, following, "a.html", "given L = 120 cm")
	for _, c := range []struct{ name, text string }{
		{"a.html", "given L = 130 cm"}, {"b.html", "given L = 120 cm"}, {"a.htm", "lgiven L = 120 cm"},
	} {
		if got := timeOf(t, following, c.name, c.text); got.Equal(at) {
			t.Errorf("%v has the same time, %v", c, got)
		}
	}
	if got := timeOf(t, bundle.Following("1.0.0"), "a.html", "given L = 120 cm"); !got.Equal(at) {
		t.Errorf("the same file has another time, %v", got)
	}
}

// TestALaterVersionHasLaterTimes is for copiers and servers that leave alone what is not newer.
func TestALaterVersionHasLaterTimes(t *testing.T) {
	last := time.Date(1980, time.January, 1, 23, 59, 59, 0, time.UTC)
	for _, version := range []string{
		"", "0.0.1", "0.2", "0.10.0", "1", "1.0.1", "1.1", "2", "2025-09", "2026-02-01", "2026.3",
	} {
		latest := last
		for i := range 200 {
			at := timeOf(t, bundle.Following(version), "a.html", string([]byte{byte(i)}))
			if !at.After(last) {
				t.Fatalf("%q: %v is not after %v, which an earlier version has", version, at, last)
			}
			if at.Second()%2 != 0 || at.Nanosecond() != 0 {
				t.Fatalf("%v is between two steps of a stick's clock", at)
			}
			if at.After(latest) {
				latest = at
			}
		}
		last = latest
	}
}

// TestAnyVersionHasTimesThatAZipCanHold has versions that are words, or numbers beyond all bounds.
func TestAnyVersionHasTimesThatAZipCanHold(t *testing.T) {
	for _, version := range []string{
		"spring", "v1", "999999999999999999999999", "99.99.99", "-1", "2063.15.15", "2099", "1.0.0.0.0",
	} {
		at := timeOf(t, bundle.Following(version), "a.html", "x")
		if at.Year() < 1980 || at.Year() > 2024 {
			t.Errorf("%s: %v", version, at)
		}
		data, err := zipped("f", map[string][]byte{"a.html": []byte("x")}, bundle.Following(version))
		if err != nil {
			t.Fatal(err)
		}
		z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range z.File {
			if f.Name == "f/a.html" && !f.Modified.Equal(at) {
				t.Errorf("%s: the zip has %v, not %v", version, f.Modified, at)
			}
		}
	}
}
