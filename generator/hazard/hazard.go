// Package hazard holds the official texts of hazard statements. The texts are those
// of Regulation (EC) No 1272/2008 (CLP), Annex III, © European Union, CC BY 4.0; each
// row of the table names its source and how it was confirmed.
package hazard

import (
	"bytes"
	_ "embed"
	"encoding/csv"
)

//go:embed statements.csv
var table []byte

var texts = func() map[string]string {
	rows, err := csv.NewReader(bytes.NewReader(table)).ReadAll()
	if err != nil {
		panic("hazard: " + err.Error())
	}
	byCode := make(map[string]string, len(rows))
	for _, row := range rows[1:] {
		byCode[row[0]] = row[1]
	}
	return byCode
}()

// Statement gives the official text of a code such as H222.
func Statement(code string) (string, bool) {
	text, ok := texts[code]
	return text, ok
}

// dangerous are the codes that a label carries the signal word Danger for; all other H
// codes have Warning. Where a code stands with either, by category, the stronger is
// taken. From memory of CLP, Annex I; the product's own label decides.
var dangerous = map[string]bool{
	"H200": true, "H201": true, "H202": true, "H203": true, "H205": true, "H220": true, "H222": true, "H224": true, "H225": true, "H228": true,
	"H230": true, "H231": true, "H232": true, "H240": true, "H241": true, "H250": true, "H251": true, "H260": true, "H261": true,
	"H270": true, "H271": true, "H272": true, "H300": true, "H301": true, "H304": true, "H310": true, "H311": true, "H314": true,
	"H318": true, "H330": true, "H331": true, "H334": true, "H340": true, "H350": true, "H360": true, "H370": true, "H372": true,
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
