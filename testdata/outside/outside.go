// Package outside gives tests the published values that lie beside it.
package outside

import (
	"embed"
	"encoding/csv"
	"testing"
)

//go:embed *.csv runs/*.csv
var files embed.FS

// Table reads a file, such as "units.csv": its row of names, and the rows below.
func Table(t testing.TB, name string) (names []string, rows [][]string) {
	t.Helper()
	f, err := files.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(all), err)
	}
	return all[0], all[1:]
}
