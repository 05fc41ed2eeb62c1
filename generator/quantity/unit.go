package quantity

// This file holds the units: the table of their names and sizes, how a unit is written,
// and the factors by which one becomes another.

import (
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"
)

// An atom is a unit with a name of its own. Its size in base units (metre, turn,
// second, kilogram, mole, ampere) is num/den, over 2π for the radian; both are whole and
// exact in a float64.
type atom struct {
	symbol     string   // in sources and in what programs read
	shown, one string   // what people read, and read after the number 1, where that is not the symbol
	aliases    []string // read in place of the symbol, in lessons and in answers
	spoken     []string // further names in prose: singular, plural, variants
	dim        Dimension
	num, den   float64
	perTwoPi   bool   // num/den is still to be divided by 2π
	parts      []term // of rpm: rot and 1/min, which it becomes in products; see opened
	easily     bool   // a letter that formulas have for other things, too; see readsAsName
}

// atoms are the units of the language. Sizes: inch, foot, yard and pound from the
// international yard and pound agreement of 1959 (1 yd = 0.9144 m,
// 1 lb = 0.45359237 kg), the pound-force with the standard gravity of 1901
// (9.80665 m/s²), the rest from the SI Brochure, 9th edition; all exact
// but the radian. All that trundle knows about a unit is in its row.
var atoms = []*atom{
	{symbol: "mm", spoken: spellings("millimetre millimetres millimeter millimeters mms"),
		dim: lengthDim, num: 1, den: 1000},
	{symbol: "cm", spoken: spellings("centimetre centimetres centimeter centimeters cms"),
		dim: lengthDim, num: 1, den: 100},
	{symbol: "m", spoken: spellings("metre metres meter meters"), dim: lengthDim, num: 1, den: 1},
	{symbol: "km", spoken: spellings("kilometre kilometres kilometer kilometers kms"), dim: lengthDim, num: 1000, den: 1},
	{symbol: "in", aliases: spellings("″ inch inches"), spoken: spellings(`"`), dim: lengthDim, num: 127, den: 5000},
	{symbol: "ft", aliases: spellings("′ foot feet"), spoken: spellings("'"), dim: lengthDim, num: 381, den: 1250},
	{symbol: "yd", aliases: spellings("yard yards"), dim: lengthDim, num: 1143, den: 1250},
	{symbol: "mi", aliases: spellings("mile miles"), dim: lengthDim, num: 201168, den: 125},
	{symbol: "deg", shown: "°", one: "°", aliases: spellings("° degree degrees"), spoken: spellings("degs"),
		dim: angleDim, num: 1, den: 360},
	{symbol: "rad", aliases: spellings("radian radians"), dim: angleDim, num: 1, den: 1, perTwoPi: true},
	// "rot" reads as decay; on a page and on paper the word is written out.
	{symbol: "rot", shown: "rotations", one: "rotation", aliases: spellings("rotation rotations turn turns"),
		spoken: spellings("rots rev revs revolution revolutions"), dim: angleDim, num: 1, den: 1},
	{symbol: "s", spoken: spellings("second seconds sec secs"), dim: timeDim, num: 1, den: 1},
	{symbol: "min", spoken: spellings("minute minutes mins"), dim: timeDim, num: 60, den: 1},
	{symbol: "h", spoken: spellings("hour hours hr hrs"), dim: timeDim, num: 3600, den: 1, easily: true},
	{symbol: "d", spoken: spellings("day days"), dim: timeDim, num: 86400, den: 1, easily: true},
	{symbol: "Hz", spoken: []string{"hertz", "cycle per second", "cycles per second"}, dim: Dimension{time: -1},
		num: 1, den: 1},
	{symbol: "rpm", spoken: []string{"revolutions per minute", "rotations per minute", "turns per minute"},
		dim: turnDim, num: 1, den: 60},
	{symbol: "mph", spoken: []string{"mile per hour", "miles per hour"}, dim: speedDim, num: 1397, den: 3125},
	{symbol: "g", spoken: spellings("gram grams gramme grammes"), dim: massDim, num: 1, den: 1000},
	{symbol: "kg", spoken: spellings("kilogram kilograms kilogramme kilogrammes"), dim: massDim, num: 1, den: 1},
	{symbol: "oz", spoken: spellings("ounce ounces"), dim: massDim, num: 45359237, den: 1600000000},
	{symbol: "lb", spoken: spellings("pound pounds lbs"), dim: massDim, num: 45359237, den: 100000000},
	{symbol: "N", spoken: spellings("newton newtons"), dim: forceDim, num: 1, den: 1},
	{symbol: "lbf", dim: forceDim, num: 44482216152605, den: 10000000000000},
	{symbol: "A", spoken: spellings("amp amps ampere amperes"), dim: Dimension{current: 1}, num: 1, den: 1, easily: true},
	{symbol: "mA", spoken: spellings("milliamp milliamps milliampere milliamperes"), dim: Dimension{current: 1},
		num: 1, den: 1000},
	{symbol: "V", spoken: spellings("volt volts"), dim: Dimension{length: 2, time: -3, mass: 1, current: -1},
		num: 1, den: 1, easily: true},
	{symbol: "W", spoken: spellings("watt watts"), dim: powerDim, num: 1, den: 1, easily: true},
	{symbol: "Ah", dim: chargeDim, num: 3600, den: 1},
	{symbol: "mAh", dim: chargeDim, num: 18, den: 5},
	{symbol: "Wh", dim: Dimension{length: 2, time: -2, mass: 1}, num: 3600, den: 1},
	{symbol: "mL", spoken: spellings("millilitre millilitres milliliter milliliters ml"), dim: Dimension{length: 3},
		num: 1, den: 1000000},
	{symbol: "mol", spoken: spellings("mole moles"), dim: Dimension{amount: 1}, num: 1, den: 1},
	// A temperature is not how much warmer something is: 20 °C is 68 °F, and 20 °C warmer is 36 °F warmer; see warmth.go.
	{symbol: "°C", dim: warmthDim, num: 1, den: 1},
	{symbol: "°F", dim: warmthDim, num: 5, den: 9},
	{symbol: "Δ°C", shown: "°C", one: "°C", dim: warmthDim, num: 1, den: 1},
	{symbol: "Δ°F", shown: "°F", one: "°F", dim: warmthDim, num: 5, den: 9},
	{symbol: "%", aliases: spellings("percent"), spoken: []string{"per cent"}, num: 1, den: 100},
	{symbol: "ppm", spoken: []string{"part per million", "parts per million"}, num: 1, den: 1000000},
	// What an encoder counts: a number that says of what.
	{symbol: "count", shown: "counts", one: "count", aliases: spellings("counts"), num: 1, den: 1},
}

func spellings(line string) []string { return strings.Fields(line) }

var atomByName = func() map[string]*atom {
	byName := make(map[string]*atom)
	for _, a := range atoms {
		byName[a.symbol] = a
		for _, alias := range a.aliases {
			byName[alias] = a
		}
	}
	for symbol, parts := range partsOf {
		over, under, _ := strings.Cut(parts, "/")
		for _, name := range strings.Split(over, "·") {
			byName[symbol].parts = append(byName[symbol].parts, term{byName[name], 1})
		}
		if under != "" {
			byName[symbol].parts = append(byName[symbol].parts, term{byName[under], -1})
		}
	}
	return byName
}()

// NamesOfUnit lists every way to write a named unit, its symbol first: the names that
// the language reads, and those that only prose has, such as "centimetres". The list is
// empty for what is not a unit.
func NamesOfUnit(name string) []string {
	a, ok := atomByName[name]
	if !ok {
		return nil
	}
	return slices.Concat([]string{a.symbol}, a.aliases, a.spoken)
}

// A term is one factor of a unit: cm/s has s to the power −1.
type term struct {
	atom  *atom
	power int
}

// Unit is a product of powers of named units. The zero Unit is that of a plain
// number. Units are values: no method changes one.
type Unit struct{ terms []term }

// LookupUnit returns the unit of one name: "mm", "turn", "″". Compound units are
// read by ParseUnit.
func LookupUnit(name string) (Unit, bool) {
	a, ok := atomByName[name]
	if !ok {
		return Unit{}, false
	}
	return Unit{[]term{{a, 1}}}, true
}

// mustUnit is for units that this package itself names.
func mustUnit(name string) Unit {
	u, ok := LookupUnit(name)
	if !ok {
		panic("quantity: no unit " + name)
	}
	return u
}

// UnitsOf lists the symbols of all named units of a dimension.
func UnitsOf(d Dimension) []string {
	var symbols []string
	for _, a := range atoms {
		if a.dim == d {
			symbols = append(symbols, a.symbol)
		}
	}
	return symbols
}

// compoundExamples are ways to write a kind that units of one name do not cover.
var compoundExamples = map[Dimension][]string{
	speedDim:  {"cm/s", "m/s"},
	turnDim:   {"rpm", "deg/s"},
	molarDim:  {"g/mol"},
	volumeDim: {"m^3"},
}

// ExampleUnits names a few units of a kind for a hint: "mm, cm or m", "mL or m^3". Three are
// enough for a class to see what is meant.
func ExampleUnits(d Dimension) string {
	const enough = 3
	names := compoundExamples[d]
	if d != speedDim && d != turnDim {
		names = append(UnitsOf(d), names...)
	}
	names = slices.DeleteFunc(slices.Clone(names), func(name string) bool { return name == "count" })
	names = names[:min(enough, len(names))]
	if len(names) == 0 {
		names = []string{baseUnit(d).String()}
	}
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// Examples names a few units of the kind of this one, as ExampleUnits does; the unit itself if no other is known.
func (u Unit) Examples() string {
	if d := u.Dimension(); len(UnitsOf(d))+len(compoundExamples[d]) > 0 || u.IsNumber() {
		return ExampleUnits(d)
	}
	return u.String()
}

// baseUnit is the unit of a dimension that is made of metres, turns, seconds, kilograms
// and moles.
func baseUnit(d Dimension) Unit {
	var u Unit
	for i, base := range [dimensions]*atom{length: atomByName["m"], angle: atomByName["rot"], time: atomByName["s"],
		mass: atomByName["kg"], amount: atomByName["mol"], current: atomByName["A"], temperature: atomByName["°C"],
		money: anyMoney} {
		if d[i] != 0 {
			u.terms = append(u.terms, term{base, int(d[i])})
		}
	}
	return u
}

// UnitSymbols lists the symbols of all named units.
func UnitSymbols() []string {
	symbols := make([]string, len(atoms))
	for i, a := range atoms {
		symbols[i] = a.symbol
	}
	return symbols
}

// UnitFactor is the size of a named unit in base units (metre, turn, second, kilogram,
// mole): Num/Den.
type UnitFactor struct {
	Dim      Dimension
	Num, Den float64
}

// UnitFactors returns the size of every named unit, aliases included.
func UnitFactors() map[string]UnitFactor {
	factors := make(map[string]UnitFactor, len(atomByName))
	for name, a := range atomByName {
		num, den := conversion(Unit{[]term{{a, 1}}}, Unit{})
		factors[name] = UnitFactor{a.dim, num, den}
	}
	return factors
}

// Dimension returns what the unit measures.
func (u Unit) Dimension() Dimension {
	var d Dimension
	for _, t := range u.terms {
		d = d.times(t.atom.dim, t.power)
	}
	return d
}

// IsNumber tells whether this is the unit of a plain number.
func (u Unit) IsNumber() bool { return len(u.terms) == 0 }

// IsLength tells whether this is a unit of length.
func (u Unit) IsLength() bool { return u.Dimension() == lengthDim }

// String writes the unit as the language reads it: "cm/s", "m^2", "".
func (u Unit) String() string {
	return u.format(func(t term) string { return t.atom.symbol }, func(n int) string { return "^" + itoa(n) })
}

// Symbol writes the unit for people: "cm/s", "m²", "°", "rotations", "cm/rotation". What
// authors write and programs read is String.
func (u Unit) Symbol() string {
	return u.format(func(t term) string {
		switch {
		case t.atom.shown == "":
			return t.atom.symbol
		case t.power < 0:
			return t.atom.one
		}
		return t.atom.shown
	}, superscript)
}

// format joins the factors above the line with ·, and those below it by a / each.
func (u Unit) format(name func(term) string, raised func(int) string) string {
	var over, under []string
	for _, t := range u.terms {
		factor := name(t)
		if n := max(t.power, -t.power); n != 1 {
			factor += raised(n)
		}
		if t.power > 0 {
			over = append(over, factor)
		} else {
			under = append(under, factor)
		}
	}
	if len(under) == 0 {
		return strings.Join(over, "·")
	}
	top := strings.Join(over, "·")
	if top == "" {
		top = "1"
	}
	return top + "/" + strings.Join(under, "/")
}

// AfterNumber returns what people read after a number of a unit that Symbol wrote: the
// singular after 1 and after a fraction of one, as in "1 rotation" and "1/4 rotation/s",
// else the unit as it is.
func AfterNumber(number, unit string) string {
	if number != "1" && (strings.Contains(number, " ") || !strings.Contains(number, "/")) {
		return unit
	}
	end := strings.IndexAny(unit, "·/")
	if end < 0 {
		end = len(unit)
	}
	if a := atomByName[unit[:end]]; a != nil && unit[:end] == a.shown {
		return a.one + unit[end:]
	}
	return singular(unit[:end]) + unit[end:]
}

// Equal tells whether two units are the same product, in whatever order.
func (u Unit) Equal(v Unit) bool {
	if len(u.terms) != len(v.terms) {
		return false
	}
	for _, t := range u.terms {
		if !slices.Contains(v.terms, t) {
			return false
		}
	}
	return true
}

// times multiplies u by v^power. Terms of one dimension are brought to the unit
// that u already has; scale is what the number must be multiplied by for that.
func (u Unit) times(v Unit, power int) (product Unit, scale float64) {
	if len(v.terms) == 0 {
		return u, 1
	}
	if len(u.terms) > 0 || power < 0 {
		u, v = u.opened().Difference(), v.opened().Difference()
	}
	terms := slices.Clone(u.terms)
	scale = 1
	for _, t := range v.terms {
		n := t.power * power
		i := slices.IndexFunc(terms, func(have term) bool { return have.atom == t.atom })
		if i < 0 {
			i = slices.IndexFunc(terms, func(have term) bool {
				return have.atom.dim == t.atom.dim && !(n == 1 && have.power == 1 && counts(have.atom, t.atom))
			})
		}
		if i < 0 {
			terms = append(terms, term{t.atom, n})
			continue
		}
		scale *= math.Pow(ratio(t.atom, terms[i].atom), float64(n))
		terms[i].power += n
	}
	terms = slices.DeleteFunc(terms, func(t term) bool { return t.power == 0 })
	return Unit{terms}, scale
}

// ratio tells how many of b make one a, both of one dimension.
func ratio(a, b *atom) float64 {
	num, den := (&conversionFactor{1, 1, 0}).times(a, 1).times(b, -1).reduced()
	return num / den
}

// A conversionFactor is num/den · (2π)^twoPi, with num and den whole as long as they fit.
type conversionFactor struct {
	num, den float64
	twoPi    int
}

// times multiplies by a^power and cancels what num and den have in common, so that both
// stay small enough to be exact.
func (f *conversionFactor) times(a *atom, power int) *conversionFactor {
	n := power
	num, den := a.num, a.den
	if n < 0 {
		n, num, den = -n, den, num
	}
	for range n {
		f.num, f.den = f.num*num, f.den*den
		if g := gcd(f.num, f.den); g > 1 {
			f.num, f.den = f.num/g, f.den/g
		}
	}
	if a.perTwoPi {
		f.twoPi -= power
	}
	return f
}

func (f *conversionFactor) reduced() (num, den float64) {
	num, den = f.num, f.den
	for i := f.twoPi; i > 0; i-- {
		num *= 2 * math.Pi
	}
	for i := f.twoPi; i < 0; i++ {
		den *= 2 * math.Pi
	}
	return num, den
}

// gcd is 1 for numbers that a float64 may not hold exactly.
func gcd(a, b float64) float64 {
	const exact = 1 << 53
	if a >= exact || b >= exact {
		return 1
	}
	for b != 0 {
		a, b = b, math.Mod(a, b)
	}
	return a
}

// conversion returns num and den such that a number in u times num over den is the
// number in v. Keeping the two apart lets 20 in become 50.8 cm to the last bit.
func conversion(u, v Unit) (num, den float64) {
	f := &conversionFactor{1, 1, 0}
	for _, t := range u.terms {
		f.times(t.atom, t.power)
	}
	for _, t := range v.terms {
		f.times(t.atom, -t.power)
	}
	return f.reduced()
}

// ExactRatio returns how many v make one u as a fraction, and false where π has a
// part in it or the dimensions differ.
func ExactRatio(u, v Unit) (*big.Rat, bool) {
	if u.Dimension() != v.Dimension() {
		return nil, false
	}
	if before, after := warmthShift(u, v); before != after { // 20 °C is not so many times 1 °F
		return nil, false
	}
	r := big.NewRat(1, 1)
	twoPi := 0
	multiply := func(terms []term, sign int) {
		for _, t := range terms {
			one := new(big.Rat).SetFloat64(t.atom.num)
			one.Quo(one, new(big.Rat).SetFloat64(t.atom.den))
			if t.power*sign < 0 {
				one.Inv(one)
			}
			for range max(t.power, -t.power) {
				r.Mul(r, one)
			}
			if t.atom.perTwoPi {
				twoPi += t.power * sign
			}
		}
	}
	multiply(u.terms, 1)
	multiply(v.terms, -1)
	return r, twoPi == 0
}

// Alike tells whether a number in u may be given in v: the dimensions agree, or
// they differ by rotations alone. A plain number may be called rotations, and a
// count of rotations may stand for its number; degrees and radians may not, since
// 90° × 20 cm has no plain meaning as a length.
func Alike(u, v Unit) bool {
	du, dv := u.Dimension(), v.Dimension()
	if du == dv {
		return true
	}
	if slices.Contains(u.terms, term{rotation, 1}) && du[angle] == dv[angle]+1 {
		du[angle]--
		return du == dv // 3 rot × 360° in degrees
	}
	if !u.countsRotations() || !v.countsRotations() {
		return false
	}
	du[angle], dv[angle] = 0, 0
	return du == dv
}

// countsRotations tells whether all angles of the unit are rotations; a unit without an
// angle passes.
func (u Unit) countsRotations() bool {
	for _, t := range u.opened().terms {
		if t.atom.dim == angleDim && (t.atom.num != t.atom.den || t.atom.perTwoPi) {
			return false
		}
	}
	return true
}

// anyMoney stands for the currency that a pack names; no lesson can write it.
var anyMoney = &atom{symbol: "money", dim: moneyDim, num: 1, den: 1}

func itoa(n int) string { return strconv.Itoa(n) }
