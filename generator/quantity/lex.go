package quantity

// This file splits text into tokens. Look-alikes of a sign become one sign here, so that
// the parser knows one of each.

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// A tokenKind tells what a token is.
type tokenKind int

const (
	tokenEnd tokenKind = iota
	tokenNumber
	tokenName // letters, digits, _ and one dot between: d, kit.wheel
	tokenSign // an operator, bracket, comma or unit mark, normalised
	tokenBad
)

// A token has its text, its place, and whether blanks come before it:
// cm/s is a unit, 120 cm / s a division.
type token struct {
	kind   tokenKind
	text   string
	number Number
	span   Span
	spaced bool
	comma  bool // a number with a decimal comma
	err    *Error
}

// signOf maps the ways to write a sign to the one that the parser sees.
var signOf = map[rune]string{
	'+': "+", '-': "-", '−': "-", '–': "-", '‐': "-", '‑': "-", '*': "*", '×': "*", '·': "*", '/': "/", '÷': "/", '^': "^",
	'(': "(", ')': ")", ',': ",", '±': "±", '%': "%", '°': "°", '″': "″", '′': "′",
	'²': "²", '³': "³", '=': "=", '[': "[", ']': "]", '<': "<", '>': ">", '≤': "≤", '≥': "≥", '≠': "≠",
}

// MaxTokens bounds one expression; a class could not follow a longer one.
const MaxTokens = 2000

// lex splits text into tokens, the last of kind tokenEnd. Position k of the text
// is at(k) in the spans.
func lex(text string, at func(int) int, commas bool) []token {
	tokens := make([]token, 0, 3+len(text)/8) // enough for most
	for i := 0; ; {
		rest := strings.TrimLeftFunc(text[i:], unicode.IsSpace)
		spaced := len(rest) < len(text[i:])
		i = len(text) - len(rest)
		t, n := nextWith(rest, commas)
		t.spaced = spaced
		t.span = Span{at(i), at(i)}
		if n > 0 {
			t.span.End = at(i+n-1) + 1
		}
		tokens = append(tokens, t)
		if t.kind == tokenEnd || t.kind == tokenBad {
			return tokens
		}
		if len(tokens) > MaxTokens {
			last := &tokens[len(tokens)-1]
			last.kind = tokenBad
			last.err = &Error{
				Slug: "too-long",
				What: "this expression goes on for more than " + itoa(MaxTokens) + " words and signs",
				Hint: "split it into several finds",
			}
			return tokens
		}
		i += n
	}
}

// nextWith is next, in a text that may have decimal commas.
func nextWith(s string, commas bool) (token, int) {
	if !commas {
		return next(s)
	}
	if strings.HasPrefix(s, ";") {
		return token{kind: tokenSign, text: ";"}, 1
	}
	plain, n, err := pointed(s)
	if err != nil {
		return token{kind: tokenBad, text: s[:n], err: err}, n
	}
	if n == 0 {
		return next(s)
	}
	t, size := next(plain)
	t.text = s[:size]
	t.comma = strings.Contains(t.text, ",")
	return t, size
}

// next returns the token at the start of s and its length in bytes.
func next(s string) (token, int) {
	if s == "" {
		return token{kind: tokenEnd}, 0
	}
	r, size := utf8.DecodeRuneInString(s)
	if '0' <= r && r <= '9' || r == '.' && countDigits(s[1:]) > 0 || vulgar(s) != "" {
		number, n, err := scanNumber(s)
		if err != nil {
			return token{kind: tokenBad, text: s[:n], err: err}, n
		}
		return token{kind: tokenNumber, text: s[:n], number: number}, n
	}
	if n := nameLength(s); n > 0 {
		return token{kind: tokenName, text: s[:n]}, n
	}
	if sign, n := comparisonSign(s); n > 0 {
		return token{kind: tokenSign, text: sign}, n
	}
	if sign, ok := signOf[r]; ok {
		return token{kind: tokenSign, text: sign}, size
	}
	return token{kind: tokenBad, text: s[:size], err: noMeaning(s[:size])}, size
}

func noMeaning(character string) *Error {
	return &Error{
		Slug: "unexpected-character",
		What: "the character " + quote(character) + " has no meaning here",
		Hint: "an expression is made of numbers with units, names, + − × ÷ ^ and brackets",
	}
}

// comparisonSign returns the sign of a comparison that is typed as two characters, and their length.
func comparisonSign(s string) (sign string, length int) {
	double := len(s) > 1 && s[1] == '='
	switch {
	case double && s[0] == '<':
		return "≤", 2
	case double && s[0] == '>':
		return "≥", 2
	case double && s[0] == '!':
		return "≠", 2
	case double && s[0] == '=':
		return "==", 2
	}
	return "", 0
}

// nameLength returns the length of the name at the start of s: a letter, then letters,
// countDigits and _; a dot joins two names, as in kit.wheel. π alone is not a letter
// here but the constant.
func nameLength(s string) int {
	if strings.HasPrefix(s, "π") {
		return len("π")
	}
	if n := warmthLength(s); n > 0 {
		return n
	}
	if _, size := utf8.DecodeRuneInString(s); isCurrency(s[:size]) {
		return size
	}
	n := 0
	for n < len(s) {
		r, size := utf8.DecodeRuneInString(s[n:])
		letter := unicode.IsLetter(r) && r != 'π' && r != utf8.RuneError
		joint := r == '.' && n > 0 && n+1 < len(s) && isLetter(s[n+1:])
		if !letter && !joint && (n == 0 || r != '_' && !('0' <= r && r <= '9')) {
			break
		}
		n += size
	}
	return n
}

// warmthLength returns the length of °C and its like at the start of s, or 0.
func warmthLength(s string) int {
	rest := strings.TrimPrefix(s, "Δ")
	letter, degrees := strings.CutPrefix(rest, "°")
	if !degrees || !strings.HasPrefix(letter, "C") && !strings.HasPrefix(letter, "F") {
		return 0
	}
	r, _ := utf8.DecodeRuneInString(letter[1:])
	if unicode.IsLetter(r) && r != utf8.RuneError || unicode.IsDigit(r) || r == '_' {
		return 0
	}
	return len(s) - len(letter) + 1
}

func isLetter(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLetter(r)
}

// quote shows a piece of the source in a message.
func quote(s string) string { return "“" + s + "”" }
