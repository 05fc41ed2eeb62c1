package generator_test

// The pages of a pack's words: what they show in each edition, and how they follow a change.

import (
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
	"trundle/testdata/browser"
)

// explaining is a pack of one lesson with words.
func explaining(body, words string) fstest.MapFS {
	pack := browser.PackOf(body)
	pack["words.md"] = &fstest.MapFile{Data: []byte(words)}
	return pack
}

// pagesOf are the pages of a pack that has no errors, with its problems.
func pagesOf(t *testing.T, memory *generator.Memory, pack fstest.MapFS) (map[string]string, string) {
	t.Helper()
	proved, err := memory.Prove(t.Context(), pack)
	if err != nil || proved.HasErrors() {
		t.Fatal(err, proved.Problems)
	}
	files, err := generator.Draw(t.Context(), proved)
	if err != nil {
		t.Fatal(err)
	}
	pages := map[string]string{}
	for name, data := range files {
		pages[name] = string(data)
	}
	var slugs []string
	for _, p := range proved.Problems {
		slugs = append(slugs, p.Slug)
	}
	return pages, strings.Join(slugs, " ")
}

func TestALessonLeadsToItsWordsInBothEditions(t *testing.T) {
	pages, _ := pagesOf(t, new(generator.Memory), explaining(
		"A *standard\ndeviation* & a \"mean\". The mean. [Legs](words.md#leg)\n\n> Mentor: The tread.\n",
		"---\ntitle: Our <words>\n---\n\nRead me.\n\n## Tread\n\nOn the floor.\n\n> Mentor: Not the stairs'.\n\n"+
			"## mean\n\nShare out.\n\n### More\n\nA [leg](#leg).\n\n## standard deviation\n\n"+
			"Typical. A tread, a mean & more.\n\n"+
			"## leg\n\nA piece.\n"))
	for _, edition := range []string{"students/", "mentors/"} {
		lesson, words := pages[edition+"01-t.html"], pages[edition+"words.html"]
		for _, want := range []string{
			`<em><a class="word" href="words.html#standard-deviation">standard` + "\n" + `deviation</a></em> &amp; a ` +
				`“<a class="word" href="words.html#mean">mean</a>”. The mean. <a href="words.html#leg">Legs</a>`,
			`<a href="words.html">What the words mean</a></p>`,
		} {
			if !strings.Contains(lesson, want) {
				t.Errorf("%s: the lesson lacks %s", edition, want)
			}
		}
		for _, want := range []string{
			`<h1>Our &lt;words&gt;</h1>`, `<p>Read me.</p>`, `<h2 id="leg">leg</h2>`, `<h3 id="more">More</h3>`,
			`A <a href="#leg">leg</a>.`,
			`A <a class="word" href="#tread">tread</a>, a <a class="word" href="#mean">mean</a> &amp;`,
			`In week <a href="01-t.html" aria-label="1, T" title="T">1</a>`,
		} {
			if !strings.Contains(words, want) {
				t.Errorf("%s: the words lack %s", edition, want)
			}
		}
		if at := strings.Index(words, `id="leg"`); at < 0 || at > strings.Index(words, `id="mean"`) ||
			strings.Index(words, `id="standard-deviation"`) > strings.Index(words, `id="tread"`) {
			t.Errorf("%s: the words are not in the order of the alphabet", edition)
		}
		if got := strings.Contains(words, "Not the stairs"); got != (edition == "mentors/") {
			t.Errorf("%s: a note for mentors is on the page: %v", edition, got)
		}
		if !strings.Contains(pages[edition+"index.html"], `<a href="words.html">`) {
			t.Errorf("%s: the season does not lead to the words", edition)
		}
		if !strings.Contains(pages[edition+"offline.js"], `"words.html"`) {
			t.Errorf("%s: the words are not kept for use without a network", edition)
		}
	}
	if !strings.Contains(pages["mentors/assets/texts.js"],
		`["words.html#mean","Our \u003cwords\u003e","mean","Share out."]`) {
		t.Error("mentors cannot search the words:", pages["mentors/assets/texts.js"])
	}
}

func TestAPackWithoutWordsHasNoPageOfThem(t *testing.T) {
	pages, _ := pagesOf(t, new(generator.Memory), browser.PackOf("The mean."))
	for name, text := range pages {
		if strings.Contains(name, "words.html") || strings.HasSuffix(name, ".html") && strings.Contains(text, "words.html") {
			t.Errorf("%s is there, or leads to a page of words", name)
		}
	}
}

// TestWordsFollowAChange changes the words and the lesson in turn; what is remembered must not hide it.
func TestWordsFollowAChange(t *testing.T) {
	memory := new(generator.Memory)
	for i, c := range []struct{ body, words, id, slugs string }{
		{"A mean.", "## mean\n\na", "mean", ""},
		{"A mean.", "## average, mean\n\na", "average", ""},
		{"A key.", "## average, mean\n\na", "", "word-unused"},
		{"A key.", "## key\n\na", "key", ""},
		{"A key.", "## leg\n\nA key.\n\n## key\n\nA leg.", "key", ""},
		{"A lock.", "## leg\n\nA key.\n\n## key\n\nA leg.", "", "word-unused word-unused"},
	} {
		pages, slugs := pagesOf(t, memory, explaining(c.body, c.words))
		_, link, _ := strings.Cut(pages["students/01-t.html"], `<a class="word" href="words.html#`)
		if id, _, _ := strings.Cut(link, `"`); id != c.id || slugs != c.slugs {
			t.Errorf("%d: the lesson leads to %q and the problems are %q; want %q and %q", i, id, slugs, c.id, c.slugs)
		}
	}
}
