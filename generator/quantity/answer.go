package quantity

// This file reads what students type into a box. site/scripts/read.js does the same on the
// page, and a test holds the two together.

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Answer is what a student typed into a box: a number, its sign, and a unit if one
// follows it.
type Answer struct {
	Number   Number
	Negative bool
	Unit     Unit
	HasUnit  bool
}

// MaxAnswer bounds an answer in characters; nobody types a longer number on purpose.
const MaxAnswer = 60

// ReadAnswer reads a number as students write it: 20.4, 20,4, 1 000,5, 204 mm, 8 1/32 in, ½, −3, 3 ft 1 in, in the
// digits of any script and in units that the pack names itself, too. What may mean two things is refused and not
// guessed: 1,030 is a little more than one only if other says that the class writes decimals with the mark that the
// pack's language does not have there. Spans count the bytes of text.
func (v *Vocabulary) ReadAnswer(text string, other bool) (Answer, *Error) {
	whole := Span{0, len(text)}
	if utf8.RuneCountInString(text) > MaxAnswer {
		return Answer{}, &Error{Span: whole, Slug: "answer-too-long",
			What: "this is longer than a number with its unit can be",
			Hint: "write one number, with its unit if you like"}
	}
	if !utf8.ValidString(text) {
		return Answer{}, noNumber(whole)
	}
	typed := typist{}
	for i, r := range text {
		typed.add(i, r)
	}
	if strings.TrimSpace(typed.text.String()) == "" {
		return Answer{}, &Error{Span: whole, Slug: "answer-empty",
			What: "nothing is written here yet", Hint: "write a number"}
	}
	typed.plainly()
	typed.ungroup()
	typed.at = append(typed.at, len(text))
	plain, err := v.decimalPoint(typed.text.String(), text, other)
	if err != nil {
		return Answer{}, err
	}
	p := v.WithPoints().NewParser(plain, func(i int) int { return typed.at[i] })
	p.hear()
	a, err := p.answer()
	if err != nil {
		for err.Span.End < len(text) && !utf8.RuneStart(text[err.Span.End]) {
			err.Span.End++ // past the last byte of the character
		}
	}
	return a, err
}

// answer = [ "-" | "+" ] number [unit]
func (p *Parser) answer() (Answer, *Error) {
	var a Answer
	if a.Negative = p.Sign("-"); !a.Negative {
		p.Sign("+")
	}
	t := p.peek()
	switch {
	case t.kind == tokenBad && t.err.Slug != "unexpected-character":
		return Answer{}, p.unexpected("", "")
	case t.kind == tokenSign && (t.text == "-" || t.text == "+"):
		return Answer{}, &Error{Span: t.span, Slug: "answer-no-number", What: "there are two signs in front of the number",
			Hint: "write one sign or none"}
	case t.kind != tokenNumber:
		return Answer{}, noNumber(t.span)
	}
	a.Number = p.next().number
	start := p.i
	var err *Error
	if a.Unit, err = p.optionalUnit(); err != nil {
		if after := p.tokens[start]; err.Slug == "unknown-unit" && isExponent(after) {
			return Answer{}, &Error{Span: after.span, Slug: "answer-exponent",
				What: "a number with an exponent is not read here",
				Hint: "write the number out in digits"}
		}
		return Answer{}, err
	}
	if a.HasUnit = p.i > start; a.HasUnit {
		p.andMore(&a)
	}
	if !p.AtEnd() || a.Number.hasColon() && !a.colons() {
		return Answer{}, &Error{Span: p.Place(), Slug: "answer-left-over",
			What: "there is more here than one number with its unit",
			Hint: "write the result alone, such as 20.4 or 8 1/32 in"}
	}
	return a, nil
}

// colons tells what 2:30 or 3:5 is, and whether it is anything.
func (a *Answer) colons() bool {
	lit := Literal{Number: a.Number, Unit: a.Unit}
	if lit.colons() != nil || a.HasUnit && a.Unit.IsNumber() {
		return false
	}
	a.Number = lit.Number
	return true
}

// isExponent tells whether a name is the rest of a number such as 1e3.
func isExponent(t token) bool {
	rest, ok := strings.CutPrefix(strings.ToLower(t.text), "e")
	return ok && !t.spaced && strings.Trim(rest, "0123456789") == ""
}

func noNumber(at Span) *Error {
	return &Error{Span: at, Slug: "answer-no-number",
		What: "this does not start with a number", Hint: "write a number, such as 20.4"}
}

// typist gathers what was typed in the signs that the language knows, and where in
// the text each byte of it comes from.
type typist struct {
	text strings.Builder
	at   []int
}

// add keeps one typed character. What stands for it may be several bytes, or none; all of
// them come from the same place.
func (t *typist) add(i int, r rune) {
	s := typedAs(r)
	t.text.WriteString(s)
	for range len(s) {
		t.at = append(t.at, i)
	}
}

// typedSigns are look-alikes of the signs that numbers are written with.
var typedSigns = map[rune]string{
	'–': "-", '‐': "-", '‑': "-", '－': "-", '﹣': "-", '＋': "+",
	'．': ".", '٫': ".", '，': ",", '٬': ",",
	'⁄': "/", '∕': "/", '／': "/", '％': "%", '٪': "%", 'º': "°", '˚': "°",
	'"': "″", '”': "″", '\'': "′", '’': "′",
	'½': "1/2", '¼': "1/4", '¾': "3/4", '⅓': "1/3", '⅔': "2/3", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5",
	'⅘': "4/5", '⅙': "1/6", '⅚': "5/6", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
}

// typedAs returns what a typed character means to the parser. A vulgar fraction is set apart,
// so that it cannot run into the digits beside it.
func typedAs(r rune) string {
	if s, ok := typedSigns[r]; ok {
		if len(s) == len("1/2") && s[1] == '/' {
			return " " + s + " " // 8½ is 8 1/2, and ½3 is not 1/23
		}
		return s
	}
	switch {
	case unicode.IsSpace(r):
		return " "
	case unicode.Is(unicode.Cf, r): // marks of writing direction
		return ""
	case unicode.IsDigit(r):
		return string('0' + digitOf(r))
	}
	return string(r)
}

// digitOf returns the worth of a decimal digit of any script. Unicode keeps each
// script's ten in a row from zero.
func digitOf(r rune) rune {
	for _, in := range unicode.Nd.R16 {
		if rune(in.Lo) <= r && r <= rune(in.Hi) {
			return (r - rune(in.Lo)) % 10
		}
	}
	for _, in := range unicode.Nd.R32 {
		if rune(in.Lo) <= r && r <= rune(in.Hi) {
			return (r - rune(in.Lo)) % 10
		}
	}
	return 0
}

// decimalPoint makes a decimal comma a point. The mark that the pack's language does not have before decimals may be
// a thousands mark before three digits, unless the class writes decimals with it, and so may be one of two marks: such
// numbers are refused, the first kind with the number as the error's name.
func (v *Vocabulary) decimalPoint(plain, text string, other bool) (string, *Error) {
	mark := ","
	if v.HasCommas() {
		mark = "."
	}
	marks := strings.Count(plain, ".") + strings.Count(plain, ",")
	before, after, hasMark := strings.Cut(plain, mark)
	group := hasMark && marks == 1 && countDigits(after) == 3 && thousands(before)
	if marks > 1 || group && !other {
		name := ""
		if group {
			name = strings.TrimLeft(before, " +-−") + mark + after[:3]
		}
		return "", &Error{Span: Span{0, len(text)}, Slug: "answer-unclear", Name: name,
			What: "it is not clear which mark in " + quote(strings.TrimSpace(text)) + " is the decimal point",
			Hint: "write the number with one decimal point or decimal comma and no other mark"}
	}
	return strings.Replace(plain, ",", ".", 1), nil
}

// thousands tells whether a mark after s could be one of thousands: one to three
// countDigits, the first of them not zero.
func thousands(s string) bool {
	s = strings.TrimLeft(s, " +-−")
	return 1 <= len(s) && len(s) <= 3 && countDigits(s) == len(s) && s[0] != '0'
}
