package site

// Figures of a show block as a page has them: a still picture, and for students the programs by which a script draws it
// from their boxes. No sample and no key is in them.

import (
	"html"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/site/drawn"
	"trundle/site/words"
)

// showBlock shows the figures of a block.
func (b *body) showBlock(w util.BufWriter, d *work.Data) {
	for _, f := range d.Figures {
		b.drawings++
		if b.drawings == 1 {
			put(w, styleLink("show"))
		}
		picture, sentence := drawn.Picture(b.words, f, b.mentors)
		put(w, `<figure class="show show-`, f.Keyword, `"`)
		if at := b.place(f.At.Start); at != "" {
			put(w, ` data-at="`, html.EscapeString(at), `"`)
		}
		if !b.mentors {
			put(w, attributes(b.words, f))
		}
		put(w, "><figcaption>", html.EscapeString(f.Text), "</figcaption>\n", picture, "\n<p class=\"small\">",
			html.EscapeString(sentence), "</p>\n</figure>\n")
	}
}

// attributes are what the script draws a figure from: programs, and texts of what all teams have alike. Lists are
// joined by |, which is in no program and no unit; a group of runs may have it in its name.
func attributes(w words.Words, f *work.Figure) string {
	var out strings.Builder
	add := func(name, value string) {
		if value != "" {
			out.WriteString(" data-" + name + `="` + html.EscapeString(value) + `"`)
		}
	}
	add("kind", string(f.Kind))
	add("unit", f.Unit.Symbol())
	parts := "10"
	if f.Inches {
		parts = "16"
	}
	add("parts", parts)
	add("until", f.Until.Value)
	var programs, units, texts, names []string
	for _, v := range f.Values {
		text := w.Number(v.Text)
		if v.OfStudents || v.Varies { // it is that of the example, or of another robot
			text = ""
		}
		programs, units, texts = append(programs, string(v.Program)), append(units, v.Unit.Symbol()), append(texts, text)
		if v.OfStudents {
			names = append(names, v.Names...)
		}
		add("record", v.Record)
	}
	add("programs", strings.Join(programs, "|"))
	add("units", strings.Join(units, "|"))
	add("texts", strings.Join(texts, "|"))
	if f.Kind == lesson.PathFigure {
		add("times", quantity.FormatPlain(f.Times))
	}
	add("to", f.Target.Step.String())
	var heaps []string
	for _, h := range f.Heaps {
		names = append(names, strings.ReplaceAll(h.Name, "|", "¦"))
		var numbers []string
		for _, x := range h.Numbers {
			numbers = append(numbers, strconv.FormatFloat(x, 'g', -1, 64))
		}
		heaps = append(heaps, strings.Join(numbers, " "))
	}
	add("heaps", strings.Join(heaps, "|"))
	add("names", strings.Join(names, "|"))
	return out.String()
}
