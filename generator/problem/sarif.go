package problem

// This file writes problems as a report in SARIF 2.1.0, an open standard, for other programs.

import (
	"bytes"
	"encoding/json"
	"net/url"
	"path"
	"slices"
	"strings"

	"trundle/generator/source"
)

// Schema is that of SARIF 2.1.0, OASIS Standard with Errata 01.
const Schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

// SARIFHead is what every report of ours starts with; a file that does may be replaced.
const SARIFHead = `{
  "$schema": "` + Schema + `",
  "version": "2.1.0",
  "runs": [
    {
      "tool": {
        "driver": {
          "name": "trundle",`

// packBase stands for the pack's folder where a report must not say which that is.
const packBase = "PACK"

// The types below have the names of the standard's objects, and of their properties those that a report of ours needs.
type sarifLog struct {
	Schema  string     `json:"$schema"`
	Version string     `json:"version"`
	Runs    []sarifRun `json:"runs"`
}

type sarifRun struct {
	Tool       sarifTool            `json:"tool"`
	Bases      map[string]sarifBase `json:"originalUriBaseIds,omitempty"`
	ColumnKind string               `json:"columnKind"`
	Results    []sarifResult        `json:"results"`
}

type sarifTool struct {
	Driver sarifDriver `json:"driver"`
}

type sarifDriver struct {
	Name  string      `json:"name"`
	Rules []sarifRule `json:"rules"`
}

type sarifRule struct {
	ID    string        `json:"id"`
	Short sarifMessage  `json:"shortDescription"`
	Help  *sarifMessage `json:"help,omitempty"`
}

type sarifBase struct {
	Description sarifMessage `json:"description"`
}

type sarifMessage struct {
	Text string `json:"text"`
}

type sarifResult struct {
	RuleID    string          `json:"ruleId"`
	RuleIndex int             `json:"ruleIndex"`
	Level     string          `json:"level"`
	Message   sarifMessage    `json:"message"`
	Locations []sarifLocation `json:"locations"`
	Related   []sarifLocation `json:"relatedLocations,omitempty"`
}

type sarifLocation struct {
	Physical sarifPhysical `json:"physicalLocation"`
	Message  *sarifMessage `json:"message,omitempty"`
}

type sarifPhysical struct {
	Artifact sarifArtifact `json:"artifactLocation"`
	Region   sarifRegion   `json:"region"`
}

type sarifArtifact struct {
	URI  string `json:"uri"`
	Base string `json:"uriBaseId,omitempty"`
}

type sarifRegion struct {
	StartLine   int `json:"startLine"`
	StartColumn int `json:"startColumn"`
	EndLine     int `json:"endLine"`
	EndColumn   int `json:"endColumn"`
}

// SARIF writes the problems as a report in SARIF 2.1.0. Prefix is put before each file's
// name as in Print, unless it is absolute: a report goes to others, who need not know where
// a pack lies on this computer, and then names go from the pack's folder. A file that
// was named with all its folders keeps the last part alone.
func SARIF(prefix string, problems []Problem) ([]byte, error) {
	s := sarif{prefix: prefix}
	run := sarifRun{ColumnKind: "unicodeCodePoints", Results: []sarifResult{}}
	if absolute(prefix) {
		s = sarif{base: packBase}
		run.Bases = map[string]sarifBase{packBase: {sarifMessage{"The pack's folder."}}}
	}
	slugs := slugsOf(problems)
	run.Tool.Driver = sarifDriver{Name: "trundle", Rules: make([]sarifRule, len(slugs))}
	for i, slug := range slugs {
		run.Tool.Driver.Rules[i] = ruleOf(slug)
	}
	for _, p := range problems {
		index, _ := slices.BinarySearch(slugs, p.Slug)
		run.Results = append(run.Results, s.result(p, index))
	}
	var b bytes.Buffer
	out := json.NewEncoder(&b)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	err := out.Encode(sarifLog{Schema, "2.1.0", []sarifRun{run}})
	return b.Bytes(), err
}

// sarif knows from where the names of files go.
type sarif struct{ prefix, base string }

// result writes one problem. The hint goes into the message, since readers show that and little more.
func (s sarif) result(p Problem, index int) sarifResult {
	level := "error"
	if p.Severity == Caution {
		level = "warning"
	}
	text := Printable(p.What)
	if p.Hint != "" {
		text += "\n" + Printable(p.Hint)
	}
	r := sarifResult{RuleID: p.Slug, RuleIndex: index, Level: level, Message: message(text),
		Locations: []sarifLocation{{Physical: s.place(p.File, p.Span)}}}
	for _, other := range p.Related[:min(len(p.Related), mostRelated)] {
		m := message(Printable(other.What))
		r.Related = append(r.Related, sarifLocation{Physical: s.place(other.File, other.Span), Message: &m})
	}
	return r
}

// message doubles braces, which would be placeholders (SARIF 2.1.0, 3.11.5).
func message(text string) sarifMessage {
	return sarifMessage{strings.NewReplacer("{", "{{", "}", "}}").Replace(text)}
}

// place writes where a problem is. Columns count the characters of the file on the disk: whoever reads the report has
// that file, and not our text of it.
func (s sarif) place(f *source.File, at source.Span) sarifPhysical {
	start, end := f.OnDisk(at.Start), f.OnDisk(max(at.Start, at.End))
	name := s.prefix + f.Name
	if s.base == "" && absolute(name) { // of a file that was typed on its own
		name = path.Base(strings.ReplaceAll(name, `\`, "/"))
	}
	uri := url.URL{Path: name}
	return sarifPhysical{
		sarifArtifact{uri.String(), s.base},
		sarifRegion{start.Line, start.Column, end.Line, end.Column},
	}
}

// slugsOf gives the slugs of problems, each once, in the order of letters.
func slugsOf(problems []Problem) []string {
	all := make([]string, len(problems))
	for i, p := range problems {
		all[i] = p.Slug
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// ruleOf describes a kind of problem as the list of them does.
func ruleOf(slug string) sarifRule {
	kind, ok := KindOf(slug)
	if !ok { // the list is complete; a test sees to that
		kind.Meaning = slug
	}
	rule := sarifRule{ID: slug, Short: message(kind.Meaning)}
	if kind.Do != "" {
		help := message(kind.Do)
		rule.Help = &help
	}
	return rule
}

// absolute tells whether a slash-separated path starts at the top of a file system, here
// or under Windows.
func absolute(name string) bool {
	return strings.HasPrefix(name, "/") || len(name) > 1 && name[1] == ':'
}
