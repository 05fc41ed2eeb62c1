package pdfua

// Content streams as operators with what stands before them (ISO 32000-1, 7.8.2).

import (
	"bytes"
	"encoding/hex"
	"strconv"
	"strings"
)

// An operator with its operands: float64, string for names with their slash, []byte for strings, []any, map[string]any.
type operator struct {
	name     string
	operands []any
}

type lexer struct{ rest []byte }

const (
	blanks     = "\x00\t\n\f\r "
	delimiters = blanks + "()<>[]{}/%"
)

// operators reads a stream.
func operators(stream []byte) []operator {
	l := &lexer{stream}
	var all []operator
	var operands []any
	for {
		switch v := l.next().(type) {
		case nil:
			return all
		case keyword:
			all = append(all, operator{string(v), operands})
			operands = nil
		default:
			operands = append(operands, v)
		}
	}
}

type keyword string

func (l *lexer) next() any {
	l.rest = bytes.TrimLeft(l.rest, blanks)
	if len(l.rest) == 0 {
		return nil
	}
	switch c := l.rest[0]; {
	case c == '%':
		_, l.rest, _ = bytes.Cut(l.rest, []byte("\n"))
		return l.next()
	case c == '(':
		return l.literal()
	case bytes.HasPrefix(l.rest, []byte("<<")):
		l.rest = l.rest[2:]
		return dictOf(l.until(">>"))
	case c == '<':
		digits, rest, _ := bytes.Cut(l.rest[1:], []byte(">"))
		l.rest = rest
		return unhexed(digits)
	case c == '[':
		l.rest = l.rest[1:]
		return l.until("]")
	case c == '/':
		return "/" + l.word(1)
	case strings.IndexByte(")]>{}", c) >= 0:
		n := 1
		if bytes.HasPrefix(l.rest, []byte(">>")) {
			n = 2
		}
		end := keyword(l.rest[:n])
		l.rest = l.rest[n:]
		return end
	}
	word := l.word(0)
	if x, err := strconv.ParseFloat(word, 64); err == nil {
		return x
	}
	return keyword(word)
}

// until gives what comes before an end.
func (l *lexer) until(end keyword) []any {
	all := []any{}
	for {
		v := l.next()
		if v == nil || v == end {
			return all
		}
		all = append(all, v)
	}
}

func dictOf(all []any) map[string]any {
	dict := map[string]any{}
	for i := 0; i+1 < len(all); i += 2 {
		if key, ok := all[i].(string); ok {
			dict[key] = all[i+1]
		}
	}
	return dict
}

// word takes what comes up to a blank or a delimiter, after what is skipped.
func (l *lexer) word(skipped int) string {
	end := bytes.IndexAny(l.rest[skipped:], delimiters)
	if end < 0 {
		end = len(l.rest) - skipped
	}
	word := string(l.rest[skipped : skipped+end])
	l.rest = l.rest[skipped+end:]
	return word
}

// literal takes a string in brackets. Of escapes it reads those of brackets, of backslashes and of an end of a line.
func (l *lexer) literal() []byte {
	depth := 0
	var text []byte
	for i := 0; i < len(l.rest); i++ {
		c := l.rest[i]
		switch {
		case c == '\\' && i+1 < len(l.rest):
			if i++; l.rest[i] == 'r' {
				text = append(text, '\r')
			} else {
				text = append(text, l.rest[i])
			}
			continue
		case c == '(':
			depth++
		case c == ')':
			depth--
		}
		if depth == 0 {
			l.rest = l.rest[i+1:]
			return text
		}
		if depth > 1 || c != '(' {
			text = append(text, c)
		}
	}
	l.rest = nil
	return nil
}

func unhexed(digits []byte) []byte {
	digits = bytes.Map(func(r rune) rune {
		if strings.ContainsRune(blanks, r) {
			return -1
		}
		return r
	}, digits)
	if len(digits)%2 == 1 {
		digits = append(digits, '0')
	}
	text := make([]byte, len(digits)/2)
	if _, err := hex.Decode(text, digits); err != nil {
		return nil
	}
	return text
}
