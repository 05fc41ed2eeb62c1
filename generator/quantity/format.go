package quantity

// This file writes numbers for people: rounded to a step, with a few digits, or with their
// uncertainty. site/scripts/show.js does the same on the page.

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Minus is the sign that numbers for people are written with.
const Minus = "−"

// Grouped writes a whole number with commas between its thousands, as in "1,000,000".
func Grouped(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return withMinus(s)
}

// Snapped is x for other programs: without the digits that binary arithmetic cannot be trusted with.
func Snapped(x float64) float64 { return snap(x) }

// snap drops the digits of x that binary arithmetic cannot be trusted with. Those before the point stay,
// as far as a float64 has them: dropping them would put zeros in their place.
func snap(x float64) float64 {
	digits := snapDigits
	switch size := math.Abs(x); {
	case size >= 1e15:
		return x
	case size >= 1e13:
		digits = 15
	}
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	if err != nil {
		return x
	}
	return y
}

// FormatStep writes x rounded to the step: "20.4", "8 1/32", "−0.50".
func FormatStep(x float64, s Rounding) string {
	steps := RoundToStep(x, s)
	n, _ := new(big.Float).SetFloat64(steps).Int(nil)
	if n == nil {
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	rounded := new(big.Rat).Mul(new(big.Rat).SetInt(n), s.size)
	places := s.decimals()
	if s.IsFraction() || places < 0 {
		return formatMixed(rounded)
	}
	return withMinus(rounded.FloatString(places))
}

// formatMixed writes a fraction in lowest terms, whole part first.
func formatMixed(r *big.Rat) string {
	sign := ""
	if r.Sign() < 0 {
		sign, r = Minus, new(big.Rat).Neg(r)
	}
	if r.IsInt() {
		return sign + r.Num().String()
	}
	whole, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	part := rest.String() + "/" + r.Denom().String()
	if whole.Sign() == 0 {
		return sign + part
	}
	return sign + whole.String() + " " + part
}

// FormatSignificant writes x with at most n significant digits and no exponent
// for numbers of a size that a class meets.
func FormatSignificant(x float64, n int) string {
	if x == 0 {
		return "0"
	}
	exponent := int(math.Floor(math.Log10(math.Abs(x))))
	if exponent > 14 || exponent < -9 {
		digits, power, _ := strings.Cut(strconv.FormatFloat(x, 'e', n-1, 64), "e")
		if strings.Contains(digits, ".") {
			digits = strings.TrimRight(strings.TrimRight(digits, "0"), ".")
		}
		return withMinus(digits) + strings.Replace("e"+power, "e-", "e"+Minus, 1)
	}
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(snap(x), 'e', n-1, 64), 64)
	return withMinus(strconv.FormatFloat(rounded, 'f', -1, 64))
}

// FormatPlain writes x with every digit it has if those are seven or fewer, else with four
// significant ones and all before the point: 2149.385 stays, 5.876474589… becomes 5.876.
func FormatPlain(x float64) string {
	const all, some = 7, 4
	if full := FormatSignificant(x, trusted(x)); significant(full) <= all {
		return full
	}
	return FormatSignificant(x, max(some, wholeDigits(x)))
}

// wholeDigits is how many digits x has before the point, as far as a float64 knows them.
func wholeDigits(x float64) int {
	size := math.Abs(x)
	if size < 1 || size >= 1e15 {
		return 1
	}
	return int(math.Floor(math.Log10(snap(size)))) + 1
}

// trusted is how many digits of x tell whether it is a short number.
func trusted(x float64) int { return min(15, max(snapDigits-1, wholeDigits(x)+1)) }

// digitsOf writes a number that is not to be rounded yet: whole if it is short, else cut after six
// significant digits and one after the point at least, with dots to say so.
func digitsOf(x float64) string {
	const short = 8
	full := FormatSignificant(x, trusted(x))
	significand, power, far := strings.Cut(full, "e")
	if significant(significand) <= short {
		return full
	}
	cut := cutDigits(significand)
	if far {
		return cut + "e" + power
	}
	return cut
}

// cutDigits cuts a written number. What has no point has nothing to cut.
func cutDigits(full string) string {
	const cut = 6
	kept, seen := 0, false
	for i, r := range full {
		if '1' <= r && r <= '9' || r == '0' && seen {
			seen = true
			// A point is kept only with a digit after it.
			if point := strings.IndexByte(full[:i], '.'); point >= 0 && i > point+1 && kept >= cut {
				return full[:i] + "…"
			}
			kept++
		}
	}
	return full
}

// significant counts the digits of a written number from the first that is not zero.
func significant(s string) int {
	s, _, _ = strings.Cut(s, "e")
	s = strings.TrimLeft(strings.Replace(strings.TrimPrefix(s, Minus), ".", "", 1), "0")
	return len(s)
}

// FormatUncertain writes a value and its standard uncertainty rounded as JCGM
// 100:2008, 7.2.6 asks: the uncertainty to two significant digits, the value to
// the same place. The two texts come without a unit.
func FormatUncertain(x, u float64) (value, uncertainty string) {
	if u <= 0 || math.IsInf(u, 0) || math.IsNaN(u) {
		return FormatPlain(x), ""
	}
	s := uncertaintyStep(u)
	return FormatStep(x, s), FormatStep(roundUncertainty(u, s), s)
}

// uncertaintyStep is the place of the second significant digit of u. Nearest
// rounding may carry 0.0997 into one more digit; then one place fewer will do.
func uncertaintyStep(u float64) Rounding {
	place := int(math.Floor(math.Log10(snap(u)))) - 1
	s := decimalStep(place)
	if roundUncertainty(u, s)/s.Float() > 99.5 {
		s = decimalStep(place + 1)
	}
	return s
}

// roundUncertainty rounds to the nearest step, but up where the nearest would
// understate u by more than one part in forty. JCGM 100:2008, 7.2.6 rounds 10.47
// up to 11 and 28.05 down to 28; the part is our reading of "common sense" there.
func roundUncertainty(u float64, s Rounding) float64 {
	const understated = 1.0 / 40
	steps := RoundToStep(u, s)
	if exact := snap(u / s.Float()); (exact-steps)/exact > understated {
		steps++
	}
	return steps * s.Float()
}

// decimalStep is 10 to the power of place.
func decimalStep(place int) Rounding {
	if place < 0 {
		return Rounding{size: new(big.Rat).SetFrac(big.NewInt(1), pow10(-place))}
	}
	return Rounding{size: new(big.Rat).SetInt(pow10(place))}
}

// FormatPlaces writes x to so many decimal places, halves rounded away from zero.
func FormatPlaces(x float64, places int) string { return FormatStep(x, decimalStep(-places)) }

// withMinus writes a true minus for a hyphen, and no sign for a zero.
func withMinus(s string) string {
	if rest, negative := strings.CutPrefix(s, "-"); negative {
		if strings.Trim(rest, "0.") == "" {
			return rest
		}
		return Minus + rest
	}
	return s
}
