package write

// Files that are written anew while they are read.

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestAFileIsAmendedWhileItIsRead has what is new before, with, after and without what was read.
func TestAFileIsAmendedWhileItIsRead(t *testing.T) {
	old := strings.Repeat("0123456789", 10_000)
	s, err := NewScratch(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for want, do := range map[string]func(to io.Writer, from io.Reader) error{
		"first" + old + "last": func(to io.Writer, from io.Reader) error {
			_, err := io.Copy(to, io.MultiReader(strings.NewReader("first"), from, strings.NewReader("last")))
			return err
		},
		strings.Repeat("xy", len(old)): func(to io.Writer, from io.Reader) error {
			for one := make([]byte, 1000); ; {
				n, err := from.Read(one)
				if err == io.EOF {
					return nil
				}
				io.WriteString(to, strings.Repeat("xy", n))
			}
		},
		"short": func(to io.Writer, from io.Reader) error {
			io.CopyN(io.Discard, from, 20)
			_, err := io.WriteString(to, "short")
			return err
		},
		old[7:]: func(to io.Writer, from io.Reader) error {
			io.CopyN(io.Discard, from, 7)
			_, err := io.Copy(to, from)
			return err
		},
		"": func(io.Writer, io.Reader) error { return nil },
	} {
		if err := s.Put("a/b", []byte(old)); err != nil {
			t.Fatal(err)
		}
		if err := s.Amend("a/b", do); err != nil {
			t.Error(err)
		}
		if got, err := os.ReadFile(filepath.Join(s.path, "a", "b")); err != nil || string(got) != want {
			t.Errorf("%.10q… of %d bytes is %.10q… of %d, %v", want, len(want), got, len(got), err)
		}
	}
}
