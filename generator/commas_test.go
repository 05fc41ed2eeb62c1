package generator_test

import (
	"html"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/generator/locale"
)

// commaBody has every kind of block with numbers that have decimals, written with commas. No prose of it has a point
// between digits.
const commaBody = "Das Rad misst {kit.wheel} und {kit.wheel in cm to 0,001}; viermal {0,25} ist {4 * 0,25 + 0,5}.\n\n" +
	"```work\nmeasure d = kit.wheel \"Rad\"\ngiven L = 120,5 cm ± 0,2 cm \"Strecke\"\ngiven w = 2,5 kg within 0,1 kg\n" +
	"predict g in rot \"Geschätzt\"\nrecord s[5] in cm to 0,1 = 119,8, 120,4, 121,1; 120,0; 119,5 \"Halt\"\n" +
	"find C in cm to 0,1 = circumference(d) \"Umfang\"\nkey C = 20,5 cm within 0,1 cm\n" +
	"slip d * 3,5 \"Nicht mit 3,5 malnehmen\"\nslip d / 3,14 \"Mal, nicht durch\"\n" +
	"find n in rot to 0,01 = rotations(L; d) \"Drehungen\"\nkey n = 5,86 rot\n" +
	"find m in cm to 0,1 = mean(s) \"Mittel\"\nfind sd in cm to 0,01 = stdev(s) \"Streuung\"\n" +
	"find r in cm to 0,1 = max(s) - min(s) \"Breite\"\n" +
	"find fuss in ft and in to 0,5 = max(L; 36,5 in; 0,5 m) \"In Fuß\"\nfind p in % to 0,1 = percent_error(m; L) \"Fehler\"\n" +
	"choose o = \"ein halb*\" | \"ein viertel\" \"Was ist mehr?\"\n```\n\n" +
	"```python filled\ndrive({n to 0,01})\n```\n\n" +
	"```show\nunroll d until C \"Abgerollt\"\nlaps L by C until n \"Wie oft\"\ntape s = L \"Halte\"\npart r of L until p \"Teil\"\n" +
	"path s over L times 2,5 \"Von oben\"\nread 47,9 cm to 0,1 \"Lies ab\"\n```\n\n```show data/r.csv\nshuffle stop in cm by base \"Neu gemischt\"\n```\n\n" +
	"```chart\ntitle \"Drehungen\"\nvary x from 0,1 cm to 0,9 cm \"Strecke\"\nline rotations(x; 6,5 cm) in rot \"Rad\"\n" +
	"axis \"Drehungen\"\nmark 0,5 cm \"Steg\"\n```\n\n" +
	"```chart\ntitle \"Bahn\"\nlength 10,5 cm\ntrack 11,2 cm\npath 0,13 % \"Links\"\n```\n\n" +
	"```chart data/r.csv\ntitle \"Halte\"\ngroup base\ndots stop in cm = 120,5 cm \"Halt\"\n```\n\n" +
	"```chart data/r.csv\ntitle \"Mittel\"\ngroup base\nbars stop in cm = 120,5 cm \"Halt\"\n```\n\n" +
	"```runs data/r.csv\ngroup base \"Wagen\"\nalong stop in cm to 0,1 = 120,5 cm \"Halt\"\nmatters 0,5 cm \"Spalt\"\n```\n\n" +
	"```compare data/r.csv\ngroup base\nnear stop = 120,5 cm within 6,5 cm weight 2,5 \"Nah\"\n" +
	"steady stop within 3,5 cm weight 1,5 \"Gleich\"\njudged A 3,5, B 4,5 of 5,5 weight 0,5 \"Platz\"\nby \"Zwei Gruppen\"\n```\n\n" +
	"```gauge\nfan 30,5 cm \"Fächer\"\nwrap 70,5 mm \"Streifen\"\nruler 16,5 cm \"Lineal\"\ntarget L \"Ziel\"\nrose 11,25 cm \"Rose\"\n```\n\n" +
	"## Mentor notes\n\nFür {L} sind es {n to 0,01}.\n"

func commaPack(tag string) fstest.MapFS {
	pack := packOf(commaBody)
	pack["pack.yaml"] = &fstest.MapFile{Data: []byte("title: P\nversion: 1\nkit: heron\nlanguage: " + tag +
		"\nunits: {Felder: \"2,5 cm\"}\n")}
	pack["kits.yaml"] = &fstest.MapFile{Data: []byte(
		"heron: {title: Heron, wheel: \"65,5 mm\", track: \"11,2 cm\", gear: 2.5}\ncoot: {title: Coot, wheel: \"6,55 cm\"}\n")}
	pack["data/r.csv"] = &fstest.MapFile{Data: []byte("base;stop (cm)\n" + strings.Repeat("A;120,5\nA;119,75\nB;124,25\nB;125,5\n", 3))}
	return pack
}

// What people read of a page: texts, and attributes that are read aloud or shown.
var (
	unread     = regexp.MustCompile(`(?s)<(script|style|pre|head)\b.*?</(script|style|pre|head)>`)
	readAttrib = regexp.MustCompile(`\s(?:aria-label|alttext|alt|title|placeholder)="([^"]*)"`)
	anyTag     = regexp.MustCompile(`<[^>]*>`)
	withPoint  = regexp.MustCompile(`[^<>\n]{0,40}[0-9]\.[0-9][^<>\n]{0,20}`)

	inThousands = regexp.MustCompile(`\b[0-9]{1,3}(?:\.000)+\b`) // 700.000, as German has it
)

func readOf(page string) string {
	page = unread.ReplaceAllString(page, "")
	var aloud []string
	for _, m := range readAttrib.FindAllStringSubmatch(page, -1) {
		aloud = append(aloud, m[1])
	}
	return html.UnescapeString(anyTag.ReplaceAllString(page, "\n") + strings.Join(aloud, "\n"))
}

// TestNoNumberOfOursHasAPointWhereTheLanguageHasACommaBeforeDecimals reads all pages, sheets and worked steps, but the
// page that explains ±, which is the language's own text and names sections of a standard. Programs have points.
func TestNoNumberOfOursHasAPointWhereTheLanguageHasACommaBeforeDecimals(t *testing.T) {
	for _, tag := range locale.Tags() {
		if forms, err := locale.FormsOf(tag); err != nil || !forms.Commas() {
			continue
		}
		commas := 0
		for name, text := range drawn(t, commaPack(tag)) {
			switch {
			case strings.HasSuffix(name, "/sure.html"):
				continue
			case strings.HasSuffix(name, ".html"):
				text = readOf(text)
			case strings.Contains(name, "/steps/"): // between the tags of formulas
				text = strings.Join(regexp.MustCompile(`>[^<>{}]*<`).FindAllString(text, -1), "\n")
			case strings.HasSuffix(name, "a4.pdf"):
				cmd := exec.Command("pdftotext", "-", "-")
				cmd.Stdin = strings.NewReader(text)
				out, err := cmd.Output()
				if err != nil {
					t.Fatal(name, err)
				}
				text = strings.ReplaceAll(string(out), "drive(5.86", "drive(")
			default:
				continue
			}
			commas += len(regexp.MustCompile(`[0-9],[0-9]`).FindAllString(text, -1))
			text = inThousands.ReplaceAllString(text, "")
			for _, found := range withPoint.FindAllString(text, -1) {
				t.Errorf("%s, %s: %q", tag, name, found)
			}
		}
		if commas < 100 {
			t.Errorf("%s: only %d numbers have a comma", tag, commas)
		}
	}
}
