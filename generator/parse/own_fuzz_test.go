package parse_test

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"trundle/generator/parse"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// FuzzOwn: whatever a pack names itself is read or refused at a place, and a formula that is read has a program
// wherever it has a value.
func FuzzOwn(f *testing.F) {
	const pack, kits = "title: T\nversion: 1\nunits: {ticks: 360 a rotation, tiles: 30 cm}\nmoney: EUR\n",
		"heron: {title: H, wheel: 65 mm, ticks: 360, battery: 7.4 V}\ncoot: {title: C, wheel: 4 cm, tick: 3}\n"
	for _, s := range []string{
		"a: {values: {x: length, y: length}, is: (x - y) / x, in: \"%\", says: S, source: S}",
		"a: {values: {x: cm}, is: \"rotations(x, x)\", in: ticks, says: S, source: S}\n" +
			"b: {values: {x: length}, is: a(x) * a(a(x) * x / (1 tick)) + a(x), says: S, source: S}",
		"a:\n  values:\n    n: money\n  is: |\n    n * 2\n    + 3 EUR\n  says: é\n  source: \"\"\n",
		"a: {values: {x: }, is: = x ^ x}",
		"a: {values: {x: EUR, x: s}, is: x(x, says: S}", "π: {values: {π: π}, is: π}", "a: [b]", "a: {values: [x], is: x}",
	} {
		f.Add(s, pack, kits)
	}
	f.Add("", "title: T\nversion: 1\nunits:\n  a: 1/3 rad\n  bs: 3 b\n  c:\n  é: 2 ″\nmoney: €\n",
		"k: {title: T, wheel: 1 m, é: 3 é, a b: 2}")
	f.Fuzz(func(t *testing.T, formulas, pack, kits string) {
		if !utf8.ValidString(formulas + " " + pack + " " + kits) {
			return // reading refuses such a file
		}
		p, problems := parse.PackFile(source.NewFile("pack.yaml", []byte(pack)))
		problems.Join(parse.Formulas(source.NewFile("formulas.yaml", []byte(formulas)), p.Vocabulary))
		_, found := parse.KitsWith(source.NewFile("kits.yaml", []byte(kits)), p.Vocabulary)
		problems.Join(found)
		for _, one := range problems.Sorted() {
			if one.What == "" || one.Slug == "" || one.Span.Start < 0 || one.Span.End > len(one.File.Text()) ||
				one.Span.Start > one.Span.End {
				t.Fatalf("%s: %q at %v of %d bytes", one.Slug, one.What, one.Span, len(one.File.Text()))
			}
		}
		for _, own := range p.Vocabulary.OwnFormulas() {
			call, env := callOf(own)
			e, err := p.Vocabulary.ParseExpr(call)
			if err != nil {
				t.Fatalf("%s: %s", call, err.What)
			}
			v, errs := quantity.Eval(e, env)
			q, ok := v.(quantity.Quantity)
			_, u, err := quantity.Compile(e, env, func(string) bool { return true }, quantity.Target{})
			switch {
			case len(errs) == 0 && ok && err != nil && !strings.Contains(err.What, "whole number"):
				t.Fatalf("%s = %s has a value and no program: %s", call, own.Body, err.What)
			case ok && err == nil && !u.Equal(q.Unit):
				t.Fatalf("%s = %s comes out in %s, its program in %s", call, own.Body, q.Unit, u)
			case ok && math.IsNaN(q.Number):
				t.Fatalf("%s = %s has no value, and no problem", call, own.Body)
			}
			quantity.Worked("y", e, env, quantity.Target{})
			quantity.RelationOf(e)
		}
	})
}

// callOf is a call of a formula, with a value for each of its parameters.
func callOf(f *quantity.Formula) (string, quantity.Env) {
	env := quantity.Env{}
	var names []string
	for i, p := range f.Params {
		name := "v" + strings.Repeat("v", i)
		names = append(names, name)
		env[name] = p.Sample(1.5 + float64(i))
	}
	return f.Name + "(" + strings.Join(names, ", ") + ")", env
}
