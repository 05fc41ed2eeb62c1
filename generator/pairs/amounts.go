package pairs

// This file reads amounts: numbers with units, as people type them in prose.

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"trundle/generator/quantity"
	"trundle/generator/wording"
)

// An amount is a quantity as somebody types it in prose, "36 1/2 inches" or
// "5 ft 3 in", and its place in its text.
type amount struct {
	start, end int
	units      []quantity.Unit // more than one for 5 ft 3 in
	unit       quantity.Unit   // the last of them
	number     float64         // all of it, in unit
	step       float64         // worth of the last written place in unit; 0 for "an inch"
	rounding   quantity.Rounding
	word       bool // "an inch"
	whole      bool // written without decimals or fraction
	fraction   bool // written with a fraction, 1/4
}

// symbolOf returns the symbol of the unit that a word or mark stands for. A turn is left
// out: on a floor it is a corner as often as 360°. So are percent and parts per million,
// which are of no kind that could have two units, and temperatures, of which one is not so many times the other.
var symbolOf = func() map[string]string {
	symbols := map[string]string{}
	for _, symbol := range quantity.UnitSymbols() {
		if u, _ := quantity.LookupUnit(symbol); u.Dimension() == (quantity.Dimension{}) || strings.Contains(symbol, "°") {
			continue
		}
		for _, name := range quantity.NamesOfUnit(symbol) {
			symbols[name] = symbol
		}
	}
	delete(symbols, "turn")
	delete(symbols, "turns")
	return symbols
}()

const vulgar = "½¼¾⅓⅔⅛⅜⅝⅞"

var vulgarFractions = strings.NewReplacer("½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

// A numberForm is a way to write a number: its pattern, whose group is the number, and
// what makes of it a number of trundle's own language.
type numberForm struct {
	pattern  *wording.Pattern
	plain    func(string) string
	fraction bool
}

// numberForms are tried in this order. A comma before three digits is a thousands mark,
// unless its number starts with 0.
var numberForms = []numberForm{
	{ // 1,200 or 1,200.5
		pattern: wording.New(`^([1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?)(?:$|[^\d,.]|[,.](?:$|\D))`),
		plain:   func(s string) string { return strings.ReplaceAll(s, ",", "") },
	},
	{ // 20.4 or 20,4
		pattern: wording.New(`^(\d+[.,]\d+)`),
		plain:   func(s string) string { return strings.ReplaceAll(s, ",", ".") },
	},
	{ // 36 1/2, 36-1/2, 1/2 or 36½
		pattern: wording.New(`^(\d+[ -]\d+/\d+|\d+/\d+|\d* ?[` + vulgar + `])`),
		plain: func(s string) string {
			return strings.Replace(strings.TrimSpace(vulgarFractions.Replace(s)), "-", " ", 1)
		},
		fraction: true,
	},
	{pattern: wording.New(`^(\d+)`), plain: func(s string) string { return s }},
}

// wordAt reads "a" or "one" before a unit that is written out.
var wordAt = wording.New(`^(?:[Aa]n?|[Oo]ne) (\pL{4,})`)

// amountsIn finds all amounts of a text.
func amountsIn(text string, w *Words) []amount {
	var all []amount
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		inWord := i > 0 &&
			(unicode.IsLetter(before) || unicode.IsDigit(before) || strings.ContainsRune("_$€£#.", before))
		if unicode.IsLetter(r) && !inWord {
			if a, ok := inWords(text, i); ok && w == nil {
				all, i = append(all, a), a.end
				continue
			}
		}
		if !unicode.IsDigit(r) && !strings.ContainsRune(vulgar, r) {
			i += size
			continue
		}
		a, ok := readAmount(text, i, w)
		if ok && !inWord {
			all, i = append(all, a), a.end
			continue
		}
		i = max(i+size, i+len(text[i:])-len(strings.TrimLeft(text[i:], "0123456789.,/")))
	}
	return asOne(all, text)
}

func inWords(text string, i int) (amount, bool) {
	m := wordAt.FindStringSubmatchIndex(nextSentences(text[i:]))
	if m == nil {
		return amount{}, false
	}
	u, n, ok := unitAt(text[i+m[2]:], nil)
	ok = ok && !strings.HasPrefix(text[i+m[2]+n:], " of ") // "a rotation of 90°" is one thing
	return amount{start: i, end: i + m[2] + n, units: []quantity.Unit{u}, unit: u, number: 1, word: true}, ok
}

// readAmount reads a number with its unit and sign; the number starts at i.
func readAmount(text string, i int, w *Words) (amount, bool) {
	number, form, size := readNumber(text[i:], w.numberForms())
	if size == 0 {
		return amount{}, false
	}
	at, ok := unitStart(text, i+size)
	if !ok {
		return amount{}, false
	}
	u, n, ok := unitAt(text[at:], w)
	if !ok {
		return amount{}, false
	}
	step, _ := number.Place.Float64()
	a := amount{
		start: i, end: at + n, units: []quantity.Unit{u}, unit: u, number: number.Float(), step: step,
		rounding: quantity.Number{Text: number.Text, Exact: number.Place}.Step(),
		fraction: form.fraction, whole: !form.fraction && !strings.Contains(number.Text, "."),
	}
	if size := minusBefore(text, i); size > 0 {
		a.start, a.number, a.whole = i-size, -a.number, false
	}
	return a, true
}

// readNumber reads the number at the start of s, and gives how it is written and its
// length there, 0 if there is none.
func readNumber(s string, forms []numberForm) (quantity.Number, numberForm, int) {
	for _, form := range forms {
		m := form.pattern.FindStringSubmatch(nextSentences(s))
		if m == nil {
			continue
		}
		p := quantity.NewParser(form.plain(m[1]), func(k int) int { return k })
		number, _, _, err := p.Number("a quantity")
		if err != nil {
			break // too long, or divided by zero
		}
		return number, form, len(m[1])
	}
	return quantity.Number{}, numberForm{}, 0
}

// unitStart returns where the unit after a number begins that ends at end, after a blank or
// hyphen. It is false at a quote mark that does not mean inches or feet.
func unitStart(text string, end int) (int, bool) {
	at := end
	if at < len(text) && (text[at] == ' ' || text[at] == '-') {
		at++
	}
	apart := at > end && at < len(text) && (text[at] == '"' || text[at] == '\'')
	return at, !apart && !isQuote(text, at)
}

// isQuote tells whether the mark at i closes a quotation rather than stand for inches
// or feet: then one has been opened before.
func isQuote(text string, i int) bool {
	if i >= len(text) || text[i] != '"' && text[i] != '\'' {
		return false
	}
	return strings.Count(lastSentences(text[:i]), text[i:i+1])%2 == 1
}

// minusBefore returns the length of a minus sign that belongs to the number at i. One
// with a number or word before it is a hyphen or a range.
func minusBefore(text string, i int) int {
	for _, sign := range []string{"-", quantity.Minus} {
		before, found := strings.CutSuffix(text[:i], sign)
		if found && (before == "" || strings.ContainsAny(before[len(before)-1:], " (=~")) {
			return len(sign)
		}
	}
	return 0
}

var (
	temperature = wording.New(`^(?: ?[CFK]| Celsius| Fahrenheit)(?:$|[^\pL])`)
	fullStop    = wording.New(`^\.(?:[),]| \(| =| or )`)
)

// unitAt reads a unit, "inches", "cm/s" or "m²", and gives its length.
func unitAt(s string, w *Words) (quantity.Unit, int, bool) {
	symbols, n := "", 0
	for {
		word := unitWord(s[n:])
		symbol, known := w.symbol(word)
		if !known {
			return quantity.Unit{}, 0, false
		}
		symbols, n = symbols+symbol, n+len(word)
		for _, power := range []string{"²", "³", "^2", "^3"} {
			if strings.HasPrefix(s[n:], power) {
				symbols, n = symbols+power, n+len(power)
			}
		}
		if !strings.HasPrefix(s[n:], "/") {
			break
		}
		if _, known := w.symbol(unitWord(s[n+1:])); !known {
			break
		}
		symbols, n = symbols+"/", n+1
	}
	if symbols == "deg" && temperature.MatchString(nextSentences(s[n:])) {
		return quantity.Unit{}, 0, false
	}
	if n < len(s) && unicode.IsDigit(rune(s[n])) {
		return quantity.Unit{}, 0, false
	}
	if fullStop.MatchString(nextSentences(s[n:])) {
		n++ // the point of "48 in. (122 cm)"
	}
	u, err := quantity.ParseUnit(symbols)
	return u, n, err == nil
}

// unitWord is the run of letters at the start of s, or a mark that stands for a unit.
func unitWord(s string) string {
	for _, mark := range []string{"″", "′", "\"", "'", "°"} {
		if strings.HasPrefix(s, mark) {
			return mark
		}
	}
	return s[:len(s)-len(strings.TrimLeftFunc(s, unicode.IsLetter))]
}

// asOne puts 5 ft and 3 in together where they are one amount: the next unit is
// smaller, and less than one of the unit before.
func asOne(all []amount, text string) []amount {
	var out []amount
	for _, b := range all {
		if len(out) > 0 {
			a := &out[len(out)-1]
			gap := text[a.end:b.start]
			one, ok := quantity.New(1, a.unit).In(b.unit)
			fits := ok && a.whole && !b.word && a.unit.Dimension() == b.unit.Dimension() &&
				b.number >= 0 && b.number < one.Number
			if fits && (gap == " " || gap == "") {
				a.end, a.units, a.unit, a.whole = b.end, append(a.units, b.unit), b.unit, b.whole
				a.number, a.step, a.rounding = a.number*one.Number+b.number, b.step, b.rounding
				continue
			}
		}
		out = append(out, b)
	}
	return out
}

// isCount tells whether this is a number of rotations without decimals: 1/4 rot is a
// part of a circle, not a reading to the nearest quarter.
func (a amount) isCount() bool {
	return a.unit.String() == "rot" && (a.whole || a.rounding.IsFraction())
}

// last is the part of x, a number in the last unit, that the last unit is to show:
// the inches of 5 ft 3 in.
func (a amount) last(x float64) float64 {
	for _, u := range a.units[:len(a.units)-1] {
		one, _ := quantity.New(1, u).In(a.unit)
		x -= math.Floor(x/one.Number+1e-9) * one.Number
	}
	return x
}

// written returns x, a number in the last unit, in a's units; format writes the last.
func (a amount) written(x float64, format func(float64) string) string {
	text := ""
	for _, u := range a.units[:len(a.units)-1] {
		one, _ := quantity.New(1, u).In(a.unit)
		n := math.Floor(x/one.Number + 1e-9)
		x -= n * one.Number
		text += quantity.Shown{Number: quantity.FormatPlain(n), Unit: u.Symbol()}.Text() + " "
	}
	return text + quantity.Shown{Number: format(x), Unit: a.unit.Symbol()}.Text()
}

// round rounds x, a number in the last unit, to a's own last place.
func (a amount) round(x float64) float64 {
	return a.rounding.Round(x)
}

// rounded is written with x rounded. Rounding comes first, so that 5 ft 11.9 in
// becomes 6 ft 0 in.
func (a amount) rounded(x float64) string {
	return a.written(a.round(x), func(x float64) string { return quantity.FormatStep(x, a.rounding) })
}
