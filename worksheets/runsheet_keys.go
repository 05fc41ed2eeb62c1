package worksheets

// The keys of a run sheet: large, part by part in the order of the lesson, each with other kits' keys and the likeliest
// wrong answers.

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/worksheets/pdf"
)

// A keyRow is a question on the run sheet, laid out.
type keyRow struct {
	symbol   box
	ask      []string
	number   []string // of the key; empty if it is answered in words
	unit     string   // beside it
	beneath  []string // the key's limit, and the keys of other kits
	hints    []ledLine
	at       int // in the source
	part     string
	headline bool // no question but a part's name
}

// keyPlaces are where the cells of a row of keys stand, from the left of their column. In narrow columns the hints stand
// below the question.
type keyPlaces struct {
	ask, key, hints, width float64
	below                  bool
}

// What a pack may have very many of, cut so that no row is as high as a page: lines beneath a key, and what to listen for.
const (
	mostBeneath = 4
	mostListens = 6
)

// keys puts all keys, in one column or two.
func (r *runSheet) keys(c *column) {
	places := r.keyPlaces(c.width)
	if r.pairs {
		places = r.keyPlaces((c.width - gutter) / 2)
	}
	rows := r.keyRows(c, places)
	if len(rows) == 0 {
		return
	}
	c.heading(r.say("keys"))
	if !r.pairs {
		r.keyTable(c, places, rows)
		return
	}
	left, right := r.halves(c, places, rows)
	c.beside(
		share{0.5, func(c *column) { r.keyTable(c, places, left) }},
		share{0.5, func(c *column) { r.keyTable(c, places, right) }})
}

// halves parts rows into two columns of which the higher is as low as can be. The right one says again whose part goes
// on.
func (r *runSheet) halves(c *column, places keyPlaces, rows []keyRow) (left, right []keyRow) {
	height := func(rows []keyRow) (sum float64) {
		for _, row := range rows {
			sum += r.rowHeight(c, places, row)
		}
		return sum
	}
	least := math.Inf(1)
	var part keyRow // the last name of one that has been passed
	for n, row := range rows {
		rest := rows[n:]
		switch {
		case row.headline:
			part = row
		case n > 0 && rows[n-1].headline: // a name goes with what is below it
			continue
		default:
			rest = slices.Insert(slices.Clone(rest), 0, part)
		}
		if higher := max(height(rows[:n]), height(rest)); n > 0 && higher < least-0.01 {
			left, right, least = rows[:n], rest, higher
		}
	}
	if left == nil {
		return rows, nil
	}
	return left, right
}

// keyPlaces are those in a width.
func (r *runSheet) keyPlaces(width float64) keyPlaces {
	r.doc.SetFont(regular, r.size)
	symbols, keys := r.doc.Width(printable(r.say("symbol"))), 18.0
	for _, s := range r.lesson.Finds {
		if !r.hasKey(s) {
			continue
		}
		symbols = max(symbols, (setter{r.doc, r.size}).set(quantity.SymbolOf(s.Name)).width)
		number, unit := r.amountParts(s)
		keys = max(keys, r.numberWidth(number)+r.unitWidth(unit))
	}
	p := keyPlaces{ask: min(symbols, 18) + 2, width: width}
	if keys = min(keys, width*0.28) + 0.5; r.pairs {
		p.key, p.hints, p.below = width-keys, p.ask, true
		return p
	}
	p.key = p.ask + (width-p.ask-keys-3)*0.44
	p.hints = p.key + keys + 3
	return p
}

// hasKey tells whether a question has an answer to hold others against. An estimate of vapour has none without the
// warnings that stand beside it on the page.
func (r *runSheet) hasKey(s *lesson.Statement) bool {
	return s.Kind == lesson.Find && !s.IsVapour() && !r.lesson.Of(s).Guessed && r.amount(s) != ""
}

// amount is a question's key, or its value if it has none.
func (r *runSheet) amount(s *lesson.Statement) string {
	if key := r.lesson.Of(s).Key; key != nil {
		return key.Amount()
	}
	return r.lesson.Of(s).Text()
}

// amountParts parts a key into its number and its unit, which is set smaller.
func (r *runSheet) amountParts(s *lesson.Statement) (number, unit string) {
	text := printable(r.amount(s))
	if of := printable(r.unitOf(s)); of != "" && strings.HasSuffix(text, " "+of) {
		return strings.TrimSuffix(text, " "+of), of
	}
	return text, ""
}

// unitOf is the unit of a question's key.
func (r *runSheet) unitOf(s *lesson.Statement) string {
	if key := r.lesson.Of(s).Key; key != nil {
		return key.Statement.Literal.Unit.Symbol()
	}
	return r.lesson.Of(s).Unit()
}

func (r *runSheet) numberWidth(number string) float64 {
	r.doc.SetFont(bold, r.keySize())
	return r.doc.Width(number)
}

func (r *runSheet) unitWidth(unit string) float64 {
	r.doc.SetFont(bold, r.size)
	return r.doc.Width(" " + unit)
}

// keyRows lays out the questions below the parts that they belong to.
func (r *runSheet) keyRows(c *column, places keyPlaces) []keyRow {
	var rows []keyRow
	for _, s := range append(slices.Clip(r.lesson.Finds), r.lesson.Says...) {
		switch {
		case s.Broken:
		case s.Kind == lesson.Say && len(s.Listens) > 0:
			rows = append(rows, r.sayRow(c, places, s))
		case r.hasKey(s):
			rows = append(rows, r.keyRow(c, places, s))
		}
	}
	slices.SortStableFunc(rows, func(a, b keyRow) int { return a.at - b.at })
	var all []keyRow
	part := ""
	for _, row := range rows {
		if row.part = r.partAt(row.at); row.part != part {
			part = row.part
			all = append(all, keyRow{headline: true, ask: []string{part}})
		}
		all = append(all, row)
	}
	return all
}

// partAt is the name of the part that a place of the source is in, with when it begins.
func (r *runSheet) partAt(at int) string {
	name := ""
	for _, s := range r.lesson.Sections {
		if s.At.Start > at {
			break
		}
		name = s.Title
		for _, p := range lesson.TimedParts(r.lesson.Lesson) {
			if p.ID == s.ID {
				name += " · " + lesson.ClockAt(r.about.Start, p.From)
			}
		}
	}
	return name
}

// keyRow lays out a question with a key.
func (r *runSheet) keyRow(c *column, places keyPlaces, s *lesson.Statement) keyRow {
	row := r.asking(c, places, s)
	row.symbol = setter{r.doc, r.size}.set(quantity.SymbolOf(s.Name))
	wide := places.keyWidth()
	number, unit := r.amountParts(s)
	besides := r.besides(s)
	if row.unit = unit; r.numberWidth(number)+r.unitWidth(unit) > wide {
		row.unit, besides = "", slices.Insert(besides, 0, unit)
	}
	c.font(bold, r.keySize())
	row.number = wrap(r.doc, number, wide)
	c.font(regular, r.size)
	row.beneath = c.cut(wrap(r.doc, strings.Join(besides, " · "), wide), mostBeneath, wide)
	for _, slip := range s.Slips[:min(len(s.Slips), r.slips)] {
		said := cmp.Or(r.lesson.Of(slip).Text(), slip.Expr.String())
		said = withoutUnit(said, r.unitOf(s))
		row.hints = append(row.hints, c.ledLines(said+" "+arrow, slip.Prompt, r.size, places.hintWidth(), r.runFit.hints)...)
	}
	return row
}

// sayRow lays out a question that is answered in words, with what to listen for.
func (r *runSheet) sayRow(c *column, places keyPlaces, s *lesson.Statement) keyRow {
	if places.key = places.hints; places.below { // it has the room of the symbol and the key
		places = keyPlaces{ask: 0, hints: 0, key: places.width + 3, width: places.width, below: true}
	}
	row := r.asking(c, places, s)
	for _, l := range s.Listens[:min(len(s.Listens), mostListens)] {
		lead := r.say(string(l.Kind)) + ": "
		row.hints = append(row.hints, c.ledLines(lead, l.Prompt, r.size, places.hintWidth(), max(r.runFit.hints, 2))...)
	}
	return row
}

// asking lays out what is asked, in short.
func (r *runSheet) asking(c *column, places keyPlaces, s *lesson.Statement) keyRow {
	c.font(regular, r.size)
	lines := wrap(r.doc, cmp.Or(s.Prompt, s.Name), places.askWidth())
	return keyRow{ask: c.cut(lines, r.asks, places.askWidth()), at: s.At.Start}
}

// besides are a key's limit and the keys of the other kits, without the unit if it is the key's.
func (r *runSheet) besides(s *lesson.Statement) []string {
	var all []string
	of, unit := r.lesson.Of(s), r.unitOf(s)
	if of.Key != nil {
		if limit := of.Key.Statement.Literal.Sure(); limit != "" {
			all = append(all, withoutUnit(limit, unit))
		}
	}
	for _, other := range r.lesson.Others {
		if o := other.Of(s); o != nil && o.Text() != "" && o.Text() != of.Text() {
			all = append(all, other.Kit.Title+"\u00a0"+withoutUnit(o.Text(), unit))
		}
	}
	return all
}

// withoutUnit takes a unit off an amount that ends in it.
func withoutUnit(amount, unit string) string {
	if rest, ok := strings.CutSuffix(printable(amount), " "+printable(unit)); ok && unit != "" {
		return rest
	}
	return amount
}

func (r *runSheet) keySize() float64 { return max(keySize, r.size+3) }

// keyLine is the height of a line of a key, which has air enough in its row.
func (r *runSheet) keyLine() float64 { return r.keySize() * point * 1.05 }

func (p keyPlaces) askWidth() float64 { return p.key - p.ask - 3 }

func (p keyPlaces) keyWidth() float64 {
	if p.below {
		return p.width - p.key
	}
	return p.hints - p.key - 2.5
}

// hintWidth leaves a narrow column's key the room on its right.
func (p keyPlaces) hintWidth() float64 {
	if p.below {
		return p.askWidth()
	}
	return p.width - p.hints
}

// rowHeight is how high a row is, with the air around it.
func (r *runSheet) rowHeight(c *column, p keyPlaces, row keyRow) float64 {
	line := c.leadingOf(r.size)
	if row.headline {
		return line + 1
	}
	ask, hints := line*float64(len(row.ask)), line*float64(len(row.hints))
	if p.below {
		return max(r.keyHeight(c, row), ask+hints) + 0.8
	}
	return max(ask, r.keyHeight(c, row), hints) + 1
}

func (r *runSheet) keyHeight(c *column, row keyRow) float64 {
	return r.keyLine()*float64(len(row.number)) + c.leadingOf(r.size)*float64(len(row.beneath))
}

// keyTable draws rows, with a fine rule below each.
func (r *runSheet) keyTable(c *column, p keyPlaces, rows []keyRow) {
	if len(rows) == 0 {
		return
	}
	c.in(pdf.Table, func() {
		r.keyHeads(c, p)
		for _, row := range rows {
			height := r.rowHeight(c, p, row)
			c.put(height, func(y float64) {
				r.doc.In(pdf.TR, func() { r.drawRow(c, p, row, y, height) })
			})
		}
	})
	c.y += 0.6
}

// keyHeads are the heads of the table's columns.
func (r *runSheet) keyHeads(c *column, p keyPlaces) {
	at := []float64{c.x, c.x + p.ask, c.x + p.key, c.x + p.hints}
	if p.below { // between the question's and the key's, for want of another place
		c.font(regular, r.size)
		at[3] = c.x + p.ask + r.doc.Width(printable(r.say("question"))+"  ")
	}
	c.heads(at, []string{r.say("symbol"), r.say("question"), r.say("key"), r.say("if-they-say")})
}

// drawRow draws a row from its top: symbol, question, key, hints.
func (r *runSheet) drawRow(c *column, p keyPlaces, row keyRow, y, height float64) {
	line := c.leadingOf(r.size)
	if row.headline {
		r.doc.Apart(func() {
			r.doc.Shade(226)
			r.doc.Rect(c.x, y, p.width, height-0.4, pdf.Fill)
			r.doc.Shade(0)
		})
		r.doc.In(pdf.TH, func() {
			c.font(bold, r.size)
			r.lines(c.x+1, y+0.4, c.cut(wrap(r.doc, row.ask[0], p.width-2), 1, p.width-2), line)
		}, pdf.Scope(pdf.Row))
		for range 3 {
			r.doc.In(pdf.TD, func() {})
		}
		return
	}
	r.doc.Apart(func() {
		r.doc.LineWidth(0.12)
		r.doc.Ink(150)
		r.doc.Line(c.x, y+height-0.4, c.x+p.width, y+height-0.4)
		r.doc.Ink(0)
	})
	r.drawCells(c, p, row, y)
}

func (r *runSheet) drawCells(c *column, p keyPlaces, row keyRow, y float64) {
	line, keyLine := c.leadingOf(r.size), r.keyLine()
	if row.symbol.draw == nil && p.below {
		p.ask, p.hints = 0, 0
	}
	r.doc.In(pdf.TD, func() {
		if row.symbol.draw != nil {
			row.symbol.draw(c.x, y+0.76*line)
		}
	})
	r.doc.In(pdf.TH, func() {
		c.font(regular, r.size)
		r.lines(c.x+p.ask, y, row.ask, line)
	}, pdf.Scope(pdf.Row))
	r.doc.In(pdf.TD, func() {
		c.font(bold, r.keySize())
		r.lines(c.x+p.key, y, row.number, keyLine)
		foot := y + keyLine*float64(len(row.number))
		if row.unit != "" {
			x := c.x + p.key + r.numberWidth(row.number[0])
			c.font(bold, r.size)
			r.doc.Text(x, y+0.76*keyLine, " "+row.unit)
		}
		c.font(regular, r.size)
		r.lines(c.x+p.key, foot, row.beneath, line)
	})
	r.doc.In(pdf.TD, func() {
		top := y
		if p.below {
			top += line * float64(len(row.ask))
		}
		for i, l := range row.hints {
			l.draw(c, c.x+p.hints, top+line*float64(i), r.size)
		}
	})
}
