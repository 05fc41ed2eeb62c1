package parse

// What a pack names itself: units and money in pack.yaml, facts of its kits, formulas.

import (
	"cmp"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/locale"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"

	yamlast "github.com/goccy/go-yaml/ast"
)

// vocabulary reads the fields units and money. The formulas come from a file of their own.
func (fs *fields) vocabulary(language string) *quantity.Vocabulary {
	words := &quantity.Vocabulary{}
	if forms, err := locale.FormsOf(language); err == nil && forms.Commas() { // that there is none is reported later
		words.UseCommas()
	}
	money := fs.text("money", false)
	if name := strings.TrimSpace(money.Value); name != "" {
		if err := words.CheckUnitName(name, quantity.Span(money.At)); err != nil {
			words.Lose(name)
			err.Hint = "write the code or the sign of one currency, as in  money: EUR"
			fs.problems.FromQuantity(fs.file, err)
		} else {
			words.DefineMoney(name)
		}
	}
	inner := fs.inner("units")
	if inner == nil {
		return words
	}
	for _, e := range inner.entries {
		if err := words.CheckUnitName(e.key.Value, quantity.Span(e.key.At)); err != nil {
			words.Lose(e.key.Value)
			fs.problems.FromQuantity(fs.file, err)
			continue
		}
		size, ok := inner.scalar(e.value)
		if !ok || strings.TrimSpace(size.Value) == "" {
			size.Value, size.At = "", e.key.At
		}
		err := words.DefineUnit(e.key.Value, size.Value, func(i int) int { return size.At.Start + i })
		if err != nil {
			if size.Value == "" {
				err.Span = quantity.Span(e.key.At)
			}
			words.Lose(e.key.Value)
			fs.problems.FromQuantity(fs.file, err)
		}
	}
	return words
}

// facts are those that a pack's kits have beside the usual ones, in the order in which they are first written.
type facts struct {
	names []string
	of    map[string]map[string]bool    // by kit, those that it has
	like  map[string]quantity.Dimension // what kind of quantity each is
}

// ownFacts looks through all kits before they are read: what two kits have is no slip of the pen.
func ownFacts(fs *fields) *facts {
	all := &facts{of: map[string]map[string]bool{}, like: map[string]quantity.Dimension{}}
	for _, e := range fs.entries {
		all.of[e.key.Value] = map[string]bool{}
		for _, name := range keysOf(e.value) {
			all.of[e.key.Value][name] = true
			if !slices.Contains(usualFacts(), name) && !slices.Contains(all.names, name) {
				all.names = append(all.names, name)
			}
		}
	}
	return all
}

// keysOf are the names of the fields of a mapping.
func keysOf(n yamlast.Node) []string {
	var names []string
	switch n := n.(type) {
	case *yamlast.MappingNode:
		for _, v := range n.Values {
			names = append(names, v.Key.GetToken().Value)
		}
	case *yamlast.MappingValueNode:
		names = append(names, n.Key.GetToken().Value)
	}
	return names
}

// usualFacts are the fields of a kit that every pack has.
func usualFacts() []string {
	names := []string{"title"}
	for _, f := range lesson.KitFields {
		names = append(names, f.Name)
	}
	return names
}

// take reads a kit's facts of the pack's own: all that is left of its fields. One whose name is a slip away from
// another that the kit does not have is left, so that it is reported as misspelt.
func (all *facts) take(inner *fields, k *lesson.Kit) {
	for _, name := range all.names {
		if !inner.has(name) || all.misspelt(name, k.Key) || !inner.nameable(name) {
			continue
		}
		// A fact that is written wrong is kept without its value, as the usual ones are.
		lit := inner.amount(name)
		k.Fields = append(k.Fields, lesson.Field{Name: name, Literal: lit})
		if lit == nil {
			continue
		}
		kind, seen := all.like[name]
		if !seen {
			all.like[name] = lit.Unit.Dimension()
		} else if kind != lit.Unit.Dimension() {
			inner.error(source.Span(lit.At), "field-kind", name+" is "+lit.Unit.Dimension().String()+
				" here, and "+kind.String()+" for the kit above", "give it a unit of the same kind for every kit")
			k.Fields[len(k.Fields)-1].Literal = nil
		}
	}
	for _, name := range all.names {
		if startsLikeAName.MatchString(name) {
			inner.known = append(inner.known, name)
		}
	}
}

// misspelt tells whether a name was probably meant to be that of another fact, which this kit does not have.
func (all *facts) misspelt(name, kit string) bool {
	similar := quantity.Nearest(name, usualFacts())
	for _, other := range quantity.Nearest(name, all.names) {
		count := 0
		for _, has := range all.of {
			if has[name] {
				count--
			}
			if has[other] {
				count++
			}
		}
		if count > 0 { // the rarer one is the slip
			similar = append(similar, other)
		}
	}
	return slices.ContainsFunc(similar, func(other string) bool { return !all.of[kit][other] })
}

// startsLikeAName is what a fact's name begins with.
var startsLikeAName = wording.New(`^\pL`)

// nameable tells whether a lesson could name a fact: kit.battery. One that it could not is reported.
func (fs *fields) nameable(name string) bool {
	if !startsLikeAName.MatchString(name) { // not meant as a fact at all
		return false
	}
	p := quantity.NewParser("kit."+name, func(i int) int { return i })
	n, err := p.Name("a fact")
	isName := err == nil && n.Text == "kit."+name && p.AtEnd() && !strings.Contains(name, ".")
	what, hint := nameTooLong(name)
	if isName && what == "" {
		return true
	}
	i := slices.IndexFunc(fs.entries, func(e entry) bool { return e.key.Value == name })
	at := fs.entries[i].key.At
	fs.take(name)
	if isName {
		fs.error(at, "name-too-long", what, hint)
		return false
	}
	fs.error(at, "field-kind", "no lesson can name a fact that is called “"+name+"”",
		"call it by one word of letters, digits and _, as in  battery: 7.4 V")
	return false
}

// amount gives a field that is a quantity of any kind, more than zero.
func (fs *fields) amount(name string) *quantity.Literal {
	t, ok := fs.scalar(fs.take(name))
	if !ok || strings.TrimSpace(t.Value) == "" {
		fs.error(t.At, "field-kind", "the field "+name+" must be a number, with its unit if it has one",
			"write it as in  battery: 7.4 V")
		return nil
	}
	lit, negative, ok := fs.literal(name, t)
	if !ok {
		return nil
	}
	if negative || lit.Number.Float() == 0 {
		fs.error(t.At, "field-kind", "the field "+name+" must be more than zero", "write it as in  battery: 7.4 V")
		return nil
	}
	return lit
}

// literal reads the text of a field as a quantity; what is wrong with it is reported.
func (fs *fields) literal(name string, t lesson.Text) (lit *quantity.Literal, negative, ok bool) {
	p := fs.words.NewParser(t.Value, func(i int) int { return t.At.Start + i })
	lit, negative, err := p.Quantity("the field " + name)
	if err == nil {
		err = p.End()
	}
	if err != nil {
		fs.problems.FromQuantity(fs.file, err)
	}
	return lit, negative, err == nil
}

// Formulas reads formulas.yaml: formulas of the pack's own, in the order of the file; each may call those above it. The
// vocabulary is one that has no formulas yet.
func Formulas(f *source.File, words *quantity.Vocabulary) problem.List {
	var problems problem.List
	fs := readFields(f, &problems, f.Text(), source.Span{})
	if fs == nil {
		words.Lose("")
		return problems
	}
	fs.words = words
	for _, e := range fs.entries {
		before := len(words.OwnFormulas())
		if fs.formula(e); len(words.OwnFormulas()) == before {
			words.Lose(e.key.Value)
		}
	}
	return problems
}

// MaxFormulas bounds a pack's own formulas; a class could not keep more apart.
const MaxFormulas = 100

// formula reads one formula: its values with their kinds, its calculation, what it gives and where it comes from.
func (fs *fields) formula(e entry) {
	if len(fs.words.OwnFormulas()) == MaxFormulas {
		fs.error(e.key.At, "own-formula", "a pack has at most 100 formulas of its own", "leave out those that no lesson uses")
		return
	}
	nameFault := fs.words.CheckName(e.key.Value, true, quantity.Span(e.key.At))
	if nameFault == nil && fs.words.IsFormula(e.key.Value) {
		return // reported as a field that is there twice
	}
	inner := &fields{file: fs.file, problems: fs.problems, at: e.key.At, words: fs.words,
		known: []string{"values", "is", "in", "says", "source"}}
	if !inner.mapping(e.value) {
		return
	}
	if nameFault != nil {
		fs.problems.FromQuantity(fs.file, nameFault)
	}
	f := &quantity.Formula{Name: e.key.Value}
	valuesRead := inner.values(f)
	body := inner.text("is", true)
	unit := inner.text("in", false)
	if strings.Count(body.Value, "(") > strings.Count(body.Value, ")") && len(inner.entries) > 0 {
		inner.error(body.At, "own-formula", "a comma ends this text before its bracket is closed",
			`put quotes round it, as in  is: "rotations(distance, diameter) * 2"`)
		return
	}
	says, origin := inner.text("says", true), inner.text("source", true)
	inner.done()
	f.Body = strings.TrimPrefix(strings.TrimSpace(body.Value), "=")
	f.Says = strings.TrimSpace(says.Value)
	f.Doc = strings.TrimRight(says.Value, ".") + "; " + origin.Value
	unitRead := inner.resultIn(f, unit)
	if nameFault != nil || !valuesRead || !unitRead || strings.TrimSpace(f.Body) == "" {
		return
	}
	start := body.At.Start + max(0, strings.Index(string(fs.file.Text()[body.At.Start:body.At.End]), f.Body))
	for _, err := range fs.words.DefineFormula(f, func(i int) int { return start + i }) {
		fs.problems.FromQuantity(fs.file, err)
	}
}

// values reads a formula's values, in their order: each with its kind.
func (fs *fields) values(f *quantity.Formula) bool {
	if !fs.has("values") {
		fs.error(fs.at, "field-missing", "the field values is missing",
			"add what the formula is worked out from, as in  values: {distance: length, time: time}")
		return false
	}
	inner := fs.inner("values")
	if inner == nil {
		return false
	}
	ok := len(inner.entries) > 0
	if !ok {
		fs.error(inner.at, "field-missing", "this formula has no values",
			"add what it is worked out from, as in  distance: length")
	}
	for _, e := range inner.entries {
		kind, isText := inner.scalar(e.value)
		if !isText {
			inner.error(e.key.At, "field-kind", "what "+e.key.Value+" is must be one word or unit",
				"write it as in  "+e.key.Value+": length")
			ok = false
			continue
		}
		err := fs.words.CheckName(e.key.Value, false, quantity.Span(e.key.At))
		var p quantity.Param
		if err == nil {
			at := quantity.Span(kind.At)
			p, err = fs.words.ReadParam(e.key.Value, cmp.Or(strings.TrimSpace(kind.Value), "number"), at)
		}
		if err != nil {
			fs.problems.FromQuantity(fs.file, err)
			ok = false
			continue
		}
		f.Params = append(f.Params, p)
	}
	return ok
}

// resultIn reads the unit that a formula's result is called.
func (fs *fields) resultIn(f *quantity.Formula, unit lesson.Text) bool {
	text := strings.TrimSpace(unit.Value)
	if text == "" {
		return true
	}
	p := fs.words.NewParser(text, func(i int) int { return unit.At.Start + i })
	u, err := p.Unit()
	if err == nil {
		err = p.End()
	}
	if err != nil {
		err.Span = quantity.Span(unit.At) // quotes round a % move what is within
		fs.problems.FromQuantity(fs.file, err)
		return false
	}
	f.ResultIn(u)
	return true
}
