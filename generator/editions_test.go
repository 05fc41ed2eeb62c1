package generator_test

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"image/png"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator"
)

const drawing = `<svg xmlns="http://www.w3.org/2000/svg"><rect width="4" height="3"/></svg>`

// editionsOf builds a pack of one lesson with the given body in memory.
func editionsOf(t *testing.T, body string) map[string]string {
	t.Helper()
	return drawn(t, packOf(body))
}

// packOf is that pack.
func packOf(body string) fstest.MapFS {
	pack := fstest.MapFS{}
	for name, text := range map[string]string{
		"pack.yaml": "title: P\nversion: 1\nkit: heron\n",
		"kits.yaml": "heron: {title: Heron, wheel: 65 mm, track: 112 mm, gear: 3}\n",
		"care/cloth.md": "---\ntitle: Cloth\nwho: students\nwear: []\n---\n\n## Before\n\nLook.\n\n## During\n\n" +
			"Work.\n\n## After\n\nTidy up.\n\n## If something goes wrong\n\nStop.\n",
		"pictures/shown.svg":  drawing,
		"pictures/answer.svg": drawing,
		"pictures/unused.svg": "not even a picture",
		"01-t.md":             "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [cloth]\n---\n\n## Part (10 min)\n\n" + body,
	} {
		pack[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return pack
}

// drawn gives the files of both editions of a pack without errors.
func drawn(t *testing.T, pack fs.FS) map[string]string {
	t.Helper()
	proved, err := generator.Prove(t.Context(), pack)
	if err != nil {
		t.Fatal(err)
	}
	if proved.HasErrors() {
		t.Fatal(proved.Problems[0].What)
	}
	files, err := generator.Draw(t.Context(), proved)
	if err != nil {
		t.Fatal(err)
	}
	texts := map[string]string{}
	for name, data := range files {
		texts[name] = string(data)
	}
	return texts
}

func TestAPictureThatOnlyMentorsSeeIsNotAmongTheStudentsFiles(t *testing.T) {
	files := editionsOf(t, "![a](pictures/shown.svg)\n\n## Mentor notes\n\n![b](pictures/answer.svg)\n")
	for name, want := range map[string]bool{
		"students/pictures/shown.svg": true, "students/pictures/answer.svg": false, "students/pictures/unused.svg": false,
		"mentors/pictures/shown.svg": true, "mentors/pictures/answer.svg": true, "mentors/pictures/unused.svg": false,
	} {
		if _, got := files[name]; got != want {
			t.Errorf("%s: there is %v, want %v", name, got, want)
		}
	}
}

// A sign that means something in an address must not change which picture is fetched, nor keep the worker from
// keeping all.
func TestAPictureWithSignsInItsNameIsFetchedByThatName(t *testing.T) {
	pack := packOf("![a](pictures/robot%20%232%25.svg)\n")
	pack["pictures/robot #2%.svg"] = &fstest.MapFile{Data: []byte(drawing)}
	files := drawn(t, pack)
	if _, ok := files["students/pictures/robot #2%.svg"]; !ok {
		t.Error("the picture is not there")
	}
	for _, name := range []string{"students/01-t.html", "students/offline.js"} {
		if !strings.Contains(files[name], `"pictures/robot%20%232%25.svg"`) {
			t.Errorf("%s does not ask for it", name)
		}
	}
}

// planted are in the pictures of the next test; nobody may find them.
var planted = []string{"Heronware", "Exif", "51.4779", "tiff:Model", "/home/coach"}

func TestNoFileOfAnEditionHoldsWhatACameraOrEditorWrote(t *testing.T) {
	segment := func(marker byte, body string) string {
		return string([]byte{0xff, marker, byte((len(body) + 2) >> 8), byte(len(body) + 2)}) + body
	}
	var photo, plan bytes.Buffer
	large, small := image.NewGray(image.Rect(0, 0, 1800, 40)), image.NewGray(image.Rect(0, 0, 4, 3))
	if err := errors.Join(jpeg.Encode(&photo, large, nil), png.Encode(&plan, small)); err != nil {
		t.Fatal(err)
	}
	notes := segment(0xe1, "Exif\x00\x00Heronware 51.4779") + segment(0xe1, "<x:xmpmeta tiff:Model=''>") +
		segment(0xfe, "Heronware")
	pack := packOf("![a](pictures/a.jpg) ![b](pictures/b.png) ![c](pictures/c.svg)\n")
	for name, text := range map[string]string{
		"a.jpg": photo.String()[:2] + notes + photo.String()[2:],
		"b.png": plan.String()[:33] + "\x00\x00\x00\x0ftEXtMake\x00 Heronware...." + plan.String()[33:] + "Heronware",
		"c.svg": strings.Replace(drawing, ">",
			` xmlns:e="urn:e" e:file="/home/coach/c.svg"><metadata>51.4779 Heronware</metadata>`, 1),
	} {
		pack["pictures/"+name] = &fstest.MapFile{Data: []byte(text)}
	}
	held := ""
	for name, text := range drawn(t, pack) {
		for _, word := range planted {
			if strings.Contains(text, word) {
				t.Errorf("%s holds %q", name, word)
			}
		}
		if strings.HasPrefix(name, "students/pictures/") {
			held += path.Base(name) + " "
		}
	}
	if len(held) != len("a.jpg b.png c.svg ") {
		t.Errorf("students get the pictures %s", held)
	}
}

func TestWhatMentorsBindIsABlankForStudents(t *testing.T) {
	files := editionsOf(t, "> Mentor: note\n>\n> ```work\n> given secret = 777.25 mm\n> ```\n\nIt is {secret}.\n")
	if strings.Contains(files["students/01-t.html"], "777.25") {
		t.Error("students see what mentors bind")
	}
	if !strings.Contains(files["mentors/01-t.html"], "777.25") {
		t.Error("mentors do not see it")
	}
}

func TestTheKitIsToldUnlessStudentsMeasureIt(t *testing.T) {
	files := editionsOf(t, "```work\nmeasure d = kit.wheel \"Wheel\"\nfind n = rotations(1 m, d, kit.gear) \"Turns\"\n"+
		"```\n\n{kit.wheel} {kit.track}\n")
	page := files["students/01-t.html"]
	for text, want := range map[string]bool{"gear 3": true, "65 mm": false, "65\u00a0mm": false,
		">112</span>\u00a0mm": true} {
		if got := strings.Contains(page, text); got != want {
			t.Errorf("students see %q: %v, want %v", text, got, want)
		}
	}
}

func TestRawHTMLIsShownAsText(t *testing.T) {
	page := editionsOf(t, "a <b onclick=x>b</b>\n\n<script>alert(1)</script>\n\n<!-- c -->\n")["students/01-t.html"]
	for _, want := range []string{`<span class="as-text">&lt;b onclick=x&gt;</span>b`,
		"&lt;script&gt;alert(1)&lt;/script&gt;",
		"&lt;!-- c --&gt;"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page does not show %s", want)
		}
	}
}

func TestAMentorsFindLeavesNoTraceOnTheStudentsPage(t *testing.T) {
	files := editionsOf(t, "```work\nrecord s[3] in cm = 118, 119, 120 \"Stops\"\n"+
		"find avg in cm to 0.1 = mean(s) \"Mean\"\n```\n\n## Mentor notes\n\n"+
		"```work\nfind e in % to 0.1 = percent_error(avg, 118.31 cm)\n```\n")
	for name, text := range files {
		if strings.HasPrefix(name, "students/") && strings.Contains(text, "118.31") {
			t.Errorf("%s holds what the mentors' find is held against", name)
		}
	}
	if !strings.Contains(files["mentors/01-t.html"], "118.31") {
		t.Error("mentors do not see it")
	}
}

// TestAHeadingReadsTheSameOnPageStripPlanAndPaper: escapes and entities are resolved wherever a heading's text goes.
func TestAHeadingReadsTheSameOnPageStripPlanAndPaper(t *testing.T) {
	const work = "```work\nfind a in cm to 1 = 2 cm \"Two\"\nkey a = 2 cm\n```\n"
	const raw = `Lock &amp; 3 \* 4`
	files := editionsOf(t, "## "+raw+" (0 min)\n\n"+work+
		"\n![Tom &amp; Jerry \\*](pictures/shown.svg \"A &amp; \\*\")\n\n[go](#part \"B &amp; \\*\")\n")
	for _, edition := range []string{"students", "mentors"} {
		page := files[edition+"/01-t.html"]
		for _, want := range []string{`alt="Tom &amp; Jerry *"`, `title="A &amp; *"`, `title="B &amp; *"`, "Lock &amp; 3 * 4",
			`id="lock-3-4"`} {
			if !strings.Contains(page, want) {
				t.Errorf("%s: the page has no %s", edition, want)
			}
		}
		for _, wrong := range []string{"&amp;amp;", `\*`} {
			if strings.Contains(page, wrong) {
				t.Errorf("%s: the page shows %s", edition, wrong)
			}
		}
	}
	printed, err := exec.Command("pdftotext", "-raw", tempFile(t, files["students/sheets/01-t-a4.pdf"]), "-").Output()
	if err != nil {
		t.Fatalf("this test needs pdftotext, of poppler-utils: %v", err)
	}
	if !strings.Contains(string(printed), "Lock & 3 * 4") {
		t.Errorf("the worksheet reads\n%s", printed)
	}
}

func tempFile(t *testing.T, data string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(name, []byte(data), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// TestFiguresGiveNothingAway has every kind of figure rest on numbers that are found nowhere else, with and without
// until, and looks for the example's and for what comes of them.
func TestFiguresGiveNothingAway(t *testing.T) {
	pack := packOf("```work\ngiven L = 141.7 cm \"Gate\"\nmeasure d = 61.37 mm \"Wheel\"\n" +
		"find C in cm to 0.01 = circumference(d) \"Round\"\nfind n in rot to 0.01 = rotations(L, d) \"How many?\"\n" +
		"record s[3] in cm to 0.01 = 143.19, 144.23, 145.37 \"Stops\"\nrecord o[2] in mm = 23.71, 29.17 \"Sideways\"\n" +
		"find m in cm to 0.01 = mean(s) \"Mean\"\nfind e in % to 0.01 = percent_error(m, L) \"Error\"\n```\n\n" +
		"```show data/r.csv\nunroll d until C \"Unrolled\"\nlaps L by C until n \"Laps\"\ntape s = L \"Stops\"\n" +
		"path o over L times 10 \"Above\"\nread L to 0.1 \"Read\"\npart m - L of L until e \"Part\"\n" +
		"shuffle stop by base until e \"Cards\"\n```\n")
	pack["data/r.csv"] = &fstest.MapFile{Data: []byte("base,stop (cm)\nA,11.5\nA,12.5\nB,31.5\nB,32.5\n")}
	files := drawn(t, pack)
	for _, secret := range []string{"61.37", "6.137", "19.28", "7.35", "143.19", "144.23", "145.37", "144.26", "23.71",
		"2.371", "29.17", "2.56", "1.81", "A and B come"} {
		for name, text := range files {
			if strings.HasPrefix(name, "students/") && strings.Contains(text, secret) {
				t.Errorf("%s holds %q", name, secret)
			}
		}
	}
	mentors := files["mentors/01-t.html"]
	for _, seen := range []string{"61.37 mm across. One rotation lays 19.3 cm",
		"7 whole rotations fit into 141.7 cm, and 0.35",
		"3 runs from 143.19 cm to 145.37 cm.", "2 runs over 141.7 cm, sideways drawn 10 times", "is 1.8 %.",
		"The real means are 20 cm apart."} {
		if !strings.Contains(mentors, seen) {
			t.Errorf("mentors do not read %q", seen)
		}
	}
	students := files["students/01-t.html"]
	if n := strings.Count(students, `<figure class="show `); n != 7 {
		t.Errorf("students have %d figures", n)
	}
	if strings.Contains(students, "real 20") || strings.Contains(students, "The real means") {
		t.Error("students see how far apart the means are before e is right")
	}
}
