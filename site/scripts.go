package site

// The scripts of the pages: which small files make up each, and what is put in front of them.

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/js"

	"trundle/generator/lesson"
	"trundle/generator/locale"
	"trundle/generator/quantity"
	"trundle/site/words"
)

//go:embed scripts/*.js scripts/drawn/*.js scripts/class/*.js
var scriptFiles embed.FS

// A pageScript is a script that pages load: small files in the order in which they run.
type pageScript struct {
	name  string
	files []string
	words string   // prefix of the words that it says
	whole []string // prefixes of words that keep their whole names
	units bool     // needs the sizes of units
	style string   // small style sheet that it brings along, "" if none
}

// pageScripts: every page loads the first two, and over HTTP the second fetches the third. Students' lessons load
// sheet.js too, which fetches keep.js once the page is there. check.js comes when somebody begins to fill the sheet in,
// the last when somebody wants a file.
var pageScripts = []pageScript{
	{name: "assets/type.js", files: []string{"type"}}, // in the head, before anything is shown
	{name: "assets/page.js", files: []string{"tape", "parts", "offline"}},
	{name: "assets/news.js", files: []string{"news"}, words: "news-"},
	{name: "assets/plan.js", files: []string{"say", "clock", "bar", "keys"}, words: "clock-"}, // of mentors' lessons
	{name: "assets/sheet.js", files: []string{"sheet"}, words: "sheet-"},
	{name: "assets/keep.js", files: []string{"names", "notes", "keep", "pen"}},
	{name: "assets/check.js", words: "check-", units: true, style: "answers", files: []string{
		"say", "read", "show", "run", "judge", "rows", "values", "kit", "strip", "record", "steps", "again", "offer",
		"typing", "choose", "later", "log", "pieces", "update", "rings",
	}},
	{name: "assets/drawings.js", words: "drawn-", files: []string{ // when a figure of a show block is near
		"say", "drawn/pen", "drawn/unroll", "drawn/laps", "drawn/stops", "drawn/path", "drawn/read", "drawn/part",
		"drawn/shuffle", "drawn/figures",
	}},
	{name: "assets/season.js", files: []string{"say", "season"}, words: "weeks-"}, // of the season
	{name: ClassScript, whole: []string{"class-", "runs-", "tally-"}, files: []string{ // of the mentors' page of the class
		"say", "names", "files", "class/student", "class/groups", "class/table", "class/rows", "class/roster", "class/say",
		"class/season", "class/page",
	}},
	{name: "assets/search.js", files: []string{"say", "search"}, words: "search-"}, // of the mentors' season
	{name: "assets/start.js", files: []string{"start"}},                            // of the page above an edition
	{name: "assets/files.js", files: []string{"say", "files", "drawer"}, words: "files-"},
}

// pageScript makes one, without comments and long names.
func (s *Site) pageScript(p *lesson.Pack, b pageScript) ([]byte, error) {
	var all bytes.Buffer
	all.WriteString(stamp)
	// Words and units stand first, in an object that several scripts of a page may fill, in whatever order they come.
	if b.words != "" {
		said := s.words.StartingWith(b.words)
		if slices.Contains(withMarks, b.words) {
			s.addMarks(said)
		}
		texts, err := json.Marshal(s.spoken(said))
		if err != nil {
			return nil, err
		}
		fmt.Fprintf(&all, "Object.assign((globalThis.trundle??={}).words??={},%s);\n", texts)
	}
	for _, prefix := range b.whole {
		if err := s.wholeWords(&all, prefix); err != nil {
			return nil, err
		}
	}
	if b.units {
		fmt.Fprintf(&all, "trundle.units=%s;\n", unitTable(s.words, p.Vocabulary))
		if ones := s.words.UnitSingulars(); len(ones) > 0 {
			said, err := json.Marshal(ones)
			if err != nil {
				return nil, err
			}
			fmt.Fprintf(&all, "trundle.ones=%s;\n", said)
		}
	}
	if b.whole != nil {
		fmt.Fprintf(&all, "trundle.thousands=%s;\n", thousands(s.words.Forms()))
	}
	if (b.units || b.whole != nil) && s.words.Forms().Commas() {
		all.WriteString("trundle.comma=true;\n") // before decimals
	}
	if b.style != "" {
		if err := bringStyle(&all, b.style); err != nil {
			return nil, err
		}
	}
	for _, name := range b.files {
		text, err := scriptFiles.ReadFile("scripts/" + name + ".js")
		if err != nil {
			return nil, err
		}
		all.Write(text)
	}
	small, err := smaller(all.Bytes(), "js")
	if err != nil {
		return nil, fmt.Errorf("%s: %w", b.name, err)
	}
	return small, nil
}

// withMarks are the words of scripts that put marks beside texts. The others are without: the first screen waits for
// some of them.
var withMarks = []string{"check-", "files-"}

// addMarks adds the language's colon, and its quotation marks, to what a script says.
func (s *Site) addMarks(texts map[string]string) {
	texts["colon"], texts["quote"] = s.words.Say("colon"), s.marks.Quoted("{}")
}

// spoken sets texts for a script.
func (s *Site) spoken(texts map[string]string) map[string]string {
	for name, text := range texts {
		texts[name] = s.marks.Text(text)
	}
	return texts
}

// wholeWords gives a script words under their whole names.
func (s *Site) wholeWords(w *bytes.Buffer, prefix string) error {
	said := map[string]string{}
	for name, text := range s.words.StartingWith(prefix) {
		if name != words.Singular { // which is for words of all names
			name = prefix + name
		}
		said[name] = text
	}
	s.addMarks(said)
	text, err := json.Marshal(s.spoken(said))
	fmt.Fprintf(w, "Object.assign((globalThis.trundle??={}).words??={},%s);\n", text)
	return err
}

// thousands gives a script the mark between groups of three digits, and from how many digits on it is written.
func thousands(f locale.Forms) []byte {
	text, err := json.Marshal(struct {
		Mark string `json:"mark"`
		From int    `json:"from"`
	}{f.Thousands, f.ThousandsFrom})
	if err != nil {
		panic("site: " + err.Error()) // a text and a number
	}
	return text
}

// bringStyle has a script give the page a style sheet: at once, and without a file that the first screen waits for.
func bringStyle(w *bytes.Buffer, name string) error {
	text, err := styleFiles.ReadFile("styles/" + name + ".css")
	if err != nil {
		return err
	}
	small, err := smaller(text, "css")
	if err != nil {
		return fmt.Errorf("%s.css: %w", name, err)
	}
	// An old browser has to do without it: that its answers are checked counts more.
	fmt.Fprintf(w, "try{const s=new CSSStyleSheet();s.replaceSync(%s);"+
		"document.adoptedStyleSheets=[...document.adoptedStyleSheets,s]}catch{}\n", jsString(small))
	return nil
}

// jsString writes a text as a string of JavaScript.
func jsString(text []byte) []byte {
	out, err := json.Marshal(string(text))
	if err != nil {
		panic("site: " + err.Error()) // a string
	}
	return out
}

// smaller takes comments, blanks and long local names out of a script or style sheet.
func smaller(text []byte, kind string) ([]byte, error) {
	m := minify.New()
	m.AddFunc("js", js.Minify)
	m.AddFunc("css", css.Minify)
	return m.Bytes(kind, text)
}

// unitTable gives the sizes of all units as read.js wants them. The name that people read
// comes first of each unit's, since the page names the first one that fits.
func unitTable(w words.Words, own *quantity.Vocabulary) []byte {
	factors := quantity.AnswerFactors()
	var rows [][]byte
	for _, symbol := range quantity.UnitSymbols() {
		u, _ := quantity.LookupUnit(symbol)
		for _, name := range w.UnitNames(u.Symbol()) { // in a language that has other words for it
			rows = append(rows, unitRow(name, factors[u.Symbol()]))
		}
		for _, name := range append([]string{u.Symbol()}, quantity.NamesOfUnit(symbol)...) {
			if f, read := factors[name]; read {
				rows = append(rows, unitRow(name, f))
				delete(factors, name)
			}
		}
	}
	for _, u := range own.OwnUnits() {
		rows = append(rows, unitRow(u.Name, u.Size))
	}
	return slices.Concat([]byte("{"), bytes.Join(rows, []byte(",")), []byte("}"))
}

func unitRow(name string, f quantity.UnitFactor) []byte {
	powers := make([]string, len(f.Dim))
	for i, power := range f.Dim {
		powers[i] = strconv.Itoa(int(power))
	}
	size, err := json.Marshal([]any{strings.Join(powers, ","), f.Num, f.Den})
	if err != nil {
		panic("site: " + err.Error()) // a string and finite numbers
	}
	return fmt.Appendf(nil, "%q:%s", name, size)
}
