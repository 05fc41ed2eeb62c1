package chart

import (
	"bytes"
	"compress/gzip"
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the golden pictures, to be looked at")

// TestPicturesAreAsLookedAt holds each picture against the one that was looked at.
func TestPicturesAreAsLookedAt(t *testing.T) {
	for name, draw := range samples() {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join("testdata", name+".svg")
			got := draw().SVG
			if *update {
				if err := os.WriteFile(file, []byte(got+"\n"), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if got+"\n" != string(want) {
				t.Errorf("the picture is another; look at it with -update\n%s", got)
			}
			t.Logf("%d bytes, %d packed", len(got), packed(t, got))
		})
	}
}

func packed(t *testing.T, s string) int {
	t.Helper()
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := z.Write([]byte(s)); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Len()
}
