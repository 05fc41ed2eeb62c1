package quantity_test

import (
	"regexp"
	"strings"
	"testing"

	"trundle/generator/quantity"
)

// commaWords is a vocabulary of a pack whose language has decimal commas.
func commaWords() *quantity.Vocabulary {
	v := &quantity.Vocabulary{}
	v.UseCommas()
	return v
}

// TestDecimalCommasAreReadWhereThePacksLanguageHasThem has how a calculation is read, as it is printed for the program.
func TestDecimalCommasAreReadWhereThePacksLanguageHasThem(t *testing.T) {
	for text, want := range map[string]string{
		"0,5": "0.5", "0.5": "0.5", "1,000": "1.000", "1.0005": "1.0005", "0.125": "0.125", "2,5:1": "2.5:1",
		"1:02,5 min": "1:02.5 min", "65 mm within 0,5 mm": "65 mm within 0.5 mm", "20,4 cm + 3,5 cm": "20.4 cm + 3.5 cm",
		"max(1,2; 3,4)": "max(1.2, 3.4)", "max(3, 4)": "max(3, 4)", "max(3,4, 5)": "max(3.4, 5)", "max(d1,2)": "max(d1, 2)",
		"sqrt(0,5)": "sqrt(0.5)", "floor(2,5; 0,5)": "floor(2.5, 0.5)", "max((3,4); d1)": "max(3.4, d1)",
		"max(sqrt(0,5); 1)": "max(sqrt(0.5), 1)", "rotations(120 cm; 6,5 cm)": "rotations(120 cm, 6.5 cm)",
	} {
		e, err := commaWords().ParseExpr(text)
		if err != nil {
			t.Errorf("%s: %s", text, err.What)
			continue
		}
		if _, errs := quantity.Eval(e, quantity.Env{"d1": quantity.New(1, quantity.Unit{})}); len(errs) > 0 {
			t.Errorf("%s: %s", text, errs[0].What)
		}
		if e.String() != want {
			t.Errorf("%s is read as %s, not %s", text, e, want)
		}
	}
}

func TestWhatACommaLeavesUnclearIsRefusedWithItsPlace(t *testing.T) {
	for text, at := range map[string]string{
		"1.000": "1.000", "5 cm + 12.345 mm": "12.345", "1.000,5": "1.000,5", "max(1,2,3)": "1,2,3", "max(3,4)": "3,4",
		"floor(2,5)": "2,5", "rotations(120,65 mm)": "120,65", "sqrt(max(2 + 3,4))": "3,4",
	} {
		e, err := commaWords().ParseExpr(text)
		if err == nil {
			if _, errs := quantity.Eval(e, quantity.Env{}); len(errs) > 0 {
				err = errs[0]
			}
		}
		if err == nil || err.Slug != "comma-unclear" || text[err.Span.Start:err.Span.End] != at {
			t.Errorf("%s: %+v", text, err)
		}
	}
}

// TestASemicolonSetsValuesApartInPacksWithCommasAlone: elsewhere nothing changes.
func TestASemicolonSetsValuesApartInPacksWithCommasAlone(t *testing.T) {
	if _, err := quantity.ParseExpr("max(1; 2)"); err == nil || err.Slug != "unexpected-character" {
		t.Errorf("with points: %v", err)
	}
	if e, err := quantity.ParseExpr("max(3,4)"); err != nil || e.String() != "max(3, 4)" {
		t.Errorf("with points: %v, %v", e, err)
	}
	if _, err := commaWords().ParseExpr("1 cm; 2 cm"); err == nil || !strings.Contains(err.What, "“;”") {
		t.Errorf("outside of brackets: %v", err)
	}
	if e, err := commaWords().WithPoints().ParseExpr("max(3,4)"); err != nil || e.String() != "max(3, 4)" {
		t.Errorf("what the program writes: %v, %v", e, err)
	}
}

func TestWhatIsToldToWriteCanBeWritten(t *testing.T) {
	for text, want := range map[string]string{"12.345 cm": "12,345 cm", "3 ft 1.5 in (2.5:1)": "3 ft 1,5 in (2,5:1)"} {
		if got := commaWords().AsTyped(text); got != want {
			t.Errorf("%s is to be written as %s", text, got)
		}
		if got := (*quantity.Vocabulary)(nil).AsTyped(text); got != text {
			t.Errorf("with points %s is to be written as %s", text, got)
		}
	}
}

var pointInNumber = regexp.MustCompile(`(\d)\.(\d)`)

// withCommas is a printed expression as an author writes it in such a pack.
func withCommas(printed string) string {
	return pointInNumber.ReplaceAllString(strings.ReplaceAll(printed, ", ", "; "), "$1,$2")
}

// FuzzExprWithCommas: what can be read in a pack with decimal commas is read the same when it is printed and written
// with commas again, and what is printed is the same with points.
func FuzzExprWithCommas(f *testing.F) {
	for _, s := range append(exprSeeds, "max(1,2; 3,4)", "max(3,4)", "1.000", "1,2,3", "2,5:1", "1/2,5", "d1,2", ";", "1;",
		"f(0,5)", "f(1,5,2)", "3,4 cm", "1:02,5 min", "0,5,", ",5", "1.5,", "6 ft 3,5 in", "s[1,2]", "if(x; 0,5; 1,25)") {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		e, err := commaWords().ParseExpr(text)
		if err != nil {
			checkError(t, text, err)
			return
		}
		if len(text) > 1000 {
			return // a printed text may be longer, and then too long
		}
		written := withCommas(e.String())
		again, err := commaWords().ParseExpr(written)
		if err != nil {
			t.Fatalf("%q is written as %q, which fails: %s", text, written, err.What)
		}
		same, err := quantity.ParseExpr(e.String())
		if err != nil || !sameTree(e, again) || !sameTree(e, same) {
			t.Fatalf("%q is written as %q, which is read as %q; with points as %q (%v)", text, written, again, same, err)
		}
	})
}

// TestAPointBeforeThreeDigitsIsUnclearInAnAnswerWhereCommasAreDecimal, unless the class writes points.
func TestAPointBeforeThreeDigitsIsUnclearInAnAnswerWhereCommasAreDecimal(t *testing.T) {
	for text, want := range map[string]string{"1,030": "103/100", "20,1": "201/10", "20.1 cm": "201/10", "0.125": "1/8",
		"1.000,5": "2001/2", "1,000.5": "2001/2", "1\u202f000,5": "2001/2", "1.000.000": "1000000"} {
		a, err := commaWords().ReadAnswer(text, false)
		if err != nil || a.Number.Exact.RatString() != want {
			t.Errorf("%q is read as %v (%v), want %s", text, a.Number.Exact, err, want)
		}
	}
	for text, name := range map[string]string{"1.030": "1.030", "-12.345 cm": "12.345", "1.00,5": "", "1,030.5,5": ""} {
		if _, err := commaWords().ReadAnswer(text, false); err == nil || err.Slug != "answer-unclear" || err.Name != name {
			t.Errorf("%q: %+v", text, err)
		}
	}
	if a, err := commaWords().ReadAnswer("1.030", true); err != nil || a.Number.Exact.RatString() != "103/100" {
		t.Errorf("where the class writes points: %v, %v", a.Number.Exact, err)
	}
}
