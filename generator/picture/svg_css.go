package picture

// Here: styles in an SVG, wherever they stand. They are not understood, only searched for what fetches.

import (
	"encoding/xml"
	"strconv"
	"strings"
	"unicode/utf8"
)

// outsideCSS says what a style fetches from outside its file, "" if nothing. The words are looked for wherever they
// stand, escapes resolved, so that it finds rather too much than too little; a comment never joins two
// pieces to such a word.
func outsideCSS(css string) string {
	if !strings.ContainsAny(css, `(@\:`) { // nothing that fetches can be written without one of them
		return ""
	}
	text := strings.ToLower(unescapedCSS(css))
	for _, word := range []string{"@import", "image(", "image-set(", "src(", "cross-fade(", "element(", "expression(",
		"-moz-binding", "javascript:"} {
		if strings.Contains(text, word) {
			return "a picture's style must not hold " + word
		}
	}
	for _, rest := range strings.Split(text, "url(")[1:] {
		// Embedded data is refused too: a style needs it for fonts alone, and those name their makers.
		if !strings.HasPrefix(strings.TrimLeft(rest, " \t\r\n\f\"'"), "#") {
			return "a picture's style must not fetch anything from outside its own file"
		}
	}
	return ""
}

// referred gives the ids within the file that an attribute refers to.
func referred(a xml.Attr) []string {
	if strings.HasSuffix(a.Name.Local, "href") {
		if id, ok := strings.CutPrefix(a.Value, "#"); ok {
			return []string{id}
		}
		return nil
	}
	var ids []string
	for _, rest := range strings.Split(a.Value, "url(")[1:] {
		id, _, _ := strings.Cut(rest, ")")
		ids = append(ids, strings.TrimPrefix(strings.Trim(id, " \t\r\n\"'"), "#"))
	}
	return ids
}

// withoutComments takes comments out of a style, but for what only looks like one in a string.
func withoutComments(css string) string {
	var b strings.Builder
	var quote byte
	for i := 0; i < len(css); i++ {
		c := css[i]
		switch {
		case c == '\\' && i+1 < len(css): // an escaped quote ends nothing
			b.WriteByte(c)
			i++
			c = css[i]
		case quote != 0:
			if c == quote || c == '\n' { // a string never goes over the end of a line
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '/' && strings.HasPrefix(css[i:], "/*"):
			end := strings.Index(css[i+2:], "*/")
			if end < 0 { // one that is never closed goes on to the end
				return b.String()
			}
			i += 2 + end + 1
			c = ' ' // it kept two words apart
		}
		b.WriteByte(c)
	}
	return b.String()
}

// unescapedCSS resolves escapes: \ and up to six digits of base 16 and a blank, or \ and a character.
func unescapedCSS(css string) string {
	if !strings.Contains(css, `\`) {
		return css
	}
	var b strings.Builder
	for i := 0; i < len(css); i++ {
		if css[i] != '\\' {
			b.WriteByte(css[i])
			continue
		}
		digits := 0
		for digits < 6 && i+1+digits < len(css) && strings.IndexByte("0123456789abcdefABCDEF", css[i+1+digits]) >= 0 {
			digits++
		}
		if digits == 0 { // the next character stands for itself
			continue
		}
		code, _ := strconv.ParseUint(css[i+1:i+1+digits], 16, 32)
		if code > utf8.MaxRune {
			code = utf8.RuneError
		}
		b.WriteRune(rune(code))
		if i += digits; i+1 < len(css) && strings.IndexByte(" \t\r\n\f", css[i+1]) >= 0 {
			i++
		}
	}
	return b.String()
}
