package quantity_test

import (
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// readAnswer reads an answer in a pack that names nothing itself.
func readAnswer(text string) (quantity.Answer, *quantity.Error) {
	return (*quantity.Vocabulary)(nil).ReadAnswer(text, false)
}

func TestAnswersAsStudentsWriteThem(t *testing.T) {
	for _, c := range []struct {
		text     string
		want     string
		negative bool
		unit     string
	}{
		{"20.4", "102/5", false, ""}, {"20,4", "102/5", false, ""}, {" 20.4 ", "102/5", false, ""},
		{"20.40", "102/5", false, ""},
		{".5", "1/2", false, ""}, {",5", "1/2", false, ""},
		{"0,125", "1/8", false, ""}, {",125", "1/8", false, ""}, {"1234,567", "1234567/1000", false, ""},
		{"1.234", "617/500", false, ""}, {"12,34", "617/50", false, ""},
		{"00,125", "1/8", false, ""},
		{"8 1/32 in", "257/32", false, "in"}, {"½", "1/2", false, ""}, {"¼", "1/4", false, ""}, {"¾", "3/4", false, ""},
		{"⅛", "1/8", false, ""}, {"⅜", "3/8", false, ""}, {"⅝", "5/8", false, ""}, {"⅞", "7/8", false, ""},
		{"⅓", "1/3", false, ""}, {"⅔", "2/3", false, ""}, {"⅕", "1/5", false, ""}, {"⅖", "2/5", false, ""},
		{"⅗", "3/5", false, ""},
		{"⅘", "4/5", false, ""}, {"⅙", "1/6", false, ""}, {"⅚", "5/6", false, ""},
		{"8½", "17/2", false, ""}, {"8 ½ in", "17/2", false, "in"}, {"5 7/8″", "47/8", false, "in"},
		{"5 7/8\"", "47/8", false, "in"},
		{"5 7/8”", "47/8", false, "in"}, {"5'", "5", false, "ft"}, {"5’", "5", false, "ft"},
		{"3⁄4", "3/4", false, ""}, {"3∕4", "3/4", false, ""}, {"3／4", "3/4", false, ""},
		{"−3", "3", true, ""}, {"-3", "3", true, ""}, {"–3", "3", true, ""}, {"- 3", "3", true, ""}, {"－3", "3", true, ""},
		{"‐3", "3", true, ""}, {"‑3", "3", true, ""}, {"﹣3", "3", true, ""}, {"+3", "3", false, ""}, {"＋3", "3", false, ""},
		{"-½", "1/2", true, ""},
		{"３．５", "7/2", false, ""}, {"３，５", "7/2", false, ""}, {"٣٫٥", "7/2", false, ""},
		{"٠١٢٣٤٥٦٧٨٩", "123456789", false, ""},
		{"०१२३४५६७८९", "123456789", false, ""}, {"𝟗𝟖", "98", false, ""}, {"\u200f٣", "3", false, ""},
		{"204 mm", "204", false, "mm"}, {"20.4cm", "102/5", false, "cm"}, {"20.4\u00a0cm", "102/5", false, "cm"},
		{"90°", "90", false, "deg"},
		{"90º", "90", false, "deg"}, {"5 %", "5", false, "%"}, {"5％", "5", false, "%"}, {"5٪", "5", false, "%"},
		{"3 turns", "3", false, "rot"}, {"5 cm/s", "5", false, "cm/s"}, {"2 m²", "2", false, "m^2"}, {"0", "0", false, ""},
		{"-0", "0", true, ""}, {"5˚", "5", false, "deg"},
		{"1,234.5", "2469/2", false, ""}, {"1.234,5 cm", "2469/2", false, "cm"}, {"1\u202f234,5", "2469/2", false, ""},
		{"1 234", "1234", false, ""}, {"−12\u00a0345,678 mm", "6172839/500", true, "mm"}, {"1 234.500", "2469/2", false, ""},
		{"1,234,567", "1234567", false, ""}, {"1.234.567 mm", "1234567", false, "mm"}, {"٣٬١٢٠٫٥", "6241/2", false, ""},
		{"1 000 1/2 in", "2001/2", false, "in"}, {"3 120/125", "99/25", false, ""}, {"1 000 ft 2 in", "12002", false, "in"},
	} {
		a, err := readAnswer(c.text)
		if err != nil {
			t.Errorf("%q: %s", c.text, err.What)
			continue
		}
		if a.Number.Exact.RatString() != c.want || a.Negative != c.negative || a.Unit.String() != c.unit ||
			a.HasUnit != (c.unit != "") {
			t.Errorf("%q is read as %s %v %s %v, want %s %v %s", c.text, a.Number.Exact.RatString(), a.Negative, a.Unit,
				a.HasUnit, c.want, c.negative, c.unit)
		}
	}
}

func TestAnswersThatAreRefused(t *testing.T) {
	unclear := "it is not clear which mark in “"
	for _, c := range []wrong{
		{"", "answer-empty", "", "nothing is written here yet", "write a number"},
		{" \t\u00a0", "answer-empty", " \t\u00a0", "nothing is written here yet", ""},
		{"1,234", "answer-unclear", "1,234", unclear + "1,234” is the decimal point", "no other mark"},
		{"1,23.5", "answer-unclear", "1,23.5", unclear, ""},
		{"0,234.5", "answer-unclear", "0,234.5", unclear, ""},
		{"1,234.567,8", "answer-unclear", "1,234.567,8", unclear, ""},
		{"1 23", "answer-left-over", "23", "there is more here", ""},
		{"1  234", "answer-left-over", "234", "there is more here", ""},
		{"1,000.5 euros", "unknown-unit", "euros", "“euros” is not a unit", ""},
		{"-12,345", "answer-unclear", "-12,345", unclear, ""},
		{"123,456", "answer-unclear", "123,456", unclear, ""},
		{"1.2.3", "answer-unclear", "1.2.3", unclear, ""},
		{"abc", "answer-no-number", "abc", "this does not start with a number", "such as 20.4"},
		{"cm 5", "answer-no-number", "cm", "this does not start with a number", ""},
		{"-", "answer-no-number", "", "this does not start with a number", ""},
		{"(3)", "answer-no-number", "(", "this does not start with a number", ""},
		{"€5", "unknown-unit", "€", "“€” is not a unit", ""},
		{"€x5", "answer-no-number", "€", "this does not start with a number", ""},
		{"--3", "answer-no-number", "-", "there are two signs in front", "one sign or none"},
		{"-+3", "answer-no-number", "+", "there are two signs in front", ""},
		{"\xff", "answer-no-number", "\xff", "this does not start with a number", ""},
		{"1e999", "answer-exponent", "e999", "a number with an exponent is not read here", "in digits"},
		{"1E3", "answer-exponent", "E3", "a number with an exponent is not read here", ""},
		{"3 e9", "unknown-unit", "e9", "“e9” is not a unit", ""},
		{"3 eggs", "unknown-unit", "eggs", "“eggs” is not a unit", ""},
		{"3 wheels", "unknown-unit", "wheels", "is not a unit", ""},
		{"3 4", "answer-left-over", "4", "there is more here than one number with its unit", "such as 20.4 or 8 1/32 in"},
		{"½3", "answer-left-over", "3", "there is more here", ""},
		{"5 ½ ½", "answer-left-over", "½", "there is more here", ""},
		{"3 + 4", "answer-left-over", "+", "there is more here", ""},
		{"3/½", "answer-left-over", "/", "there is more here", ""},
		{"3 cm €", "answer-left-over", "€", "there is more here", ""},
		{"5 in rot", "answer-left-over", "in", "there is more here", ""},
		{"1/0", "division-by-zero", "1/0", "the fraction 1/0 divides by zero", ""},
		{strings.Repeat("9", 31), "number-too-long", strings.Repeat("9", 31), "a number of 31 characters is too long", ""},
		{strings.Repeat("1", 61), "answer-too-long", strings.Repeat("1", 61), "this is longer than a number", "one number"},
		{strings.Repeat("٣", 61), "answer-too-long", strings.Repeat("٣", 61), "this is longer", ""},
	} {
		_, err := readAnswer(c.text)
		c.check(t, err)
	}
	if _, err := readAnswer(strings.Repeat(" ", 59) + "3"); err != nil {
		t.Errorf("sixty characters are refused: %s", err.What)
	}
}
