package typography

// Pages that no printer of ours would make: nothing of them may be lost, and none may take for ever.

import (
	"bytes"
	"strings"
	"testing"
)

// plain undoes what setting may change: quotation marks, however written, and blanks.
var plain = strings.NewReplacer("“", `"`, "”", `"`, "″", `"`, "‘", "'", "’", "'", "′", "'", "\u00a0", " ", "\n", " ",
	"&quot;", `"`, "&#34;", `"`, "&#39;", "'", "&apos;", "'")

func FuzzHTMLChangesOnlyMarksAndBlanks(f *testing.F) {
	for _, page := range []string{`<body><p>"5 mm" 'x' <b>"y</b>"</p>`, "<body", "<body><", "<body><!--", "<body></",
		"<body></>",
		`<body a="><p>"x`, "<body>&", "<body>&;&quot", "<body><code>\"", `<body><svg/>"x"`, "<body><x/y>5\nmm",
		"<body>\xff\""} {
		f.Add([]byte(page))
	}
	f.Fuzz(func(t *testing.T, page []byte) {
		set := Marks{}.HTML(page)
		if plain.Replace(string(set)) != plain.Replace(string(page)) {
			t.Errorf("%q became %q", page, set)
		}
		if head := bytes.Index(page, []byte("<body")); head >= 0 && !bytes.HasPrefix(set, page[:head]) {
			t.Errorf("the head of %q became %q", page, set)
		}
	})
}

// TestALongParagraphIsSet has more marks than any text, each of which looks at others. No time decides: if the work
// grew with the square of the marks, it would run into the limit of all tests.
func TestALongParagraphIsSet(t *testing.T) {
	for _, text := range []string{`"a`, `'a`, `'a `, `5" `, `("`, "5 mm ", "&quot;", `<b>"</b>`} {
		page := []byte("<body><p>" + strings.Repeat(text, 20_000))
		set := Marks{}.HTML(page)
		if plain.Replace(string(set)) != plain.Replace(string(page)) {
			t.Errorf("a paragraph of %q has lost something", text)
		}
	}
}
