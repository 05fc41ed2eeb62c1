package site

// What mentors can search: the texts of all lessons and care cards, heading by heading, in a script that is loaded
// when somebody types.

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/url"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// SearchTexts is the name of that script, below the folder of the mentors' edition.
const SearchTexts = "assets/texts.js"

// A passage is what stands below a heading. It is written as four texts in a row.
type passage struct {
	address string // of the heading, from the season's page
	where   string // the lesson, or the cards
	heading string
	text    []string
}

// MarshalJSON leaves the names out, which would be there a hundred times.
func (p passage) MarshalJSON() ([]byte, error) {
	text := strings.Join(strings.Fields(strings.Join(p.text, " ")), " ")
	return json.Marshal([]string{p.address, p.where, strings.TrimSpace(p.heading), text})
}

// A SearchScript is the script while it is written. Nothing in it is escaped for HTML: it is text, and is shown as
// text.
type SearchScript struct {
	site *Site
	out  *bufio.Writer
	more bool // something is in it
}

// BeginSearchTexts begins the script.
func (s *Site) BeginSearchTexts(to io.Writer) *SearchScript {
	w := &SearchScript{site: s, out: bufio.NewWriter(to)}
	w.out.WriteString(stamp + "trundle.texts=[")
	return w
}

// Add writes what SearchTextsOf gives of the next lesson.
func (w *SearchScript) Add(texts []byte) {
	if len(texts) == 0 {
		return
	}
	if w.more {
		w.out.WriteByte(',')
	}
	w.more = true
	w.out.Write(texts)
}

// End writes what can be searched of the pack's cards and words, and tells what went wrong since the beginning.
func (w *SearchScript) End(p *lesson.Pack) error {
	s := w.site
	var rest []passage
	for _, c := range p.Cards {
		b := &body{site: s, words: s.words, mentors: true, pack: p, file: c.File.Name, markdown: c.Markdown}
		first := passage{address: addressIn("care.html", c.Name), heading: c.Title,
			where: s.words.Say("care-page") + " · " + c.Title}
		rest = append(rest, b.passages(c.Body, first)...)
	}
	texts, err := written(append(rest, s.wordPassages(p)...))
	w.Add(texts)
	w.out.WriteString("]\n")
	return errors.Join(err, w.out.Flush())
}

// SearchTextsOf gives what can be searched of a lesson.
func (s *Site) SearchTextsOf(p *lesson.Pack, l *work.Lesson) ([]byte, error) {
	return written(s.passages(p, l))
}

// written are passages as items of an array. Of none nothing is written: JSON's null would be an item.
func written(all []passage) ([]byte, error) {
	if len(all) == 0 {
		return nil, nil
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	err := e.Encode(all)
	return bytes.TrimSuffix(bytes.TrimPrefix(bytes.TrimSpace(out.Bytes()), []byte("[")), []byte("]")), err
}

// passages are those of a lesson. What its header says is below its title.
func (s *Site) passages(p *lesson.Pack, l *work.Lesson) []passage {
	b := &body{site: s, words: s.words, mentors: true, pack: p, file: l.File.Name, lesson: l, markdown: l.Markdown}
	first := passage{
		address: addressIn(l.Slug+".html", ""), heading: l.Title,
		where: fmt.Sprintf("%s %d · %s", s.words.Say("week"), l.Week, l.Title),
	}
	for _, list := range [][]string{l.Lesson.Goals, l.Lesson.Materials, l.Standards} {
		first.text = append(first.text, list...)
	}
	return b.passages(l.Body, first)
}

// addressIn is the address of a heading on a page.
func addressIn(page, id string) string { return (&url.URL{Path: page, Fragment: id}).String() }

// passages cuts a document at its headings; first is what stands before the first of them.
func (b *body) passages(top ast.Node, first passage) []passage {
	all := []passage{first}
	page, prefix, _ := strings.Cut(first.address, "#")
	if prefix != "" {
		prefix += "-"
	}
	say := func(text string) { all[len(all)-1].text = append(all[len(all)-1].text, text) }
	_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) { // the others: they are made of these, or have no words
		case *ast.Heading:
			next := passage{address: first.address, where: first.where, heading: lesson.TextOf(n, b.markdown, b.valueText)}
			if id, ok := n.AttributeString("id"); ok {
				next.address = page + "#" + (&url.URL{Fragment: prefix + string(id.([]byte))}).EscapedFragment()
			}
			all = append(all, next)
			return ast.WalkSkipChildren, nil
		case *lesson.WorkBlock:
			for _, s := range n.Statements {
				say(s.Prompt)
				for _, a := range s.Answers {
					say(a.Text)
				}
				for _, slip := range s.Slips {
					say(slip.Prompt)
				}
			}
		case *lesson.GaugeBlock:
			for _, g := range n.Gauges {
				say(g.Text)
			}
		case *lesson.DataBlock:
			for _, line := range n.Entries {
				say(line.Text)
			}
		}
		if n.Type() == ast.TypeBlock && n.FirstChild() != nil && n.FirstChild().Type() == ast.TypeInline {
			say(lesson.TextOf(n, b.markdown, b.valueText))
			return ast.WalkSkipChildren, nil
		}
		return ast.WalkContinue, nil
	})
	return all
}
