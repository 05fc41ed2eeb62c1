package quantity

// This file reads numbers with decimal commas, in packs whose language has them. There a comma between two digits,
// without a blank, is decimal; values are set apart by a semicolon, or by a comma and a blank. Points stay decimal.

import "strings"

// UseCommas has the pack's texts read with decimal commas.
func (v *Vocabulary) UseCommas() { v.commas = true }

// HasCommas tells whether the pack's language has decimal commas.
func (v *Vocabulary) HasCommas() bool { return v != nil && v.commas }

// WithPoints is the same vocabulary for texts that the program has written itself.
func (v *Vocabulary) WithPoints() *Vocabulary {
	if !v.HasCommas() {
		return v
	}
	w := *v
	w.commas = false
	return &w
}

// pointed is the number at the start of s, and what stands after it as far as it may belong to it, with a point for
// each decimal comma. A number with a mark that may be one of thousands, or with several marks, is refused: n is its
// length, 0 where nothing changes.
func pointed(s string) (plain string, n int, err *Error) {
	out := []byte(nil)
	for i := 0; i < len(s); i++ {
		end := i + marked(s[i:])
		if end == i {
			break
		}
		if err := unclear(s[i:end]); err != nil {
			return "", end, err
		}
		if comma := strings.IndexByte(s[i:end], ','); comma >= 0 {
			if out == nil {
				out = []byte(s)
			}
			out[i+comma], n = '.', end
		}
		if i = end; i < len(s) && s[i] != ':' && s[i] != '/' { // 2,5:1
			break
		}
	}
	return string(out), n, nil
}

// marked is how many bytes at the start of s are digits, with marks between them.
func marked(s string) int {
	n := countDigits(s)
	for n > 0 && n < len(s) && (s[n] == ',' || s[n] == '.') && countDigits(s[n+1:]) > 0 {
		n += 1 + countDigits(s[n+1:])
	}
	return n
}

// unclear says why a number may mean two things, nil if it cannot.
func unclear(number string) *Error {
	whole, after, _ := strings.Cut(strings.ReplaceAll(number, ".", ","), ",")
	switch {
	case strings.ContainsAny(after, ","):
		return &Error{Slug: "comma-unclear", What: quote(number) + " has more than one comma or point",
			Hint: "set values apart with a semicolon, as in  3; 4; 5, and write thousands without a mark"}
	case strings.Contains(number, ".") && len(after) == 3 && thousands(whole):
		return &Error{Slug: "comma-unclear",
			What: "the point in " + quote(number) + " may stand before decimals or between thousands",
			Hint: "write  " + whole + "," + after + "  or  " + whole + after}
	}
	return nil
}

// oneOrMore is what is wrong with a call such as max(3,4) if its function takes several values, nil if nothing is: no
// value is set apart from another, and a comma stands between digits.
func (p *Parser) oneOrMore(c *Call, first, last int) *Error {
	if len(c.Args) != 1 {
		return nil
	}
	depth := 0
	for _, t := range p.tokens[first:last] {
		switch {
		case t.text == "(" || t.text == "[":
			depth++
		case t.text == ")" || t.text == "]":
			depth--
		case t.comma && depth == 0:
			return &Error{Span: t.span, Slug: "comma-unclear",
				What: quote(t.text) + " may be one number or two in " + c.Name + "(…)",
				Hint: "set values apart with a semicolon, as in  " + strings.Replace(t.text, ",", "; ", 1) +
					"; one number is clear with a point"}
		}
	}
	return nil
}

// takesSeveral tells whether a call may have more than one argument.
func (f *Formula) takesSeveral() bool { return len(f.Params) != 1 }

// betweenValues says how the values of a call are set apart.
func (v *Vocabulary) betweenValues() string {
	if v.HasCommas() {
		return "semicolons"
	}
	return "commas"
}

// AsTyped writes the numbers of a text as an author types them in the pack: what a problem tells to write.
func (v *Vocabulary) AsTyped(text string) string {
	if !v.HasCommas() {
		return text
	}
	out := []byte(text)
	for i := 1; i+1 < len(out); i++ {
		if out[i] == '.' && countDigits(text[i-1:i]) == 1 && countDigits(text[i+1:]) > 0 {
			out[i] = ','
		}
	}
	return string(out)
}
