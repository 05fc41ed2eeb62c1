package parse

// Values in braces, in prose and in filled code.

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// contextKey is where a document's file and problems travel while goldmark parses.
var contextKey = parser.NewContextKey()

// document is what the inline parser needs to know of the file in hand.
type document struct {
	file     *source.File
	problems *problem.List
	words    *quantity.Vocabulary // of the pack
	marks    marks                // of the pack's language
	values   int                  // that were begun so far
}

// valueParser reads {expr in unit to step} in prose.
type valueParser struct{}

// Trigger makes goldmark ask at every brace; an escaped one never gets here.
func (valueParser) Trigger() []byte { return []byte{'{'} }

// Parse reads a value. One that cannot be read stays text, so that the rest of its line is
// still checked.
func (valueParser) Parse(_ ast.Node, block text.Reader, pc parser.Context) ast.Node {
	doc := pc.Get(contextKey).(*document)
	line, segment := block.PeekLine()
	at := segment.Start - segment.Padding // the padding of a tab is in line and not in the file
	if part := partInText(doc, line, at); part != nil {
		block.Advance(part.(*ast.Text).Segment.Len())
		return part
	}
	if doc.tooManyValues(at) {
		return nil
	}
	end := bytes.IndexByte(line, '}')
	if next := bytes.IndexByte(line[1:], '{') + 1; end < 0 || next > 0 && next < end {
		hint := `write } after the value, or \{ for a brace that is only text`
		if twice := bracesTwice.FindSubmatch(line); twice != nil {
			hint = "a value has one brace on each side: write  {" + string(twice[1]) + "}; a part is put in by {{part NAME}}"
		}
		doc.problems.Error(doc.file, source.Span{Start: at, End: at + 1}, "open-brace",
			"this brace opens a value and is not closed on its line", hint)
		if twice := bracesTwice.Compiled().Find(line); twice != nil { // the inner one would be a second problem, or a value
			block.Advance(len(twice))
			return ast.NewTextSegment(text.NewSegment(segment.Start, segment.Start+len(twice)))
		}
		return nil
	}
	v := readValue(doc, string(line[1:end]), at)
	if v == nil {
		return nil
	}
	block.Advance(end + 1)
	return v
}

// bracesTwice is a value in two pairs of braces.
var bracesTwice = wording.New(`^\{\{\s*([^{}]+?)\s*\}\}`)

// readValue reads what is between the braces; at is the place of the first one. It gives nil for what cannot be read,
// which is reported: prose and code then differ in what they show in its place.
func readValue(doc *document, inner string, at int) *lesson.Value {
	v := &lesson.Value{At: source.Span{Start: at, End: at + len(inner) + 2}}
	var err *quantity.Error
	p := doc.words.NewParser(inner, func(i int) int { return at + 1 + i })
	if strings.TrimSpace(inner) == "" {
		doc.problems.Error(doc.file, v.At, "empty-value", "there is no value between these braces",
			`write a name or a calculation, or \{ for a brace that is only text`)
		return nil
	}
	if v.Expr, err = p.Expr(); err == nil {
		v.Target, err = p.Targets()
	}
	if err == nil {
		err = p.End()
	}
	if err != nil {
		if hint := slipAt(doc.file, at+1, err, doc.words); hint != "" {
			err.Hint = hint
		} else {
			err.Hint = hintOfValue(inner, err)
		}
		if timesLeftOut.MatchString(inner) {
			err.Instead = "" // a name is as likely as a slip in a unit
		}
		doc.problems.FromQuantity(doc.file, err)
		return nil
	}
	return v
}

// timesLeftOut is a number right before a name, as in 2n.
var timesLeftOut = wording.New(`^\s*([0-9.]+)(\pL[\pL\pN_]*)\s*$`)

// hintOfValue says what to do about braces that cannot be read, of which some were never meant as a value.
func hintOfValue(inner string, err *quantity.Error) string {
	const asText = `write \{ for a brace that is only text`
	if m := timesLeftOut.FindStringSubmatch(inner); m != nil && err.Slug == "unknown-unit" {
		return "if " + m[2] + " is a name, write  {" + m[1] + " * " + m[2] + "}; " + asText
	}
	if err.Hint == "" || err.Slug == "syntax" {
		hint := "a value is {expression in unit to step}; " + asText
		if err.Hint != "" {
			hint = err.Hint + "; " + asText
		}
		return hint
	}
	return err.Hint
}

// fill splits the lines of a filled code block into code and values. Programs have braces of their own, so \{ and \}
// are taken for plain ones, and only here: in prose Markdown itself does that.
func fill(doc *document, lines []sourceLine) []lesson.CodePart {
	var parts []lesson.CodePart
	var code strings.Builder
	flush := func() { // the code so far becomes a part
		if code.Len() > 0 {
			parts = append(parts, lesson.CodePart{Code: code.String()})
			code.Reset()
		}
	}
	for _, l := range lines {
		for i := 0; i < len(l.text); {
			end := strings.IndexByte(l.text[i:], '}')
			switch {
			case l.text[i] == '\\' && i+1 < len(l.text) && (l.text[i+1] == '{' || l.text[i+1] == '}'):
				code.WriteByte(l.text[i+1])
				i += 2
				continue
			case l.text[i] != '{':
				code.WriteByte(l.text[i])
				i++
				continue
			case end < 0:
				doc.problems.Error(doc.file, source.Span{Start: l.at + i, End: l.at + i + 1}, "open-brace",
					"this brace opens a value and is not closed on its line",
					`write \{ for a brace that belongs to the program`)
				end = len(l.text) - i - 1 // the rest of the line is left out; the problem stops the build
			case doc.tooManyValues(l.at + i):
			default:
				if v := readValue(doc, l.text[i+1:i+end], l.at+i); v != nil {
					flush()
					parts = append(parts, lesson.CodePart{Value: v})
				}
			}
			i += end + 1
		}
		code.WriteByte('\n')
	}
	flush()
	return parts
}
