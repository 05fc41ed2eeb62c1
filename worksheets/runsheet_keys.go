package worksheets

// The keys of a run sheet: large, part by part in the order of the lesson, each with other kits' keys and the likeliest
// wrong answers.

import (
	"math"
	"slices"
	"strings"

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
	headline bool // no question but a part's name
}

// keyPlaces are where the cells of a row of keys stand, from the left of their column. In narrow columns the
// hints stand below the question.
type keyPlaces struct {
	ask, key, hints, width float64
	below                  bool
}

// mostBeneath is how many lines stand beneath a key, so that no row is as high as a page.
const mostBeneath = 4

// askGap is what parts a question from the key beside it, in millimetres.
const askGap = 3

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
	if r.pairs {
		left, right := r.inHalves(c, places, rows)
		c.beside(
			share{0.5, func(c *column) { r.keyTable(c, places, left) }},
			share{0.5, func(c *column) { r.keyTable(c, places, right) }})
	} else {
		r.keyTable(c, places, rows)
	}
	if slices.ContainsFunc(r.keyed, func(k keyText) bool { return k.example }) {
		c.paragraph(regular, r.size, r.say("run-example"), 0)
	}
}

// inHalves parts rows into two columns of which the higher is as low as can be. The right one says again whose
// part goes on.
func (r *runSheet) inHalves(c *column, places keyPlaces, rows []keyRow) (left, right []keyRow) {
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
	const gap, most = 3, 18
	symbols, keys := r.widthOf(regular, r.size, printable(r.say("symbol"))), 18.0
	for _, k := range r.keyed {
		symbols = max(symbols, r.named(k.name).width)
		keys = max(keys, r.amountWidth(k))
	}
	p := keyPlaces{ask: min(symbols, most) + 2, width: width, below: r.pairs}
	keys = min(keys, 0.28*width) + 0.5
	if p.key, p.hints = width-keys, p.ask; !r.pairs {
		p.key = p.ask + (width-p.ask-keys-gap)*0.44
		p.hints = p.key + keys + gap
	}
	return p
}

// amountWidth is how wide a key with its unit is on one line.
func (r *runSheet) amountWidth(k keyText) float64 {
	return r.widthOf(bold, r.keySize(), k.number) + r.widthOf(bold, r.size, " "+k.unit)
}

// keyRows lays out the questions below the parts that they belong to.
func (r *runSheet) keyRows(c *column, places keyPlaces) []keyRow {
	var all []keyRow
	part := ""
	for _, k := range r.keyed {
		if k.part != part {
			part = k.part
			all = append(all, keyRow{headline: true, ask: []string{part}})
		}
		if k.number == "" {
			all = append(all, r.inOwnWords(c, places, k))
		} else {
			all = append(all, r.keyRow(c, places, k))
		}
	}
	return all
}

// named sets a question's name. Its index is no smaller than the smallest type.
func (r *runSheet) named(name quantity.Symbol) box {
	b := setter{r.doc, r.size}.set(quantity.Symbol{Name: name.Name})
	if name.Index == "" {
		return b
	}
	index := setter{r.doc, leastSize}.text(regular, name.Index)
	drop := 0.22 * r.size * point
	return beside(b, box{index.width, index.up, index.down, func(x, y float64) { index.draw(x, y+drop) }})
}

// keyRow lays out a question with a key.
func (r *runSheet) keyRow(c *column, places keyPlaces, k keyText) keyRow {
	row := keyRow{symbol: r.named(k.name), unit: k.unit}
	if row.symbol.width > places.ask { // a long name stands before its question
		row.symbol.draw = func(float64, float64) {}
		k.ask = k.name.Text() + r.colon() + k.ask
	}
	row.ask = r.asking(c, places, k)
	wide := places.keyWidth()
	besides := k.besides
	if r.amountWidth(k) > wide {
		row.unit, besides = "", slices.Concat([]string{k.unit}, besides)
	}
	row.number = r.wrap(bold, r.keySize(), k.number, wide)
	row.beneath = c.cut(r.wrap(regular, r.size, strings.Join(besides, " · "), wide), mostBeneath, wide)
	for _, h := range k.hints[:min(len(k.hints), r.runFit.slips)] {
		row.hints = append(row.hints, c.ledLines(h.lead, h.text, r.size, places.hintWidth(), r.hints)...)
	}
	return row
}

// inOwnWords lays out a question that is answered in words, with what to listen for.
func (r *runSheet) inOwnWords(c *column, places keyPlaces, k keyText) keyRow {
	if places.key = places.hints; places.below { // it has the room of the symbol and the key
		places = keyPlaces{key: places.width + askGap, width: places.width, below: true}
	}
	row := keyRow{ask: r.asking(c, places, k)}
	for _, h := range k.hints {
		row.hints = append(row.hints, c.ledLines(h.lead, h.text, r.size, places.hintWidth(), max(r.hints, 2))...)
	}
	return row
}

// asking lays out what is asked, in short.
func (r *runSheet) asking(c *column, places keyPlaces, k keyText) []string {
	return c.cut(r.wrap(regular, r.size, k.ask, places.askWidth()), r.asks, places.askWidth())
}

func (r *runSheet) keySize() float64 { return max(keySize, r.size+3) }

// keyLine is the height of a line of a key, which has air enough in its row.
func (r *runSheet) keyLine() float64 { return r.keySize() * point * 1.05 }

func (p keyPlaces) askWidth() float64 { return p.key - p.ask - askGap }

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
		at[3] = c.x + p.ask + r.widthOf(regular, r.size, printable(r.say("question"))+"  ")
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
			r.lines(c.x+1, y+0.4, c.cut(r.wrap(bold, r.size, row.ask[0], p.width-2), 1, p.width-2), line)
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
			x := c.x + p.key + r.widthOf(bold, r.keySize(), row.number[0])
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
