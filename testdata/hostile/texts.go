package hostile

// Texts of a lesson: Markdown, values, programs, and characters that nobody sees.

import (
	"fmt"
	"slices"
	"strings"
)

// markdown is marks repeated, in lines and within each other.
func markdown(l *list) {
	for _, mark := range []string{"[", "]", "[a](b) ", "[a](#x) ", "![", "*a_", "_a __b* ", "**", "&", "&amp;", "\\",
		"\u0301",
		"<a ", "<!--", "`", "~~", "a|", "https://example.org/ ", "[a]: b ", "It is 25.4 mm (1 in) long. ", "[x][", "a<b>c"} {
		l.body("Markdown", fmt.Sprintf("short lines of %q", mark), "a\n\nb "+lines(mark, 20, l.size))
		l.body("Markdown", fmt.Sprintf("long lines of %q", mark), "a\n\nb "+lines(mark, 15000, l.size))
	}
	for _, mark := range []string{"[", "**", "![a](", "> "} {
		l.body("Markdown", fmt.Sprintf("a line of 20,000 of %q", mark), strings.Repeat(mark, 20000)+"\n")
	}
	for _, block := range []string{"## A\n\n", "a\n-\n\n", "> a\n\n", "- a\n", "1. a\n\n", "- a\n* a\n", "a\n\n",
		"---\n\n",
		"|a|b|\n|-|-|\n|a|b|\n\n", "[a]: b\n", "<div>\n\n", "    a\n\n"} {
		l.body("Markdown", fmt.Sprintf("many of %q", block), strings.Repeat(block, l.size/len(block)))
	}
	for _, mark := range []string{"> ", "- ", "* ", "1. ", "1) ", ">", "> - ", "- 1. "} {
		l.body("Markdown", fmt.Sprintf("21 of %q", mark), strings.Repeat(mark, 21)+"x\n")
		l.body("Markdown", fmt.Sprintf("3,000 of %q", mark), strings.Repeat(mark, 3000)+"x\n")
		l.body("Markdown", fmt.Sprintf("9 of %q", mark), "a\n\n"+strings.Repeat(mark, 9)+"x\n")
	}
	for _, columns := range []int{100, 1000, 4000} {
		l.body("Markdown", fmt.Sprintf("a table of %d columns", columns), strings.Repeat("|a", columns)+"|\n"+
			strings.Repeat("|-", columns)+"|\n"+strings.Repeat("||\n", l.size/3))
	}
	l.body("Markdown", "a rule of many marks", "a\n\n"+strings.Repeat("- ", 200)+"\n")
	l.body("Markdown", "8 MB", strings.Repeat("It is a good day.\n", 8<<20/18-200))
	l.body("Markdown", "scripts of its own", "<script>alert(1)</script>\n\n<img src=x onerror=alert(1)>\n\n"+
		"[a](javascript:alert(1)) ![b](data:text/html,x)\n")
}

// values are braces, whole and broken.
func values(l *list) {
	for _, text := range []string{"{", "}", "{C}", "{nope} ", "{C in cm to 0.1} ", "{C in s} ", "{kit.wheel} ",
		"{kit.nope} ",
		"{{", "{C", "{L/0} ", "{1e999} ", "{C in } "} {
		l.body("values", fmt.Sprintf("lines of %q", text), "a\n\nb "+lines(text, 60, l.size))
		l.body("values", fmt.Sprintf("one %q", text), "a "+text+"\n")
	}
	l.body("values", "brackets 200 deep", "{"+strings.Repeat("(", 200)+"L"+strings.Repeat(")", 200)+"}\n")
	l.body("values", "powers of powers", "{9^9^9^9}\n")
}

// code is programs that take the patterns of a highlighter long.
func code(l *list) {
	for _, language := range strings.Fields("python c cpp java javascript json yaml bash html css go lua rust") {
		size := 4000
		if slices.Contains([]string{"go", "java", "html"}, language) {
			size = 2000
		}
		for _, text := range []string{"a<", "/* "} {
			l.block("programs", fmt.Sprintf("%s of %q", language, text), language, lines(text, 30, size))
		}
	}
	l.block("programs", "too long to be coloured", "css", lines("/* ", 30, 12_000))
	l.body("programs", "many blocks", strings.Repeat("```css\n"+lines("/* ", 30, 3000)+"```\n\n", l.size/3100))
	l.block("programs", "many lines", "c", strings.Repeat("x\n", 1500))
	l.block("programs", "filled with many values", "python filled", strings.Repeat("x = {C}\n", 1200))
	l.block("programs", "without an end", "python", "```\n\n```python\n'''")
}

// controls are characters that steer a terminal or turn the order of letters about, in each kind of place.
func controls(l *list) {
	for _, c := range []string{"\x1b[31m", "\x07", "\x00", "\u202e", "\u2066", "\u200b", "\u00ad", "\ufeff", "\ufffe",
		"\U000e0041", "\xff", "\u2028", "\r"} {
		l.body("characters", fmt.Sprintf("prose with %+q", c), "a"+c+"b\n")
		l.body("characters", fmt.Sprintf("a value with %+q", c), "{C"+c+"}\n")
		l.add("characters", fmt.Sprintf("a title with %+q", c), "pack.yaml",
			"title: a"+c+"b\nid: t\nversion: 1.0.0\nkit: heron\n")
	}
	l.body("characters", "> Mentor with a look-alike", "> M\u0435ntor: secret\n")
	l.body("characters", "a thousand accents on a letter", "a"+strings.Repeat("\u0301", 1000)+"\n")
}
