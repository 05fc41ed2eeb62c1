package words

// Numbers among the texts. All of the program writes them with points; here, last, they get the language's form.

import (
	"strconv"

	"trundle/generator/locale"
)

// The forms of numbers stand among the texts under names of their own, so that whoever has the words has them.
const (
	formDecimal   = "form-decimal"
	formThousands = "form-thousands"
	formGrouped   = "form-thousands-from"
	formList      = "form-list"
)

// keep puts the forms among the texts.
func (w Words) keep(f locale.Forms) {
	w[formDecimal], w[formThousands], w[formList] = f.Decimal, f.Thousands, f.List
	w[formGrouped] = strconv.Itoa(f.ThousandsFrom)
}

// Forms are how the language writes numbers.
func (w Words) Forms() locale.Forms {
	from, _ := strconv.Atoi(w[formGrouped])
	return locale.Forms{Decimal: w[formDecimal], Thousands: w[formThousands], ThousandsFrom: from, List: w[formList]}
}

// Number writes the numbers of a text of ours, which has points in them.
func (w Words) Number(text string) string { return w.Forms().Number(text) }

// Count writes a whole number.
func (w Words) Count(n int) string { return w.Forms().Count(n) }
