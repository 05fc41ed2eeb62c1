package parse

// The statements of a work block: their keywords and the grammar of each.

import (
	"strconv"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// statementKeywords are the statements of a work block.
var statementKeywords = []keyword[lesson.Statement]{
	{word: string(lesson.Given), read: (*reader).given},
	{word: string(lesson.Measure), read: (*reader).measure, text: needsWhatToMeasure},
	{word: string(lesson.Record), read: (*reader).record, text: needsWhatToMeasure},
	{word: string(lesson.Predict), read: (*reader).predict,
		text: beside("must say what the student predicts", "end the statement with a text in quotes")},
	{word: string(lesson.Find), read: (*reader).findStatement},
	{word: string(lesson.Key), read: (*reader).key,
		text: refusesText("prompt-on-key", "has no text of its own", "put the text on its find")},
	{word: string(lesson.Slip), read: (*reader).slip,
		text: needsText("must have the hint that its answer deserves", "end the statement with the hint in quotes")},
	{word: string(lesson.Choose), read: (*reader).choose,
		text: beside("must say what it asks for", "end the statement with the question in quotes")},
	{word: string(lesson.Say), read: (*reader).say,
		text: beside("must say what it asks for", "end the statement with the question in quotes")},
	{word: string(lesson.Listen), read: (*reader).listen,
		text: beside("must say what mentors listen for", "end the statement with a text in quotes")},
}

// beside is the rule of a text that stands beside a box, or says what mentors hope to hear.
func beside(what, hint string) textRule {
	rule := needsText(what, hint)
	rule.short = true
	return rule
}

// needsWhatToMeasure is for what students read off: without a text they would see a box and no task.
var needsWhatToMeasure = needsText("must say what the student measures", "end the statement with a text in quotes")

// reserved words cannot be defined, since they would not be read as names.
var reserved = []string{"in", "to", "within", "pi", "kit"}

// define reads the name that a statement defines. Names with a dot are the kit's.
func (r *reader) define(s *lesson.Statement) *quantity.Error {
	name, err := r.p.Name("a " + string(s.Kind))
	if err != nil {
		return err
	}
	s.Name, s.NameAt = name.Text, source.Span(name.At)
	if what, hint := nameTooLong(name.Text); what != "" {
		return &quantity.Error{Span: name.At, Slug: "name-too-long", What: what, Hint: hint}
	}
	for _, word := range reserved {
		if name.Text == word || strings.Contains(name.Text, ".") {
			return &quantity.Error{Span: name.At, Slug: "reserved-name",
				What: "“" + name.Text + "” cannot be a name of yours",
				Hint: "choose another; " + strings.Join(reserved, ", ") +
					" and names with a dot have a meaning of their own"}
		}
	}
	return nil
}

// given = "given" name targets "=" expr [prompt]
func (r *reader) given(s *lesson.Statement) (err *quantity.Error) {
	if err = r.define(s); err != nil {
		return err
	}
	if s.Target, err = r.p.Targets(); err != nil {
		return err
	}
	if err = r.p.Expect("=", "a given"); err != nil {
		return err
	}
	s.Expr, err = r.p.Expr()
	return err
}

// measure = "measure" name "=" (quantity | "kit." field) prompt. The value is an example and no more: pages ask the
// students for theirs, so a calculation here would be one that nobody ever sees.
func (r *reader) measure(s *lesson.Statement) *quantity.Error {
	if err := r.define(s); err != nil {
		return err
	}
	if err := r.p.Expect("=", "a measure"); err != nil {
		return err
	}
	place := r.p.Place()
	e, err := r.p.Expr() // any expression is read, so that a calculation gets a problem of its own
	if err != nil {
		return err
	}
	s.Expr = e
	switch e := e.(type) {
	case *quantity.Literal:
		return nil
	case *quantity.Unary: // −3 cm
		if _, ok := e.Operand.(*quantity.Literal); ok {
			return nil
		}
	case *quantity.Name:
		if strings.HasPrefix(e.Text, "kit.") {
			return nil
		}
	}
	return &quantity.Error{Span: quantity.Span{Start: place.Start, End: e.Span().End}, Slug: "measure-not-a-quantity",
		What: "a measure is one quantity that a student reads off, or a field of the kit; this is a calculation",
		Hint: "write an example value such as 65 mm within 0.5 mm, or kit.wheel; for a calculation use given or find"}
}

// record = "record" name "[" count "]" "in" unit ["to" step] ["in" "order"] ["with" name] "=" number {"," number}
// prompt
func (r *reader) record(s *lesson.Statement) *quantity.Error {
	if err := r.define(s); err != nil {
		return err
	}
	if err := r.p.Expect("[", "a record"); err != nil {
		return err
	}
	n, negative, countAt, err := r.p.Number("the count of a record")
	if err != nil {
		return err
	}
	if err := r.p.Expect("]", "a record"); err != nil {
		return err
	}
	if s.InOrder = r.p.Words("in", "order"); !s.InOrder { // a record of plain numbers has no unit before it
		if s.Target, err = r.p.Target(); err != nil {
			return err
		}
		s.InOrder = r.p.Words("in", "order")
	}
	if r.p.Word("with") {
		if s.With, err = r.p.Name("the record that was read in the same runs"); err != nil {
			return err
		}
	}
	if err := r.p.Expect("=", "a record"); err != nil {
		return err
	}
	if err := r.readings(s); err != nil {
		return err
	}
	if !r.p.AtEnd() { // nearly always a unit after a number
		return &quantity.Error{Span: r.p.Place(), Slug: "reading-with-unit",
			What: "a reading is a number alone, then a comma",
			Hint: "write the unit once, before the =, as in " + s.Name + "[" + n.Text + "] in cm"}
	}
	return r.countFits(s, n.Text, negative, countAt)
}

// readings = number { "," number }. They keep the text that they are written in: 119.0 shows how
// finely the tape was read, and 119 would not.
func (r *reader) readings(s *lesson.Statement) *quantity.Error {
	for {
		n, negative, _, err := r.p.Number("a record")
		if err != nil {
			return err
		}
		x, text := n.Float(), n.Text
		if negative {
			x, text = -x, quantity.Minus+text
		}
		s.Numbers = append(s.Numbers, x)
		s.Texts = append(s.Texts, text)
		if !r.p.Sign(",") {
			return nil
		}
	}
}

// MaxReadings is the most that one record may have: a page has a box for each.
const MaxReadings = 500

// setApart says how readings are set apart where that may be why they are too few.
func (r *reader) setApart() string {
	if !r.words.HasCommas() {
		return ""
	}
	return "; a comma without a blank is decimal, so set readings apart as in  3; 4  or  3, 4"
}

// countFits compares the number in the brackets with the example values. The students fill in as
// many boxes as the number says, so the two must agree.
func (r *reader) countFits(s *lesson.Statement, written string, negative bool, at quantity.Span) *quantity.Error {
	n, convErr := strconv.Atoi(written)
	switch {
	case convErr != nil || negative || n < 1 || n > MaxReadings:
		return &quantity.Error{Span: at, Slug: "record-count",
			What: "a record has 1 to " + strconv.Itoa(MaxReadings) + " readings, not " + written,
			Hint: "write how many runs the students make"}
	case n != len(s.Numbers):
		verb := "are"
		if len(s.Numbers) == 1 {
			verb = "is"
		}
		return &quantity.Error{Span: at, Slug: "record-count",
			What: "the record " + s.Name + " says " + problem.Plural(n, "reading") + "; " +
				strconv.Itoa(len(s.Numbers)) + " " + verb + " given",
			Hint: "give as many example values as the record has rows, or change the number in the brackets" +
				r.setApart()}
	case !s.Target.HasUnit:
		return &quantity.Error{Span: quantity.Span(s.NameAt), Slug: "record-unit",
			What: "a record needs the unit of its readings",
			Hint: "write it after the brackets, as in " + s.Name + "[" + written + "] in cm"}
	}
	return nil
}

// find = "find" name targets "=" expr [prompt]. Unit and step go with the name and not with the
// formula, as they say how the answer is asked for.
func (r *reader) findStatement(s *lesson.Statement) (err *quantity.Error) {
	if err = r.define(s); err != nil {
		return err
	}
	if s.Target, err = r.p.Targets(); err != nil {
		return err
	}
	if err = r.p.Expect("=", "a find"); err != nil {
		return err
	}
	s.Expr, err = r.p.Expr()
	return err
}

// key = "key" name "=" number [unit] ["within" number [unit]]. It is a literal and never a formula: a key that was
// worked out in the same way as its find would prove nothing.
func (r *reader) key(s *lesson.Statement) (err *quantity.Error) {
	if err = r.define(s); err != nil {
		return err
	}
	if err = r.p.Expect("=", "a key"); err != nil {
		return err
	}
	s.Literal, s.Negative, err = r.p.Quantity("a key")
	if err == nil && s.Literal.Uncertainty.Exact != nil && !s.Literal.Limit {
		return &quantity.Error{Span: s.Literal.SureAt, Slug: "key-plus-minus",
			What: "± is a standard uncertainty; how far an answer may be from a key is a limit",
			Hint: "write " + withLimit(s), Instead: "within"}
	}
	return err
}

// withLimit writes a key that has a ± as it should be.
func withLimit(s *lesson.Statement) string {
	as := *s.Literal
	as.Limit = true
	if s.Negative {
		return "-" + as.String()
	}
	return as.String()
}

// slip = "slip" (expr | text) hint. It has no name of its own and belongs to the find or choose above it.
func (r *reader) slip(s *lesson.Statement) (err *quantity.Error) {
	if r.above != nil && r.above.Kind == lesson.Choose {
		return r.slipOfChoose(s)
	}
	r.p.Stop("=") // whoever writes one means to name the slip, and compares nothing
	if s.Expr, err = r.p.Expr(); err != nil {
		return err
	}
	if r.above != nil && !r.above.Kind.Judged() {
		return neverJudged(quantity.Span(s.At), r.above)
	}
	if r.find == nil {
		return &quantity.Error{Span: quantity.Span(s.At), Slug: "slip-without-find",
			What: "this slip belongs to no find",
			Hint: "put it below the find whose wrong answer it explains"}
	}
	s.Of = r.find
	return nil
}

// predict = "predict" name ("in" unit ["to" step] | "to" step) prompt. It has no value: every student makes a guess of
// their own, and a sample would be a hint.
func (r *reader) predict(s *lesson.Statement) (err *quantity.Error) {
	if err = r.define(s); err != nil {
		return err
	}
	if s.Target, err = r.p.Target(); err != nil {
		return err
	}
	if place := r.p.Place(); r.p.Sign("=") {
		return &quantity.Error{Span: place, Slug: "predict-value",
			What: "a prediction has no value here, since every student makes one of their own",
			Hint: "write only its unit, as in predict " + s.Name + " in cm"}
	}
	if !s.Target.HasUnit && s.Target.Step.IsZero() && r.p.AtEnd() {
		return &quantity.Error{Span: quantity.Span(s.NameAt), Slug: "predict-unit",
			What: "a prediction needs the unit of its box",
			Hint: "write it after the name, as in " + s.Name + " in cm; for a plain number its step, as in " + s.Name +
				" to 0.1"}
	}
	return nil
}

// say = "say" name prompt. The name is what the words are kept under, so that they stay with their question when
// another one is put above it.
func (r *reader) say(s *lesson.Statement) *quantity.Error {
	if r.p.AtEnd() {
		return &quantity.Error{Span: quantity.Span(s.At), Slug: "say-without-name",
			What: "a say needs a name, under which the students' words are kept",
			Hint: "write one before the text, as in say why"}
	}
	return r.define(s)
}

// listen = "listen" text. It belongs to the say above it.
func (r *reader) listen(s *lesson.Statement) *quantity.Error {
	if r.above == nil || r.above.Kind != lesson.Say {
		return &quantity.Error{Span: quantity.Span(s.At), Slug: "listen-without-say",
			What: "this listen belongs to no say",
			Hint: "put it right below the say whose answers it is about"}
	}
	s.Of = r.above
	return nil
}

// neverJudged is the problem of a slip below a statement whose answers are neither right nor wrong.
func neverJudged(at quantity.Span, above *lesson.Statement) *quantity.Error {
	return &quantity.Error{Span: at, Slug: "never-judged",
		What: "a " + string(above.Kind) + " is never judged, so " + above.Name + " cannot have a slip",
		Hint: "take it away, or put it right below the find that it belongs to"}
}
