package generator_test

// That every text of ours is one of the language's: nothing English is left in a pack of another language.

import (
	"bytes"
	"encoding/json"
	"html"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"trundle/generator"
	"trundle/generator/source"
	"trundle/generator/tally"
	"trundle/site"
	"trundle/site/words"
)

// marked is a language made of the English one: each text between marks.
func marked(t *testing.T) words.Words {
	t.Helper()
	w, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range w {
		switch {
		case strings.HasPrefix(name, "form-"), strings.HasPrefix(name, "#"), strings.HasSuffix(name, "-headings"):
		case name == "numbers", name == "months":
			w[name] = "«" + strings.Join(strings.Fields(text), "» «") + "»"
		default:
			w[name] = "«" + text + "»"
		}
	}
	return w
}

var (
	noText     = regexp.MustCompile(`(?s)<script.*?</script>|<style.*?</style>|<code.*?</code>|<annotation`)
	tagsOfPage = regexp.MustCompile(`<[^>]*>`)
	spoken     = regexp.MustCompile(`(?:title|alt|aria-label|placeholder|name="description" content|alttext)="([^"]*)"`)
	oneWord    = regexp.MustCompile(`\p{L}{3,}`)
	noWord     = regexp.MustCompile(`\S*[./_@-]\S*`) // addresses, names of files
)

// textsOfPage gives the texts of a page that somebody reads or hears, each alone.
func textsOfPage(page string) []string {
	page = strings.ReplaceAll(noText.ReplaceAllString(page, " "), "\u00ad", "") // where a word may be parted
	var all []string
	for _, tag := range tagsOfPage.FindAllString(page, -1) {
		for _, m := range spoken.FindAllStringSubmatch(tag, -1) {
			all = append(all, html.UnescapeString(m[1]))
		}
	}
	return append(all, html.UnescapeString(tagsOfPage.ReplaceAllString(page, " ")))
}

// betweenNoMarks gives what of a text is between no marks.
func betweenNoMarks(text string) string {
	var out strings.Builder
	depth := 0
	for _, r := range text {
		switch {
		case r == '«':
			depth++
		case r == '»':
			depth--
			out.WriteByte(' ')
		case depth <= 0:
			out.WriteRune(r)
		}
	}
	return out.String()
}

// textOfPaper gives the text of a PDF.
func textOfPaper(t *testing.T, data []byte) string {
	t.Helper()
	to := exec.CommandContext(t.Context(), "pdftotext", "-raw", "-", "-")
	to.Stdin = bytes.NewReader(data)
	text, err := to.Output()
	if err != nil {
		t.Fatal("this test needs pdftotext: ", err)
	}
	return string(text)
}

// textsOfSteps gives what a script of worked steps and replies brings to a page.
func textsOfSteps(t *testing.T, script string) []string {
	t.Helper()
	var all []string
	var walk func(value any)
	walk = func(value any) {
		switch value := value.(type) {
		case string:
			all = append(all, textsOfPage(value)...)
		case []any:
			for _, v := range value {
				walk(v)
			}
		case map[string]any:
			for _, key := range slices.Sorted(maps.Keys(value)) {
				walk(value[key])
			}
		}
	}
	lines := strings.Split(strings.TrimSpace(script), "\n")
	for _, line := range lines[1:] { // the first one is the version
		name, data, _ := strings.Cut(line, "=")
		var value any
		if err := json.Unmarshal([]byte(data), &value); err != nil {
			t.Fatal(err)
		}
		switch {
		case strings.HasSuffix(name, ".replies"): // the author's, and scrambled
		case strings.HasSuffix(name, ".fields"): // of programs and hints nothing is ours
			for _, field := range value.([]any) {
				field := field.(map[string]any)
				walk([]any{field["u"], field["v"], field["also"]})
			}
		default:
			walk(value)
		}
	}
	return all
}

// textsOfTally gives what tally says of files of a class.
func textsOfTally(t *testing.T, s *site.Site, pack *tally.Pack) map[string][]string {
	t.Helper()
	texts := map[string][]string{}
	for by, rows := range map[string]string{
		"base": "A,B,1,119\nA,B,2,120\nA,B,3,121\nC,D,1,131\nC,D,2,131\nC,D,3,131\nE,D,1,125\nF,F,1,\nF,F,2,4\n",
		"team": "A,,1,119\nA,,2,120\nA,,3,121\nA,,4,119\nA,,5,120\nA,,6,190\nB,,1,120\nB,,2,121\nB,,3,119\n",
	} {
		file := source.NewFile("class.csv", []byte("team,base,run,s (cm)\n"+rows))
		report, problems := tally.Of([]*source.File{file}, tally.Options{Pack: pack})
		if problems.HasErrors() || report.By != by {
			t.Fatal(report.By, problems.Sorted())
		}
		all := append([]string{s.TallyHead(report)}, s.TallyWarnings(report)...)
		for _, numbers := range s.TallyTables(report) {
			all = append(all, numbers.Caption)
			all = slices.Concat(all, numbers.Heads, numbers.Look, numbers.Says)
		}
		page, err := s.Tally(report)
		if err != nil {
			t.Fatal(err)
		}
		texts["tally by "+by] = append(all, textsOfPage(string(page["index.html"]))...)
	}
	return texts
}

// blockOfOurs is a block in the program's own language, and authored what of it is the author's: texts in quotes, and
// names.
var (
	blockOfOurs = regexp.MustCompile("(?ms)^```(?:work|show|chart|runs|compare|readers|gauge)\\b.*?^```")
	authored    = regexp.MustCompile(`"[^"\n]*"|(?m:^(?:given|measure|record|predict|find|choose|say) +\w+)`)
)

// wordsBelow are all words of the files below a folder, in small letters; of blocks those that are the author's.
func wordsBelow(t *testing.T, folder fs.FS) map[string]bool {
	t.Helper()
	all := map[string]bool{}
	err := fs.WalkDir(folder, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(folder, name)
		data = blockOfOurs.ReplaceAllFunc(data, func(block []byte) []byte {
			return bytes.Join(authored.FindAll(block, -1), []byte("\n"))
		})
		for _, word := range oneWord.FindAllString(strings.ReplaceAll(string(data), "_", " "), -1) {
			all[strings.ToLower(word)] = true
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// TestNoEnglishOfOursIsLeftInAnotherLanguage draws Spanish packs with the marked language. What stands outside its
// marks and is in none of the sources is ours.
func TestNoEnglishOfOursIsLeftInAnotherLanguage(t *testing.T) {
	s, err := site.In(marked(t))
	if err != nil {
		t.Fatal(err)
	}
	packs := map[string]fs.FS{"every kind of block": commaPack(t, "es")}
	for _, folder := range []string{"../testdata/spanish", "../cmd/trundle/starter/es/pack"} {
		packs[folder] = os.DirFS(folder)
	}
	for folder, pack := range packs {
		proved, err := generator.Prove(t.Context(), pack)
		if err != nil || proved.HasErrors() {
			t.Fatal(folder, err, proved.Problems)
		}
		generator.SpeakIn(proved, s)
		files, err := generator.Draw(t.Context(), proved)
		if err != nil {
			t.Fatal(err)
		}
		theirs := wordsBelow(t, pack)
		texts := map[string][]string{}
		for name, data := range files {
			switch {
			case strings.HasSuffix(name, ".html"):
				texts[name] = textsOfPage(string(data))
			case strings.HasSuffix(name, "a4.pdf"):
				texts[name] = []string{textOfPaper(t, data)}
			case strings.Contains(name, "/steps/"):
				texts[name] = textsOfSteps(t, string(data))
			}
		}
		for _, e := range site.Editions {
			start, err := s.StartHere(proved.Pack, e)
			if err != nil {
				t.Fatal(err)
			}
			texts["START-HERE of "+string(e)] = textsOfPage(string(start))
		}
		if folder == "every kind of block" {
			maps.Copy(texts, textsOfTally(t, s, proved.Records()))
		}
		for name, all := range texts {
			var left []string
			if !strings.Contains(strings.Join(all, ""), "«") {
				t.Errorf("%s has no text of the language", name)
			}
			for _, text := range all {
				for _, word := range oneWord.FindAllString(noWord.ReplaceAllString(betweenNoMarks(text), " "), -1) {
					if !theirs[strings.ToLower(word)] && !unicode.Is(unicode.Greek, []rune(word)[0]) {
						left = append(left, word)
					}
				}
			}
			if slices.Sort(left); len(left) > 0 {
				t.Errorf("%s has words of no language: %s", name, strings.Join(slices.Compact(left), ", "))
			}
		}
	}
}
