package typography_test

// What is set how; that nothing else is touched; and that code and tags stay.

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"trundle/generator/locale"
	"trundle/generator/typography"
)

// english are the marks of no language.
var english typography.Marks

func TestTextsAreSet(t *testing.T) {
	for _, c := range [][2]string{
		{`"Stop!" said the skipper.`, `“Stop!” said the skipper.`},
		{`She said: "Stop".`, `She said: “Stop”.`},
		{`"one … two …". "… and"`, `“one … two …”. “… and”`},
		{`("one", "two")`, `(“one”, “two”)`},
		{`the coach's own, students' work, it's, don't`, `the coach’s own, students’ work, it’s, don’t`},
		{`the '90s and 'tis`, `the ’90s and ’tis`},
		{`'yes' and "it's 'so'"`, `‘yes’ and “it’s ‘so’”`},
		{`a 6" wheel and 5' of tape, 5' 6" in all`, `a 6″ wheel and 5′ of tape, 5′ 6″ in all`},
		{`8 1/2" and 8½"`, `8 1/2″ and 8½″`},
		{`"a 6" wheel" rolls`, `“a 6″ wheel” rolls`},
		{`type "turn 5" and "stop 6"`, `type “turn 5” and “stop 6”`},
		{`An inch is 2.54 cm, exactly.`, "An inch is 2.54\u00a0cm, exactly."},
		{"over\n48 in of towpath", "over\n48\u00a0in of towpath"},
		{"it took 3\ns", "it took 3\u00a0s"},
		{`36 1/2 in, 30 mm/s and 5 %`, "36 1/2\u00a0in, 30\u00a0mm/s and 5\u00a0%"},
		{`1 in a million, 1 in 20, 12 in long`, "1 in a million, 1 in 20, 12\u00a0in long"},
		{`5 rotations, A4 in grey, 3 mm2, 7 inches`, `5 rotations, A4 in grey, 3 mm2, 7 inches`},
		{``, ``}, {`"`, `”`}, {`'`, `’`},
	} {
		if got := english.Text(c[0]); got != c[1] {
			t.Errorf("%s\nis set   %s\nand not  %s", c[0], got, c[1])
		}
	}
	if got := english.Text(`write ` + typography.Keep(`say("it's 5")`)); strings.ReplaceAll(got, "\u2060", "") !=
		`write say("it's 5")` {
		t.Errorf("code is set: %s", got)
	}
}

// marksOf are those of a language of ours.
func marksOf(t *testing.T, tag string) typography.Marks {
	t.Helper()
	forms, err := locale.FormsOf(tag)
	if err != nil {
		t.Fatal(err)
	}
	return typography.In(forms)
}

func TestALanguageHasItsQuotationMarksAndBlanks(t *testing.T) {
	const nb, thin = "\u00a0", "\u202f"
	for _, c := range [][3]string{
		{"en", `"Stop 'here'!" it's`, `“Stop ‘here’!” it’s`},
		{"es", `¿"Sí" o 'no'? "Rueda 'libre'": d'Ors`, `¿«Sí» o “no”? «Rueda “libre”»: d’Ors`},
		{"es", `una rueda de 6" y "ya"`, `una rueda de 6″ y «ya»`},
		{"de", `"Rad 'A'", so geht's. ("Halt!")`, `„Rad ‚A‘“, so geht’s. („Halt!“)`},
		{"de", `„Rad", sagt er: "ja"`, `„Rad“, sagt er: „ja“`},
		{"fr", `l'"Hirondelle" : d'où ? "oui 'peut-être'" !`,
			"l’«" + nb + "Hirondelle" + nb + "»" + nb + ": d’où" + thin + "? «" + nb + "oui “peut-être”" + nb + "»" +
				thin + "!"},
		{"fr", "déjà « mis » ; 5 cm ?", "déjà «" + nb + "mis" + nb + "»" + thin + "; 5" + nb + "cm" + thin + "?"},
		{"fr", "10:30, a : b", "10:30, a" + nb + ": b"},
	} {
		marks := marksOf(t, c[0])
		if got := marks.Text(c[1]); got != c[2] {
			t.Errorf("%s: %s\nis set   %q\nand not  %q", c[0], c[1], got, c[2])
		}
		if got := string(marks.HTML([]byte("<body><p>" + c[1] + "</p>"))); got != "<body><p>"+c[2]+"</p>" {
			t.Errorf("%s: %s\nis set   %q on a page\nand not  %q", c[0], c[1], got, c[2])
		}
	}
	if got := marksOf(t, "de").Quoted("Rad"); got != "„Rad“" {
		t.Errorf("a word is quoted as %s", got)
	}
}

func TestPagesAreSet(t *testing.T) {
	for _, c := range [][2]string{
		{`<p>&#34;<em>Stop</em>!&#34; it&#39;s</p>`, `<p>“<em>Stop</em>!” it’s</p>`},
		{`<p>"<b>Go</b>"</p><p>"on"</p>`, `<p>“<b>Go</b>”</p><p>“on”</p>`},
		{`<p title="it's">the team<a href="a">'s</a> "<code>x = "y"</code>"</p>`,
			`<p title="it's">the team<a href="a">’s</a> “<code>x = "y"</code>”</p>`},
		{`<pre><code>"a" 5 cm <span>"b"</span></code></pre>"c"`, `<pre><code>"a" 5 cm <span>"b"</span></code></pre>“c”`},
		{`<p>2 &lt; 3 cm &amp; "so"</p>`, "<p>2 &lt; 3\u00a0cm &amp; “so”</p>"},
		{`<p class="as-text">&lt;b class="x"&gt;</p><p>"x"</p>`, `<p class="as-text">&lt;b class="x"&gt;</p><p>“x”</p>`},
		{`<script>"5 cm"</script><svg><text>"5 cm"</text></svg>`, `<script>"5 cm"</script><svg><text>"5 cm"</text></svg>`},
		{`<input value="a > b's"><!-- it's -->"x"`, `<input value="a > b's"><!-- it's -->“x”`},
		{`<p><strong>5</strong> cm</p>`, "<p><strong>5</strong>\u00a0cm</p>"},
	} {
		if got := string(english.HTML([]byte("<title>'</title><body>" + c[0]))); got != "<title>'</title><body>"+c[1] {
			t.Errorf("%s\nis set   %s\nand not  %s", c[0], got, c[1])
		}
	}
	if got := string(english.HTML([]byte(`"no body"`))); got != `"no body"` {
		t.Errorf("what is no page comes out as %s", got)
	}
}

// typed takes back what is set, as far as it can be told.
var typed = strings.NewReplacer("“", `"`, "”", `"`, "″", `"`, "‘", `'`, "’", `'`, "′", `'`, "\u00a0", " ", "\n", " ")

func TestOnlyMarksAndBlanksChange(t *testing.T) {
	letters := rapid.StringOf(rapid.SampledFrom([]rune(`"" '' 5½a(s)—.,` + "\n\u2060cmé9 “’")))
	rapid.Check(t, func(t *rapid.T) {
		text := letters.Draw(t, "text")
		got := english.Text(text)
		if typed.Replace(got) != typed.Replace(text) {
			t.Fatalf("%q becomes %q", text, got)
		}
		if again := english.Text(got); !strings.Contains(text, "\u2060") && strings.ContainsAny(again, `"'`) {
			t.Fatalf("%q has typed marks", again)
		}
	})
}

var aTag = regexp.MustCompile(`<[^>]*>`)

func TestOnlyMarksAndBlanksOfAPageChange(t *testing.T) {
	pieces := rapid.SliceOf(rapid.SampledFrom([]string{
		"<p>", "</p>", "<em>", "</em>", `<a href="it's">`, "</a>", "<code>\"x\"</code>", "&#34;", "&#39;", "&quot;", "&lt;",
		"5", " ", "cm", "word", "'", `"`, "\n", "é", "\xff", "<br>", "&amp", "<svg><text>'</text></svg>",
	}))
	rapid.Check(t, func(t *rapid.T) {
		page := "<body>" + strings.Join(pieces.Draw(t, "pieces"), "")
		got := string(english.HTML([]byte(page)))
		plain := func(s string) string { return typed.Replace(html.UnescapeString(aTag.ReplaceAllString(s, "|"))) }
		if plain(got) != plain(page) {
			t.Fatalf("%q becomes %q", page, got)
		}
		if tags := aTag.FindAllString(page, -1); strings.Join(tags, "") != strings.Join(aTag.FindAllString(got, -1), "") {
			t.Fatalf("%q has other tags: %q", page, got)
		}
	})
}
