package pages_test

// Pages against the rules of HTML.

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"trundle/testdata/browser"
)

// vnuJar is the Nu HTML checker.
var vnuJar = outsider{name: "vnu-jar", version: "26.9.27",
	sum: "TkQd5DFfOaWC9ebtvozTsrH2Vaod3jYg+vrOeREzIXxBexLz9+rS2DNtjn7+RPUiZhgli0SghgBX6RJRNea0KA=="}

// TestNu has the Nu HTML checker read every page of both editions, the style sheet
// and the icon.
func TestNu(t *testing.T) {
	t.Parallel()
	java, err := exec.LookPath("java")
	if err != nil {
		t.Fatal("this test needs java in the PATH: install default-jre-headless")
	}
	built := browser.Demo(t)
	jar := filepath.Join(t.TempDir(), "vnu.jar")
	if err := os.WriteFile(jar, vnuJar.file(t, "package/build/dist/vnu.jar"), 0o644); err != nil {
		t.Fatal(err)
	}
	// A page with a known fault, to see that faults are told.
	faulty := filepath.Join(t.TempDir(), "faulty.html")
	if err := os.WriteFile(faulty, []byte("<!DOCTYPE html><title>Faulty</title><p id=a><p id=a>"), 0o644); err != nil {
		t.Fatal(err)
	}
	// It runs for seconds: it need not compile its best code, nor have threads that look for garbage.
	arguments := []string{"-Xss4m", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-jar", jar,
		"--stdout", "--format", "json", "--exit-zero-always",
		"--also-check-css", "--also-check-svg", "students/assets/site.css", "students/assets/icon.svg", faulty}
	cmd := exec.Command(java, append(arguments, built.Pages...)...)
	cmd.Dir = built.Dir
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("java: %v\n%s", err, stderr.Bytes())
	}
	var told struct{ Messages []nuMessage }
	if err := json.Unmarshal(out, &told); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	faults := 0
	notes := map[string][]nuMessage{}
	for _, m := range told.Messages {
		switch {
		case strings.HasSuffix(m.URL, "/faulty.html"):
			faults++
		case m.Type == "info" || strings.HasSuffix(m.URL, ".css"): // it may not know what is new in CSS
			notes[m.Message] = append(notes[m.Message], m)
		default:
			t.Error(m)
		}
	}
	for _, of := range notes {
		t.Logf("%d times, first %s", len(of), of[0])
	}
	if faults == 0 {
		t.Errorf("the checker finds nothing wrong with %s", faulty)
	}
}

// A nuMessage is what the Nu HTML checker says of a place in a page.
type nuMessage struct {
	Type, SubType, URL, Message, Extract string
	LastLine, LastColumn                 int
}

func (m nuMessage) String() string {
	edition, page := path.Split(m.URL)
	return fmt.Sprintf("%s/%s:%d:%d: %s %s: %s: %q", path.Base(edition), page, m.LastLine, m.LastColumn, m.Type, m.SubType,
		m.Message, m.Extract)
}
