package site

// A mentors' lesson page: what is needed before the lesson and first in it on top; then, part by part, keys and notes
// stand open, and what students read is folded to a line.

import (
	"html/template"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/work"
)

// evening is what a mentors' page has beside the body of its lesson.
type evening struct {
	Before *readied // what to do before they come; nil if the notes have no such section
	First  *readied // what to say first
	Notes  string   // the id of the first section of notes, "" if there is none
	Folds  []place  // what is folded in there
	glance
}

// place is a heading that the bar leads to.
type place struct{ ID, Title string }

// readied is a section of the notes that stands on top of the page.
type readied struct {
	ID     string
	Blocks []readyBlock
}

// readyBlock is a list to tick off, or anything else.
type readyBlock struct {
	Ticks []template.HTML
	Other template.HTML
}

// evening makes a mentors' page of a lesson: its body, and what stands above that.
func (b *body) evening(p *lesson.Pack, l *work.Lesson) (string, evening, error) {
	m := &mentorsBody{body: b, known: lesson.NotesOf(l.Lesson, b.words.Say)}
	for n := l.Body.FirstChild(); n != nil; n = n.NextSibling() {
		m.block(n)
	}
	m.fold()
	if m.err == nil {
		m.top.glance, m.err = b.glance(p, l)
	}
	return m.out.String(), m.top, m.err
}

// A mentorsBody puts a body together block by block; prose waits until it is known how far it goes.
type mentorsBody struct {
	*body
	out   strings.Builder
	prose []ast.Node
	top   evening
	known lesson.Notes // the parts of the notes whose use is known
	err   error
}

// block adds a block of the lesson's top level.
func (m *mentorsBody) block(n ast.Node) {
	h, isHeading := n.(*ast.Heading)
	switch {
	case isHeading && h.Level <= 2:
		m.fold()
		m.part(h)
	case n.Kind() == lesson.KindMentorSection:
		m.fold()
		m.notes(n)
	case isOpen(n):
		m.fold()
		m.show(n)
	default:
		m.prose = append(m.prose, n)
	}
}

// isOpen tells whether a block is, or has in it, something that mentors need at a glance.
func isOpen(n ast.Node) bool {
	open := false
	_ = ast.Walk(n, func(n ast.Node, _ bool) (ast.WalkStatus, error) {
		k := n.Kind()
		open = open || k == lesson.KindWorkBlock || k == lesson.KindMentorNote // the others: students read them
		return ast.WalkContinue, nil
	})
	return open
}

func (m *mentorsBody) put(parts ...string) {
	for _, p := range parts {
		m.out.WriteString(p)
	}
}

// show renders a block where it stands.
func (m *mentorsBody) show(n ast.Node) { m.put(string(m.html(n))) }

func (m *mentorsBody) html(nodes ...ast.Node) template.HTML {
	var all strings.Builder
	for _, n := range nodes {
		text, err := m.render(n)
		if m.err == nil {
			m.err = err
		}
		all.WriteString(text)
	}
	return trusted(all.String())
}

// execute fills a template in at the end of the body.
func (m *mentorsBody) execute(name string, content any) {
	if err := m.site.templates.ExecuteTemplate(&m.out, name, content); m.err == nil {
		m.err = err
	}
}

// part heads a part of the lesson with when it begins, and how long it is.
func (m *mentorsBody) part(h *ast.Heading) {
	head := struct {
		Timed   *tapePart
		Heading template.HTML
	}{Heading: m.html(h)}
	for _, p := range tapeParts(m.lesson.Lesson) {
		if p.ID == idOf(h) {
			head.Timed = &p
		}
	}
	m.execute("part", head)
}

// idOf is the id of a heading.
func idOf(h *ast.Heading) string {
	id, _ := h.AttributeString("id")
	text, _ := id.([]byte)
	return string(text)
}

// fold puts the prose that has come together into a fold of one line. Headings with nothing below them stay open.
func (m *mentorsBody) fold() {
	prose := m.prose
	m.prose = nil
	words, heads := 0, 0
	var about []string
	for _, n := range prose {
		said := strings.Fields(m.textOf(n))
		words += len(said)
		switch figure, isFigure := n.(*lesson.DataBlock); {
		case isFigure:
			about = append(about, m.figureTitle(figure))
		case n.Kind() == ast.KindHeading:
			heads++
			about = append(about, strings.Join(said, " "))
		case len(about) == 0:
			about = append(about, m.opening(n, said)...)
		}
	}
	if heads == len(prose) {
		m.put(string(m.html(prose...)))
		return
	}
	m.execute("read", struct {
		About string
		Words int
		Body  template.HTML
	}{strings.Join(about, "; "), words, m.html(prose...)})
}

// figureTitle is what a figure is called, or the first of several.
func (m *mentorsBody) figureTitle(n *lesson.DataBlock) string {
	d := m.lesson.OfData(n)
	switch {
	case d != nil && d.Chart != nil && d.Chart.Title != "":
		return d.Chart.Title
	case d != nil && len(d.Figures) > 0:
		return d.Figures[0].Text
	}
	return m.words[string(n.Name)+"-title"] // a chart has its own
}

// opening is how a block begins, so that it can be told from others; nothing if it has no words.
func (m *mentorsBody) opening(n ast.Node, words []string) []string {
	const enough = 8
	switch {
	case n.Kind() == lesson.KindGaugeBlock:
		return []string{m.words.Say("gauges-keyed")}
	case len(words) == 0:
		return nil
	case len(words) <= enough:
		return []string{strings.Join(words, " ")}
	}
	return []string{strings.Join(words[:enough], " ") + " …"}
}

func (m *mentorsBody) textOf(n ast.Node) string { return lesson.TextOf(n, m.markdown, m.valueText) }

// notes shows a section of notes: what stands on top of the page is left out here, and every other heading is a fold,
// unless a key, and perhaps a warning with it, is below it.
func (m *mentorsBody) notes(section ast.Node) {
	type note struct {
		Heading template.HTML
		Body    template.HTML
		Open    bool
	}
	var all struct {
		Head  template.HTML
		Notes []note
	}
	for _, p := range lesson.NoteParts(section) {
		switch {
		case p.Heading == nil:
			all.Head = m.html(p.Blocks...)
		case m.takenUp(p):
		default:
			m.top.Folds = append(m.top.Folds, place{idOf(p.Heading), m.textOf(p.Heading)})
			all.Notes = append(all.Notes, note{m.html(p.Heading), m.html(p.Blocks...), slices.ContainsFunc(p.Blocks, isOpen)})
		}
	}
	if h, ok := section.FirstChild().(*ast.Heading); ok && m.top.Notes == "" {
		m.top.Notes = idOf(h)
	}
	m.execute("notes", all)
}

// takenUp tells whether a part stands on top of the page.
func (m *mentorsBody) takenUp(p lesson.NotePart) bool {
	at := func(top *lesson.NotePart) bool { return top != nil && top.Heading == p.Heading }
	switch {
	case at(m.known.Before):
		m.top.Before = m.readied(p)
	case at(m.known.First):
		m.top.First = m.readied(p)
	default:
		return false
	}
	return true
}

// readied takes lists apart, so that each item can be ticked.
func (m *mentorsBody) readied(p lesson.NotePart) *readied {
	out := &readied{ID: idOf(p.Heading)}
	for _, n := range p.Blocks {
		list, ok := n.(*ast.List)
		if !ok {
			out.Blocks = append(out.Blocks, readyBlock{Other: m.html(n)})
			continue
		}
		var ticks []template.HTML
		for item := list.FirstChild(); item != nil; item = item.NextSibling() {
			var blocks []ast.Node
			for c := item.FirstChild(); c != nil; c = c.NextSibling() {
				blocks = append(blocks, c)
			}
			ticks = append(ticks, m.html(blocks...))
		}
		out.Blocks = append(out.Blocks, readyBlock{Ticks: ticks})
	}
	return out
}
