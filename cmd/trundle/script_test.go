package main

// The scripts of testdata/script, and the commands that they are written in.

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "write what the command printed into the scripts")

// cacheVariable names the folder for what is kept; scripts that do not set it keep nothing.
const cacheVariable = "TRUNDLE_TEST_CACHE"

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"trundle": func() { os.Exit(process(os.Getenv(cacheVariable))) },
	})
}

// The scripts run trundle as a coach would. Beside the commands of testscript they
// have these:
//
//	pack DIR                    complete DIR with the files of testdata/pack that it does
//	                            not have, with the lesson only if it has none
//	exits CODE PROGRAM [ARG...] run a program, which must end with this exit code; trundle runs in this process
//	refuse PACK                 build and prove PACK, which must fail with exit code 1 and
//	                            the same problems, write nothing, and leave a site that is
//	                            there byte for byte; stderr is then that of prove
//	hints                       every problem on stderr says what to do
//	edit FILE OLD NEW [TIMES]   put NEW, TIMES over, for every OLD; both may hold the
//	                            escapes of a Go string
//	picture FILE WxH            a picture in the format of FILE's ending, a JPEG with a
//	                            camera's notes in it
//	[!] same DIR DIR            the folders hold the same files with the same bytes
//	[!] holds DIR TEXT          some file below DIR holds TEXT
func TestScripts(t *testing.T) {
	scripts, err := filepath.Abs("testdata/script") // inProcess changes the working folder
	if err != nil {
		t.Fatal(err)
	}
	base, err := filepath.Abs("testdata/pack")
	if err != nil {
		t.Fatal(err)
	}
	sound := built(t, base)
	testscript.Run(t, testscript.Params{
		Dir:                 scripts,
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			env.Values[baseKey{}], env.Values[soundKey{}] = base, sound
			return nil
		},
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"pack":    packCommand,
			"exits":   exitsCommand,
			"refuse":  refuseCommand,
			"hints":   hintsCommand,
			"edit":    editCommand,
			"picture": pictureCommand,
			"same":    sameCommand,
			"holds":   holdsCommand,
		},
	})
}

// Keys of what scripts share: the folder of the sound pack, and the folder into which that was built.
type (
	baseKey  struct{}
	soundKey struct{}
)

// built builds the sound pack when it is first asked for, once for all scripts.
func built(t *testing.T, base string) func() string {
	site := filepath.Join(t.TempDir(), "site")
	return sync.OnceValue(func() string {
		var out bytes.Buffer
		if code := run(context.Background(), []string{"build", base, "-o", site}, &out, &out); code != fine {
			t.Errorf("the sound pack cannot be built: %s", out.String())
		}
		return site
	})
}

func packCommand(ts *testscript.TestScript, neg bool, args []string) {
	usage(ts, !neg && len(args) == 1, "pack DIR")
	base, dir := ts.Value(baseKey{}).(string), ts.MkAbs(args[0])
	lessons, err := filepath.Glob(filepath.Join(dir, "*.md"))
	ts.Check(err)
	for name, data := range folder(ts, base) {
		to := filepath.Join(dir, name)
		isLesson := filepath.Ext(name) == ".md" && !strings.Contains(name, "/")
		if _, err := os.Lstat(to); err == nil || isLesson && len(lessons) > 0 {
			continue
		}
		ts.Check(os.MkdirAll(filepath.Dir(to), 0o777))
		ts.Check(os.WriteFile(to, data, 0o666))
	}
}

func exitsCommand(ts *testscript.TestScript, neg bool, args []string) {
	usage(ts, !neg && len(args) >= 2, "exits CODE PROGRAM [ARG...]")
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	show(ts)(exits(ts, want, args[1], args[2:]...))
}

// show makes what was printed that of the script's command.
func show(ts *testscript.TestScript) func(stdout, stderr string) {
	return func(stdout, stderr string) {
		fmt.Fprint(ts.Stdout(), stdout)
		fmt.Fprint(ts.Stderr(), stderr)
	}
}

// atWork is held while trundle runs in this process, which has one working folder and one environment.
var atWork sync.Mutex

// inProcess runs trundle without a process of its own, which costs more than most of what scripts ask for. Scripts
// that say exec trundle run the program as it is.
func inProcess(ts *testscript.TestScript, args []string) (code int, stdout, stderr string) {
	atWork.Lock()
	defer atWork.Unlock()
	before, err := os.Getwd()
	ts.Check(err)
	ts.Check(os.Chdir(ts.MkAbs(".")))
	ts.Check(os.Setenv(epochVariable, ts.Getenv(epochVariable)))
	var out, errs bytes.Buffer
	code = run(context.Background(), args, &out, &errs)
	ts.Check(errors.Join(os.Chdir(before), os.Unsetenv(epochVariable)))
	return code, out.String(), errs.String()
}

// exits runs a program and gives what it printed.
func exits(ts *testscript.TestScript, want int, program string, args ...string) (stdout, stderr string) {
	got := 0
	if program == "trundle" {
		got, stdout, stderr = inProcess(ts, args)
		if got != want {
			ts.Fatalf("trundle %s: exit code %d, want %d\n%s%s", strings.Join(args, " "), got, want, stdout, stderr)
		}
		return stdout, stderr
	}
	if err := ts.Exec(program, args...); err != nil {
		var ended *exec.ExitError
		if !errors.As(err, &ended) {
			ts.Fatalf("%v", err)
		}
		got = ended.ExitCode()
	}
	if got != want {
		ts.Fatalf("%s %s: exit code %d, want %d\n%s%s", program, strings.Join(args, " "), got, want,
			ts.ReadFile("stdout"), ts.ReadFile("stderr"))
	}
	return ts.ReadFile("stdout"), ts.ReadFile("stderr")
}

func refuseCommand(ts *testscript.TestScript, neg bool, args []string) {
	usage(ts, !neg && len(args) == 1, "refuse PACK")
	pack := args[0]
	if _, err := os.Lstat(ts.MkAbs("site")); err != nil { // the first pack that this script has refused
		ts.Check(os.CopyFS(ts.MkAbs("site"), os.DirFS(ts.Value(soundKey{}).(func() string)())))
	}
	before := folder(ts, ts.MkAbs("."))

	exits(ts, 1, "trundle", "build", pack, "-o", "fresh")
	built, fromBuild := exits(ts, 1, "trundle", "build", pack, "-o", "site")
	proved, fromProve := exits(ts, 1, "trundle", "prove", pack)
	if built != "" || proved != "" {
		ts.Fatalf("standard output is not empty: %s%s", built, proved)
	}
	if difference := differ(before, folder(ts, ts.MkAbs("."))); difference != "" {
		ts.Fatalf("refusing %s changed files: %s", pack, difference)
	}
	if _, err := os.Lstat(ts.MkAbs("fresh")); err == nil {
		ts.Fatalf("refusing %s made a folder", pack)
	}
	if want := fromProve + "nothing was written; site is as it was\n"; fromBuild != want {
		ts.Fatalf("build and prove tell different problems\nbuild:\n%s\nprove:\n%s", fromBuild, want)
	}
	show(ts)(proved, fromProve)
}

// hintsCommand looks for the line that follows a problem's place and excerpt. The
// excerpt's lines have a bar; a hint starts with three blanks and has a word next.
func hintsCommand(ts *testscript.TestScript, neg bool, args []string) {
	usage(ts, !neg && len(args) == 0, "hints")
	var without []string
	count := 0
	for _, problem := range strings.Split(ts.ReadFile("stderr"), "\n\n") {
		lines := strings.Split(problem, "\n")
		if !strings.Contains(lines[0], ": error: ") && !strings.Contains(lines[0], ": caution: ") {
			continue
		}
		count++
		if !slices.ContainsFunc(lines[1:], func(line string) bool {
			rest, ok := strings.CutPrefix(line, "   ")
			return ok && rest != "" && rest[0] != ' ' && !isExcerpt(rest)
		}) {
			without = append(without, lines[0])
		}
	}
	if count == 0 || len(without) > 0 {
		ts.Fatalf("%d of %d problems have no hint:\n%s", len(without), count, strings.Join(without, "\n"))
	}
}

// isExcerpt tells whether a line is a source line with its number.
func isExcerpt(line string) bool {
	number, _, ok := strings.Cut(strings.TrimSpace(line), " | ")
	_, err := strconv.Atoi(number)
	return ok && err == nil
}

func editCommand(ts *testscript.TestScript, neg bool, args []string) {
	usage(ts, !neg && (len(args) == 3 || len(args) == 4), "edit FILE OLD NEW [TIMES]")
	before, after := unescape(ts, args[1]), unescape(ts, args[2])
	if len(args) == 4 {
		times, err := strconv.Atoi(args[3])
		ts.Check(err)
		after = strings.Repeat(after, times)
	}
	text := ts.ReadFile(args[0])
	if !strings.Contains(text, before) {
		ts.Fatalf("%s does not hold %q", args[0], before)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.ReplaceAll(text, before, after)), 0o666))
}

func unescape(ts *testscript.TestScript, s string) string {
	text, err := strconv.Unquote(`"` + strings.ReplaceAll(s, `"`, `\"`) + `"`)
	ts.Check(err)
	return text
}

// notes are what a camera named Heronware writes into a photo, as Exif.
const notes = "Exif\x00\x00MM\x00*\x00\x00\x00\x08" +
	"\x00\x01\x01\x0f\x00\x02\x00\x00\x00\x0a\x00\x00\x00\x1a\x00\x00\x00\x00Heronware\x00"

func pictureCommand(ts *testscript.TestScript, neg bool, args []string) {
	usage(ts, !neg && len(args) == 2, "picture FILE WxH")
	var w, h int
	if _, err := fmt.Sscanf(args[1], "%dx%d", &w, &h); err != nil {
		ts.Fatalf("%q is not a size", args[1])
	}
	m := image.NewPaletted(image.Rect(0, 0, w, h), color.Palette{color.White, color.Black})
	for i := range w * h {
		m.Pix[i] = uint8(i * i >> 3 & 1)
	}
	var b bytes.Buffer
	switch path.Ext(args[0]) {
	case ".jpg":
		ts.Check(jpeg.Encode(&b, m, nil))
		noted := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, byte(len(notes) + 2)}, notes...)
		b = *bytes.NewBuffer(append(noted, b.Bytes()[2:]...))
	case ".gif":
		ts.Check(gif.Encode(&b, m, nil))
	default:
		ts.Check(png.Encode(&b, m))
	}
	ts.Check(os.MkdirAll(filepath.Dir(ts.MkAbs(args[0])), 0o777))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), b.Bytes(), 0o666))
}

func sameCommand(ts *testscript.TestScript, neg bool, args []string) {
	usage(ts, len(args) == 2, "[!] same DIR DIR")
	difference := differ(folder(ts, ts.MkAbs(args[0])), folder(ts, ts.MkAbs(args[1])))
	if (difference == "") == neg {
		ts.Fatalf("%s and %s: same is %v; %s", args[0], args[1], neg, difference)
	}
}

func holdsCommand(ts *testscript.TestScript, neg bool, args []string) {
	usage(ts, len(args) == 2, "[!] holds DIR TEXT")
	files := folder(ts, ts.MkAbs(args[0]))
	if len(files) == 0 {
		ts.Fatalf("%s is empty", args[0])
	}
	var with []string
	for name, data := range files {
		if bytes.Contains(data, []byte(args[1])) {
			with = append(with, name)
		}
	}
	slices.Sort(with)
	if (len(with) > 0) == neg {
		ts.Fatalf("%q in the files of %s: %q", args[1], args[0], with)
	}
}

func usage(ts *testscript.TestScript, ok bool, form string) {
	if !ok {
		ts.Fatalf("usage: %s", form)
	}
}

// folder gives every file below dir, by its slash-separated name; a link counts
// with its target.
func folder(ts *testscript.TestScript, dir string) map[string][]byte {
	files := map[string][]byte{}
	ts.Check(filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		switch {
		case e.IsDir():
			return nil
		case e.Type() == fs.ModeSymlink:
			target, err := os.Readlink(path)
			files[name] = []byte("link to " + target)
			return err
		}
		files[name], err = os.ReadFile(path)
		return err
	}))
	return files
}

// differ says in what two folders differ, "" if in nothing.
func differ(a, b map[string][]byte) string {
	var all []string
	for name, data := range a {
		if other, ok := b[name]; !ok {
			all = append(all, "only the first has "+name)
		} else if !bytes.Equal(data, other) {
			all = append(all, name+" differs")
		}
	}
	for name := range b {
		if _, ok := a[name]; !ok {
			all = append(all, "only the second has "+name)
		}
	}
	slices.Sort(all)
	return strings.Join(all, ", ")
}
