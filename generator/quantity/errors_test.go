package quantity_test

import (
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// A wrong is a text with what is told of it: the piece pointed at, and part of the
// words.
type wrong struct{ text, slug, at, what, hint string }

func (c wrong) check(t *testing.T, err *quantity.Error) {
	t.Helper()
	if err == nil {
		t.Errorf("%.40q: nothing is told", c.text)
		return
	}
	s := err.Span
	if s.Start < 0 || s.Start > s.End || s.End > len(c.text) {
		t.Errorf("%.40q: %s at %v outside the text", c.text, err.What, s)
		return
	}
	if err.Slug != c.slug || c.text[s.Start:s.End] != c.at || !strings.Contains(err.What, c.what) ||
		!strings.Contains(err.Hint, c.hint) {
		t.Errorf("%.40q\n got %s at %q: %s (%s)\nwant %s at %q: %s (%s)", c.text, err.Slug, c.text[s.Start:s.End],
			err.What, err.Hint,
			c.slug, c.at, c.what, c.hint)
	}
	if err.Error() != err.What {
		t.Errorf("Error() is %q", err.Error())
	}
}

var unreadable = []wrong{
	{"", "syntax", "", "a value is missing at the end of an expression", ""},
	{"a +", "syntax", "", "a value is missing", ""},
	{"* a", "syntax", "*", "“*” is where a value should be in an expression", ""},
	{"a b", "syntax", "b", "“b” does not belong here", "write + − × or ÷ between two values"},
	{"a 3", "syntax", "3", "does not belong", "write + − × or ÷"},
	{"3 5", "syntax", "5", "does not belong", "write + − × or ÷"},
	{"(a) (b)", "syntax", "(", "does not belong", "write + − × or ÷"},
	{"a )", "syntax", ")", "does not belong", "take this bracket away, or open one before it"},
	{"a =", "syntax", "", "a value is missing", ""},
	{"a )", "syntax", ")", "does not belong", ""},
	{"2 π", "syntax", "π", "does not belong", "if π is a name, write × between"},
	{"(a + b", "syntax", "(", "this bracket is never closed", "close it with )"},
	{"(a ,", "syntax", ",", "“,” is where “)” should be in this expression", ""},
	{"f(a", "syntax", "(", "this bracket is never closed", ""},
	{"f(a b)", "syntax", "b", "is where “)” should be", ""},
	{"f(a,)", "syntax", ")", "is where a value should be", ""},
	{"π(2)", "syntax", "(", "does not belong", ""},
	{"3 ± x", "syntax", "x", "is where a number should be in a ±", ""},
	{"3 ±", "syntax", "", "a number is missing at the end of a ±", ""},
	{"3 cm within -1 cm", "syntax", "-", "the number in a limit cannot be less than zero", "take the minus away"},
	{"3 cm ± −1 cm", "syntax", "−", "the number in a ± cannot be less than zero", "take the minus away"},
	{"a @ b", "unexpected-character", "@", "the character “@” has no meaning here", "an expression is made of"},
	{"a + €", "unexpected-character", "€", "“€”", ""},
	{"3 \"", "unexpected-character", "\"", "", ""},
	{"2 cm ^ 2", "unclear-power", "2 cm ^", "it is not clear whether the number alone", "write (2 cm) ^ …"},
	{"2 cm ²", "unclear-power", "2 cm ²", "it is not clear", "write (2 cm) ^ …"},
	{"3 ± 1 ^ 2", "unclear-power", "3 ± 1 ^", "it is not clear", ""},
	{"3 cm^0", "unit-power", "0", "a unit cannot have the power 0", "from 1 to 9"},
	{"3 cm^10", "unit-power", "10", "cannot have the power 10", ""},
	{"3 cm^1.5", "unit-power", "1.5", "cannot have the power 1.5", ""},
	{"2 cm^x", "unclear-power", "2 cm^", "it is not clear", "write (2 cm) ^ …"},
	{"2 % ^ 2", "unclear-power", "2 % ^", "it is not clear", ""},
	{"2 cm^ 2", "unclear-power", "2 cm^", "it is not clear", ""},
	{"kit.", "unexpected-character", ".", "", ""},
	{".a", "unexpected-character", ".", "", ""},
	{"5.", "unexpected-character", ".", "", ""},
	{"5 2/s", "syntax", "2", "does not belong", ""},
	{"3 m^9·m + 1", "unit-power", "m^9·m", "the unit m¹⁰ measures nothing", ""},
	{"3 m^9·m", "unit-power", "m^9·m", "the unit m¹⁰ measures nothing", "whole powers from 1 to 9"},
	{"3 s/m^9/m", "unit-power", "s/m^9/m", "measures nothing", ""},
	{"3 inc", "unknown-unit", "inc", "“inc” is not a unit", "did you mean one of in, inch?"},
	{"3 CM", "unknown-unit", "CM", "“CM” is not a unit", "did you mean cm?"},
	{"3 foo", "unknown-unit", "foo", "is not a unit", "did you mean foot?"},
	{"3 wheels", "unknown-unit", "wheels", "is not a unit",
		"write a unit such as mm, cm, in, deg, rot, s or g; trundle help language units lists them all; " +
			"if wheels is a name, write ×"},
	{"3 onces", "unknown-unit", "onces", "“onces” is not a unit", "did you mean ounces?"},
	{"3 cm/x", "unknown-unit", "x", "“x” is not a unit", ""},
	{"3 turnz", "unknown-unit", "turnz", "", "did you mean one of turn, turns?"},
	{"1/0", "division-by-zero", "1/0", "the fraction 1/0 divides by zero", "as in 1/2"},
	{"2 1/0 in", "division-by-zero", "2 1/0", "the fraction 1/0", ""},
	{strings.Repeat("1", 31), "number-too-long", strings.Repeat("1", 31), "a number of 31 characters",
		"at most 30 characters"},
	{"1." + strings.Repeat("1", 29), "number-too-long", "1." + strings.Repeat("1", 29), "a number of 31", ""},
	{"1/" + strings.Repeat("1", 29), "number-too-long", "1/" + strings.Repeat("1", 29), "a number of 31", ""},
	{strings.Repeat("(", 100) + "1" + strings.Repeat(")", 100), "too-deep", "1",
		"brackets are nested more than 100 deep", "split"},
	{strings.Repeat("-", 100) + "1", "too-deep", "-", "more signs in a row", "one sign or none"},
	{strings.Repeat("1+", 1000) + "1", "too-long", "1", "more than 2000 words and signs", "split it"},
}

func TestProblemsOfReading(t *testing.T) {
	for _, c := range unreadable {
		_, err := quantity.ParseExpr(c.text)
		c.check(t, err)
	}
}

func TestLimitsAreReachedButNotPassed(t *testing.T) {
	for _, text := range []string{
		strings.Repeat("(", 99) + "1" + strings.Repeat(")", 99),
		strings.Repeat("-", 99) + "1",
		strings.Repeat("1+", 999) + "1",
		strings.Repeat("1", 30),
		strings.Repeat("-1 + ", 150) + "1", strings.Repeat("(1) + ", 150) + "1",
		"3 cm^9", "3 cm^1", "3 m^8·m", "3 s/m^8/m",
	} {
		if _, err := quantity.ParseExpr(text); err != nil {
			t.Errorf("%.40s: %s", text, err.What)
		}
	}
}

func TestProblemsOfUnitsAndTargets(t *testing.T) {
	for _, c := range []wrong{
		{"5", "syntax", "5", "“5” is where a unit should be in a quantity", "put a unit here"},
		{"", "syntax", "", "a unit is missing at the end of a quantity", "finish a quantity with a unit"},
		{"(", "syntax", "(", "is where a unit should be", ""},
		{"wobble", "unknown-unit", "wobble", "“wobble” is not a unit", ""},
		{"cm s", "syntax", "s", "“s” does not belong here", ""},
		{"cm@", "unexpected-character", "@", "no meaning", ""},
	} {
		_, err := quantity.ParseUnit(c.text)
		c.check(t, err)
	}
	for _, c := range []wrong{
		{"x to 0", "bad-step", "0", "a step must be more than zero", "such as 0.1 or 1/16"},
		{"x to -0.1", "bad-step", "-0.1", "a step must be more than zero", ""},
		{"x to y", "syntax", "y", "“y” is where a number should be in a step", ""},
		{"x to cm", "syntax", "cm", "“cm” is where a number should be in a step",
			"for the unit write in cm; a step is a number"},
		{"x to", "syntax", "", "a number is missing at the end of a step", ""},
		{"x in", "syntax", "", "a unit is missing", ""},
		{"x in cmm", "unknown-unit", "cmm", "is not a unit", "did you mean"},
	} {
		p := quantity.NewParser(c.text, func(i int) int { return i })
		if _, err := p.Expr(); err != nil {
			t.Fatal(err)
		}
		_, err := p.Target()
		c.check(t, err)
	}
}

func TestUnknownUnitKeepsItsName(t *testing.T) {
	_, err := quantity.ParseExpr("3 wheels")
	if err.Name != "wheels" {
		t.Errorf("the name is %q", err.Name)
	}
	for _, c := range []struct{ text, name string }{{"kitt.wheel", "kitt.wheel"}, {"circumfrence(d)", "circumfrence"}} {
		_, errs := quantity.Eval(parsed(t, c.text), bench())
		if len(errs) != 1 || errs[0].Name != c.name {
			t.Errorf("%s: %+v", c.text, errs)
		}
	}
}

func TestPiecesThatAreMissing(t *testing.T) {
	at := func(i int) int { return i }
	_, err := quantity.NewParser("5 = d", at).Name("a given")
	wrong{"5 = d", "syntax", "5", "“5” is where a name should be in a given", ""}.check(t, err)
	_, err = quantity.NewParser("π = 3", at).Name("a given")
	wrong{"π = 3", "syntax", "π", "“π” is where a name should be in a given", ""}.check(t, err)
	_, _, err = quantity.NewParser("- d", at).Quantity("a key")
	wrong{"- d", "syntax", "d", "“d” is where a number should be in a key", ""}.check(t, err)
	_, _, err = quantity.NewParser("3 wheels", at).Quantity("a key")
	wrong{"3 wheels", "unknown-unit", "wheels", "", ""}.check(t, err)
	_, _, _, err = quantity.NewParser("-", at).Number("a step")
	wrong{"-", "syntax", "", "a number is missing at the end of a step", ""}.check(t, err)
}
