package tally

// This file reads a team's saved work, which its page writes, as a table of the runs of one lesson: the same as the
// page's own CSV would have. Only a pack says which records a lesson has and in what unit a bare number is.

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"

	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/table"
	"trundle/generator/wording"
)

// Pack is what a pack says of its records.
type Pack struct {
	Language string

	Keys    []string          // the names under which its entries are kept
	Kits    map[string]string // titles by key
	Words   *quantity.Vocabulary
	Lessons []Lesson
}

// Lesson is a lesson with records.
type Lesson struct {
	Slug    string
	Keys    []string // the names under which its entries are kept
	Records []Record
}

// Record is a record of a lesson.
type Record struct {
	Name   string
	Unit   quantity.Unit
	Runs   int                // as many as the lesson asks for
	Target *quantity.Quantity // what its runs are compared with; nil if that is no one place for all teams
}

// Named finds a lesson by its file's name, its id, or the number that its file's name starts with.
func (p *Pack) Named(name string) *Lesson {
	for i, l := range p.Lessons {
		number, _, _ := strings.Cut(l.Slug, "-")
		if slices.Contains(l.Keys, name) || name == number || name == strings.TrimLeft(number, "0") {
			return &p.Lessons[i]
		}
	}
	return nil
}

// saved is a file of saved work; at says where an entry of a lesson stands.
type saved struct {
	file    *source.File
	team    string
	lessons map[string]map[string]string
	at      map[[2]string]source.Span
}

// isSaved tells whether a file is JSON and not a table.
func isSaved(f *source.File) bool { return bytes.HasPrefix(bytes.TrimSpace(f.Text()), []byte("{")) }

// newestForm is the form of saved work that this program knows; files.js writes it.
const newestForm = 1

// readSaved reads saved work. What a page could not have written is left aside, as the page does.
func readSaved(f *source.File, p *Pack, problems *problem.List) *saved {
	var file struct {
		Trundle, Pack string
		Form          int
		Team          any
		Lessons       map[string]json.RawMessage
	}
	wrong := func(slug, what, hint string) *saved {
		problems.Error(f, source.Span{}, slug, what, hint)
		return nil
	}
	const again = "save the team's work again, from “Your work as a file” on its page"
	err := json.Unmarshal(f.Text(), &file)
	pack, _, _ := strings.Cut(file.Pack, " ") // the season is after the blank
	switch {
	case file.Trundle != "work" && !bytes.Contains(f.Text(), []byte(`"trundle": "work"`)):
		return wrong("not-runs", "this is neither a table of runs nor a team's saved work", again)
	case err != nil || file.Form < 1:
		return wrong("not-runs", "this saved work is damaged", again)
	case file.Form > newestForm:
		return wrong("not-runs", "this saved work is of a newer version than this program", "use a newer trundle")
	case p == nil:
		return wrong("pack-needed", "saved work says nothing of its records and their units; its pack does",
			"name the pack, as in  --pack lessons")
	case !slices.Contains(p.Keys, pack) && !slices.Contains(p.Keys, file.Pack):
		return wrong("other-pack", "this is the work of another pack", "name the pack that it belongs to with --pack")
	}
	typed, _ := file.Team.(string)
	team, hidden := table.Seen(typed) // or a team that is told from another by nothing that is seen counts as two
	if hidden {
		problems.Caution(f, source.Span{}, "hidden-characters",
			"the team's name has characters that cannot be seen; they are left out",
			"nothing has to be done; they come with copied text")
	}
	out := &saved{file: f, team: team, lessons: map[string]map[string]string{}, at: entryPlaces(f.Text())}
	for key, raw := range file.Lessons {
		var fields map[string]any
		if json.Unmarshal(raw, &fields) != nil {
			continue
		}
		out.lessons[key] = map[string]string{}
		for name, value := range fields {
			if text, ok := value.(string); ok {
				out.lessons[key][name] = text
			}
		}
	}
	return out
}

// entryPlaces finds where the entries of each lesson stand.
func entryPlaces(text []byte) map[[2]string]source.Span {
	places := map[[2]string]source.Span{}
	d := json.NewDecoder(bytes.NewReader(text))
	var path []string // the keys that the decoder is below, "" of an array
	key, inKey := "", true
	for {
		token, err := d.Token()
		if err != nil { // its end
			return places
		}
		switch token := token.(type) {
		case json.Delim:
			if token == '{' || token == '[' {
				path, inKey = append(path, key), token == '{'
			} else {
				path, inKey = path[:len(path)-1], true
			}
			continue
		case string:
			if inKey {
				key, inKey = token, false
				continue
			}
			if len(path) == 3 && path[1] == "lessons" {
				end := int(d.InputOffset())
				places[[2]string{path[2], key}] = source.Span{Start: max(0, end-len(token)-2), End: end}
			}
		}
		inKey = true
	}
}

// of gives the entries of a lesson, which may be kept under several names, those that concern the robot, and the name
// under which each is kept.
func (s *saved) of(l *Lesson) (entries, under map[string]string) {
	entries, under = map[string]string{}, map[string]string{}
	for _, key := range append([]string{""}, l.Keys...) {
		for name, text := range s.lessons[key] {
			if _, there := entries[name]; !there {
				entries[name], under[name] = text, key
			}
		}
	}
	return entries, under
}

// mostTimes is how many times as many runs a team may add as the lesson asks for; rows.js has the same.
const mostTimes = 3

// hasRuns tells whether a team has entered a run of a lesson.
func (s *saved) hasRuns(l *Lesson) bool {
	entries, _ := s.of(l)
	for _, r := range l.Records {
		for run := range r.Runs * mostTimes {
			if entries[r.Name+"-"+strconv.Itoa(run+1)] != "" {
				return true
			}
		}
	}
	return false
}

// table makes the table of a lesson's runs. A text that is no number of the record's kind is an empty cell, with a
// caution: the page has said so to the team, and the mentor cannot ask it now.
func (s *saved) table(l *Lesson, p *Pack, problems *problem.List) *table.Table {
	entries, under := s.of(l)
	base := entries["@kit"]
	if title := p.Kits[base]; title != "" {
		base = title
	}
	t := &table.Table{File: s.file}
	for _, name := range about[:3] {
		t.Columns = append(t.Columns, &table.Column{Name: name, Written: name})
	}
	for _, r := range l.Records {
		t.Columns = append(t.Columns, &table.Column{Name: r.Name, Written: r.Name, Unit: r.Unit, HasUnit: !r.Unit.IsNumber()})
		t.Rows = max(t.Rows, r.Runs*mostTimes)
	}
	commas := writesCommas(entries)
	rows := t.Rows
	t.Rows = 0
	for run := 1; run <= rows; run++ {
		row, full := []table.Cell{{Text: s.team}, {Text: base}, {Text: strconv.Itoa(run)}}, false
		for _, r := range l.Records {
			name := r.Name + "-" + strconv.Itoa(run)
			cell := table.Cell{At: s.at[[2]string{under[name], name}]}
			if text := strings.TrimSpace(entries[name]); text != "" && run <= r.Runs*mostTimes {
				x, ok := p.number(text, commas, r.Unit)
				if !ok {
					problems.Caution(s.file, cell.At, "not-a-number", "“"+text+"”, run "+strconv.Itoa(run)+" of "+r.Name+
						", is not a number of that kind, and is left out", "ask the team what it meant, and save its work again")
				} else {
					cell.Text, full = x, true
				}
			}
			row = append(row, cell)
		}
		if !full {
			continue
		}
		t.Rows++
		for i, c := range t.Columns {
			if row[i].At == (source.Span{}) {
				row[i].At = firstPlace(row)
			}
			c.Cells = append(c.Cells, row[i])
		}
	}
	return t
}

// firstPlace is where a row's first run stands, which is the place of the row.
func firstPlace(row []table.Cell) source.Span {
	for _, cell := range row {
		if cell.At.End > 0 {
			return cell.At
		}
	}
	return source.Span{}
}

// A time of day without a unit, where a time is asked for.
var bareTime = wording.New(`^[^\pL]*:[^\pL]*$`)

// number reads an entry as the page does, and writes it as the page's CSV has it: in the record's unit, without what
// binary arithmetic leaves.
func (p *Pack) number(text string, commas bool, u quantity.Unit) (string, bool) {
	if symbol := u.Symbol(); (symbol == "s" || symbol == "min" || symbol == "h") && bareTime.MatchString(text) {
		if symbol == "h" || strings.Count(text, ":") > 1 {
			text += " h"
		} else {
			text += " min"
		}
	}
	a, err := p.Words.ReadAnswer(text, commas)
	if err != nil {
		return "", false
	}
	x := a.Number.Float()
	if a.Negative {
		x = -x
	}
	if a.HasUnit {
		q, alike := quantity.New(x, a.Unit).In(u)
		if !alike {
			return "", false
		}
		x = q.Number
	}
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "", false
	}
	x = quantity.Snapped(x)
	form := byte('f')
	if size := math.Abs(x); size != 0 && size < 1e-6 || size >= 1e21 { // as JavaScript writes numbers
		form = 'e'
	}
	return strconv.FormatFloat(x, form, -1, 64), true
}

// Entries that can be nothing but decimal commas, and those with a decimal point.
var (
	surelyComma = wording.New(`^[ +−-]*(?:\d*,(?:\d\d?|\d{4,})|0?,\d+)(?:\D|$)`)
	surelyPoint = wording.New(`^[ +−-]*\d*\.\d`)
)

// writesCommas tells whether a team writes decimal commas; values.js has the same rule. A sentence says nothing of
// that.
func writesCommas(entries map[string]string) bool {
	const sentence = 6
	some := false
	for _, text := range entries {
		if len(strings.Fields(text)) >= sentence {
			continue
		}
		if surelyPoint.MatchString(text) {
			return false
		}
		some = some || surelyComma.MatchString(text)
	}
	return some
}
