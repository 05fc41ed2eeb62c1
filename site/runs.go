package site

import (
	"html/template"
	"math"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/trials"
	"trundle/generator/work"
)

// figure is what a runs, chart or compare block shows.
type figure struct {
	At      string // file:line, for who writes the pack
	ID      string
	Title   string
	Later   []string      // finds that must be answered before it opens; none if it is open
	Picture template.HTML // a chart
	Legend  []legendEntry
	Tables  []Numbers
	Folded  bool   // the tables are for those who ask
	Note    string // what the sentences mean
	Veiled  string // what a hidden number means
	Ranking []string
	Source  string // the file
	Kit     string // the kit that it is drawn for
	How     bool   // mentors are told how it is worked out
}

type legendEntry struct {
	Swatch template.HTML
	Label  string
}

// Numbers is a table, and what is to be said of it.
type Numbers struct {
	ID      string // in the page
	Caption string
	Heads   []string
	Rows    [][]string // the first cell of each is its head
	Look    []string   // runs to look at
	Says    []string
}

// dataBlock shows a runs, chart or compare block.
func (b *body) dataBlock(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering || b.lesson == nil {
		return ast.WalkContinue, nil
	}
	d := b.lesson.OfData(n.(*lesson.DataBlock))
	if d == nil {
		return ast.WalkContinue, nil
	}
	b.figures++
	b.veil = nil
	if !b.mentors {
		b.veil = veilOf(b.lesson)
	}
	f := figure{At: b.place(d.At.Start), ID: "_fig" + strconv.Itoa(b.figures), How: b.mentors && d.Name == lesson.RunsBlock}
	if !b.mentors {
		f.Later = d.Asked
	}
	if d.Varies && b.lesson.Kit != nil {
		f.Kit = b.lesson.Kit.Title
	}
	var err error
	switch d.Name {
	case lesson.RunsBlock:
		b.runs(&f, d)
	case lesson.CompareBlock:
		b.compare(&f, d)
	case lesson.ChartBlock:
		err = b.chart(&f, d)
	}
	if err != nil {
		return ast.WalkStop, err
	}
	if b.veil != nil && b.veil.used {
		f.Veiled = b.words.must("veiled")
	}
	if f.Picture == "" && len(f.Tables) == 0 {
		f.Kit = "" // there is nothing that would rest on it
	}
	f.name()
	return ast.WalkContinue, b.site.templates.ExecuteTemplate(w, "figure.html", f)
}

func (b *body) runs(f *figure, d *work.Data) {
	f.Title, f.Source = b.words.must("runs-title"), d.File.Value
	if d.Cycles != nil {
		b.cycles(f, d)
		return
	}
	for _, m := range d.Measured {
		c := column{
			Column: m.Column, title: m.Title, group: d.GroupTitle, target: m.TargetText,
			amounts: b.amounts(m), angles: m.Angles, at: b.words.lineOf(m),
		}
		if c.asks = asked(m.Target, m.Unit); m.Line.Keyword == "across" {
			c.asks = AsksStraight
		}
		b.words.column(f, c)
	}
	if d.Poses != nil {
		f.Tables = append(f.Tables, b.poses(d))
	}
	f.note(b.words)
}

// amounts writes the numbers of a measured column; in the students' edition those that
// they find themselves are hidden.
func (b *body) amounts(m *work.Measured) amounts {
	a := amountsOf(m.Step, m.Unit, m.Groups)
	a.veil = b.veil
	return a
}

// lineOf tells where a run of a file of the pack stands.
func (w words) lineOf(m *work.Measured) func(int) string {
	return func(row int) string { return w.must("runs-line", strconv.Itoa(m.Lines[row])) }
}

// name gives the figure's tables their ids.
func (f *figure) name() {
	for i := range f.Tables {
		f.Tables[i].ID = f.ID + "-" + strconv.Itoa(i)
	}
}

// note says once what a chance means.
func (f *figure) note(w words) {
	for _, t := range f.Tables {
		for _, s := range t.Says {
			if strings.Contains(s, w.must("runs-chance")) {
				f.Note = w.must("runs-note")
			}
		}
	}
}

// column is a measured column as it is shown.
type column struct {
	trials.Column
	title, group, target string
	asks                 Asks
	amounts
	angles []float64
	at     func(row int) string // where a row of the table stands
}

// column adds a column's table, its odd runs, and its sentences.
func (w words) column(f *figure, c column) {
	straight, aimed := c.asks == AsksStraight, !math.IsNaN(c.Target)
	t := Numbers{Caption: titled(c.title, c.in.Symbol()), Heads: []string{c.group, w.must("runs-n"), w.must("runs-mean"), w.must("runs-interval"), w.must("runs-sd")}}
	if c.target != "" {
		t.Caption += ", " + w.must("runs-target", c.target)
	}
	if aimed && !straight {
		t.Heads = append(t.Heads, w.must("runs-error"))
		if c.Target != 0 {
			t.Heads = append(t.Heads, w.must("runs-percent"))
		}
	}
	if c.angles != nil {
		t.Heads = append(t.Heads, w.must("runs-angle"))
	}
	for i, g := range c.Groups {
		row := []string{g.Name, strconv.Itoa(g.N), c.number(g.Mean), c.interval(g.Low, g.High), c.number(g.SD)}
		hidden := row[2] == veiled
		if straight && !hidden {
			row[2] = c.signed(g.Mean)
		}
		if aimed && !straight {
			off := []string{c.signed(g.Bias)}
			if c.Target != 0 {
				off = append(off, c.percent(g.Percent, 1))
			}
			if hidden { // they and the target would give the mean
				for i := range off {
					off[i] = veiled
				}
			}
			row = append(row, off...)
		}
		if c.angles != nil {
			row = append(row, behind(c.of(1, "deg").number(c.angles[i]), "°"))
		}
		t.Rows = append(t.Rows, row)
		t.Look = append(t.Look, w.look(g, c)...)
	}
	for _, p := range c.Pairs {
		t.Says = append(t.Says, w.verdict(c.Column, p, c.asks))
	}
	f.Tables = append(f.Tables, t)
}

// asked tells what runs with a target, NaN without one, are held against.
func asked(target float64, unit quantity.Unit) Asks {
	switch {
	case math.IsNaN(target):
		return AsksMore
	case target != 0 && unit.IsLength():
		return AsksNear
	}
	return AsksTarget
}

func titled(title, unit string) string {
	if unit == "" || title == "" {
		return title + unit
	}
	if strings.EqualFold(title, unit) { // Rotations (rotations)
		return title
	}
	return title + " (" + unit + ")"
}

// mostLooks are as many odd runs as a group names one by one.
const mostLooks = 20

// look names the runs of a group that need a second look.
func (w words) look(g trials.Group, c column) []string {
	var all []string
	for i, place := range g.Odd {
		if i == mostLooks {
			all = append(all, w.must("runs-odd-more", g.Name, grouped(len(g.Odd)-i)))
			break
		}
		all = append(all, w.must("runs-odd", g.Name, c.raw().size(g.Values[place]), c.at(g.Rows[place])))
	}
	if len(g.Odd) > 0 {
		all = append(all, w.must("runs-odd-mean", g.Name, c.size(g.Mean), c.size(g.Without)))
	}
	if g.N == 1 {
		all = append(all, w.must("runs-one-run", g.Name))
	}
	if g.N > 1 && g.SD == 0 {
		all = append(all, w.must("runs-no-scatter", g.Name))
	}
	if g.Empty > 0 {
		all = append(all, w.must("runs-empty", g.Name, grouped(g.Empty)))
	}
	return all
}

// poses is the table of accuracy and repeatability.
func (b *body) poses(d *work.Data) Numbers {
	m := b.amounts(d.Measured[0])
	t := Numbers{Caption: titled(b.words.must("runs-pose"), m.in.Symbol()), Heads: []string{d.GroupTitle, b.words.must("runs-accuracy"), b.words.must("runs-repeatability")}}
	for i, g := range d.Measured[0].Groups {
		row := []string{g.Name, missingNumber, missingNumber}
		if p := d.Poses[i]; p.OK {
			row[1], row[2] = m.number(p.Accuracy), m.number(p.Repeatability)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// cycles shows offsets cycle by cycle, and the pattern.
func (b *body) cycles(f *figure, d *work.Data) {
	m := d.Measured[0]
	a := b.amounts(m)
	t := Numbers{
		Caption: titled(m.Title, a.in.Symbol()),
		Heads:   []string{d.GroupTitle, b.words.must("runs-cycles"), b.words.must("runs-slope"), b.words.must("runs-interval")},
	}
	explained := d.Leg.Number > 0
	if explained {
		t.Heads = append(t.Heads, b.words.must("runs-mismatch"))
	}
	add := func(name string, r trials.Readings) {
		if r.Fit == nil {
			return
		}
		slope, interval := a.slopes(r.Fit)
		row := []string{name, strconv.Itoa(r.Fit.N), slope, interval}
		if explained {
			row = append(row, behind(a.of(3, "%").signed(100*r.Mismatch), " %"))
		}
		t.Rows = append(t.Rows, row)
	}
	for _, c := range d.Cycles {
		if c.Swapped.Fit == nil {
			add(c.Name, c.Built)
		} else {
			add(b.words.must("runs-built", c.Name), c.Built)
			add(b.words.must("runs-swapped", c.Name), c.Swapped)
		}
		t.Says = append(t.Says, b.words.pattern(c, a))
	}
	f.Tables, f.Note = append(f.Tables, t), b.words.must("runs-pattern-note")
}

// slopes writes slopes alike: to the place at which their interval has two digits.
func (m amounts) slopes(f *runs.Fit) (slope, interval string) {
	at := m.sloped(f)
	slope = at.signed(f.Slope)
	switch {
	case at.places < 0:
		return slope, missingNumber
	case slope == veiled:
		return slope, veiled
	}
	at = at.raw() // the ends are nobody's answer
	return slope, at.signed(f.Low) + " … " + at.signed(f.High)
}

// slopeSize is a slope's size with its unit, to the same place.
func (m amounts) slopeSize(f *runs.Fit) string { return m.sloped(f).size(math.Abs(f.Slope)) }

// sloped writes to the place of a slope's interval. An interval that is nothing but the last
// bits of the computation is none.
func (m amounts) sloped(f *runs.Fit) amounts {
	at := m
	at.step, at.places = quantity.Rounding{}, -1
	if half := (f.High - f.Low) / 2; half > 1e-9*math.Abs(f.Slope) {
		at.places = twoDigits(half)
	}
	return at
}
