package check

import (
	"bytes"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/source"
)

// A run is the prose of one block, or one prompt, put together from its pieces, with
// blanks of all kinds made plain. at and ends tell for each byte of it where the
// character that it belongs to starts and ends in the file.
type run struct {
	text     []byte
	at, ends []int
}

func (r *run) write(s string, at, end int) {
	r.text = append(r.text, s...)
	for range len(s) {
		r.at, r.ends = append(r.at, at), append(r.ends, end)
	}
}

// noText stands in a run for what is no text that a coach typed: a computed value,
// code, a picture.
const noText = "\ufffc"

// runsOf gives the prose of a lesson. Code is left out; a slip of the pen in a
// program is its own business, and code marks keep an example out of this check.
func runsOf(l *lesson.Lesson) []run {
	var all []run
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if block, ok := n.(*lesson.WorkBlock); ok {
			for _, s := range block.Statements {
				all = append(all, promptRun(l, s))
			}
		}
		if image, ok := n.(*ast.Image); ok {
			all = append(all, runBelow(image, l.Markdown))
		}
		if first := n.FirstChild(); n.Type() == ast.TypeBlock && first != nil && first.Type() == ast.TypeInline {
			all = append(all, runBelow(n, l.Markdown))
		}
		return ast.WalkContinue, nil
	})
	return all
}

func runBelow(top ast.Node, src []byte) run {
	var r run
	_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering || n == top {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Text:
			r.markdown(src, n.Segment.Start, n.Segment.Stop)
			switch {
			case n.HardLineBreak():
				r.write("\n", n.Segment.Stop, n.Segment.Stop)
			case n.SoftLineBreak():
				r.write(" ", n.Segment.Stop, n.Segment.Stop)
			}
		case *ast.Emphasis, *ast.Link:
		default:
			r.write(noText, 0, 0)
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
	return r
}

// entity is a character by name or number, such as &nbsp; or &#189;.
var entity = regexp.MustCompile(`^&#?[0-9A-Za-z]{1,30};`)

// markdown adds a piece of the source with its escapes resolved.
func (r *run) markdown(src []byte, start, end int) {
	for i := start; i < end; {
		rest := src[i:end]
		size := 0
		if rest[0] == '&' {
			size = len(entity.Find(rest))
		}
		switch {
		case rest[0] > ' ' && rest[0] < utf8.RuneSelf && rest[0] != '&' && rest[0] != '\\': // most are plain
			size = 1
			r.text, r.at, r.ends = append(r.text, rest[0]), append(r.at, i), append(r.ends, i+1)
		case size > 0:
			r.plain(string(util.ResolveEntityNames(util.ResolveNumericReferences(rest[:size]))), i, i+size)
		case len(rest) > 1 && rest[0] == '\\' && util.IsPunct(rest[1]):
			size = 2
			r.write(string(rest[1]), i, i+2)
		default:
			_, size = utf8.DecodeRune(rest)
			r.plain(string(rest[:size]), i, i+size)
		}
		i += size
	}
}

// plain adds characters, a blank of any width as a plain one.
func (r *run) plain(s string, at, end int) {
	for _, c := range s {
		if c == '\u00ad' || c == '\u200b' || c == '\u2060' { // nobody sees these
			continue
		}
		if !unicode.IsSpace(c) && c != '\u2009' && c != '\u202f' {
			r.write(string(c), at, end)
		} else if !bytes.HasSuffix(r.text, []byte(" ")) {
			r.write(" ", at, end)
		}
	}
}

// promptRun gives the text in quotes of a statement.
func promptRun(l *lesson.Lesson, s *lesson.Statement) run {
	var r run
	text := l.File.Slice(s.At)
	open := strings.IndexAny(text, "\"“")
	if open < 0 {
		return r
	}
	text = strings.TrimRight(text, "\"”")
	for i, c := range text {
		if i > open {
			size := utf8.RuneLen(c)
			r.plain(string(c), s.At.Start+i, s.At.Start+i+size)
		}
	}
	return r
}

// span gives the place in the file of a part of the run.
func (r *run) span(start, end int) source.Span {
	return source.Span{Start: r.at[start], End: r.ends[end-1]}
}

// rawRun is a piece of the file as it stands, such as a line of code.
func rawRun(src []byte, start, end int) run {
	var r run
	for i := start; i < end; {
		_, size := utf8.DecodeRune(src[i:end])
		r.plain(string(src[i:i+size]), i, i+size)
		i += size
	}
	return r
}

// textAt is a text that stands somewhere in a header.
func textAt(s string, at source.Span) run {
	var r run
	r.plain(s, at.Start, at.End)
	return r
}
