// Package hazard holds the official texts of hazard and precautionary statements. The
// texts are those of Regulation (EC) No 1272/2008 (CLP), Annexes III and IV, © European
// Union, CC BY 4.0, and of the UN's list where CLP has none; each row of the table names
// its source and how it was confirmed.
package hazard

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"strings"
	"sync"
)

//go:embed statements.csv
var table []byte

// Statement is an official statement. What its maker has to fill in or choose stands in
// it as published.
type Statement struct{ Code, Text string }

// HasGaps tells whether a statement leaves words to the product's label: a blank, a
// choice between strokes, a part in brackets.
func (s Statement) HasGaps() bool {
	text := strings.ReplaceAll(s.Text, "50 °C/122 °F", "") // the same twice, no choice
	return strings.ContainsAny(text, "…/[") || strings.Contains(text, "...")
}

// tables gives the rows of the table in their order, and by their codes. They are read when a card first asks.
var tables = sync.OnceValues(func() (statements []Statement, byCode map[string]Statement) {
	rows, err := csv.NewReader(bytes.NewReader(table)).ReadAll()
	if err != nil {
		panic("hazard: " + err.Error())
	}
	byCode = make(map[string]Statement, len(rows))
	for _, row := range rows[1:] {
		s := Statement{row[0], row[1]}
		statements = append(statements, s)
		byCode[plain(s.Code)] = s
	}
	return statements, byCode
})

// plain is a code without blanks and brackets: labels print P305 + P351 + P338, and the
// table has a code with a part in brackets.
func plain(code string) string { return blanksAndBrackets.Replace(code) }

var blanksAndBrackets = strings.NewReplacer(" ", "", "[", "", "]", "")

func isPrecaution(code string) bool { return strings.HasPrefix(code, "P") }

// Hazard gives the statement of a code such as H222 or EUH066.
func Hazard(code string) (Statement, bool) {
	_, byCode := tables()
	s, ok := byCode[plain(code)]
	return s, ok && !isPrecaution(s.Code)
}

// Precaution gives the statement of a code such as P210 or P305+P351+P338.
func Precaution(code string) (Statement, bool) {
	_, byCode := tables()
	s, ok := byCode[plain(code)]
	return s, ok && isPrecaution(s.Code)
}

// Precautions gives all precautionary statements.
func Precautions() []Statement {
	statements, _ := tables()
	var all []Statement
	for _, s := range statements {
		if isPrecaution(s.Code) {
			all = append(all, s)
		}
	}
	return all
}

// dangerous are the codes that a label carries the signal word Danger for; all other H
// codes have Warning. Where a code stands with either, by category, the stronger is
// taken. From memory of CLP, Annex I; the product's own label decides.
var dangerous = map[string]bool{
	"H200": true, "H201": true, "H202": true, "H203": true, "H205": true, "H220": true, "H222": true, "H224": true,
	"H225": true, "H228": true,
	"H230": true, "H231": true, "H232": true, "H240": true, "H241": true, "H250": true, "H251": true, "H260": true,
	"H261": true,
	"H270": true, "H271": true, "H272": true, "H300": true, "H301": true, "H304": true, "H310": true, "H311": true,
	"H314": true,
	"H318": true, "H330": true, "H331": true, "H334": true, "H340": true, "H350": true, "H360": true, "H370": true,
	"H372": true,
}

// SignalWord gives the signal word of a set of hazard statement codes: Danger, Warning, or
// "" for none. Danger stands alone where both would apply (CLP, Article 20).
func SignalWord(codes []string) string {
	word := ""
	for _, code := range codes {
		switch {
		case len(code) >= 4 && dangerous[code[:4]]:
			return "Danger"
		case len(code) > 0 && code[0] == 'H':
			word = "Warning"
		}
	}
	return word
}
