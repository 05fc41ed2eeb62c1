package site

import (
	"html"
	"strconv"
	"strings"

	"github.com/alecthomas/chroma/v2"
	"github.com/alecthomas/chroma/v2/lexers"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

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
	put(w, codeBlock(language, code.String(), nil))
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
	next := freeNumber(plain.String())
	var code strings.Builder
	fills := map[string]string{}
	for _, p := range block.Parts {
		if p.Value == nil {
			code.WriteString(p.Code)
			continue
		}
		mark := strconv.Itoa(next)
		next++
		fills[mark] = b.inCode(p.Value)
		code.WriteString(mark)
	}
	put(w, codeBlock(block.Language, code.String(), fills))
	return ast.WalkContinue, nil
}

// freeNumber finds a long number whose digits do not stand in the code.
func freeNumber(code string) int {
	for n := 7310000; ; n += 10000 {
		if !strings.Contains(code, strconv.Itoa(n/10000)) {
			return n
		}
	}
}

// inCode writes a value for a program: the number alone, with a plain minus.
func (b *body) inCode(v *lesson.Value) string {
	r := b.lesson.OfValue(v)
	if b.hidden(r) {
		return `<span class="blank"><span class="unseen">` + html.EscapeString(b.words.must("blank")) + `</span></span>`
	}
	q, ok := r.Quantity()
	if !ok {
		return ""
	}
	number, _ := quantity.Show(q, r.Target)
	return `<span class="value">` + html.EscapeString(strings.ReplaceAll(number, quantity.Minus, "-")) + "</span>"
}

// codeBlock colours code and puts fills in for their stand-ins.
func codeBlock(language, code string, fills map[string]string) string {
	var out strings.Builder
	out.WriteString(`<pre class="code" tabindex="0"><code>`)
	for _, t := range tokens(language, code) {
		class := chroma.StandardTypes[t.Type]
		text := html.EscapeString(t.Value)
		for mark, fill := range fills {
			text = strings.ReplaceAll(text, mark, fill)
		}
		if class == "" || class == "w" || strings.TrimSpace(t.Value) == "" {
			out.WriteString(text)
			continue
		}
		out.WriteString(`<span class="c-` + colour(t.Type) + `">` + text + "</span>")
	}
	out.WriteString("</code></pre>\n")
	return out.String()
}

func tokens(language, code string) []chroma.Token {
	lexer := lexers.Get(language)
	if lexer == nil {
		lexer = lexers.Fallback
	}
	it, err := chroma.Coalesce(lexer).Tokenise(nil, code)
	if err != nil {
		return []chroma.Token{{Type: chroma.Text, Value: code}}
	}
	return it.Tokens()
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
