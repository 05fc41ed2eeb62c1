package keeping_test

// What a club does: unpack a bundle into a folder of a web server, and later another version over it.

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"testing/fstest"
	"time"

	"trundle/generator"
	"trundle/testdata/browser"
)

const (
	lesson = "students/01-t.html"
	other  = "students/02-u.html"
)

// packOf is a small pack: one given, and the name of one box, change from version to version.
func packOf(version, given, box string) fstest.MapFS {
	pack := browser.PackOf("```work\nmeasure d = 65 mm \"Wheel\"\ngiven k = " + given + " rot \"Rotations\"\n" +
		"find x in cm to 0.1 = distance(k, d) \"How far?\"\n```\n")
	pack["pack.yaml"] = &fstest.MapFile{Data: []byte("title: P\nversion: " + version + "\nkit: heron\n")}
	second := strings.Replace(string(pack["01-t.md"].Data), "title: T\nweek: 1", "title: U\nweek: 2", 1)
	head, _, _ := strings.Cut(second, "```work")
	pack["02-u.md"] = &fstest.MapFile{Data: []byte(head + "```work\nmeasure d = 65 mm \"Wheel\"\n" +
		"find " + box + " in rot to 0.01 = rotations(120 cm, d) \"How many?\"\n```\n")}
	return pack
}

// bundles are those of both versions, for students, made once.
var bundles = sync.OnceValues(func() (zips [2][]byte, err error) {
	for i, pack := range []fstest.MapFS{packOf("1.0.0", "3.5", "n"), packOf("1.0.1", "4.5", "turns")} {
		proved, err := generator.Prove(context.Background(), pack)
		if err != nil {
			return zips, err
		}
		if proved.HasErrors() {
			return zips, fmt.Errorf("the pack has errors: %v", proved.Problems)
		}
		made, err := generator.Bundles(context.Background(), proved, time.Time{}, func(int, int) {})
		if err != nil {
			return zips, err
		}
		zips[i] = made[fmt.Sprintf("p-1.0.%d-students.zip", i)]
	}
	return zips, nil
})

// unpacked gives the folder that unzip makes of a version's bundle.
func unpacked(t *testing.T, version int) string {
	t.Helper()
	zips, err := bundles()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "b.zip"), zips[version], 0o600); err != nil {
		t.Fatal(err)
	}
	run(t, dir, "unzip", "-q", "b.zip")
	return filepath.Join(dir, fmt.Sprintf("p-1.0.%d-students", version))
}

func run(t *testing.T, dir, name string, args ...string) {
	t.Helper()
	command := exec.Command(name, args...)
	command.Dir = dir
	if said, err := command.CombinedOutput(); err != nil {
		t.Fatalf("%s %v, which this test needs: %v\n%s", name, args, err, said)
	}
}

// A publishing puts an unpacked bundle where another may be already.
type publishing func(t *testing.T, unpacked, web string)

// byUnzip has the files carry the times that the zip gives them, as unzip does.
func byUnzip(t *testing.T, unpacked, web string) {
	t.Helper()
	if err := os.RemoveAll(web); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(unpacked, web); err != nil {
		t.Fatal(err)
	}
}

func byRsync(t *testing.T, unpacked, web string) {
	t.Helper()
	run(t, unpacked, "rsync", "-a", "./", web)
	run(t, web, "sha256sum", "--check", "--quiet", "SHA256SUMS")
}

// A server gives the address at which it serves a folder until the test ends.
type server func(t *testing.T, web string) string

// plain knows times of files, and nothing else.
func plain(t *testing.T, web string) string {
	t.Helper()
	s := httptest.NewServer(http.FileServer(http.Dir(web)))
	t.Cleanup(s.Close)
	return local(s.URL)
}

// local is an address that browsers trust as they trust https.
func local(address string) string { return strings.Replace(address, "127.0.0.1", "localhost", 1) + "/" }

const nginxConf = `daemon off; worker_processes 1; pid nginx.pid; error_log stderr; %s
events { worker_connections 64; }
http {
  types { text/html html; text/javascript js; text/css css; image/svg+xml svg; application/pdf pdf; }
  access_log off;
  client_body_temp_path body; proxy_temp_path proxy; fastcgi_temp_path fast; uwsgi_temp_path uwsgi; scgi_temp_path scgi;
  server { listen 127.0.0.1:%d; root %q; }
}
`

// nginx is one of the usual servers, as it comes.
func nginx(t *testing.T, web string) string {
	t.Helper()
	program, err := exec.LookPath("nginx")
	if err != nil { // Debian has it where only root looks
		program, err = exec.LookPath("/usr/sbin/nginx")
	}
	if err != nil {
		t.Fatalf("this test needs nginx, in the PATH or in /usr/sbin (Debian: nginx-light): %v", err)
	}
	dir, port, user := t.TempDir(), freePort(t), ""
	if os.Getuid() == 0 {
		user = "user root;" // or it could not read a test's folder
	}
	conf := filepath.Join(dir, "nginx.conf")
	if err := os.WriteFile(conf, fmt.Appendf(nil, nginxConf, user, port, web), 0o600); err != nil {
		t.Fatal(err)
	}
	var said strings.Builder
	command := exec.Command(program, "-p", dir, "-c", conf, "-e", "stderr")
	command.Stderr = &said
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = command.Process.Signal(syscall.SIGTERM)
		_ = command.Wait()
		if t.Failed() {
			t.Log(said.String())
		}
	})
	at := fmt.Sprintf("127.0.0.1:%d", port)
	for end := time.Now().Add(browser.Patience); ; time.Sleep(10 * time.Millisecond) {
		c, err := net.Dial("tcp", at)
		if err == nil {
			_ = c.Close()
			return local("http://" + at)
		}
		if time.Now().After(end) {
			t.Fatalf("nginx does not answer: %v", err)
		}
	}
}

func freePort(t *testing.T) int {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port
}
