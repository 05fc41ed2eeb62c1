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
