package parse

// Our blocks as texts: a block is cut into statements, and each statement into words and
// texts in quotes that know their places in the file. Comments end here.

import (
	"sort"
	"strings"

	"trundle/generator/source"
)

// A sourceLine is one line of a block: its text without the line's end and where that
// starts in the file.
type sourceLine struct {
	text string
	at   int
}

// closingMarks are the ways to open a text, each with what may end it. Word processors turn
// straight quotes into curly ones, in some languages into low ones, so all will do.
var closingMarks = map[rune]string{'"': "\"", '“': "”", '„': "“”\""}

// closingOf is the mark that ends a text, of those that may end it the first.
func closingOf(opening rune, rest string) rune {
	marks := closingMarks[opening]
	if i := strings.IndexAny(rest, marks); i >= 0 {
		return []rune(rest[i:])[0]
	}
	return []rune(marks)[0]
}

// A lexeme is a part of one line of a statement.
type lexeme struct {
	quoted bool
	text   string // without quote marks
	at     int    // where the text starts in the file
	mark   int    // of a text in quotes that opens here: where its quote mark is; else -1
	closed bool   // of a text in quotes: it ends on this line
	end    int    // where the line ends, a comment on it left out
}

// span is the place of the text, without quote marks.
func (t lexeme) span() source.Span { return source.Span{Start: t.at, End: t.at + len(t.text)} }

// blank tells whether nothing is there but blanks. A text in quotes counts, even an empty one:
// its marks are there.
func (t lexeme) blank() bool { return !t.quoted && strings.TrimSpace(t.text) == "" }

// statementsOf cuts a block into statements: a line goes on with the one above it if it is
// indented. Lines of blanks and comments are left out.
func statementsOf(lines []sourceLine) [][]lexeme {
	var all [][]lexeme
	var closing rune // the quote mark that the statement so far waits for
	for _, l := range lines {
		// An indented first line has nothing to go on with, so it begins a statement.
		goesOn := len(all) > 0 && (strings.HasPrefix(l.text, " ") || strings.HasPrefix(l.text, "\t"))
		open := closing
		if !goesOn {
			open = 0
		}
		lexemes, open := lex(l, open)
		if allBlank(lexemes) {
			continue
		}
		closing = open
		if goesOn {
			all[len(all)-1] = append(all[len(all)-1], lexemes...)
			continue
		}
		all = append(all, lexemes)
	}
	return all
}

func allBlank(lexemes []lexeme) bool {
	for _, t := range lexemes {
		if !t.blank() {
			return false
		}
	}
	return true
}

// lex cuts a line into lexemes. closing is the quote mark that a text waits for that began on
// an earlier line, 0 if there is none; it gives that of the next line.
func lex(l sourceLine, closing rune) ([]lexeme, rune) {
	var lexemes []lexeme
	rest, at, end := l.text, l.at, l.at+len(l.text)
	mark := -1
	for rest != "" {
		if closing != 0 {
			text, after, closed := strings.Cut(rest, string(closing))
			lexemes = append(lexemes, lexeme{quoted: true, text: text, at: at, mark: mark, closed: closed})
			if !closed {
				break
			}
			at, rest, closing, mark = at+len(text)+len(string(closing)), after, 0, -1
			continue
		}
		i := strings.IndexAny(rest, "#\"“„")
		if i < 0 {
			lexemes = append(lexemes, lexeme{text: rest, at: at, mark: -1})
			break
		}
		if i > 0 {
			lexemes = append(lexemes, lexeme{text: rest[:i], at: at, mark: -1})
		}
		if rest[i] == '#' {
			end = at + i
			break
		}
		opening := []rune(rest[i:])[0]
		mark = at + i
		at, rest = mark+len(string(opening)), rest[i+len(string(opening)):]
		closing = closingOf(opening, rest)
		if rest == "" { // the text begins on the next line
			lexemes = append(lexemes, lexeme{quoted: true, at: at, mark: mark})
		}
	}
	for i := range lexemes {
		lexemes[i].end = end
	}
	return lexemes, closing
}

// spanOf is the place of a whole statement, blanks around it left out.
func spanOf(lexemes []lexeme) source.Span {
	first, last := lexemes[0], lexemes[len(lexemes)-1]
	for i := 0; first.blank() && i+1 < len(lexemes); i++ {
		first = lexemes[i+1]
	}
	start := first.at + len(first.text) - len(strings.TrimLeft(first.text, " \t"))
	if first.quoted {
		start = max(first.mark, first.at-1)
	}
	end := last.end
	if !last.quoted {
		end -= len(last.text) - len(strings.TrimRight(last.text, " \t"))
	}
	return source.Span{Start: start, End: end}
}

// A joined text is put together from pieces of the file; it knows for each of its
// bytes where that is in the file.
type joined struct {
	text   strings.Builder
	pieces []piece
}

// A piece is where in the joined text a part begins, and where that is in the file.
type piece struct{ at, source int }

// add appends a part of the file. A blank is put between two parts, so that a name at the end of
// one line and a name at the start of the next stay two.
func (j *joined) add(text string, at int) {
	if j.text.Len() > 0 {
		j.pieces = append(j.pieces, piece{j.text.Len(), at})
		j.text.WriteByte(' ')
	}
	j.pieces = append(j.pieces, piece{j.text.Len(), at})
	j.text.WriteString(text)
}

// source turns an offset of the joined text into one of the file.
func (j *joined) source(i int) int {
	k := sort.Search(len(j.pieces), func(k int) bool { return j.pieces[k].at > i }) - 1
	if k < 0 {
		return 0
	}
	return j.pieces[k].source + i - j.pieces[k].at
}
