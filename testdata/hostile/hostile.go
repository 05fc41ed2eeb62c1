// Package hostile makes packs that nobody writes by hand, each with what must come of it: the trouble is reported with
// its place, and costs no more time and memory than a lesson's worth. Texts are generated, since they are long.
package hostile

import (
	"fmt"
	"strings"
)

// A Case is a pack: the sound one of the command's tests with some files replaced.
type Case struct {
	Name    string
	Command string // prove or build
	Files   map[string]string
	Code    int    // of the exit
	Slug    string // of a problem that must be printed; empty for none
}

// header is that of a sound lesson, whose own block defines d and C.
const header = `---
title: One rotation
week: 1
minutes: 10
care: [cloth]
---

## Work it out (10 min)

` + "```work" + `
measure d = kit.wheel    "Wheel diameter"
find C in cm to 0.1 = circumference(d)    "How far does one rotation carry the robot?"
key  C = 20.4 cm
` + "```\n\n"

// bytesOf is just below what a lesson may have.
const bytesOf = 250_000

// Cases are all packs.
func Cases() []Case {
	var all []Case
	all = append(all, lines()...)
	all = append(all, blocks()...)
	all = append(all, fields()...)
	return append(all, programs()...)
}

// lesson is a case of one lesson.
func lesson(name, body string, code int, slug string) Case {
	return Case{Name: name, Command: "prove", Code: code, Slug: slug,
		Files: map[string]string{"01-one-rotation.md": header + body}}
}

// filled repeats a text in lines of a length, up to what a lesson may have.
func filled(text string, line int) string {
	one := strings.Repeat(text, max(1, line/len(text))) + "\n"
	return strings.Repeat(one, bytesOf/len(one))
}

// lines are long lines of one mark, in a lesson that is as long as it may be, and in a line that is too long.
func lines() []Case {
	var all []Case
	for _, c := range []struct {
		text string
		code int
		slug string
	}{
		{"{", 1, "open-brace"}, {"}", 0, ""}, {"{C}", 1, "too-many"}, {"{nope} ", 1, "unknown-name"}, {"[", 0, ""},
		{"]", 0, ""}, {"[a](b) ", 1, "link-nowhere"}, {"[a](#x) ", 1, "link-nowhere"}, {"![", 0, ""},
		{"*a_", 1, "too-many"}, {"_a __b* ", 1, "too-many"}, {"**", 1, "too-many"}, {"&", 0, ""}, {"&amp;", 0, ""},
		{"\\", 0, ""}, {"It is a good day. ", 0, ""}, {"a", 0, ""}, {"\u0301", 0, ""}, {"<a ", 0, ""},
	} {
		for _, length := range []int{20, 1500, 15000} {
			all = append(all, lesson(fmt.Sprintf("lines of %d of %q", length, c.text), "a\n\nb "+filled(c.text, length), c.code,
				c.slug))
		}
		all = append(all, lesson(fmt.Sprintf("a line of 20,000 of %q", c.text), strings.Repeat(c.text, 20000)+"\n", 1,
			"line-too-long"))
	}
	return all
}

// blocks are many blocks, and blocks within each other.
func blocks() []Case {
	var all []Case
	for _, c := range []struct{ text, slug string }{
		{"## A\n\n", "too-many"}, {"a\n-\n\n", "too-many"}, {"> a\n\n", "too-many"}, {"- a\n", "too-many"},
		{"1. a\n\n", "too-many"}, {"- a\n* a\n", "too-many"}, {"a\n\n", "too-many"}, {"---\n\n", "too-many"},
		{"|a|b|\n|-|-|\n|a|b|\n\n", "too-many"}, {"```\na\n```\n", "too-many"}, {"```python filled\nx = {C}\n```\n", "too-many"},
		{"```gauge\nruler 30 cm\n```\n\n", "too-many"}, {"```work\ngiven a = 1\n```\n\n", "too-many"},
	} {
		all = append(all, lesson(fmt.Sprintf("many of %q", c.text), strings.Repeat(c.text, bytesOf/len(c.text)), 1, c.slug),
			lesson(fmt.Sprintf("8 MB of %q", c.text), strings.Repeat(c.text, (8<<20-2000)/len(c.text)), 1, "text-too-long"))
	}
	for _, mark := range []string{"> ", "- ", "* ", "+ ", "1. ", "1) ", ">", "> - ", "- 1. "} {
		for _, depth := range []int{21, 500, 3000} {
			all = append(all, lesson(fmt.Sprintf("%d of %q", depth, mark), strings.Repeat(mark, depth)+"x\n", 1,
				"nested-too-deep"))
		}
		all = append(all, lesson(fmt.Sprintf("10 of %q", mark), "a\n\n"+strings.Repeat(mark, 10)+"x\n", 0, ""))
	}
	for _, columns := range []int{100, 1000, 4000} {
		all = append(all, lesson(fmt.Sprintf("a table of %d columns", columns), strings.Repeat("|a", columns)+"|\n"+
			strings.Repeat("|-", columns)+"|\n"+strings.Repeat("||\n", 50_000), 1, "too-many"))
	}
	return append(all, lesson("a rule of many marks", "a\n\n"+strings.Repeat("- ", 200)+"\n", 0, ""))
}

// fields are deep and doubled fields, in each file that has some.
func fields() []Case {
	var all []Case
	add := func(name, file, text string, code int, slug string) {
		all = append(all, Case{Name: name + " in " + file, Command: "prove", Code: code, Slug: slug,
			Files: map[string]string{file: text}})
	}
	sound := map[string]string{
		"pack.yaml": "title: Towpath\nversion: 1.0.0\nkit: heron\n",
		"kits.yaml": "heron: {title: Heron, wheel: 65 mm ± 0.5 mm}\n",
	}
	for _, file := range []string{"pack.yaml", "kits.yaml", "renamed.yaml", "formulas.yaml"} {
		for _, mark := range []string{"- ", "? ", ": ", "[", "{", "- ? ", "a: - "} {
			for _, n := range []int{20, 1000, 25000} {
				add(fmt.Sprintf("%d of %q", n, mark), file, sound[file]+"x: \n"+strings.Repeat(mark, n)+"x\n", 1, "yaml")
			}
		}
		add("70 kB", file, sound[file]+strings.Repeat("# a\n", 18000), 1, "yaml")
		if text, ok := sound[file]; ok {
			add("a closing fence", file, text+"---\n", 0, "")
			add("a closing fence and a note", file, text+"---\n# end\n", 0, "")
			add("two closing fences", file, text+"---\n---\n", 1, "yaml")
			add("two sets of fields", file, text+"---\n"+text, 1, "yaml")
		}
	}
	return all
}

// programs are those that take the patterns of a highlighter long.
func programs() []Case {
	var all []Case
	for _, language := range strings.Fields("python c cpp java javascript json yaml bash html css go lua rust") {
		for _, text := range []string{"a{", "a<", "/* ", "\"a"} {
			c := lesson(fmt.Sprintf("%s of %q", language, text),
				"```"+language+"\n"+strings.Repeat(text, 15000/len(text))+"\n```\n", 0, "code-plain")
			c.Command = "build"
			all = append(all, c)
		}
	}
	return all
}
