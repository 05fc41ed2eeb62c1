package main

// Tests of the archives of a release, made by .ci/release and used on a machine that has nothing but them.

import (
	"archive/tar"
	"bufio"
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

// released makes the archive of this computer's system and processor from the sources in a folder, and gives its bytes.
func released(t *testing.T, sources string) []byte {
	t.Helper()
	out := t.TempDir()
	release := exec.Command("bash", filepath.Join(sources, ".ci", "release"), "1.2.3", out)
	release.Env = append(os.Environ(), "TARGETS=linux/"+runtime.GOARCH)
	if said, err := release.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	sums := exec.Command("sha256sum", "--quiet", "--strict", "-c", "SHA256SUMS")
	sums.Dir = out
	if said, err := sums.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, said)
	}
	archive, err := os.ReadFile(filepath.Join(out, "trundle-1.2.3-linux-"+runtime.GOARCH+".tar.gz"))
	if err != nil {
		t.Fatal(err)
	}
	return archive
}

// unpack unpacks an archive, whose files must all lie in one folder and be nobody's; it gives that folder.
func unpack(t *testing.T, archive []byte) string {
	t.Helper()
	into, folder := t.TempDir(), "trundle-1.2.3-linux-"+runtime.GOARCH
	z, err := gzip.NewReader(bytes.NewReader(archive))
	if err != nil {
		t.Fatal(err)
	}
	files := tar.NewReader(z)
	for {
		h, err := files.Next()
		if errors.Is(err, io.EOF) {
			return filepath.Join(into, folder)
		}
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(h.Name, folder+"/") || h.Uid != 0 || h.Uname != "" || h.ModTime.Year() != 1980 {
			t.Errorf("%s is of user %d %q and of %v", h.Name, h.Uid, h.Uname, h.ModTime)
		}
		name := filepath.Join(into, h.Name)
		if h.FileInfo().IsDir() {
			err = os.Mkdir(name, 0o755)
		} else {
			var data []byte
			if data, err = io.ReadAll(files); err == nil {
				err = os.WriteFile(name, data, h.FileInfo().Mode())
			}
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

func TestAReleaseIsTheSameFromEveryFolderAndRunsOnABareMachine(t *testing.T) {
	t.Parallel()
	archive := released(t, "../..")
	other := filepath.Join(t.TempDir(), "größer", "a longer way")
	for _, part := range []string{".ci", "cmd", "generator", "site", "worksheets"} {
		if err := os.CopyFS(filepath.Join(other, part), os.DirFS(filepath.Join("../..", part))); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"go.mod", "go.sum"} {
		data, err := os.ReadFile(filepath.Join("../..", name))
		if err = errors.Join(err, os.WriteFile(filepath.Join(other, name), data, 0o600)); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(released(t, other), archive) {
		t.Error("the archive differs when the sources lie in another folder")
	}

	dir := unpack(t, archive)
	for name, want := range map[string]string{"README.txt": "./trundle start mypack", "NOTICES.txt": notices} {
		if data, err := os.ReadFile(filepath.Join(dir, name)); err != nil || !strings.Contains(string(data), want) {
			t.Errorf("%s: %v, or it is not what it should be", name, err)
		}
	}
	home := t.TempDir()
	begin := func(ctx context.Context, args ...string) *exec.Cmd {
		c := exec.CommandContext(ctx, filepath.Join(dir, "trundle"), args...)
		c.Dir, c.Env = home, []string{"HOME=" + home, "PATH=/nowhere"}
		return c
	}
	for _, line := range [][2]string{
		{"--version", "trundle 1.2.3\n"},
		{"start mypack", "mypack: a pack of two lessons"},
		{"prove mypack", "2 lessons, "},
		{"build mypack -o out", "out/students/index.html"},
		{"bundle mypack -o club", "-students.zip"},
	} {
		said, err := begin(t.Context(), strings.Fields(line[0])...).CombinedOutput()
		if err != nil || !strings.Contains(string(said), line[1]) {
			t.Errorf("trundle %s: %v\n%s", line[0], err, said)
		}
	}
	servesAPage(t, begin)
}

// servesAPage starts the preview of the new pack, gets its first page, and ends it.
func servesAPage(t *testing.T, begin func(ctx context.Context, args ...string) *exec.Cmd) {
	t.Helper()
	ctx, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	preview := begin(ctx, "preview", "mypack", "--port", "0")
	preview.Cancel = func() error { return preview.Process.Signal(os.Interrupt) }
	printed, err := preview.StdoutPipe()
	if err == nil {
		err = preview.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	address := ""
	for lines := bufio.NewScanner(printed); address == "" && lines.Scan(); {
		if at := strings.Index(lines.Text(), "http://"); at >= 0 {
			address, _, _ = strings.Cut(lines.Text()[at:], " ")
		}
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, address, nil)
	if err != nil {
		t.Fatal(err)
	}
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	page, err := io.ReadAll(response.Body)
	_ = response.Body.Close()
	if err != nil || response.StatusCode != http.StatusOK || !bytes.Contains(page, []byte("<html")) {
		t.Errorf("%s: %s, %v\n%.200s", address, response.Status, err, page)
	}
	stop()
	if err := preview.Wait(); err != nil && !errors.Is(err, context.Canceled) {
		t.Errorf("the preview ends with %v", err)
	}
}

func TestAReleaseNeedsAVersionAndKnownTargets(t *testing.T) {
	for line, want := range map[string]string{
		"":                    "release: a version is needed",
		"1.2":                 "release: 1.2 is not a version",
		"v1.2.3":              "release: v1.2.3 is not a version",
		"1.2.3 a b":           "release: a version is needed",
		"1.2.3/../..":         "is not a version",
		"1.02.3":              "is not a version",
		"1.2.3-":              "is not a version",
		"1.2.3-rc.1 /nowhere": "there is no archive for plan9/amd64",
	} {
		release := exec.Command("bash", append([]string{"../../.ci/release"}, strings.Fields(line)...)...)
		release.Env = append(os.Environ(), "TARGETS=plan9/amd64")
		said, err := release.CombinedOutput()
		var ended *exec.ExitError
		if !errors.As(err, &ended) || ended.ExitCode() != misused || !strings.Contains(string(said), want) {
			t.Errorf("release %s: %v\n%s", line, err, said)
		}
	}
}
