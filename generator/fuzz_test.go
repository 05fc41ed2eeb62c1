package generator_test

// Fuzz targets for the files of a pack as a whole: each puts one text into a small pack that is otherwise
// sound, works
// it out, prints what is wrong with it and, if nothing is, draws its pages. The parsers' own targets are beside them.

import (
	"bytes"
	"io"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
	"trundle/generator/problem"
	"trundle/generator/tally"
	"trundle/site"
)

// longestFuzzed bounds what is tried: what takes long because it is long has limits, and tests of its own.
const longestFuzzed = 8 << 10

// soundLesson is a lesson to which a block can be added.
const soundLesson = "---\ntitle: A\nid: a\nweek: 1\nminutes: 10\ngoals: [\"Roll.\"]\ncare: [cloth]\n---\n\n## " +
	"Roll (10 min)\n\n" +
	"```work\nmeasure d = kit.wheel \"Wheel\"\ngiven L = 120 cm \"Gate\"\nfind C in cm to 0.1 = " +
	"circumference(d) \"One turn\"\n" +
	"key C = 20.4 cm\nrecord s[3] in cm to 0.1 = 118.8, 120.3, 119.6 \"Stops\"\nfind m in cm to 0.1 = mean(s) " +
	"\"Mean\"\n" +
	"```\n\n"

const soundCard = "---\ntitle: Cloth\nwho: both\nstudents: \"Wipe wheels with a cloth.\"\nadults: \"Sharp " +
	"tools.\"\n" +
	"hazards: []\nwear: []\nmentions: [damp cloth]\n---\n\n## Before\n\n- Switch the robot off.\n\n## " +
	"During\n\n1. Wipe.\n\n" +
	"## After\n\n- Wash your hands.\n\n## If something goes wrong\n\n- Call an adult. Your local emergency " +
	"number: 112\n"

const soundRuns = "base,run,stop (cm),drift (mm)\nHeron,1,120.0,24\nHeron,2,118.9,28\nHeron,3,119.4,16\n" +
	"Coot,1,121.4,11\n" +
	"Coot,2,120.2,9\nCoot,3,122.0,3\n"

// usesRuns are blocks that take all that a file of runs has.
const usesRuns = "```runs data/a.csv\ngroup base\nalong stop in cm to 0.1 = 120 cm \"How far\"\n" +
	"across drift in mm to 1 \"How straight\"\n```\n\n" +
	"```chart data/a.csv\ntitle \"Stops\"\ngroup base\ndots stop in cm = 120 cm \"Stopping place\"\n```\n\n" +
	"```chart data/a.csv\ntitle \"Drift\"\ngroup base\nbars drift in mm \"How straight\"\n```\n"

// soundPack is a pack of one lesson with one file changed or added.
func soundPack(name, text string) fstest.MapFS {
	pack := fstest.MapFS{}
	for name, text := range map[string]string{
		"pack.yaml": "title: T\nid: t\nversion: 1.0.0\nkit: heron\n",
		"kits.yaml": "heron: {title: Heron, wheel: 65 mm within 0.5 mm, track: 112 mm, gear: 1}\ncoot: {title: " +
			"Coot, wheel: 48 mm}\n",
		"01-a.md": soundLesson, "care/cloth.md": soundCard, "data/a.csv": soundRuns,
		name: text,
	} {
		pack[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return pack
}

func TestThePackOfTheFuzzTargetsIsSound(t *testing.T) {
	for _, lesson := range []string{soundLesson, soundLesson + usesRuns} {
		p, err := generator.Prove(t.Context(), soundPack("01-a.md", lesson))
		if err != nil {
			t.Fatal(err)
		}
		for _, found := range p.Problems {
			if found.Severity == problem.Error {
				t.Errorf("%s: %s", found.Slug, found.What)
			}
		}
	}
}

// works takes a pack through all stages; of paper only what wanted names. Whatever a file holds, its problems have
// places in their files, nothing that steers a terminal is printed, and what is proved can be drawn.
func works(t *testing.T, pack fstest.MapFS, wanted func(name string) bool) {
	t.Helper()
	var memory generator.Memory
	p, err := memory.Prove(t.Context(), pack)
	if err != nil {
		t.Fatal(err)
	}
	for _, found := range p.Problems {
		if s := found.Span; found.File == nil || s.Start < 0 || s.End < s.Start || s.End > len(found.File.Text()) {
			t.Errorf("%s: “%s” is at %d to %d", found.Slug, found.What, s.Start, s.End)
		}
	}
	var printed bytes.Buffer
	if err := problem.Print(&printed, "", p.Problems); err != nil {
		t.Fatal(err)
	}
	if strings.ContainsFunc(printed.String(), func(r rune) bool {
		return r < ' ' && r != '\n' && r != '\t' ||
			r == 0x7f
	}) {
		t.Errorf("what is printed can steer a terminal: %q", printed.String())
	}
	again, err := memory.Prove(t.Context(), pack)
	if err != nil || len(again.Problems) != len(p.Problems) {
		t.Errorf("%d problems at first, then %d, %v", len(p.Problems), len(again.Problems), err)
	}
	if p.HasErrors() {
		return
	}
	s, err := site.New(p.Pack.Language)
	if err != nil {
		t.Fatal(err)
	}
	for _, job := range generator.Jobs(p, s) {
		if !wanted(job.Name) {
			continue
		}
		data, err := job.Make()
		if err != nil {
			t.Errorf("%s: %v", job.Name, err)
		}
		if path.Ext(job.Name) == ".html" && bytes.Contains(data, []byte("<script>")) {
			t.Errorf("%s has a script of its own", job.Name)
		}
	}
}

// pagesAlone are the files that a text of the pack ends up in, without paper, which takes a hundred times as long.
func pagesAlone(name string) bool {
	return path.Ext(name) == ".html" || strings.Contains(name, "/steps/") || strings.HasSuffix(name, site.SearchTexts)
}

// fuzzFile is a target that puts texts into a file of the pack.
func fuzzFile(f *testing.F, name string, wanted func(name string) bool, around func(text string) string) {
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > longestFuzzed {
			return
		}
		works(t, soundPack(name, around(text)), wanted)
	})
}

func asItIs(text string) string { return text }

// addDemo adds files of the demo pack as seeds, those too long as far as they may go.
func addDemo(f *testing.F, pattern string) {
	names, err := filepath.Glob("../lessons/" + pattern)
	if err != nil || len(names) == 0 {
		f.Fatalf("no file of the demo pack is %s: %v", pattern, err)
	}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text[:min(len(text), longestFuzzed)]))
	}
}

// addBlocks adds what is in the demo pack's blocks of a kind, the kind's own line included.
func addBlocks(f *testing.F, kinds ...string) {
	names, _ := filepath.Glob("../lessons/[0-9]*.md")
	added := 0
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		for i, piece := range strings.Split("\n"+string(text), "\n```") {
			kind, _, _ := strings.Cut(strings.Fields(piece + " x")[0], "\n")
			for _, k := range kinds {
				if i%2 == 1 && kind == k {
					f.Add(piece)
					added++
				}
			}
		}
	}
	if added == 0 {
		f.Fatalf("the demo pack has no block of %v", kinds)
	}
}

func FuzzLesson(f *testing.F) {
	f.Add(soundLesson)
	f.Add(soundLesson + usesRuns)
	addDemo(f, "[0-9]*.md")
	fuzzFile(f, "01-a.md", pagesAlone, asItIs)
}

func FuzzHeader(f *testing.F) {
	for _, s := range []string{"title: A\nminutes: 10\n", "title: [\n", "id: \"\"\nweek: 0\nminutes: -1",
		"goals: {a: b}",
		"materials:\n  - 1 tape\n  - ~\ncare: []\nstandards: [CCSS 7.RP.A.3]\n", "title: >\n  a\n  b\n",
		"? a\n: b\n", "*a", "&a b: *a",
		"title: A\ndraft: yes\n", "<<: {title: A}\n", "!!binary aGk=: x"} {
		f.Add(s)
	}
	fuzzFile(f, "01-a.md", pagesAlone, func(text string) string {
		return "---\n" + text + "\n---\n\n## Roll (10 min)\n\n{kit.wheel}\n"
	})
}

func FuzzPackFile(f *testing.F) {
	addDemo(f, "pack.yaml")
	for _, s := range []string{"title: a\nversion: 1\n---\n", "title: a\nversion: 1.10\nunits:\n  span: 30 cm\n",
		"title: a\nversion: 1\naddress: https://example.org/a\nclub: \"=1+1\"\n",
		"title: a\nversion: 1\nkit: ours\nid: \"\"\n",
		"title: a\nversion: 1\ncards: [cloth, x]\nstart: 2026-09-01\nseason: 2026\n",
		"title: a\nversion: 1\nmeant-otherwise:\n  a: b\n"} {
		f.Add(s)
	}
	fuzzFile(f, "pack.yaml", pagesAlone, asItIs)
}

func FuzzKits(f *testing.F) {
	addDemo(f, "kits.yaml")
	for _, s := range []string{"\"\": {title: A, wheel: 1 mm}\n", "~: {title: A}\n", "heron: ~\n",
		"heron: {title: H, wheel: 0 mm}\n---\n",
		"heron: {title: H, wheel: 65 mm, arm: 3 cm}\ncoot: {title: C, wheel: 1e3 mm, arm: 4 s}\n",
		"? [a]\n: {}\n", "1: {title: 1, wheel: 1}",
		"heron: {title: H, wheel: 65 mm ± 66 mm, track: -1 mm, gear: 1/0}\n"} {
		f.Add(s)
	}
	fuzzFile(f, "kits.yaml", pagesAlone, asItIs)
}

func FuzzCard(f *testing.F) {
	f.Add(soundCard)
	addDemo(f, "care/*.md")
	f.Add("---\ntitle: A\nwho: students\nhazards: [H222, P210, H2]\nwear: [\"gloves\"]\nmentions: [\"\"]\n---\n" +
		"## Before\n")
	fuzzFile(f, "care/cloth.md", pagesAlone, asItIs)
}

func FuzzRunsFile(f *testing.F) {
	f.Add(soundRuns)
	addDemo(f, "data/*.csv")
	for _, s := range []string{"base,stop (cm),drift (mm)\nA,1e308,1\nA,-1e308,2\nB,1,1\n",
		"base;stop (cm);drift (mm)\n\"a;b\";1,5;2\n",
		"base,stop (in),drift (mm)\nA,75 1/4,–\n,1,2\n", "base,stop (cm),drift (mm)\n\x00,0,0\nx,0,0\nx,0,0\n"} {
		f.Add(s)
	}
	pack := soundLesson + usesRuns
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > longestFuzzed {
			return
		}
		files := soundPack("data/a.csv", text)
		files["01-a.md"] = &fstest.MapFile{Data: []byte(pack)}
		works(t, files, pagesAlone)
	})
}

// FuzzDataBlock has a block of any kind, with its own first line.
func FuzzDataBlock(f *testing.F) {
	addBlocks(f, "runs", "chart", "compare", "readers", "show")
	for _, s := range strings.Split(strings.TrimSuffix(usesRuns, "\n```\n"), "```") {
		if s = strings.TrimSpace(s); s != "" {
			f.Add(s)
		}
	}
	fuzzFile(f, "01-a.md", pagesAlone, func(text string) string { return soundLesson + "```" + text + "\n```\n" })
}

// FuzzGauge draws gauges on paper.
func FuzzGauge(f *testing.F) {
	addBlocks(f, "gauge")
	for _, s := range []string{"gauge\nwrap 70 mm \"W\"\nruler 16 cm \"R\"", "gauge\nruler 1e-9 mm \"x\"",
		"gauge\nfan 0 \"F\"\nfan L",
		"gauge\nrose 11.2 cm \"R\"\ntarget L \"T\"", "gauge\nruler 12 in to 1/64 \"R\"",
		"gauge\ntarget 1e300 cm \"T\"", "gauge\nwrap C \"own\""} {
		f.Add(s)
	}
	fuzzFile(f, "01-a.md", func(name string) bool {
		return strings.Contains(name, "/sheets/") &&
			strings.Contains(name, "a4")
	},
		func(text string) string { return soundLesson + "```" + text + "\n```\n" })
}

func FuzzWordsFile(f *testing.F) {
	addDemo(f, "words.md")
	f.Add("# Words\n\n## turn\n\nOne time round.\n\nAlso: rotation, turns\n")
	f.Add("- **Stop**: where it stands\n- Stop: x\n")
	fuzzFile(f, "words.md", pagesAlone, asItIs)
}

// FuzzTally puts two files of teams together.
func FuzzTally(f *testing.F) {
	f.Add(soundRuns, "team,stop (cm)\nA,1\nB,2\n", "")
	f.Add("team,base,run,stop (cm)\nA,Heron,1,120\nA,Heron,2,\n",
		"team;base;run;stop (in)\n=1+1;Coot;1;47 1/4\n", "base")
	f.Add("x", "\"", "x")
	f.Fuzz(func(t *testing.T, one, other, by string) {
		if len(one)+len(other)+len(by) > longestFuzzed {
			return
		}
		files := fstest.MapFS{"a.csv": {Data: []byte(one)}, "b.csv": {Data: []byte(other)}}
		out, err := generator.Tally(files, []string{"a.csv", "b.csv"}, tally.Options{By: by})
		if err != nil {
			t.Fatal(err)
		}
		if err := problem.Print(io.Discard, "", out.Problems); err != nil {
			t.Fatal(err)
		}
		if len(out.Problems) > 0 && problem.ByWeight(out.Problems)[0].Severity == problem.Error {
			return // its report goes only so far
		}
		if _, err := out.Draw(); err != nil {
			t.Error(err)
		}
	})
}
