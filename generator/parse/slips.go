package parse

// Slips of the pen that coaches make in statements, each known by what stands before and at the place where reading
// stopped, with what to do about it.

import (
	"slices"
	"strings"

	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// A penSlip is one of them. In its hint $1 is what the pattern at the place has in brackets.
type penSlip struct {
	before, at *wording.Pattern
	hint       string
}

func penSlipOf(before, at, hint string) penSlip {
	return penSlip{wording.New(`(?s)` + before + `\s*$`), wording.New(`^(?:` + at + `)`), hint}
}

// penSlips are tried in their order; what is more special comes first.
var penSlips = []penSlip{
	penSlipOf(`^\pL+`, `:`, "a keyword has no colon after it: leave it out"),
	penSlipOf(`^\pL+\s+[\pL\pN_]+`, `:`, "write  =  in place of the colon"),
	penSlipOf(``, `√`, "write  sqrt(…)  for a root"),
	penSlipOf(``, `[~≈]`, "leave the sign out; a limit comes after the number, as in  2 cm within 0.5 cm"),
	penSlipOf(`[0-9]\s*(?:rotations|min)`, `\(`, "write × between a number and a formula, as in  2 * rotations(…)"),
	penSlipOf(`\*`, `\*`, "write  ^  for a power, as in  d^2"),
	penSlipOf(`\+`, `/\s*-`, "write  ±  for a standard uncertainty, or  within  for a limit"),
	penSlipOf(`/`, `/`, "a note to yourself begins with  #"),
	penSlipOf(` --.*`, `.`, "a note to yourself begins with  #"),
	penSlipOf(`^slip\s+[\pL\pN_]+`, `=`, "a slip is a calculation alone: leave the name and the  =  out"),
	penSlipOf(`^(?:given|measure)\s+[\pL\pN_]+\s`, `([\pL_][\pL\pN_]*)\s*=`,
		"a name is one word; parts of it are joined by _"),
	penSlipOf(`^(?:given|measure|find|key|record|predict)\s+[\pL\pN_]+`, `-`, "a name has no hyphen in it; write _"),
	penSlipOf(`^(?:given|measure|find|key|record|predict)`, `[0-9]+[\pL_]`, "a name begins with a letter"),
	penSlipOf(`\sto\s+[0-9./]+\s`, `in\b`, "the unit comes before the step, as in  in rot to 0.01"),
	penSlipOf(`\sto\s+1\s`, `(?:decimals?|places?|digits?)\b`, "for one decimal write  to 0.1"),
	penSlipOf(`\sto\s+2\s`, `(?:decimals?|places?|digits?)\b`, "for two decimals write  to 0.01"),
	penSlipOf(`\sto\s+3\s`, `(?:decimals?|places?|digits?)\b`, "for three decimals write  to 0.001"),
	penSlipOf(`\sin\s+\S+\s+to\s+[0-9./]+\s`, `([\pL%°″′]+)\s*=`, "the step is in the unit before it: leave  $1  out"),
	penSlipOf(`=\s*[0-9./ ]+\s*\pL*\s`, `in\s`, "a quantity has one unit: leave one of them out"),
	penSlipOf(`=\s*\pL+\s`, `[0-9]`, "the unit comes after the number"),
	penSlipOf(`^record\s+[\pL\pN_]+`, `(?:\(|in\b|to\b|=)`,
		"write how many readings there are in square brackets, as in  s[5]"),
	penSlipOf(`^listen\s`, `[\pL_]`, "a listen has no name: it is about the say above it"),
	penSlipOf(`^record\s.*[0-9\]\pL]`, `\s*(?:"|“|$)`, "write example values before the text, as in  = 118.8, 120.3"),
	penSlipOf(`\sin\s+\S+`, `,\s*[0-9]`, "write the step after  to, as in  {hook in cm to 0.1}"),
}

// pointSlips are those in packs whose language has points before decimals.
var pointSlips = []penSlip{
	penSlipOf(``, `;`, "write a comma between two values"),
	penSlipOf(`=\s*[0-9]+,[0-9]+\s`, `[0-9]+,`, "write decimals with a point, and a comma between two readings"),
}

// slipAt gives a better hint for an error in a text of the file that starts at a place, "" if there is none. words are
// those of the pack.
func slipAt(f *source.File, start int, err *quantity.Error, words *quantity.Vocabulary) string {
	if err.Slug != "syntax" && err.Slug != "unexpected-character" && err.Slug != "reading-with-unit" ||
		err.Span.Start < start || err.Span.Start > len(f.Text) {
		return ""
	}
	const far = 200 // more of the file says no more about a slip
	before := string(f.Text[max(start, err.Span.Start-far):err.Span.Start])
	at := string(f.Text[err.Span.Start:min(len(f.Text), err.Span.Start+far)])
	slips := penSlips
	if !words.HasCommas() {
		slips = slices.Concat(pointSlips, penSlips)
	}
	for _, s := range slips {
		if m := s.at.FindStringSubmatchIndex(at); m != nil && s.before.MatchString(before) {
			return string(s.at.Compiled().ExpandString(nil, strings.ReplaceAll(s.hint, "$1", "${1}"), at, m))
		}
	}
	return formulaAt(before, at)
}

// lastWord and firstWord are names on both sides of a place.
var (
	lastWord  = wording.New(`([\pL_][\pL\pN_]*) +$`)
	firstWord = wording.New(`^[\pL_][\pL\pN_.]*`)
)

// formulaAt is the hint for a formula whose brackets are missing, as in  circumference d.
func formulaAt(before, at string) string {
	name, value := lastWord.FindStringSubmatch(before), firstWord.FindString(at)
	if name == nil || value == "" || !slices.Contains(quantity.FormulaNames(), name[1]) {
		return ""
	}
	return "put what a formula works with in brackets, as in  " + name[1] + "(" + value + ")"
}
