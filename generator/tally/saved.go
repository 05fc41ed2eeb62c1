package tally

// This file reads a team's saved work, which its page writes: files.js opens it by the same rules.

import (
	"bytes"
	"encoding/json"
	"maps"
	"math"
	"slices"
	"strings"
	"unicode/utf16"

	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/table"
	"trundle/generator/wording"
)

// savedWork is what one file, or one entry of a class file, holds of a team.
type savedWork struct {
	file    *source.File
	at      source.Span // of the whole work; zero if it is all of the file
	team    string
	saves   int // how often the team had saved by then; 0 if nothing tells
	lessons map[string]entries
	inClass bool // it stands in a class file, which its mentor did not ask about in particular
}

// entries are what a team wrote in a lesson, by the names of boxes, and where each stands.
type entries struct {
	texts  map[string]string
	places map[string]source.Span
}

// newestForm is the form of saved work, and of a class file, that this program knows; the pages write it.
const newestForm = 1

// Limits of what a page could have written; files.js has the same. JavaScript counts UTF-16.
const (
	longestName = 100
	MaxTeam     = 200
	MaxText     = 2000
	longestLog  = 50_000
	MaxEntries  = 20_000
)

// saveAgain is what to do about saved work that cannot be read.
const saveAgain = "save the team's work again, with “Save your work to a file” on its page"

// isJSON tells whether a file is saved work or a class, and not a table.
func isJSON(f *source.File) bool {
	text := bytes.TrimSpace(f.Text())
	return bytes.HasPrefix(text, []byte("{")) || bytes.HasPrefix(text, []byte("["))
}

// savedWork reads the saved work that stands at a place of a file; nil if it is none, or another pack's, which
// is reported.
func (t *tallying) savedWork(f *source.File, at source.Span, problems *problem.List) *savedWork {
	var file struct {
		Trundle, Pack string
		Form          int
		Team, Saves   any
		Lessons       map[string]json.RawMessage
	}
	wrong := func(slug, what, hint string) *savedWork {
		problems.Error(f, source.Span{Start: at.Start, End: at.Start}, slug, what, hint)
		return nil
	}
	text, p := f.Text()[at.Start:at.End], t.options.Pack
	err := json.Unmarshal(text, &file)
	name, season, _ := strings.Cut(file.Pack, " ")
	switch {
	case file.Trundle != "work" && !bytes.Contains(text, []byte(`"trundle": "work"`)):
		return wrong("not-runs", "this is neither a table of runs nor a team's saved work", saveAgain)
	case err != nil || file.Form < 1 || file.Lessons == nil:
		return wrong("not-runs", "this saved work is damaged", saveAgain)
	case file.Form > newestForm:
		return wrong("not-runs", "this saved work is of a newer version than this program", "use a newer trundle")
	case p == nil:
		return wrong("pack-needed", "saved work says nothing of its records and their units; its pack does",
			"name the pack, as in  --pack lessons")
	case !slices.Contains(p.Keys, name):
		return wrong("other-pack", "this is the work of another pack", "name the pack that it belongs to with --pack")
	case strings.TrimSpace(season) != p.Season:
		problems.Caution(f, source.Span{Start: at.Start, End: at.Start}, "other-season",
			"this is work of "+seasonNamed(strings.TrimSpace(season))+", and the pack is of "+seasonNamed(p.Season)+
				"; it is left out", "name that season's pack with --pack if its runs are meant")
		return nil
	}
	out := &savedWork{file: f, at: at, saves: counter(file.Saves), lessons: map[string]entries{}}
	typed, _ := file.Team.(string)
	team, hidden := table.Seen(typed) // or a team that is told from another by nothing that is seen counts as two
	if hidden {
		problems.Caution(f, source.Span{Start: at.Start, End: at.Start}, "hidden-characters",
			"the team's name has characters that cannot be seen; they are left out",
			"nothing has to be done; they come with copied text")
	}
	if length(team) <= MaxTeam {
		out.team = team
	}
	lost, isUsable := out.take(file.Lessons, entryPlaces(text, at.Start), p)
	switch {
	case !isUsable:
		return wrong("not-runs", "this saved work is damaged", saveAgain)
	case lost > 0 && len(out.lessons) == 0:
		return wrong("not-runs", "nothing in this saved work can be used", saveAgain)
	case lost > 0:
		problems.Caution(f, source.Span{Start: at.Start, End: at.Start}, "entries-lost",
			"entries in it that no page could have saved are left out: "+quantity.Grouped(lost), saveAgain)
	}
	return out
}

// seasonNamed is a season in a sentence.
func seasonNamed(season string) string {
	if season == "" {
		return "no season"
	}
	return "the season " + season
}

// counter is a whole number that counts something, 0 for anything else.
func counter(value any) int {
	const most = 1<<53 - 1 // as many as JavaScript counts
	x, _ := value.(float64)
	if x < 1 || x > most || x != math.Trunc(x) {
		return 0
	}
	return int(x)
}

// length is that of a text in JavaScript.
func length(text string) int { return len(utf16.Encode([]rune(text))) }

// take takes the entries that a page could have written, under the names that lessons and boxes have now, and counts
// the others; isUsable is false if there are absurdly many.
func (s *savedWork) take(lessons map[string]json.RawMessage, places map[[2]string]source.Span, p *Pack) (
	lost int, isUsable bool) {
	total := 0
	var renamed []func()
	for _, lesson := range slices.Sorted(maps.Keys(lessons)) {
		var fields map[string]any
		if json.Unmarshal(lessons[lesson], &fields) != nil || fields == nil {
			lost++
			continue
		}
		if total += len(fields); total > MaxEntries {
			return lost, false
		}
		for _, box := range slices.Sorted(maps.Keys(fields)) {
			text, isText := fields[box].(string)
			if !isText || !isEntry(lesson, box, text) {
				lost++
				continue
			}
			now, boxNow := p.nameNow(lesson, box)
			put := func() { s.put(now, boxNow, text, places[[2]string{lesson, box}]) }
			if now == lesson && boxNow == box {
				put()
			} else {
				renamed = append(renamed, put)
			}
		}
	}
	for _, put := range renamed { // what stands under a present name goes before what stands under an earlier one
		put()
	}
	return lost, true
}

// put keeps an entry, unless there is one already.
func (s *savedWork) put(lesson, box, text string, at source.Span) {
	own, ok := s.lessons[lesson]
	if !ok {
		own = entries{map[string]string{}, map[string]source.Span{}}
		s.lessons[lesson] = own
	}
	if _, taken := own.texts[box]; !taken {
		own.texts[box], own.places[box] = text, at
	}
}

// isEntry tells whether a page could have written an entry. What concerns the kit stands under no lesson, all else
// under one.
func isEntry(lesson, box, text string) bool {
	isName := func(name string) bool { return name != "__proto__" && length(name) <= longestName }
	if !isName(lesson) || !isName(box) || box == "" || strings.HasPrefix(box, "@") != (lesson == "") {
		return false
	}
	n := length(text)
	return n > 0 && n <= MaxText || box == "#state" && n < longestLog
}

// runNumber is the number of a run at the end of a box's name.
var runNumber = wording.New(`-\d+$`)

// nameNow gives the names that a lesson and a box of it have now; the boxes of a record are renamed together.
func (p *Pack) nameNow(lesson, box string) (lessonNow, boxNow string) {
	if now, ok := p.LessonsNow[lesson]; ok {
		lesson = now
	}
	number := runNumber.FindString(box)
	if now, ok := p.BoxesNow[lesson][strings.TrimSuffix(box, number)]; ok {
		box = now + number
	}
	return lesson, box
}

// entryPlaces finds where the entries of each lesson stand in a file that has the work from an offset on.
func entryPlaces(text []byte, offset int) map[[2]string]source.Span {
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
				end := offset + int(d.InputOffset())
				places[[2]string{path[2], key}] = source.Span{Start: max(offset, end-len(token)-2), End: end}
			}
		}
		inKey = true
	}
}
