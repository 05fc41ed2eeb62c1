package generator_test

// What a build takes of a pack as large as one likes, made of the demo's own lessons: processor time and memory of the
// command, and what of them grows with the lessons.

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"testing"
	"testing/fstest"
	"time"

	"trundle/generator"
	"trundle/site"
	"trundle/testdata/used"
)

var (
	demoName = regexp.MustCompile(`^(\d\d)-[\w-]+\.md$`)
	demoID   = regexp.MustCompile(`(?m)^id: (.*)$`)
	demoLink = regexp.MustCompile(`\]\((\d\d)-([\w-]+)\.md`)
)

// season is a pack with so many lessons: the demo's, again and again under other names and ids, each round's links
// within the round.
func season(tb testing.TB, lessons int) fstest.MapFS {
	tb.Helper()
	pack := fstest.MapFS{}
	var own []string
	demo := os.DirFS("../lessons")
	err := fs.WalkDir(demo, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		if demoName.MatchString(name) {
			own = append(own, name)
			return nil
		}
		data, err := fs.ReadFile(demo, name)
		pack[name] = &fstest.MapFile{Data: data}
		return err
	})
	for i := 0; i < lessons && err == nil; i++ {
		name, round := own[i%len(own)], i/len(own)
		var text []byte
		text, err = fs.ReadFile(demo, name)
		text = demoID.ReplaceAll(text, fmt.Appendf(nil, "id: ${1}-%d", round))
		text = demoLink.ReplaceAllFunc(text, func(link []byte) []byte {
			m := demoLink.FindSubmatch(link)
			number, _ := strconv.Atoi(string(m[1]))
			return fmt.Appendf(nil, "](%05d-%s.md", round*len(own)+number, m[2])
		})
		pack[fmt.Sprintf("%05d-%s", i+1, name[3:])] = &fstest.MapFile{Data: text}
	}
	if err != nil {
		tb.Fatal(err)
	}
	return pack
}

// BenchmarkCommand runs the command as a process of its own, since only that has a peak of memory, on whole rounds of
// the demo's lessons, which link to each other. Longer ones take -bench 'Command/lessons=1300$' -benchtime 1x.
func BenchmarkCommand(b *testing.B) {
	program := filepath.Join(b.TempDir(), "trundle")
	out, err := exec.CommandContext(b.Context(), "go", "build", "-o", program, "../cmd/trundle").CombinedOutput()
	if err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	for _, lessons := range []int{13, 130, 1300, 13000} {
		b.Run(fmt.Sprintf("lessons=%d", lessons), func(b *testing.B) {
			dir := b.TempDir()
			pack := filepath.Join(dir, "pack")
			if err := os.CopyFS(pack, season(b, lessons)); err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				proving, _, _ := measured(b, program, "prove", "-q", pack)
				building, wall, peak := measured(b, program, "build", "--afresh", "-q", pack, "-o",
					filepath.Join(dir, "out"))
				b.ReportMetric(float64(proving.Milliseconds())/float64(lessons), "prove-cpu-ms/lesson")
				b.ReportMetric(float64(building.Milliseconds())/float64(lessons), "build-cpu-ms/lesson")
				b.ReportMetric(float64(building)/float64(proving), "build/prove")
				b.ReportMetric(float64(wall)/float64(building), "wall/cpu")
				b.ReportMetric(float64(peak)/(1<<20), "peak-MiB")
			}
		})
	}
}

// BenchmarkProve and BenchmarkDraw are for -cpuprofile: the command's work in this process, without what is kept.
func BenchmarkProve(b *testing.B) {
	pack := season(b, 130)
	for b.Loop() {
		if _, err := generator.Prove(b.Context(), pack); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDraw(b *testing.B) {
	proved, err := generator.Prove(b.Context(), season(b, 130))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := generator.Draw(b.Context(), proved); err != nil {
			b.Fatal(err)
		}
	}
}

// measured runs a program and gives its time on processors and by the clock, and its most memory.
func measured(b *testing.B, program string, args ...string) (cpu, wall time.Duration, peak int64) {
	b.Helper()
	c := exec.CommandContext(b.Context(), program, args...)
	begun := time.Now()
	if out, err := c.CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, out)
	}
	return c.ProcessState.UserTime() + c.ProcessState.SystemTime(), time.Since(begun), used.Peak(c.ProcessState)
}

// heldByProving is how many bytes are held of a pack that was proved and let go, and is to be drawn, beside its own
// files.
func heldByProving(t *testing.T, lessons int) int64 {
	t.Helper()
	pack := season(t, lessons)
	s, err := site.New("en")
	if err != nil {
		t.Fatal(err)
	}
	var before, after runtime.MemStats
	runtime.GC()
	runtime.GC()
	runtime.ReadMemStats(&before)
	proved, err := generator.ProveKeeping(t.Context(), 0, pack)
	if err != nil || proved.HasErrors() {
		t.Fatal(err, proved.Problems)
	}
	files := generator.ToDraw(proved, s)
	runtime.GC()
	runtime.GC() // pools let go of what they have in the second
	runtime.ReadMemStats(&after)
	runtime.KeepAlive(proved)
	runtime.KeepAlive(files)
	runtime.KeepAlive(pack)
	return int64(after.HeapAlloc) - int64(before.HeapAlloc)
}

// TestALargePackIsNotKeptWhole has two packs whose lessons are let go: what one more lesson takes is an outline, a
// fiftieth of what its tree and values take, and next to nothing for its files before it is drawn. Whole rounds of the
// demo's lessons are compared with each other.
func TestALargePackIsNotKeptWhole(t *testing.T) {
	const fewer, more, most = 13, 26, 5400
	heldByProving(t, fewer) // what is made once, such as patterns
	if each := (heldByProving(t, more) - heldByProving(t, fewer)) / (more - fewer); each > most {
		t.Errorf("each lesson holds %d bytes after it was proved, more than %d", each, most)
	} else {
		t.Logf("each lesson holds %d bytes", each)
	}
}

// TestAnOutlineDrawsWhatTheLessonDraws compares files of a pack whose lessons were let go with those that the preview
// makes, which keeps them.
func TestAnOutlineDrawsWhatTheLessonDraws(t *testing.T) {
	pack := season(t, 13)
	proved, err := generator.ProveKeeping(t.Context(), 12, pack)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := new(generator.Memory).Prove(t.Context(), pack)
	if err != nil {
		t.Fatal(err)
	}
	if !proved.Lessons[0].IsOutline() || whole.Lessons[0].IsOutline() {
		t.Fatal("the one is to be let go, and the other kept")
	}
	if len(proved.Problems) != len(whole.Problems) {
		t.Errorf("%d problems, and %d of lessons that are kept", len(proved.Problems), len(whole.Problems))
	}
	want := commonFiles(t, whole)
	for name, data := range commonFiles(t, proved) {
		if !bytes.Equal(data, want[name]) {
			t.Errorf("%s is another", name)
		}
	}
}

// commonFiles are the files that are made of all lessons: pages, scripts and styles.
func commonFiles(t *testing.T, p *generator.Proved) map[string][]byte {
	t.Helper()
	s, err := site.New("en")
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	for _, e := range site.Editions {
		jobs := append(generator.CommonJobs(s, p.Pack, e), generator.PictureJobs(p.Pack, e)...)
		jobs = append(jobs, generator.LessonJobs(s, p.Pack, p.Open(p.Lessons[4]), e)[0])
		for _, j := range jobs {
			if files[j.Name], err = j.Make(); err != nil {
				t.Fatal(err)
			}
		}
	}
	return files
}
