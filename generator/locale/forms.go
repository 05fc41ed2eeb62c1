package locale

// How a language writes numbers and quotations. All of the program writes numbers with points and no marks between
// thousands; what people read goes through here last.

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"github.com/goccy/go-yaml"
)

// Forms are how a language writes numbers and quotations, forms.yaml of its folder. ISO 80000-1 has the comma or the
// point before decimals, and a small blank between groups of three; a language's file says where people do otherwise.
type Forms struct {
	Decimal        string `yaml:"decimal"`          // before decimals: , or .
	Thousands      string `yaml:"thousands"`        // between groups of three digits
	ThousandsFrom  int    `yaml:"thousands-from"`   // digits that a number has at least to be grouped
	List           string `yaml:"list"`             // between the values of a function, without its blank
	GoalsAsWritten bool   `yaml:"goals-as-written"` // goals keep the capital that they begin with after "I can"
	Singular       []int  `yaml:"singular"`         // the numbers that the singular goes with: 1, in French 0 as well

	Quotes      [2]string `yaml:"quotes"`       // quotation marks, with a blank inside them if they have one
	InnerQuotes [2]string `yaml:"inner-quotes"` // those of a quotation within another
	Unbroken    []string  `yaml:"unbroken"`     // a mark and the blank before or after it at which no line ends
	Letters     []string  `yaml:"letters"`      // letters of their own, which lists have after those without the accent
	Onsets      []string  `yaml:"onsets"`       // consonants that begin a syllable together: no word is parted within
}

// FormsOf reads those of a language.
func FormsOf(tag string) (Forms, error) {
	var f Forms
	data, err := Read(tag, "forms.yaml")
	if err != nil {
		return f, err
	}
	if err := yaml.Unmarshal(data, &f); err != nil {
		return f, err
	}
	if slices.Contains(append(f.Quotes[:], f.InnerQuotes[:]...), "") || len(f.Onsets) == 0 {
		return f, fmt.Errorf("locale: %s/forms.yaml lacks quotation marks or onsets", tag)
	}
	for _, pair := range f.Unbroken {
		if two := []rune(pair); len(two) != 2 || unicode.IsSpace(two[0]) == unicode.IsSpace(two[1]) {
			return f, fmt.Errorf("locale: %s/forms.yaml: %q is not a mark with a blank", tag, pair)
		}
	}
	if f.Decimal != "." && f.Decimal != "," || f.Thousands == "" || f.ThousandsFrom < 4 || f.List == "" ||
		len(f.Singular) == 0 {
		return f, fmt.Errorf("locale: %s/forms.yaml lacks a form of numbers", tag)
	}
	return f, nil
}

// Commas tells whether decimals come after a comma.
func (f Forms) Commas() bool { return f.Decimal == "," }

// Between stands between the values of a function. Without forms it is a comma.
func (f Forms) Between() string { return cmp.Or(f.List, ",") }

// Number writes the numbers of a text of ours: points between digits become what the language has there.
func (f Forms) Number(text string) string {
	if !f.Commas() || !strings.Contains(text, ".") {
		return text
	}
	out := []byte(text)
	for i := 1; i+1 < len(out); i++ {
		if out[i] == '.' && isDigit(out[i-1]) && isDigit(out[i+1]) {
			out[i] = ','
		}
	}
	return string(out)
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// Count writes a whole number, grouped if it is long: 1,000,000.
func (f Forms) Count(n int) string {
	s := strconv.Itoa(n)
	sign := ""
	if n < 0 {
		sign, s = "−", s[1:]
	}
	if len(s) < f.ThousandsFrom {
		return sign + s
	}
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + f.Thousands + s[i:]
	}
	return sign + s
}
