package site

// Keys for mentors: each work block as a table to glance at, all keys in one list, and what their script needs to work
// them out again for another robot or a team's own numbers.

import (
	"encoding/json"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
)

// keyRow is a statement in a table of keys.
type keyRow struct {
	row
	HasKey   bool // it has a row of its own
	Shown    amount
	Runs     []string // the example of a record
	Free     string   // why there is neither value nor key
	Listens  []string // what to listen for in a student's words
	Computed string   // with its ±
	Apart    string   // which records it takes as independent
	LinkSure bool     // the last with a ± in its block: what ± means is linked below it
	Steps    []step
	Vapour   *vapour // of an estimate of vapour
	Counts   string  // which answers are taken for right
	Within   string  // the same, of a key with a limit of its own
	Written  string  // the coach's key, if it reads otherwise than the value
	Sure     string  // its ±, in short
	If       []keySlip
	More     []keySlip // further slips, folded
	Kit      string    // that the steps are for
	Kits     []keyKit
}

// amount is a number, and its unit with the blank before it. Name is what it is the value of, if the page can work
// it out.
type amount struct{ Name, Number, Rest string }

// keySlip is a wrong answer with what to say. Program works it out for other numbers, "" if it stays.
type keySlip struct {
	Shown   amount
	Program quantity.Program
	Hint    string
}

// keyKit is a find's answer for another kit of the pack, by the kit's key and title.
type keyKit struct {
	Key, Kit, Value string
	Steps           []step
}

// slipsAtOnce is how many slips stand open beside a key.
const slipsAtOnce = 3

// keyTable shows the statements of a block to mentors.
func (b *body) keyTable(w util.BufWriter, block *lesson.WorkBlock) error {
	var table struct {
		Finds  bool       // there is something with a key
		Groups [][]keyRow // finds one by one, what is between them together
	}
	for _, s := range block.Statements {
		if s.Kind.BelongsAbove() {
			continue
		}
		hasKey, n := s.Kind == lesson.Find || s.Kind == lesson.Choose, len(table.Groups)
		table.Finds = table.Finds || hasKey
		if hasKey || n == 0 || table.Groups[n-1][0].HasKey {
			table.Groups = append(table.Groups, nil)
		}
		last := &table.Groups[len(table.Groups)-1]
		row := b.keyRow(s)
		row.HasKey = hasKey
		*last = append(*last, row)
	}
	if len(table.Groups) == 0 {
		return nil
	}
	for _, group := range slices.Backward(table.Groups) {
		if group[0].Computed != "" { // the last with a ±
			group[0].LinkSure = true
			break
		}
	}
	return b.site.templates.ExecuteTemplate(w, "keys.html", table)
}

// keyRow is the row of a statement.
func (b *body) keyRow(s *lesson.Statement) keyRow {
	r, f := b.lesson.Of(s), b.field(s)
	out := keyRow{row: b.row(s), Shown: b.amountOf(r)}
	if f != nil {
		out.Shown.Name = s.Name
	}
	if r.Guessed { // there is no key to it
		out.Free = b.words.Say("guessed-" + out.Kind)
	}
	switch s.Kind {
	case lesson.Record:
		out.Runs = b.numbers(s.Texts)
	case lesson.Choose:
		choice(&out, s)
	case lesson.Say:
		for _, l := range s.Listens {
			out.Listens = append(out.Listens, l.Prompt)
		}
	case lesson.Find:
		b.answer(&out, s, r)
	case lesson.Given, lesson.Measure, lesson.Predict, lesson.Key, lesson.Slip, lesson.Listen: // their value says it all
	}
	return out
}

// answer adds what a mentor needs to judge an answer to a find.
func (b *body) answer(out *keyRow, find *lesson.Statement, r *work.Result) {
	out.Steps = b.stepsOf(r)
	all := b.keySlips(find, b.field(find))
	if r.Guessed {
		out.If = all
		return
	}
	n := min(len(all), slipsAtOnce)
	out.If, out.More = all[:n], all[n:]
	if limit := limitOf(r.Key); limit != "" {
		out.Within = b.words.Say("counts-within", b.words.Number(limit))
	} else {
		out.Counts = b.counts(find)
	}
	if r.Key != nil && !strings.HasPrefix(r.Text(), r.Key.Amount()) {
		out.Written = b.words.Number(r.Key.Text())
	}
	if q, ok := r.Quantity(); ok {
		out.Computed, out.Apart = b.howSure(q, r.Unit()), b.apart(b.lesson, q)
		if q.Uncertainty() > 0 {
			value, u := quantity.FormatUncertain(q.Number, q.Uncertainty())
			out.Sure = b.words.Number("(" + value + " ± " + u + ")")
		}
	}
	out.Vapour = b.vapour(find)
	if b.lesson.Kit != nil {
		out.Kit = b.lesson.Kit.Key
	}
	for _, other := range b.lesson.Others {
		if o := other.Of(find); o != nil && o.Text() != "" && o.Text() != r.Text() {
			out.Kits = append(out.Kits, keyKit{other.Kit.Key, other.Kit.Title, b.words.Number(o.Text()), b.stepsOf(o)})
		}
	}
}

// field is what the page can work a statement out with; nil of one that only mentors see.
func (b *body) field(s *lesson.Statement) *work.Field {
	for _, f := range b.lesson.Fields {
		if f.Statement == s {
			return f
		}
	}
	return nil
}

// Long is a class for names that do not fit beside a question, unless they are smaller.
func (r keyRow) Long() string {
	const some, many = 5, 8
	switch n := len([]rune(r.Name)); {
	case n > many:
		return " longest"
	case n > some:
		return " long"
	}
	return ""
}

// amountOf parts a result into number and unit.
func (b *body) amountOf(r *work.Result) amount {
	number, _ := shownNumber(r)
	number, text := b.words.Number(number), b.words.Number(r.Text())
	if rest, ok := strings.CutPrefix(text, number); ok && number != "" {
		return amount{Number: number, Rest: rest}
	}
	if number, rest, ok := strings.Cut(text, "\u00a0"); ok { // written otherwise than a page would: 65.0 mm
		return amount{Number: number, Rest: "\u00a0" + rest}
	}
	return amount{Number: text}
}

// keySlips are the slips of a find; those with a program are in the field in the same order.
func (b *body) keySlips(s *lesson.Statement, f *work.Field) []keySlip {
	var all []keySlip
	var programs []work.Slip
	if f != nil {
		programs = f.Slips
	}
	for _, sl := range s.Slips {
		one := keySlip{Shown: b.amountOf(b.lesson.Of(sl)), Hint: sl.Prompt}
		if one.Shown.Number == "" { // there is a guess in it
			one.Shown.Number = b.words.Number(sl.Expr.String())
		}
		if len(programs) > 0 && programs[0].Hint == sl.Prompt {
			one.Program, programs = programs[0].Program, programs[1:]
		}
		all = append(all, one)
	}
	return all
}

// limitOf is the limit that a key states: "within 0.02 rotations".
func limitOf(k *work.Key) string {
	if k == nil {
		return ""
	}
	return k.Statement.Literal.Sure()
}

// counts says which answers to a find are taken for right, "" if it has no value. keys.js has the same rule.
func (b *body) counts(find *lesson.Statement) string {
	q, ok := b.lesson.Of(find).Quantity()
	if !ok || math.IsInf(q.Number, 0) || math.IsNaN(q.Number) || q.Unit.IsTruth() {
		return ""
	}
	low, high := countsBetween(q.Number, b.lesson.Tolerance(find))
	if target := find.Target; target.Larger() != "" {
		target.Step = quantity.Rounding{}
		low, high = inParts(low, target), inParts(high, target)
	}
	name := "clock-counts"
	if low == high {
		name, high = "clock-counts-only", ""
	}
	return b.words.Fill(name, b.words.Number(low), b.words.Number(high))
}

// inParts writes a number of the smaller unit as a target of two units has it.
func inParts(text string, t quantity.Target) string {
	x, err := strconv.ParseFloat(strings.Replace(text, quantity.Minus, "-", 1), 64)
	if err != nil {
		return text
	}
	number, _ := quantity.Show(quantity.New(x, t.Unit), t)
	return number
}

// countsBetween are the least and the largest answer that count for y, to as many places as tell them from those that
// do not. Both are rounded inwards, so that all that is said to count does.
func countsBetween(y float64, t work.Tolerance) (low, high string) {
	off := t.Within + t.Part*math.Abs(y)
	places := 0
	if off > 0 {
		places = int(max(0, math.Ceil(-math.Log10(off)-1e-9)))
	}
	scale, last := math.Pow(10, float64(places)), 1e-9*math.Abs(y)
	write := func(x float64) string {
		text := strconv.FormatFloat(x/scale, 'f', places, 64)
		if strings.Trim(text, "-0.") == "" {
			text = strings.TrimPrefix(text, "-")
		}
		return strings.Replace(text, "-", quantity.Minus, 1)
	}
	return write(math.Ceil((y - off - last) * scale)), write(math.Floor((y + off + last) * scale))
}

// glance is all keys of a page in one list, and whose numbers they may be worked out for.
type glance struct {
	Keys []glanceKey
	Kits []*lesson.Kit
	Own  []ownBox
	Runs []ownRuns
	Data template.HTML // for the script
}

// glanceKey is one key of the list.
type glanceKey struct {
	Symbol template.HTML
	Name   string
	Shown  amount
}

// ownBox is a box for a team's own number, with the example beside it.
type ownBox struct {
	ID, Kit, Prompt, Example, Unit string
	Symbol                         template.HTML
}

// ownRuns are the boxes of a record.
type ownRuns struct {
	ownBox
	Texts []string
}

// glance collects the keys of a lesson.
func (b *body) glance(p *lesson.Pack, l *work.Lesson) (glance, error) {
	var out glance
	for _, s := range l.Finds {
		if s.IsVapour() || l.Of(s).Guessed { // without the warning beside it, or a guess, its number says nothing
			continue
		}
		shown := b.amountOf(l.Of(s))
		if b.field(s) != nil {
			shown.Name = s.Name
		}
		symbol := trusted(mathML(quantity.SymbolOf(s.Name), ""))
		out.Keys = append(out.Keys, glanceKey{symbol, s.Name, shown})
	}
	if len(l.KitUsed) > 0 {
		out.Kits = choosable(p, l)
	}
	for _, f := range l.KitGiven {
		out.Own = append(out.Own, ownBox{ID: "kit_" + f.Name, Kit: f.Name, Prompt: factLabel(b.words, f.Name),
			Example: b.words.Number(f.Literal.String()), Unit: b.words.Unit(f.Literal.Unit.Symbol())})
	}
	data := keyData{Fields: []field{}, Samples: map[string][]string{}, Kits: kits(b.words, p, l)}
	if l.Kit != nil {
		data.Kit = l.Kit.Key
	}
	for _, f := range l.Fields {
		data.Fields = append(data.Fields, fieldOf(b.words, f))
		b.addOwn(&out, &data, f)
	}
	text, err := json.Marshal(data) // which writes < > & as \u…
	out.Data = trusted(`<script type="application/json" id="_work">` + string(text) + `</script>`)
	return out, err
}

// keyData is what the script of the keys works with: as the students' checks, and the examples.
type keyData struct {
	Fields  []field             `json:"fields"`
	Samples map[string][]string `json:"samples"` // one text of a measure, one a run of a record
	Kits    map[string]kitData  `json:"kits,omitempty"`
	Kit     string              `json:"kit,omitempty"`
}

// addOwn adds the boxes of a field that keys depend on, and its example.
func (b *body) addOwn(out *glance, data *keyData, f *work.Field) {
	s := f.Statement
	box := ownBox{ID: s.Name, Kit: f.KitField, Symbol: trusted(mathML(quantity.SymbolOf(s.Name), "")), Prompt: s.Prompt,
		Example: b.words.Number(b.lesson.Of(s).Text()), Unit: b.words.Unit(f.Unit.Symbol())}
	switch {
	case s.Kind == lesson.Record:
		data.Samples[s.Name] = b.numbers(s.Texts)
		if b.isUsed(s.Name) {
			out.Runs = append(out.Runs, ownRuns{box, b.numbers(s.Texts)})
		}
	case s.Kind == lesson.Predict && b.isUsed(s.Name):
		out.Own = append(out.Own, box)
	case s.Kind == lesson.Measure:
		data.Samples[s.Name] = []string{box.Example}
		if b.isUsed(s.Name) || f.KitField != "" {
			out.Own = append(out.Own, box)
		}
	}
}

// numbers writes texts that are numbers.
func (b *body) numbers(texts []string) []string {
	written := make([]string, len(texts))
	for i, text := range texts {
		written[i] = b.words.Number(text)
	}
	return written
}

// isUsed tells whether some value of the lesson is worked out from a name.
func (b *body) isUsed(name string) bool {
	return slices.ContainsFunc(b.lesson.Fields, func(f *work.Field) bool {
		return slices.Contains(strings.Fields(string(f.Program)), name)
	})
}
