package site

// Code in a lesson: coloured, and with the numbers of a lesson filled in.

import (
	"html"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/dlclark/regexp2/v2"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// fencedCode shows code that has no numbers to fill in.
func (b *body) fencedCode(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	var code strings.Builder
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		code.Write(s.Value(source))
	}
	language := string(n.(*ast.FencedCodeBlock).Language(source))
	put(w, codeBlock(b.inColour(language, code.String()), code.String(), nil))
	return ast.WalkContinue, nil
}

// filledCode puts numbers into a program: a stand-in for each value while the code is
// coloured, so that the lexer sees a number, then the value or a blank.
func (b *body) filledCode(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering || b.lesson == nil {
		return ast.WalkContinue, nil
	}
	block := n.(*lesson.FilledCode)
	var plain strings.Builder
	for _, p := range block.Parts {
		plain.WriteString(p.Code)
	}
	mark := strconv.Itoa(freeNumber(plain.String()))
	var code strings.Builder
	var fills []fill
	for _, p := range block.Parts {
		if p.Value == nil {
			code.WriteString(p.Code)
			continue
		}
		fills = append(fills, fill{code.Len(), code.Len() + len(mark), b.inCode(block, p.Value)})
		code.WriteString(mark)
	}
	put(w, codeBlock(b.inColour(block.Language, code.String()), code.String(), fills))
	return ast.WalkContinue, nil
}

// A fill is the HTML that stands in a range of the code for a value.
type fill struct {
	start, end int
	html       string
}

// freeNumber finds a number whose digits do not stand in the code.
func freeNumber(code string) int {
	for n := 731; ; n++ {
		if !strings.Contains(code, strconv.Itoa(n)) {
			return n
		}
	}
}

// inCode writes a value for a program: the number alone, with a plain minus.
func (b *body) inCode(code *lesson.FilledCode, v *lesson.Value) string {
	r := b.lesson.OfValue(v)
	number, _ := shownNumber(r)
	if q, ok := r.Quantity(); ok && r.IsTruth() {
		number = code.Truth(q.Number)
	}
	number = strings.ReplaceAll(number, quantity.Minus, "-")
	if r.Varies && !b.mentors {
		return b.liveNumber(r, &r.Live, number, code.Truth(1)+" or "+code.Truth(0))
	}
	if r.Guessed {
		number = "____"
	}
	return `<span class="value">` + html.EscapeString(number) + "</span>"
}

// inColour gives the language of code that is coloured, nothing for code that is not.
func (b *body) inColour(language, code string) string {
	if b.colouring.Takes(language, code) {
		return language
	}
	return ""
}

// codeBlock colours code and puts fills in for their stand-ins.
func codeBlock(language, code string, fills []fill) string {
	var out strings.Builder
	out.WriteString(`<pre class="code" tabindex="0"><code>`)
	at := 0
	for _, t := range tokens(language, code) {
		text := filledText(t.Value, at, fills)
		at += len(t.Value)
		if class := colour(t.Type); class == "plain" || strings.TrimSpace(t.Value) == "" {
			out.WriteString(text)
		} else {
			out.WriteString(`<span class="c-` + class + `">` + text + "</span>")
		}
	}
	out.WriteString("</code></pre>\n")
	return out.String()
}

// filledText is a token that starts at an offset of the code. A fill is written where
// its stand-in starts; the rest of the stand-in, perhaps in a later token, is dropped.
func filledText(value string, at int, fills []fill) string {
	var out strings.Builder
	from := at
	end := at + len(value)
	for _, f := range fills {
		if f.end <= from || f.start >= end {
			continue
		}
		if f.start >= at {
			out.WriteString(html.EscapeString(value[from-at:f.start-at]) + f.html)
		}
		from = min(f.end, end)
	}
	out.WriteString(html.EscapeString(value[from-at:]))
	return out.String()
}

// withoutClock keeps the library of patterns from giving a pattern up after a quarter of a second: on a computer that
// stutters the same code would come out in other colours. With so long between two looks at the clock none ever ends in
// time; that every one ends soon is for lesson.Colouring to see to.
var withoutClock = sync.OnceFunc(func() { regexp2.SetTimeoutCheckPeriod(100 * 365 * 24 * time.Hour) })

// tokens cuts code into coloured pieces that together are the code again.
func tokens(language, code string) []chroma.Token {
	plain := []chroma.Token{{Type: chroma.Text, Value: code}}
	name, known := lesson.CodeLanguage(language)
	if !known {
		return plain
	}
	withoutClock()
	it, err := chroma.Coalesce(lexers.Get(name)).Tokenise(&chroma.TokeniseOptions{State: "root", EnsureLF: false}, code)
	if err != nil {
		return plain
	}
	var joined strings.Builder
	all := it.Tokens()
	for _, t := range all {
		joined.WriteString(t.Value)
	}
	if joined.String() != code {
		return plain // a lexer that changes the text would move the fills
	}
	return all
}

// colour sorts chroma's many kinds of token into the few that the style sheet knows.
func colour(t chroma.TokenType) string {
	switch {
	case t.InCategory(chroma.Comment):
		return "comment"
	case t.InCategory(chroma.Keyword):
		return "keyword"
	case t.InSubCategory(chroma.LiteralString):
		return "string"
	case t.InSubCategory(chroma.LiteralNumber):
		return "number"
	case t == chroma.NameFunction || t == chroma.NameBuiltin || t == chroma.NameClass:
		return "name"
	}
	return "plain"
}
