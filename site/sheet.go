package site

// What the scripts of a lesson's page are given as data: the sheet in the page, and the file with its fields and worked
// steps that is fetched when somebody begins. Samples and keys are in neither.

import (
	"bytes"
	"encoding/json"
	"errors"
	"html/template"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/typography"
	"trundle/generator/work"
	"trundle/site/words"
)

// sheet is what the scripts of a students' lesson page work with, apart from its fields,
// which are fetched when somebody begins to fill it in.
type sheet struct {
	Pack    string             `json:"pack"` // under which entries are kept
	Title   string             `json:"title"`
	Version string             `json:"version"`
	Lesson  string             `json:"lesson"`
	ID      string             `json:"id,omitempty"` // under which entries are kept, if not the lesson's file name
	Names   string             `json:"names"`        // the sum of the table of names that this page goes with
	Kits    map[string]kitData `json:"kits,omitempty"`
	Kit     string             `json:"kit,omitempty"`   // the one whose numbers the page shows at first
	Units   [][2]string        `json:"units,omitempty"` // name and unit of each fact of the kits
}

// kitData is a kit by title, its facts in the units of the default kit.
type kitData struct {
	Title string             `json:"title"`
	Facts map[string]float64 `json:"facts"`
	Texts map[string]string  `json:"texts,omitempty"` // of facts that were written otherwise than a page would: 65.0
}

// field is a work.Field in JSON. Programs are for the evaluator of run.js.
type field struct {
	Name    string           `json:"n"`
	Kind    string           `json:"k"`             // measure, record, predict, find, given
	Unit    string           `json:"u"`             // as people read it
	Column  string           `json:"csv,omitempty"` // unit of a record's column, where that is another
	Program quantity.Program `json:"p,omitempty"`
	Within  *[2]float64      `json:"t,omitempty"` // tolerance: so much, and such a part
	Step    string           `json:"to,omitempty"`
	Larger  string           `json:"v,omitempty"` // of two units, how many make the larger one, and its name: 12 ft
	Slips   [][2]string      `json:"s,omitempty"` // program, hint
	Bounds  *[3]float64      `json:"b,omitempty"` // low, high, 1 if it must be more than 0
	Kit     string           `json:"kit,omitempty"`
	Goal    quantity.Program `json:"goal,omitempty"`
	Middle  []string         `json:"mid,omitempty"`    // finds that ask for a record's middle,
	Spread  []string         `json:"spread,omitempty"` // and for its spread
	Also    [][2]any         `json:"also,omitempty"`   // other units that an answer may be in, each with its tolerance
	InOrder bool             `json:"ord,omitempty"`    // a record's readings follow each other
}

// sheet gives a lesson's sheet as the text of a script element, "" if there is
// nothing to fill in or follow.
func (b *body) sheet(p *lesson.Pack) (template.HTML, error) {
	l := b.lesson
	if !HasSteps(l) {
		return "", nil
	}
	table, err := b.site.names.of(p)
	if err != nil {
		return "", err
	}
	out := sheet{Names: table.Sum, Pack: PackID(p), Title: p.Title, Version: p.Version, Lesson: l.Slug, ID: l.ID.Value}
	if len(l.KitUsed) > 0 {
		out.Kit, out.Kits = l.Kit.Key, kits(b.words, p, l)
		for _, f := range l.KitUsed {
			out.Units = append(out.Units, [2]string{f.Name, b.words.Unit(f.Literal.Unit.Symbol())})
		}
	}
	data, err := json.Marshal(out) // which writes < > & as \u…
	return trusted(`<script type="application/json" id="_sheet">` + string(data) + `</script>`), err
}

// Steps makes the script with what checking a lesson takes: its fields, which hold formulas
// and never a sample or a key, the worked steps of its finds and one line of each, with slots for the team's own
// numbers, and what helps a team that is stuck. It is nil for a lesson without a sheet.
func (s *Site) Steps(l *work.Lesson) ([]byte, error) {
	if !HasSteps(l) {
		return nil, nil
	}
	all, lines, more := map[string][][2]any{}, map[string][]string{}, map[string]help{}
	fields := []field{}
	in := s.words
	for _, f := range l.Fields {
		fields = append(fields, fieldOf(in, f))
		st := f.Statement
		if st.Kind != lesson.Find {
			continue
		}
		all[st.Name] = stepLines(in, f.Open)
		for _, s := range f.Line {
			lines[st.Name] = append(lines[st.Name], lineML(quantity.StepIn(in, s), ""))
		}
		more[st.Name] = help{way(s.words, l, st), stepLines(in, f.Another)}
	}
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false) // it is a file of its own, not part of a page
	out.WriteString(stamp + "trundle.sheet.page.fields=")
	err := enc.Encode(fields)
	out.WriteString("trundle.steps=")
	err = errors.Join(err, enc.Encode(all))
	out.WriteString("trundle.lines=")
	err = errors.Join(err, enc.Encode(lines))
	out.WriteString("trundle.more=")
	err = errors.Join(err, enc.Encode(more))
	if len(l.Chooses) > 0 {
		replies := map[string][]string{}
		for _, c := range l.Chooses {
			replies[c.Name] = repliesTo(c, s.words)
		}
		out.WriteString("trundle.replies=")
		err = errors.Join(err, enc.Encode(replies))
	}
	return out.Bytes(), err
}

// help is what a team gets that has tried in vain: the formula in words, and the worked steps of one
// like it.
type help struct {
	Way     []string `json:"w"`
	Another [][2]any `json:"a,omitempty"`
}

// stepLines are worked steps as the page takes them: each with 1 if it is an aside.
func stepLines(in quantity.Notation, steps []quantity.WorkedStep) [][2]any {
	var lines [][2]any
	for _, line := range steps {
		aside := 0
		if line.Kind == quantity.ConversionStep {
			aside = 1
		}
		lines = append(lines, [2]any{openML(quantity.StepIn(in, line)), aside})
	}
	return lines
}

// HasSteps tells whether a lesson has something to fill in or follow.
func HasSteps(l *work.Lesson) bool { return l.HasSteps() }

// fieldOf puts a field in JSON. It must hold nothing that gives an answer away: of a find only its formula.
func fieldOf(w words.Words, f *work.Field) field {
	s := f.Statement
	out := field{
		Name: s.Name, Kind: string(s.Kind), Unit: unitOfBox(w, f.Unit), Program: f.Program, Kit: f.KitField,
		Goal: f.Goal, Middle: f.MiddleAsked, Spread: f.SpreadAsked,
	}
	if unit := f.Unit.String(); s.Kind == lesson.Record && unit != out.Unit {
		out.Column = unit
	}
	out.InOrder = s.InOrder
	if s.Kind == lesson.Find {
		out.Larger = s.Target.Larger()
		out.Within, out.Step = &[2]float64{f.Tolerance.Within, f.Tolerance.Part}, s.Target.Step.String()
		if f.Unit.IsTruth() {
			out.Step = quantity.YesOrNo
		}
	}
	if f.Bounds.High > 0 {
		out.Bounds = &[3]float64{f.Bounds.Low, f.Bounds.High, 0}
		if f.Bounds.Positive {
			out.Bounds[2] = 1
		}
	}
	for _, other := range f.Also {
		out.Also = append(out.Also, [2]any{w.Unit(other.Unit.Symbol()), other.Within})
	}
	marks := typography.In(w.Forms())
	for _, slip := range f.Slips {
		out.Slips = append(out.Slips, [2]string{string(slip.Program), marks.Text(slip.Hint)})
	}
	return out
}

// unitOfBox is a unit as people read it, but that of a difference of temperatures, which the page must tell from a
// temperature: its scripts take the Δ off.
func unitOfBox(w words.Words, u quantity.Unit) string {
	if text := u.String(); strings.HasPrefix(text, "Δ") || u.IsTruth() { // which is the page's own word for that
		return text
	}
	return w.Unit(u.Symbol())
}

// choosable gives the kits that can be chosen for a lesson: those with all facts it uses.
func choosable(p *lesson.Pack, l *work.Lesson) []*lesson.Kit {
	var some []*lesson.Kit
	if len(l.KitUsed) == 0 {
		return nil
	}
	data := kits(words.Words{}, p, l)
	for _, k := range p.Kits {
		if _, ok := data[k.Key]; ok {
			some = append(some, k)
		}
	}
	return some
}

// kits gives the facts that a lesson uses, of every kit that has all of them.
func kits(w words.Words, p *lesson.Pack, l *work.Lesson) map[string]kitData {
	all := map[string]kitData{}
	for _, k := range p.Kits {
		data := kitData{Title: k.Title, Facts: map[string]float64{}, Texts: map[string]string{}}
		for _, used := range l.KitUsed {
			for _, f := range k.Fields {
				if f.Name != used.Name || f.Literal == nil {
					continue
				}
				if q, ok := quantity.New(f.Literal.Number.Float(), f.Literal.Unit).In(used.Literal.Unit); ok {
					data.Facts[f.Name] = q.Number
					text, same := f.Literal.Number.Text, f.Literal.Unit.Equal(used.Literal.Unit)
					if same && text != quantity.FormatPlain(q.Number) {
						data.Texts[f.Name] = w.Number(text)
					}
				}
			}
		}
		if len(data.Facts) == len(l.KitUsed) {
			all[k.Key] = data
		}
	}
	return all
}
