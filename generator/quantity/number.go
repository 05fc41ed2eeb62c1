package quantity

// This file holds numbers as somebody wrote them, exact to the last digit, and the steps
// that values are rounded to.

import (
	"math"
	"math/big"
	"strings"
	"unicode/utf8"
)

// MaxDigits bounds what a number may be written with. No measurement of this
// trade has more, and calculations with very long numbers would only look exact.
const MaxDigits = 30

// Number is a number as somebody wrote it: its value and the worth of its last
// written place, by which a key is compared.
type Number struct {
	Text  string
	Exact *big.Rat // nil only in the zero Number
	Place *big.Rat // 0.1 for 20.4, 1/2 for 36 1/2, 1 for 120
}

// Float returns the nearest float64.
func (n Number) Float() float64 {
	if n.Exact == nil {
		return 0
	}
	f, _ := n.Exact.Float64()
	return f
}

// Rounding is the step that a value is rounded to, such as 0.1 or 1/16. The zero
// Rounding means none.
type Rounding struct {
	size *big.Rat
	tape bool // not written as a decimal
}

// Step returns the number as a rounding step. One that nobody wrote, such as the worth
// of a last place, is taken for a fraction of a tape if it can be one.
func (n Number) Step() Rounding {
	return Rounding{n.Exact, n.Text == "" || strings.Contains(n.Text, "/")}
}

// IsZero tells whether no step is asked for.
func (s Rounding) IsZero() bool { return s.size == nil || s.size.Sign() == 0 }

// Float returns the size of the step.
func (s Rounding) Float() float64 {
	if s.size == nil {
		return 0
	}
	f, _ := s.size.Float64()
	return f
}

// String writes the step as the language reads it.
func (s Rounding) String() string {
	switch {
	case s.IsZero():
		return ""
	case s.decimals() >= 0 && !s.IsFraction():
		return s.size.FloatString(s.decimals())
	}
	return s.size.RatString()
}

// IsFraction tells whether the step is a part of a tape measure, such as 1/16,
// rather than a decimal place such as 0.5.
func (s Rounding) IsFraction() bool {
	return s.tape && s.size.Num().Cmp(big.NewInt(1)) == 0 && s.decimals() != 0 &&
		new(big.Int).And(s.size.Denom(), new(big.Int).Sub(s.size.Denom(), big.NewInt(1))).Sign() == 0
}

// decimals is how many places a multiple of the step needs, or −1 if no number of
// places will do: the power of ten that its denominator divides.
func (s Rounding) decimals() int {
	ten, denominator := big.NewInt(10), s.size.Denom()
	rest := new(big.Int).Mod(big.NewInt(1), denominator)
	for n := range MaxDigits {
		if rest.Sign() == 0 {
			return n
		}
		rest.Mod(rest.Mul(rest, ten), denominator)
	}
	return -1
}

func pow10(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }

// number = decimal | integer "/" integer | integer integer "/" integer | decimal ":" decimal {":" decimal}
//
// scanNumber reads the longest number at the start of s and gives its length, 0
// if there is none. An integer, blanks and a fraction are one mixed number; ½ is 1/2.
func scanNumber(s string) (Number, int, *Error) {
	whole := countDigits(s)
	end := whole
	if n := colons(s); n > 0 {
		return ratioOf(s[:n])
	}
	if end < len(s) && s[end] == '.' {
		if places := countDigits(s[end+1:]); places > 0 {
			return decimal(s[:end+1+places])
		}
	}
	if part := vulgar(strings.TrimLeft(s[end:], " \u00a0")); part != "" {
		return withVulgar(s, whole, part)
	}
	if whole == 0 {
		return Number{}, 0, nil
	}
	if n := fraction(s); n > 0 {
		return mixed("0", s[:n], s[:n])
	}
	blanks := len(s[end:]) - len(strings.TrimLeft(s[end:], " \u00a0"))
	if n := fraction(s[end+blanks:]); blanks > 0 && n > 0 {
		return mixed(s[:whole], s[end+blanks:end+blanks+n], s[:end+blanks+n])
	}
	return decimal(s[:whole])
}

// vulgar returns the fraction that one sign at the start of s stands for, such as 1/2 for ½, or "".
func vulgar(s string) string {
	r, _ := utf8.DecodeRuneInString(s)
	if part := typedSigns[r]; strings.Contains(part, "/") && len(part) > 1 {
		return part
	}
	return ""
}

// withVulgar reads 36½ or ½. The number's text is as 36 1/2 is written, since people read both in one form.
func withVulgar(s string, whole int, part string) (Number, int, *Error) {
	blanks := len(s[whole:]) - len(strings.TrimLeft(s[whole:], " \u00a0"))
	_, size := utf8.DecodeRuneInString(s[whole+blanks:])
	end := whole + blanks + size
	if whole == 0 {
		n, _, err := mixed("0", part, part)
		return n, end, err
	}
	n, _, err := mixed(s[:whole], part, s[:whole]+" "+part)
	return n, end, err
}

// colons returns the length of 3:5, 2.5:1 or 1:02:30 at the start of s, or 0.
func colons(s string) int {
	end, parts := 0, 0
	for {
		n := countDigits(s[end:])
		if n > 0 && end+n < len(s) && s[end+n] == '.' {
			if places := countDigits(s[end+n+1:]); places > 0 {
				n += 1 + places
			}
		}
		if n == 0 {
			break
		}
		end, parts = end+n, parts+1
		if end == len(s) || s[end] != ':' || countDigits(s[end+1:]) == 0 {
			break
		}
		end++
	}
	if parts < 2 {
		return 0
	}
	return end
}

// ratioOf reads 3:5 as three fifths. What the colons mean where the unit of a time follows, asTime says.
func ratioOf(text string) (Number, int, *Error) {
	if tooLong(text) {
		return Number{}, len(text), longNumber(text)
	}
	parts := strings.Split(text, ":")
	over, _ := new(big.Rat).SetString(parts[0])
	under, _ := new(big.Rat).SetString(parts[1])
	n := Number{Text: text, Exact: new(big.Rat), Place: new(big.Rat)}
	if len(parts) == 2 && under.Sign() != 0 {
		n.Exact.Quo(over, under)
		n.Place.Inv(under)
	}
	return n, len(text), nil
}

// hasColon tells whether the number is written as 3:5.
func (n Number) hasColon() bool { return strings.Contains(n.Text, ":") }

// asTime makes a number of 2:30 in minutes, or 1:02:30 in hours: each part is a sixtieth of the one before. It
// gives false for what no clock shows.
func (n Number) asTime() (Number, bool) {
	parts := strings.Split(n.Text, ":")
	sum, place := new(big.Rat), big.NewRat(1, 1)
	for i, part := range parts {
		x, _, err := decimal(part)
		whole := !strings.Contains(part, ".") || i == len(parts)-1
		if err != nil || !whole || i > 0 && (countDigits(part) != 2 || x.Float() >= 60) {
			return n, false
		}
		if i > 0 {
			place.Quo(place, big.NewRat(60, 1))
		}
		sum.Add(sum, new(big.Rat).Mul(x.Exact, place))
		n.Place = new(big.Rat).Mul(x.Place, place)
	}
	n.Exact = sum
	return n, true
}

// countDigits counts the digits at the start of s.
func countDigits(s string) int {
	n := 0
	for n < len(s) && '0' <= s[n] && s[n] <= '9' {
		n++
	}
	return n
}

// fraction returns the length of integer "/" integer at the start of s, or 0.
func fraction(s string) int {
	top := countDigits(s)
	if top == 0 || top == len(s) || s[top] != '/' {
		return 0
	}
	bottom := countDigits(s[top+1:])
	if bottom == 0 {
		return 0
	}
	return top + 1 + bottom
}

// decimal reads a number of digits and at most one point. Its last place is what its
// countDigits say: 20.40 is given to the hundredth.
func decimal(s string) (Number, int, *Error) {
	if tooLong(s) {
		return Number{}, len(s), longNumber(s)
	}
	exact, _ := new(big.Rat).SetString(s)
	places := 0
	if dot := strings.IndexByte(s, '.'); dot >= 0 {
		places = len(s) - dot - 1
	}
	return Number{Text: s, Exact: exact, Place: new(big.Rat).SetFrac(big.NewInt(1), pow10(places))}, len(s), nil
}

// mixed reads a whole number and a fraction; text is both as written. Its last place is
// one part of the fraction.
func mixed(whole, part, text string) (Number, int, *Error) {
	if tooLong(text) {
		return Number{}, len(text), longNumber(text)
	}
	top, bottom, _ := strings.Cut(part, "/")
	den, _ := new(big.Rat).SetString(bottom)
	if den.Sign() == 0 {
		return Number{}, len(text), &Error{
			Slug: "division-by-zero",
			What: "the fraction " + part + " divides by zero",
			Hint: "give the lower number of the fraction a value, as in 1/2",
		}
	}
	num, _ := new(big.Rat).SetString(top)
	base, _ := new(big.Rat).SetString(whole)
	exact := num.Quo(num, den)
	return Number{Text: text, Exact: exact.Add(exact, base), Place: den.Inv(den)}, len(text), nil
}

func tooLong(s string) bool { return len(s) > MaxDigits }

func longNumber(s string) *Error {
	return &Error{
		Slug: "number-too-long",
		What: "a number of " + itoa(len(s)) + " characters is too long to work with",
		Hint: "write at most " + itoa(MaxDigits) + " characters; nothing on a test floor is measured to more",
	}
}

// snapDigits is how many significant digits of a float64 are trusted before
// rounding: 2.675 is kept in binary a hair below itself and must still round up,
// as a class would round it.
const snapDigits = 13

// RoundToStep rounds x to a multiple of the step, halves away from zero (rule B of
// ISO 80000-1, Annex B, as taught in schools), and gives the number of steps.
func RoundToStep(x float64, s Rounding) float64 {
	return math.Round(snap(x / s.Float()))
}

// Round returns the multiple of the step that is nearest to x.
func (s Rounding) Round(x float64) float64 { return RoundToStep(x, s) * s.Float() }
