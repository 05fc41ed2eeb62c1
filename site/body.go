package site

// The body of a document as HTML: every node of the Markdown that is ours, or that pages show in their own way. Blocks
// of work, data, gauges and code have files of their own.

import (
	"bytes"
	"cmp"
	"html"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	tables "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/renderer"
	markdown "github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/work"
	"trundle/site/words"
)

// A body renders one document for one edition.
type body struct {
	site      *Site
	words     words.Words
	mentors   bool
	file      string                      // the Markdown file's name, for its links
	source    *source.File                // the same
	lesson    *work.Lesson                // nil for a care card
	limited   *lesson.Card                // of the lesson's cards the one with the lowest exposure limit
	unlimited []*lesson.Card              // cards of hazards without one
	here      map[ast.Node][]*lesson.Card // the block that is the first to need a card
	pack      *lesson.Pack
	markdown  []byte
	parts     []tapePart // of the lesson, to be folded
	inPart    bool       // one has begun
	shown     int        // parts that have ended
	figures   int        // shown so far
	drawings  int        // figures of show blocks so far
	colouring lesson.Colouring
	ofWords   bool      // it is what is said of the pack's words
	explained wordLinks // to the pack's words
	idPrefix  string    // keeps the headings of several cards on one page apart
	renderer  renderer.Renderer
}

// render gives the HTML of a node and all below it.
func (b *body) render(n ast.Node) (string, error) {
	if b.renderer == nil { // a mentors' page is rendered block by block
		b.renderer = renderer.NewRenderer(renderer.WithNodeRenderers(
			util.Prioritized(b, 100),
			util.Prioritized(extension.NewTableHTMLRenderer(), 500),
			util.Prioritized(markdown.NewRenderer(), 1000),
		))
	}
	var out whole
	err := b.renderer.Render(&out, b.markdown, n)
	return out.String(), err
}

// whole is written at once: the renderer would put 4 KiB of room in front of anything else, for each block of a page.
type whole struct{ bytes.Buffer }

func (*whole) Buffered() int { return 0 }
func (*whole) Flush() error  { return nil }

// RegisterFuncs takes over the nodes that are ours, and those of goldmark that pages
// show in their own way: headings with their minutes, links within the pack, code in
// colour, raw HTML as the text it is.
func (b *body) RegisterFuncs(reg renderer.NodeRendererFuncRegisterer) {
	reg.Register(lesson.KindWorkBlock, b.workBlock)
	reg.Register(lesson.KindGaugeBlock, b.gaugeBlock)
	reg.Register(lesson.KindDataBlock, b.dataBlock)
	reg.Register(lesson.KindFilledCode, b.filledCode)
	reg.Register(lesson.KindValue, b.value)
	reg.Register(lesson.KindMentorNote, b.mentorNote)
	reg.Register(lesson.KindMentorSection, b.mentorSection)
	reg.Register(ast.KindDocument, b.document)
	reg.Register(ast.KindHeading, b.heading)
	reg.Register(ast.KindLink, b.link)
	reg.Register(ast.KindImage, b.image)
	reg.Register(ast.KindFencedCodeBlock, b.fencedCode)
	reg.Register(tables.KindTable, b.table)
	reg.Register(tables.KindTableCell, b.tableCell)
	reg.Register(ast.KindRawHTML, b.rawHTML)
	reg.Register(ast.KindHTMLBlock, b.htmlBlock)
	reg.Register(ast.KindParagraph, b.paragraph)
	reg.Register(ast.KindTextBlock, b.textBlock)
	reg.Register(ast.KindText, b.text)
	if b.site.marked {
		reg.Register(ast.KindListItem, b.listItem)
	}
}

// put writes texts. The writer is goldmark's, which reports an error when it is flushed.
func put(w util.BufWriter, parts ...string) {
	for _, p := range parts {
		_, _ = w.WriteString(p)
	}
}

// mentorNote shows a note in the mentors' edition; in the other nothing of it is walked, and so nothing leaks.
func (b *body) mentorNote(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
	if !b.mentors {
		return ast.WalkSkipChildren, nil
	}
	if entering {
		put(w, `<div class="mentor" role="note" aria-label="`, html.EscapeString(b.words.Say("mentor")), `"><p class="tag">`,
			html.EscapeString(b.words.Say("mentor")), "</p><div>\n")
	} else {
		put(w, "</div></div>\n")
	}
	return ast.WalkContinue, nil
}

// mentorSection is the same for a whole part.
func (b *body) mentorSection(w util.BufWriter, _ []byte, _ ast.Node, entering bool) (ast.WalkStatus, error) {
	if !b.mentors {
		return ast.WalkSkipChildren, nil
	}
	if entering {
		put(w, `<section class="mentor">`, "\n")
	} else {
		put(w, "</section>\n")
	}
	return ast.WalkContinue, nil
}

// heading writes a heading with its id and, behind it, its minutes.
func (b *body) heading(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	h := n.(*ast.Heading)
	level := strconv.Itoa(min(h.Level+b.headingShift(), 6))
	if entering {
		b.openPart(w, h)
		put(w, "<h", level, b.at(h))
		if id, ok := h.AttributeString("id"); ok {
			put(w, ` id="`, html.EscapeString(b.idPrefix+string(id.([]byte))), `"`)
		}
		put(w, ">")
		return ast.WalkContinue, nil
	}
	minutes, timed := h.AttributeString("minutes")
	if timed && (!b.mentors || b.lesson == nil || h.Level > 2) { // a mentors' part has them beside its clock
		put(w, ` <span class="min">`, html.EscapeString(b.words.Say("min", minutes)), "</span>")
	}
	if lesson.IfTime(h) && (!b.mentors || h.Level > 2 || !timed) {
		put(w, ` <span class="min">`, html.EscapeString(b.words.Say("if-time")), "</span>")
	}
	put(w, "</h", level, ">")
	if _, ok := b.foldable(h); ok {
		put(w, "</summary>")
	}
	put(w, "\n")
	return ast.WalkContinue, nil
}

// headingShift sets a card's headings below the card's own title.
func (b *body) headingShift() int {
	if b.lesson == nil && !b.ofWords {
		return 1
	}
	return 0
}

// table can have the focus, since a narrow screen has to scroll it.
func (b *body) table(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		put(w, "<table tabindex=\"0\"", b.at(n), ">\n")
	} else {
		put(w, "</table>\n")
	}
	return ast.WalkContinue, nil
}

// tableCell aligns a cell by a class, since the security policy allows no style.
func (b *body) tableCell(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	cell := n.(*tables.TableCell)
	tag := "td"
	if n.Parent().Kind() == tables.KindTableHeader {
		tag = "th"
	}
	if !entering {
		b.marks(w, n)
		put(w, "</", tag, ">\n")
		return ast.WalkContinue, nil
	}
	switch cell.Alignment {
	case tables.AlignRight:
		put(w, "<", tag, ` class="right">`)
	case tables.AlignCenter:
		put(w, "<", tag, ` class="center">`)
	default:
		put(w, "<", tag, ">")
	}
	return ast.WalkContinue, nil
}

// link leads to a page where the source leads to a file.
func (b *body) link(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		put(w, "</a>")
		return ast.WalkContinue, nil
	}
	l := n.(*ast.Link)
	put(w, `<a href="`, html.EscapeString(b.address(string(l.Destination))), `"`)
	if len(l.Title) > 0 {
		put(w, ` title="`, html.EscapeString(lesson.Plain(l.Title)), `"`)
	}
	put(w, ">")
	return ast.WalkContinue, nil
}

// address turns a link between the pack's files into one between pages.
func (b *body) address(destination string) string {
	kind, target, fragment := lesson.Classify(b.file, destination)
	if fragment != "" {
		fragment = "#" + fragment
	}
	switch kind {
	case lesson.ToLesson:
		return target + ".html" + fragment
	case lesson.ToWords:
		return WordsPage + fragment
	case lesson.ToCard:
		// A students' page shows no part of a card for adults, so that there is no heading to lead to.
		if c, ok := b.pack.Card(target); fragment == "" || ok && c.Adults && !b.mentors {
			return "care.html#" + target
		}
		return "care.html#" + target + "-" + fragment[1:]
	case lesson.Here:
		return "#" + b.idPrefix + strings.TrimPrefix(fragment, "#")
	case lesson.Nowhere:
		return "#"
	case lesson.Elsewhere:
	}
	return string(util.URLEscape([]byte(destination), true))
}

// image shows a picture of the pack; only its file is copied, so that no page asks another server.
func (b *body) image(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	i := n.(*ast.Image)
	name := lesson.PictureName(b.file, string(i.Destination))
	alt := lesson.TextOf(n, source, b.valueText)
	put(w, `<img src="`, html.EscapeString(addressOf(name)), `" alt="`, html.EscapeString(alt), `"`)
	if len(i.Title) > 0 {
		put(w, ` title="`, html.EscapeString(lesson.Plain(i.Title)), `"`)
	}
	put(w, ">")
	return ast.WalkSkipChildren, nil
}

// rawHTML shows HTML in a sentence as the text that it is: a pack may come from anywhere.
func (b *body) rawHTML(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		segments := n.(*ast.RawHTML).Segments
		put(w, `<span class="as-text">`)
		for i := range segments.Len() {
			s := segments.At(i)
			put(w, html.EscapeString(string(s.Value(source))))
		}
		put(w, "</span>")
	}
	return ast.WalkSkipChildren, nil
}

// htmlBlock does the same for a block.
func (b *body) htmlBlock(w util.BufWriter, source []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	block := n.(*ast.HTMLBlock)
	put(w, `<p class="as-text">`)
	for i := range block.Lines().Len() {
		s := block.Lines().At(i)
		put(w, html.EscapeString(string(s.Value(source))))
	}
	if block.HasClosure() {
		put(w, html.EscapeString(string(block.ClosureLine.Value(source))))
	}
	put(w, "</p>\n")
	return ast.WalkContinue, nil
}

// hidden tells whether a value must be a blank in this edition.
func (b *body) hidden(r *work.Result) bool { return !b.mentors && r.OfStudents || r.Guessed }

// value shows a value in prose. Its blanks do not break, so that a number keeps its unit.
func (b *body) value(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	v := n.(*lesson.Value)
	if b.lesson == nil {
		return ast.WalkContinue, nil
	}
	if r := b.lesson.OfValue(v); r.Varies && !b.mentors {
		put(w, b.live(r))
		return ast.WalkContinue, nil
	}
	put(w, `<span class="value">`, html.EscapeString(strings.ReplaceAll(b.valueText(v), " ", "\u00a0")), "</span>")
	return ast.WalkContinue, nil
}

// live is a value that the students' page works out: a line to write on, or the number
// that the default kit gives, with the unit behind it.
func (b *body) live(r *work.Result) string {
	number, unit := shownNumber(r)
	text := b.liveIn(r, &r.Live, number, cmp.Or(unit, r.UnitBehind()))
	for also := r.Live.Also; also != nil; also = also.Also {
		number, unit = "", also.Unit.Symbol()
		if q, ok := r.Quantity(); ok {
			number, unit = quantity.Show(q, also.Target)
		}
		text += " (" + b.liveIn(r, also, number, unit) + ")"
	}
	return text
}

// liveIn is the value in one of the units that it is shown in.
func (b *body) liveIn(r *work.Result, live *work.Live, number, unit string) string {
	s := b.liveNumber(r, live, b.words.Number(number), quantity.YesOrNo)
	follows := unitFollows(b.words.Unit(unit), unit != quantity.AfterNumber("1", unit))
	if r.OfStudents {
		number = "" // a singular would give a 1 away
	}
	if unit = html.EscapeString(b.words.Unit(quantity.AfterNumber(number, unit))); follows != "" {
		return s + "<span" + follows + ">\u00a0" + unit + "</span>"
	}
	if unit != "" {
		s += "\u00a0" + unit
	}
	return s
}

// liveNumber is the number of it. number is shown until the page works it out, unless
// it depends on what students do. yesOrNo has the words for the two, as programs have others.
func (b *body) liveNumber(r *work.Result, live *work.Live, number, yesOrNo string) string {
	class, text := "value", html.EscapeString(number)
	if r.OfStudents {
		class, text = "blank", `<span class="unseen">`+html.EscapeString(b.words.Say("blank"))+`</span>`
	}
	data := ""
	if live.Program != "" {
		data = ` data-p="` + html.EscapeString(string(live.Program)) + `"`
		if r.IsTruth() {
			data += ` data-to="` + yesOrNo + `"`
		} else if !live.Target.Step.IsZero() {
			data += ` data-to="` + live.Target.Step.String() + `"`
		}
		if larger := live.Target.Larger(); larger != "" {
			data += ` data-v="` + larger + `"`
		}
	}
	return `<span class="` + class + `"` + data + ">" + text + "</span>"
}

// shownNumber is a result's number and unit as they are shown, "" if it is not a single quantity.
func shownNumber(r *work.Result) (number, unit string) {
	q, ok := r.Quantity()
	if !ok {
		return "", ""
	}
	number, unit = quantity.Show(q, r.Target)
	if rest, same := strings.CutSuffix(r.Written, quantity.Shown{Unit: unit}.Text()); same && r.Written != "" {
		number = rest // as the kit has it: 3:5
	}
	return number, unit
}

// valueText is a value as text: a line of underscores where students write.
func (b *body) valueText(v *lesson.Value) string {
	if b.lesson == nil {
		return ""
	}
	r := b.lesson.OfValue(v)
	if b.hidden(r) {
		return strings.TrimSpace("____ " + b.words.Unit(r.Asked()))
	}
	return b.words.Number(r.Text())
}
