package generator_test

// What is beyond the limits of a pack is reported, and the rest of the pack with it.

import (
	"context"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
	"trundle/generator/problem"
)

func TestWhatIsBeyondALimitIsReportedOnce(t *testing.T) {
	for slug, body := range map[string]string{
		"text-too-long":   strings.Repeat("It is a good day.\n", 20000),
		"line-too-long":   strings.Repeat("a", 20000),
		"nested-too-deep": strings.Repeat("> ", 21) + "a\n",
		"too-many":        strings.Repeat("## A\n\n", 501),
		"more-of-kind":    strings.Repeat("[a](nowhere.md)\n", 60),
		"code-plain":      "```css\n" + strings.Repeat("a{", 200) + "\n```\n",
	} {
		files := fstest.MapFS{
			"pack.yaml": {Data: []byte("title: A\nversion: 1\n")},
			"01-a.md":   {Data: []byte("---\ntitle: A\nweek: 1\nminutes: 1\n---\n\n" + body)},
			"02-b.md":   {Data: []byte("---\ntitle: B\nweek: 1\nminutes: 1\n---\n\n{nope}\n")},
		}
		proved, err := generator.Prove(context.Background(), files)
		if err != nil {
			t.Fatal(err)
		}
		count := func(slug string) int {
			return len(slices.DeleteFunc(slices.Clone(proved.Problems), func(p problem.Problem) bool { return p.Slug != slug }))
		}
		if count(slug) != 1 || count("unknown-name") != 1 {
			t.Errorf("%s is there %d times, what is wrong in the other lesson %d times", slug, count(slug),
				count("unknown-name"))
		}
	}
}

// shut is a folder whose pictures/ may not be looked into.
type shut struct{ fstest.MapFS }

func (s shut) ReadDir(name string) ([]fs.DirEntry, error) {
	if name == "pictures" {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
	}
	return s.MapFS.ReadDir(name)
}

func TestAFolderOfPicturesThatCannotBeReadIsReported(t *testing.T) {
	files := soundPack("pictures/a.png", "")
	p, err := generator.Prove(t.Context(), shut{files})
	if err != nil {
		t.Fatal(err)
	}
	if got := kindsOf(p.Problems); !strings.Contains(got, "error unreadable pictures:1") {
		t.Error(got)
	}
}

// TestACodeBlockTooManyIsPlain counts blocks, each of which is short enough by itself.
func TestACodeBlockTooManyIsPlain(t *testing.T) {
	block := "```css\n" + strings.Repeat("a { color: red }\n", 180) + "```\n\n"
	for blocks, want := range map[int]int{5: 0, 7: 2} {
		p, err := generator.Prove(t.Context(), soundPack("01-a.md", soundLesson+strings.Repeat(block, blocks)))
		if err != nil {
			t.Fatal(err)
		}
		plain := 0
		for _, found := range p.Problems {
			if found.Slug == "code-plain" {
				plain++
			}
		}
		if plain != want {
			t.Errorf("of %d blocks %d are plain, not %d: %s", blocks, plain, want, kindsOf(p.Problems))
		}
	}
}

func TestPicturesThatNobodyShowsAreNotRead(t *testing.T) {
	files := fstest.MapFS{
		"pack.yaml":         {Data: []byte("title: A\nversion: 1\n")},
		"01-a.md":           {Data: []byte("---\ntitle: A\nweek: 1\nminutes: 1\n---\n\n![A lock](pictures/0.png)\n")},
		"pictures/0.png":    {Data: make([]byte, 1)},
		"pictures/1.png":    {Data: make([]byte, 33<<20)},
		"pictures/many.png": {Data: make([]byte, 30<<20)},
	}
	shown := ""
	for i := range 14 {
		name := "pictures/p" + string(rune('a'+i)) + ".png"
		files[name] = files["pictures/many.png"]
		shown += "\n![A lock](" + name + ")\n"
	}
	for body, want := range map[string]int{"": 0, shown: 1} {
		now := fstest.MapFS{}
		for name, f := range files {
			now[name] = f
		}
		now["01-a.md"] = &fstest.MapFile{Data: append(slices.Clone(files["01-a.md"].Data), body...)}
		proved, err := generator.Prove(context.Background(), now)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, p := range proved.Problems {
			if p.Slug == "pictures-too-large" {
				n++
			}
		}
		if n != want {
			t.Errorf("pictures-too-large is there %d times, not %d", n, want)
		}
	}
}
