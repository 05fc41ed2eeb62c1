package problem

// The first line of a printed problem, for programs that find its place: editors above all.

import (
	"bytes"
	"encoding/json"
)

// LinePattern is a regular expression that the first line of each problem matches, and no other line of what is printed
// of one. Its groups are file, line, column, severity, message and slug.
const LinePattern = `^(.+?):([0-9]+):([0-9]+): (error|caution): (.*) \(([a-z0-9-]+)\)$`

// LineJSON gives the pattern with what its groups are.
func LineJSON() []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	severities := map[string]string{Error.String(): "error", Caution.String(): "warning"}
	if err := e.Encode(struct {
		Pattern    string            `json:"pattern"`
		File       int               `json:"file"`
		Line       int               `json:"line"`
		Column     int               `json:"column"`
		Severity   int               `json:"severity"`
		Message    int               `json:"message"`
		Code       int               `json:"code"`
		Severities map[string]string `json:"severities"`
	}{LinePattern, 1, 2, 3, 4, 5, 6, severities}); err != nil {
		panic("problem: " + err.Error()) // texts and numbers
	}
	return b.Bytes()
}
