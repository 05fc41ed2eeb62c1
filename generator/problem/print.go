package problem

// This file shows problems on a terminal: place, source line, a mark under what is meant, and what to do.

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/width"

	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Print writes the problems for a terminal, each as
//
//	file:line:col: error: what (slug)
//	   27 | key  C = 10.2 cm
//	      |          ├─────┤
//	      |          20.4 cm
//	   what to do
//
// The mark is a piece of tape as long as what it measures; what would be right stands below it, if that is known.
// Prefix is put before each file's name, so that the place can be opened from where
// the command was typed.
func Print(w io.Writer, prefix string, problems []Problem) error {
	var b strings.Builder
	for i, p := range problems {
		if i > 0 {
			b.WriteString("\n")
		}
		p.print(&b, prefix)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (p Problem) print(b *strings.Builder, prefix string) {
	at := p.File.Position(p.Span.Start)
	fmt.Fprintf(b, "%s: %s: %s (%s)\n", Place(prefix, p.File, p.Span), p.Severity, Printable(p.What), p.Slug)
	excerpt(b, p.File, at, p.Span, p.Instead)
	if p.Hint != "" {
		fmt.Fprintf(b, "   %s\n", Printable(p.Hint))
	}
	for i, r := range p.Related {
		if i == mostRelated {
			fmt.Fprintf(b, "   … and %s more such places\n", quantity.Grouped(len(p.Related)-i))
			break
		}
		fmt.Fprintf(b, "%s: %s\n", Place(prefix, r.File, r.Span), Printable(r.What))
		excerpt(b, r.File, r.File.Position(r.Span.Start), r.Span, "")
	}
}

// Place writes file:line:col.
func Place(prefix string, f *source.File, at source.Span) string {
	p := f.Position(at.Start)
	return fmt.Sprintf("%s%s:%d:%d", prefix, Printable(f.Name), p.Line, p.Column)
}

// excerptWidth is how many characters of a source line are shown at most.
const excerptWidth = 100

func excerpt(b *strings.Builder, f *source.File, at source.Position, span source.Span, instead string) {
	text, before, marked := Excerpt(f, at, span)
	if strings.TrimSpace(text) == "" {
		return
	}
	characters := []rune(text)
	indent := strings.Repeat(" ", columns(characters[:before]))
	fmt.Fprintf(b, "%5d | %s\n      | %s%s\n", at.Line, text, indent, mark(columns(characters[before:before+marked])))
	if instead != "" {
		fmt.Fprintf(b, "      | %s%s\n", indent, Printable(instead))
	}
}

// mark draws a piece of tape so many columns long; a place without a length gets a tick.
func mark(n int) string {
	if n <= 1 {
		return "┴"
	}
	return "├" + strings.Repeat("─", n-2) + "┤"
}

// columns is how much room a text takes on a terminal, where accents stand on the letter before them and the
// characters of some scripts are two columns wide (Unicode Standard Annex 11).
func columns(characters []rune) int {
	n := 0
	for _, r := range characters {
		switch {
		case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		case width.LookupRune(r).Kind() == width.EastAsianWide, width.LookupRune(r).Kind() == width.EastAsianFullwidth:
			n += 2
		default:
			n++
		}
	}
	return n
}

// Excerpt gives the source line of a span for showing, tabs widened and a long line cut round the
// mark, with the number of characters (not of columns) before the mark and in it.
func Excerpt(f *source.File, at source.Position, span source.Span) (text string, before, marked int) {
	if text := f.Line(at.Line); len(text) > 8*excerptWidth {
		return excerptOfLong(f, at, span)
	}
	line := []rune(f.Line(at.Line))
	start := min(at.Column-1, len(line))
	end := f.Position(span.End)
	stop := len(line)
	if end.Line == at.Line {
		stop = min(max(end.Column-1, start), len(line))
	}
	from := 0
	if stop > excerptWidth && len(line) > excerptWidth {
		from = max(0, min(start-excerptWidth/3, len(line)-excerptWidth))
	}
	to := min(len(line), from+excerptWidth)
	stop = min(stop, to)
	lead, cut := "", ""
	if from > 0 {
		lead = "… "
	}
	if to < len(line) {
		cut = " …"
	}
	head, body := lead+widen(line[from:start]), widen(line[start:stop])
	return head + body + widen(line[stop:to]) + cut, len([]rune(head)), len([]rune(body))
}

// excerptOfLong cuts a window of bytes round the mark before it counts characters, so
// that a thousand problems on one long line are shown in good time.
func excerptOfLong(f *source.File, at source.Position, span source.Span) (text string, before, marked int) {
	start, end := f.LineStart(at.Line), f.LineStart(at.Line)+len(f.Line(at.Line))
	from := boundary(f.Text(), max(start, span.Start-excerptWidth/3))
	stop := boundary(f.Text(), min(end, max(span.End, span.Start+1), span.Start+excerptWidth/3))
	to := boundary(f.Text(), min(end, from+excerptWidth))
	stop = min(stop, to)
	head := "… " + widen([]rune(string(f.Text()[from:span.Start])))
	body := widen([]rune(string(f.Text()[span.Start:max(span.Start, stop)])))
	return head + body + widen([]rune(string(f.Text()[max(span.Start, stop):to]))) + " …", len([]rune(head)),
		len([]rune(body))
}

// boundary moves an offset back to the start of a character.
func boundary(text []byte, i int) int {
	for i > 0 && i < len(text) && !utf8.RuneStart(text[i]) {
		i--
	}
	return i
}

// widen makes a piece of source fit for a terminal: a tab takes four columns and
// control characters are shown, not sent.
func widen(runes []rune) string {
	return Printable(strings.ReplaceAll(string(runes), "\t", "    "))
}

// Printable keeps what files hold from steering a terminal: controls, and marks of the direction of writing. What has
// no width and joins nothing is shown as well, since it may be what is wrong.
func Printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r) || unicode.In(r, unicode.Bidi_Control):
			return '�'
		case r == '\u200b' || r == '\u2060' || r == '\ufeff':
			return '�'
		}
		return r
	}, s)
}

// Summary counts problems in words: "2 errors, 1 caution".
func Summary(problems []Problem) string {
	errors, cautions := Counts(problems)
	return Plural(errors, "error") + ", " + Plural(cautions, "caution")
}

// Plural writes a count with its noun: "1 key", "2 keys", "1,000 keys".
func Plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return quantity.Grouped(n) + " " + noun + "s"
}
