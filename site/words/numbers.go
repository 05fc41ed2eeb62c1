package words

// Numbers and quotation marks among the texts. All of the program writes numbers with points; here, last, they get the
// language's form.

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"trundle/generator/locale"
)

// The forms of numbers stand among the texts under names of their own, so that whoever has the words has them.
const (
	formDecimal   = "form-decimal"
	formThousands = "form-thousands"
	formGrouped   = "form-thousands-from"
	formList      = "form-list"
	formMarks     = "form-marks" // quotation marks and blanks, a tab between them
	formOnsets    = "form-onsets"
	formLetters   = "form-letters"
)

// keep puts the forms among the texts.
func (w Words) keep(f locale.Forms) {
	w[formDecimal], w[formThousands], w[formList] = f.Decimal, f.Thousands, f.List
	w[formGrouped] = strconv.Itoa(f.ThousandsFrom)
	w[formMarks] = strings.Join(slices.Concat(f.Quotes[:], f.InnerQuotes[:], f.Unbroken), "\t")
	w[formLetters] = strings.Join(f.Letters, " ")
	w[formOnsets] = strings.Join(f.Onsets, " ")
}

// numbers are how the language writes numbers.
func (w Words) numbers() locale.Forms {
	from, _ := strconv.Atoi(w[formGrouped])
	return locale.Forms{Decimal: w[formDecimal], Thousands: w[formThousands], ThousandsFrom: from, List: w[formList]}
}

// Forms are how the language writes numbers and quotations.
func (w Words) Forms() locale.Forms {
	f := w.numbers()
	f.Letters, f.Onsets = strings.Fields(w[formLetters]), strings.Fields(w[formOnsets])
	if marks := strings.Split(w[formMarks], "\t"); len(marks) >= 4 {
		f.Quotes, f.InnerQuotes, f.Unbroken = [2]string(marks[:2]), [2]string(marks[2:4]), marks[4:]
	}
	return f
}

// Number writes a number of ours, which has a point in it, with its unit, or several.
func (w Words) Number(text string) string { return w.limited(w.Unit(w.numbers().Number(text))) }

// limitWord joins a number to its limit where the program writes both.
const limitWord = "within "

// limited says in the language how sure a number is that has a limit: 56 mm within 0.5 mm, or the limit alone. The
// comparison "a within b of c" has its words elsewhere.
func (w Words) limited(text string) string {
	value, limit, found := strings.Cut(text, limitWord)
	switch {
	case !found || strings.Contains(limit, " of ") || w["limit"] == "":
		return text
	case value == "":
		return w.Say("limit", limit)
	case strings.HasSuffix(value, " "):
		return w.Say("limit-of", strings.TrimSuffix(value, " "), limit)
	}
	return text
}

// Between stands between the values of a function.
func (w Words) Between() string { return w.numbers().Between() }

// unitWords are the units that are words, by what the program calls them; the first of each text is the singular.
var unitWords = map[string]string{
	"rotation": "unit-rotation" + OneForm, "rotations": "unit-rotation",
	"count": "unit-count" + OneForm, "counts": "unit-count",
}

// truthWords are what is no number, and stands where one would.
var truthWords = map[string]string{"yes or no": "unit-yes-or-no", "yes": "check-yes", "no": "check-no"}

// Unit writes the units of a text of ours. A name of a formula, which a bracket follows, is none.
func (w Words) Unit(text string) string {
	if name := truthWords[text]; name != "" && w[name] != "" {
		return w[name]
	}
	if w["unit-rotation"] == "rotations" || !strings.Contains(text, "rotation") && !strings.Contains(text, "count") {
		return text
	}
	var out strings.Builder
	for rest := text; rest != ""; {
		n := strings.IndexFunc(rest, isNameLetter)
		if n < 0 {
			n = len(rest)
		}
		out.WriteString(rest[:n])
		rest = rest[n:]
		end := strings.IndexFunc(rest, func(r rune) bool { return !isNameLetter(r) })
		if end < 0 {
			end = len(rest)
		}
		word := rest[:end]
		if name := unitWords[word]; name != "" && w[name] != "" && !strings.HasPrefix(rest[end:], "(") {
			word = w[name]
		}
		out.WriteString(word)
		rest = rest[end:]
	}
	return out.String()
}

// UnitNames are the names that the language has for a unit where they are others than the program's, the plural first.
func (w Words) UnitNames(symbol string) []string {
	var names []string
	for _, called := range []string{symbol, strings.TrimSuffix(symbol, "s")} {
		if name := w[unitWords[called]]; name != "" && unitWords[name] == "" {
			names = append(names, name)
		}
	}
	return slices.Compact(names)
}

// UnitSingulars are the singulars of these names.
func (w Words) UnitSingulars() map[string]string {
	ones := map[string]string{}
	for _, symbol := range []string{"rotations", "counts"} {
		if names := w.UnitNames(symbol); len(names) > 1 {
			ones[names[0]] = names[1]
		}
	}
	return ones
}

func isNameLetter(r rune) bool { return r == '_' || unicode.IsLetter(r) || '0' <= r && r <= '9' }

// Step gives a word of worked steps, such as "largest" or the name of a part of a formula; what no language has, such
// as a pack's own, stays.
func (w Words) Step(text string) string {
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == '_' || !isNameLetter(r) })
	name := "step-" + strings.Join(parts, "-")
	if said, ok := w[name]; ok {
		return said
	}
	return text
}

// Count writes a whole number.
func (w Words) Count(n int) string { return w.numbers().Count(n) }
