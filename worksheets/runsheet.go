package worksheets

// The run sheet: one page with which a mentor runs a lesson in a noisy hall. What is on it and in which order; its keys
// are in runsheet_keys.go, what it is laid out with in column.go.

import (
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/work"
	"trundle/worksheets/pdf"
)

// A runFit is what gives way so that a run sheet fits on a page.
type runFit struct {
	size    float64 // of the small type, in points
	asks    int     // lines that a question with a key may take
	hints   int     // lines that what to say to a wrong answer may take
	slips   int     // wrong answers that a key has beside it
	pairs   bool    // the keys stand in two columns
	answers bool    // to the questions
	close   bool    // lines have less between them
	flowing bool    // over as many pages as it takes
}

// runFits are tried in this order, each lower than those before it. Type gets smaller first and the keys stand in two
// columns, then hints and questions are cut; wrong answers go before the answers to questions, and of both the lesson's
// page has more. No key is ever left out.
var runFits = []runFit{
	{size: 11, asks: 3, hints: 3, slips: mostSlips, answers: true},
	{size: 10, asks: 3, hints: 3, slips: mostSlips, answers: true},
	{size: 9.5, asks: 3, hints: 3, slips: mostSlips, answers: true},
	{size: 9, asks: 3, hints: 3, slips: mostSlips, answers: true},
	{size: 8.5, asks: 3, hints: 3, slips: mostSlips, answers: true},
	{size: 9, asks: 3, hints: 2, slips: mostSlips, answers: true, pairs: true},
	{size: 8.5, asks: 2, hints: 2, slips: mostSlips, answers: true, pairs: true},
	{size: 8, asks: 2, hints: 2, slips: mostSlips, answers: true, pairs: true},
	{size: 8.5, asks: 2, hints: 1, slips: mostSlips, answers: true, pairs: true},
	{size: 8, asks: 2, hints: 1, slips: mostSlips, answers: true, pairs: true},
	{size: 8, asks: 1, hints: 1, slips: mostSlips, answers: true, pairs: true},
	{size: 8, asks: 1, hints: 1, slips: mostSlips, answers: true, pairs: true, close: true},
	{size: 8, asks: 1, hints: 1, slips: 1, answers: true, pairs: true, close: true},
	{size: 8, asks: 1, slips: 0, answers: true, pairs: true, close: true},
	{size: 8, asks: 1, slips: 0, pairs: true, close: true},
	{size: 9, asks: 2, hints: 2, slips: mostSlips, answers: true, flowing: true},
}

// Sizes of the run sheet's own, in points.
const (
	keySize   = 12.5 // at least
	runTitle  = 17.0
	leastSize = 8.0
)

// A runSheet is a sheet that is laid out in columns.
type runSheet struct {
	*sheet
	runFit
	cards     []Card
	notes     lesson.Notes
	parts     []lesson.TimedPart
	questions []lesson.Question // of the notes
	keyed     []keyText
	texts     map[ast.Node]string        // of the notes' nodes
	read      map[*lesson.Statement]bool // what is known to depend on readings, or not to
	across    bool                       // what is said of the time before the students come goes across the page
}

// layOutRun draws a run sheet; the season's file has the same pages.
func layOutRun(p Paper, about About, l *work.Lesson, cards []Card) (*pdf.Document, error) {
	s := &sheet{paper: p, about: about, lesson: l, mentors: true, edgeless: true, texts: about.Shown.textsOf(l)}
	s.texts.Lock()
	defer s.texts.Unlock()
	s.doc = newDocument(l.Title+" · "+s.say("start-run")+" · "+about.Pack, about.Pack, about.Language)
	s.newPage()
	s.labelPages()
	r := &runSheet{sheet: s, cards: cards, notes: lesson.NotesOf(l.Lesson, about.Words),
		parts: lesson.TimedParts(l.Lesson), texts: map[ast.Node]string{}, read: map[*lesson.Statement]bool{}}
	r.questions = r.notes.Questions.Questions(l.Markdown, s.valueText)
	r.keyed = r.keyTexts()
	r.fitting()
	r.lay(false)
	s.footers()
	return s.doc, nil
}

// fitting chooses the first fit with which the sheet has one page. Each takes less room than those before it.
func (r *runSheet) fitting() {
	i := sort.Search(len(runFits), func(i int) bool {
		r.runFit = runFits[i]
		return r.flowing || r.lay(true) <= r.foot()
	})
	r.runFit = runFits[i]
}

// lay draws the sheet, or only measures it, and gives how far down it goes.
func (r *runSheet) lay(blind bool) float64 {
	all := &column{runSheet: r, x: Margin, width: r.paper.Width - 2*Margin, y: Margin, blind: blind}
	r.head(all)
	if r.flowing {
		for _, section := range slices.Concat(r.ready(), []func(*column){r.first, r.keys}, r.end(), []func(*column){r.care}) {
			section(all)
		}
		return all.y
	}
	r.readied(all)
	r.first(all)
	r.keys(all)
	r.ending(all)
	r.care(all)
	if r.runFit.slips < mostSlips || !r.answers {
		all.paragraph(regular, r.size, r.say("run-shortened"), 0)
	}
	return all.y
}

// readied puts the sections that a mentor has done with when the lesson begins beside each other: what is said in
// sentences of the time before the students come with its boxes, or across the page above them, whichever is lower.
func (r *runSheet) readied(c *column) {
	within := &column{r, c.x, c.width, c.y, true}
	sections := r.lowest(within, r.ready(), r.withPlan)
	within.beside(sections...)
	r.across = true
	above := &column{r, c.x, c.width, c.y, true}
	r.beforehand(above)
	below := r.lowest(above, r.ready(), r.withPlan)
	above.beside(below...)
	if r.across = above.y < within.y-0.01; r.across {
		r.beforehand(c)
		sections = below
	}
	c.beside(sections...)
	r.across = false
}

// ready are the sections that a mentor has done with when the lesson begins; those that have nothing take no room.
func (r *runSheet) ready() []func(*column) {
	var all []func(*column)
	if r.notes.Before != nil && (!r.across || len(r.ticked()) > 0) {
		all = append(all, r.before)
	}
	all = append(all, r.table)
	if len(r.parts) > 0 {
		all = append(all, r.clock)
	}
	return all
}

// ending puts the sections for the end of the lesson: beside each other, or the questions in two columns and what
// comes after them below, whichever is lower.
func (r *runSheet) ending(c *column) {
	sections := r.lowest(c, r.end(), func(parts []float64, _ float64) []float64 { return parts })
	trial := &column{r, c.x, c.width, c.y, true}
	trial.beside(sections...)
	halved := &column{r, c.x, c.width, c.y, true}
	if len(r.questions) > 1 {
		r.inTwoColumns(halved)
		if halved.y < trial.y-0.01 {
			r.inTwoColumns(c)
			return
		}
	}
	c.beside(sections...)
}

// inTwoColumns puts the questions into two columns of which the higher is as low as can be.
func (r *runSheet) inTwoColumns(c *column) {
	put := func(questions []lesson.Question) func(*column) {
		return func(c *column) { r.asked(c, questions) }
	}
	r.askedHead(c)
	best, least := 0, math.Inf(1)
	for n := range r.questions {
		trial := &column{r, c.x, c.width, c.y, true}
		if trial.beside(share{0.5, put(r.questions[:n])}, share{0.5, put(r.questions[n:])}); trial.y < least-0.01 {
			best, least = n, trial.y
		}
	}
	c.beside(share{0.5, put(r.questions[:best])}, share{0.5, put(r.questions[best:])})
	if r.notes.Worked != nil {
		r.worked(c)
	}
}

// end are those for the end of the lesson.
func (r *runSheet) end() []func(*column) {
	var all []func(*column)
	if len(r.questions) > 0 {
		all = append(all, r.toAsk)
	}
	if r.notes.Worked != nil {
		all = append(all, r.worked)
	}
	return all
}

// widths are those that so many sections beside each other may have, in parts of the page's.
var widths = [][][]float64{
	0: {{}},
	1: {{1}},
	2: {{0.5, 0.5}, {0.6, 0.4}, {0.4, 0.6}},
	3: {{0.42, 0.25, 0.33}, {0.47, 0.23, 0.3}, {0.5, 0.2, 0.3}, {0.4, 0.3, 0.3}, {0.44, 0.28, 0.28},
		{0.48, 0.26, 0.26}, {0.5, 0.24, 0.26}},
}

// lowest chooses the widths with which sections beside each other take the least height; the first of equals. fit makes
// of each choice what the sections need.
func (r *runSheet) lowest(
	c *column, sections []func(*column), fit func(parts []float64, room float64) []float64,
) []share {
	var best []share
	least := 0.0
	room := c.width - gutter*float64(len(sections)-1)
	for _, parts := range widths[len(sections)] {
		parts = fit(parts, room)
		shares := make([]share, len(sections))
		for i, section := range sections {
			shares[i] = share{parts[i], section}
		}
		if foot := c.tried(shares, best != nil, least-0.01); best == nil || foot < least-0.01 {
			best, least = shares, foot
		}
	}
	return best
}

// head says what the sheet is of, and that it must not be handed out.
func (r *runSheet) head(c *column) {
	const pad = 2.0
	label := printable(r.say("mentors-sheet"))
	high := c.font(bold, 11)
	wide := r.doc.Width(label) + 2*pad
	line := c.font(bold, runTitle)
	title := c.cut(r.wrap(bold, runTitle, r.lesson.Title, c.width-wide-4), 3, c.width-wide-4)
	about := r.pack()
	c.in(pdf.H1, func() {
		c.put(line*float64(len(title)), func(y float64) {
			r.doc.Bookmark(1, r.lesson.Title, y)
			c.font(bold, runTitle)
			r.lines(c.x, y, title, line)
		})
	})
	c.in(pdf.P, func() {
		if c.blind {
			return
		}
		right, top := c.x+c.width, c.y-line*float64(len(title))
		r.doc.Apart(func() { r.doc.Rect(right-wide, top, wide, high+2, pdf.Fill) })
		c.font(bold, 11)
		r.doc.Shade(255)
		r.lines(right-wide+pad, top+1, []string{label}, high)
		r.doc.Shade(0)
	})
	c.paragraph(regular, 10, about, 2)
	c.y += 1
}

// pack is where and when the lesson belongs.
func (r *runSheet) pack() string {
	about := []string{r.say("start-run"), r.about.Pack, r.say("week") + " " + strconv.Itoa(r.lesson.Week)}
	if r.about.Club != "" {
		about = slices.Insert(about, 1, r.about.Club)
	}
	minutes := r.say("minutes", r.lesson.Minutes)
	if r.about.Start != nil {
		minutes += ", " + r.until(0, r.lesson.Minutes)
	}
	about = append(about, minutes)
	if r.lesson.Draft {
		about = append(about, r.say("draft"))
	}
	return strings.Join(about, " · ")
}

// until writes from when to when something goes, in minutes from the start.
func (r *runSheet) until(from, to int) string {
	return lesson.ClockAt(r.about.Start, from) + "–" + lesson.ClockAt(r.about.Start, to)
}

// beforehand is what the notes say of the time before the students come ahead of their first list.
func (r *runSheet) beforehand(c *column) {
	if r.notes.Before == nil {
		return
	}
	all := r.notes.Before.Blocks
	if n := len(all) - len(r.ticked()); n > 0 {
		c.heading(r.say("before"))
		r.part(c, all[:n], r.size, false)
	}
}

// ticked are the notes' blocks from their first list on.
func (r *runSheet) ticked() []ast.Node {
	all := r.notes.Before.Blocks
	i := slices.IndexFunc(all, func(n ast.Node) bool { return n.Kind() == ast.KindList })
	if i < 0 {
		return nil
	}
	return all[i:]
}

// before are boxes to tick off before the students come, below what is said ahead of them.
func (r *runSheet) before(c *column) {
	blocks := r.notes.Before.Blocks
	if r.across {
		blocks = r.ticked()
	}
	if !r.across || len(blocks) == len(r.notes.Before.Blocks) {
		c.heading(r.say("before"))
	}
	r.part(c, blocks, r.size, true)
}

// table is what lies on the table, with boxes.
func (r *runSheet) table(c *column) {
	c.heading(r.say("on-table"))
	c.in(pdf.L, func() {
		for _, m := range append(slices.Clip(r.lesson.Materials), r.say("sheets-blank")) {
			c.item(m, true)
		}
	})
}

// first is read aloud, so it is large. Its heading stands beside it.
func (r *runSheet) first(c *column) {
	if r.notes.First == nil {
		return
	}
	size := max(r.size+2, 11)
	if r.flowing {
		c.heading(r.say("first"))
		r.part(c, r.notes.First.Blocks, size, false)
		return
	}
	const drop = 1.0
	said := *c
	indent := min(r.widthOf(bold, c.headSize(), printable(r.say("first")))+5, c.width/3)
	said.x, said.width, said.y = c.x+indent, c.width-indent, c.y+headRoom+drop
	c.lowered(r.say("first"), drop-headDrop+0.76*(c.leadingOf(size)-c.leadingOf(c.headSize())))
	r.part(&said, r.notes.First.Blocks, size, false)
	c.y = max(c.y, said.y)
}

// worked is how to tell that the lesson did what it is for.
func (r *runSheet) worked(c *column) {
	c.heading(r.text(r.notes.Worked.Heading))
	r.part(c, r.notes.Worked.Blocks, r.size, false)
}

// text is that of a node of the notes.
func (r *runSheet) text(n ast.Node) string {
	known, ok := r.texts[n]
	if !ok {
		known = r.plain(n)
		r.texts[n] = known
	}
	return known
}

// part puts what follows a heading of the notes: lists, and the text of anything else.
func (r *runSheet) part(c *column, blocks []ast.Node, size float64, ticks bool) {
	for _, n := range blocks {
		list, ok := n.(*ast.List)
		if !ok {
			c.paragraph(regular, size, r.text(n), 0)
			continue
		}
		c.in(pdf.L, func() {
			for item := list.FirstChild(); item != nil; item = item.NextSibling() {
				c.item(r.text(item), ticks)
			}
		})
	}
}

// toAsk are the questions to ask, with what a good answer is.
func (r *runSheet) toAsk(c *column) {
	r.askedHead(c)
	r.asked(c, r.questions)
}

func (r *runSheet) askedHead(c *column) { c.heading(r.text(r.notes.Questions.Heading)) }

func (r *runSheet) asked(c *column, questions []lesson.Question) {
	if len(questions) == 0 {
		return
	}
	c.in(pdf.L, func() {
		for _, q := range questions {
			if !r.answers {
				q.Answer = ""
			}
			c.answered(q)
		}
	})
}

// care are the lesson's cards by who may do what they are about, and once who decides.
func (r *runSheet) care(c *column) {
	if len(r.cards) == 0 {
		return
	}
	c.y += 1
	kinds := []struct {
		word string
		is   func(Card) bool
	}{
		{"for-adults", func(card Card) bool { return card.Adults && !card.Both }},
		{"who-both", func(card Card) bool { return card.Both }},
		{"for-students", func(card Card) bool { return !card.Adults && !card.Both }},
	}
	var all []string
	for _, kind := range kinds {
		cards := slices.DeleteFunc(slices.Clone(r.cards), func(card Card) bool { return !kind.is(card) })
		if len(cards) > 0 {
			all = append(all, r.led(kind.word)+r.cardsInShort(cards))
		}
	}
	c.led(r.led("care"), strings.Join(append(all, r.say("authority")), " "), r.size, 0)
}

// cardsInShort are the titles of cards, and what to wear.
func (r *runSheet) cardsInShort(cards []Card) string {
	var titles, wear []string
	for _, card := range cards {
		title := card.Title
		if card.SignalWord != "" {
			title += " (" + strings.ToUpper(r.say("signal-"+card.SignalWord)) + ")"
		}
		titles = append(titles, title)
		for _, w := range card.Wear {
			if !slices.Contains(wear, w) {
				wear = append(wear, w)
			}
		}
	}
	text := strings.Join(titles, "; ") + "."
	if len(wear) > 0 {
		text += " " + r.led("wear") + strings.Join(wear, "; ") + "."
	}
	return text
}
