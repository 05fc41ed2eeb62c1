package quantity_test

import (
	"strings"
	"testing"

	"trundle/generator/quantity"
)

var printed = []struct{ text, want string }{
	{"a + b + c", "a + b + c"},
	{"a - (b - c)", "a - (b - c)"},
	{"a + b * c", "a + b * c"},
	{"(a + b) * c", "(a + b) * c"},
	{"a / b / c", "a / b / c"},
	{"a / (b / c)", "a / (b / c)"},
	{"a / (b * c)", "a / (b * c)"},
	{"-a ^ 2", "-a ^ 2"},
	{"(-a) ^ 2", "(-a) ^ 2"},
	{"a ^ -b ^ c", "a ^ -b ^ c"},
	{"(a ^ b) ^ c", "(a ^ b) ^ c"},
	{"a ^ (b + c)", "a ^ (b + c)"},
	{"-a * b", "-a * b"},
	{"-(a * b)", "-(a * b)"},
	{"--a", "--a"},
	{"+a", "a"},
	{"a − b × c ÷ e", "a - b * c / e"},
	{"a·b", "a * b"},
	{"π", "pi"},
	{"x²", "x ^ 2"},
	{"x³", "x ^ 3"},
	{"((2 cm))²", "(2 cm) ^ 2"},
	{"5″", "5 in"},
	{"5′", "5 ft"},
	{"90°", "90 deg"},
	{"5%", "5 %"},
	{"5 percent", "5 %"},
	{"3 turns", "3 rot"},
	{"3 inches", "3 in"},
	{"2 in rot", "2"},
	{"1/6 rot", "1/6 rot"},
	{"36 1/2 in", "36 1/2 in"},
	{"6 / 2 cm", "6 / 2 cm"},
	{"6 /2 cm", "6 / 2 cm"},
	{"65 mm ± 0.5 mm", "65 mm ± 0.5 mm"},
	{"65 mm ± 0.5", "65 mm ± 0.5 mm"},
	{"65 ± 1", "65 ± 1"},
	{"4 cm²", "4 cm^2"},
	{"4 cm^2", "4 cm^2"},
	{"9.81 m/s^2", "9.81 m/s^2"},
	{"9.81 m/s/s", "9.81 m/s^2"},
	{"2 kg·m/s", "2 kg·m/s"},
	{"2 kg*m", "2 kg·m"},
	{"2 kg*a", "2 kg * a"},
	{"5 s/s/s", "5 1/s"},
	{"5 1/s", "5 1/s"},
	{"5 s/s", "5"},
	{"120 cm / s", "120 cm / s"},
	{"3 cm /s", "3 cm / s"},
	{"3 cm/ s", "3 cm / s"},
	{"3 cm+s", "3 cm + s"},
	{"f(3 cm,s)", "f(3 cm, s)"},
	{".5", ".5"},
	{"kit.wheel * 2", "kit.wheel * 2"},
	{"f(a, b + c)", "f(a, b + c)"},
	{"f()", "f()"},
	{"a_1 + été", "a_1 + été"},
}

func TestExpressionsReadAsWritten(t *testing.T) {
	for _, c := range printed {
		e, err := quantity.ParseExpr(c.text)
		if c.text == "2 in rot" { // the target is read apart
			p := quantity.NewParser(c.text, func(i int) int { return i })
			e, err = p.Expr()
		}
		if err != nil {
			t.Errorf("%s: %s", c.text, err.What)
			continue
		}
		if got := e.String(); got != c.want {
			t.Errorf("%s prints as %s, want %s", c.text, got, c.want)
		}
	}
}

func TestPrecedenceGivesTheValueOfTheBoard(t *testing.T) {
	for text, want := range map[string]float64{
		"-2^2": -4, "(-2)^2": 4, "2^3^2": 512, "(2^3)^2": 64, "2^-1": 0.5, "2 - 3 - 4": -5, "2 - (3 - 4)": 3, "12 / 3 / 2": 2,
		"12 / 3 * 2": 8, "2 + 3 * 4": 14, "-3 + 5": 2, "--3": 3, "-+-3": 3, "1/2 + 1/4": 0.75, "3 * 1/2": 1.5, "2 1/2 * 2": 5,
		"-2 * -3": 6, "2²": 4, "2³": 8, "-2²": -4, "3 × 4 ÷ 6 − 1": 1, "6 / 2": 3, "6/2": 3, "-3^0": -1, "0^0": 1,
	} {
		if got := worth(t, text, nil).Number; got != want {
			t.Errorf("%s is %g, want %g", text, got, want)
		}
	}
}

func TestDivisionByALengthIsNotAFraction(t *testing.T) {
	q := worth(t, "6 / 2 cm", nil)
	if q.Number != 3 || q.Unit.String() != "1/cm" {
		t.Errorf("6 / 2 cm is %g %s, want 3 1/cm", q.Number, q.Unit)
	}
	if q = worth(t, "6/2 cm", nil); q.Number != 3 || q.Unit.String() != "cm" {
		t.Errorf("6/2 cm is %g %s, want 3 cm", q.Number, q.Unit)
	}
}

func TestTargetsAreReadBehindAnExpression(t *testing.T) {
	for _, c := range []struct{ text, expr, target, shown string }{
		{"48 in in cm", "48 in", " in cm", "121.92 cm"},
		{"48 in in cm to 0.1", "48 in", " in cm to 0.1", "121.9 cm"},
		{"2 in rot", "2", " in rot", "2 rotations"},
		{"2 in in in", "2 in", " in in", "2 in"},
		{"2 in %", "2", " in %", "200 %"},
		{"1/4 rot in °", "1/4 rot", " in deg", "90°"},
		{"2 to 0.01", "2", " to 0.01", "2.00"},
		{"2 in to 1/8", "2 in", " to 1/8", "2 in"},
		{"2 cm to 1/3", "2 cm", " to 1/3", "2 cm"},
		{"5 cm/s in m/s to 0.01", "5 cm/s", " in m/s to 0.01", "0.05 m/s"},
		{"12 1/min in 1/s", "12 1/min", " in 1/s", "0.2 1/s"},
		{"7 cm", "7 cm", "", "7 cm"},
	} {
		p := quantity.NewParser(c.text, func(i int) int { return i })
		e, err := p.Expr()
		if err != nil {
			t.Errorf("%s: %s", c.text, err.What)
			continue
		}
		target, err := p.Target()
		if err == nil {
			err = p.End()
		}
		if err != nil {
			t.Errorf("%s: %s", c.text, err.What)
			continue
		}
		shown := quantity.ShowText(worth(t, e.String(), nil), target)
		if e.String() != c.expr || target.String() != c.target || shown != c.shown {
			t.Errorf("%s is read as %s|%s|%s, want %s|%s|%s", c.text, e, target, shown, c.expr, c.target, c.shown)
		}
		if at := c.text[target.UnitAt.Start:target.UnitAt.End]; target.HasUnit &&
			!strings.HasPrefix(c.text[target.UnitAt.Start-3:], "in "+at) ||
			target.HasUnit && at != "°" && unit(at).String() != target.Unit.String() {
			t.Errorf("%s: the unit's place is %q", c.text, at)
		}
	}
}

func TestPlacesOfNodes(t *testing.T) {
	text := "  circumference(d + 1 cm) - -2 ^ x"
	e := parsed(t, text).(*quantity.Binary)
	call := e.Left.(*quantity.Call)
	sum := call.Args[0].(*quantity.Binary)
	for want, at := range map[string]quantity.Span{
		"circumference(d + 1 cm) - -2 ^ x": e.Span(), "circumference(d + 1 cm)": call.Span(), "circumference": call.NameAt,
		"d + 1 cm": sum.Span(), "+": sum.OpAt, "1 cm": sum.Right.Span(), "-2 ^ x": e.Right.Span(),
	} {
		if got := text[at.Start:at.End]; got != want {
			t.Errorf("the place %v is %q, want %q", at, got, want)
		}
	}
	lit := parsed(t, "65 mm ± 0.5 mm").(*quantity.Literal)
	if lit.At != (quantity.Span{Start: 0, End: len("65 mm ± 0.5 mm")}) {
		t.Errorf("the literal is at %v", lit.At)
	}
}

func TestPositionsAreThoseOfTheCaller(t *testing.T) {
	p := quantity.NewParser("a + @", func(i int) int { return 100 + i })
	_, err := p.Expr()
	if err == nil || err.Span != (quantity.Span{Start: 104, End: 105}) {
		t.Errorf("got %+v", err)
	}
}

func TestNamesOfAnExpression(t *testing.T) {
	got := strings.Join(quantity.Names(parsed(t, "b * pi + f(a, -b) / kit.wheel ^ a")), " ")
	if got != "b a kit.wheel" {
		t.Errorf("names: %s", got)
	}
}

func TestPiecesOfAStatement(t *testing.T) {
	p := quantity.NewParser("measure d = -65 mm ± 0.5 mm , -3.5 [ 4 ]", func(i int) int { return i })
	if p.Word("given") || !p.Word("measure") {
		t.Error("the word is not taken")
	}
	n, err := p.Name("a measure")
	if err != nil || n.Text != "d" || n.At != (quantity.Span{Start: 8, End: 9}) {
		t.Errorf("the name is %+v, %v", n, err)
	}
	if err := p.Expect("=", "a measure"); err != nil {
		t.Error(err)
	}
	lit, negative, err := p.Quantity("a measure")
	if err != nil || !negative || lit.String() != "65 mm ± 0.5 mm" || lit.At.Start != 12 {
		t.Errorf("the quantity is %v %v %v", lit, negative, err)
	}
	if p.Sign("=") || !p.Sign(",") || p.AtEnd() {
		t.Error("the sign is not taken")
	}
	number, negative, at, err := p.Number("a record")
	if err != nil || !negative || number.Text != "3.5" || at != (quantity.Span{Start: 31, End: 35}) {
		t.Errorf("the number is %v %v %v %v", number.Text, negative, at, err)
	}
	if err := p.Expect("(", "a record"); err == nil || err.What != "“[” is where “(” should be in a record" {
		t.Errorf("got %v", err)
	}
	p.Sign("[")
	if number, negative, _, err = p.Number("a record"); err != nil || negative || number.Float() != 4 {
		t.Errorf("the number is %v %v %v", number.Text, negative, err)
	}
	if !p.Sign("]") || !p.AtEnd() || p.Place().Start != 41 {
		t.Errorf("the end is at %v", p.Place())
	}
}

func TestWorthOfTheLastWrittenPlace(t *testing.T) {
	for text, want := range map[string]string{"20.4": "1/10", "20.40": "1/100", "120": "1", "36 1/2": "1/2",
		"7/16": "1/16", ".125": "1/1000"} {
		if got := parsed(t, text).(*quantity.Literal).Number.Place.RatString(); got != want {
			t.Errorf("the last place of %s is worth %s, want %s", text, got, want)
		}
	}
	if (quantity.Number{}).Float() != 0 {
		t.Error("no number has a value")
	}
}

func TestUnitsAreFoundByName(t *testing.T) {
	for name, want := range map[string]string{"in": "in", "inches": "in", "″": "in", "turns": "rot", "°": "deg",
		"percent": "%"} {
		if u, ok := quantity.LookupUnit(name); !ok || u.String() != want {
			t.Errorf("%s is %s, %v", name, u, ok)
		}
	}
	if u, ok := quantity.LookupUnit("wobble"); ok || !u.IsNumber() {
		t.Error("a wobble is found")
	}
}
