package tally

// This file reads the file that the page of the class saves: works of teams, and tables of runs as they were dropped
// there. roster.js writes it.

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"

	"trundle/generator/problem"
	"trundle/generator/source"
	"trundle/generator/table"
	"trundle/generator/wording"
)

// startsAsClass finds what a class file says it is, even if it is cut short.
var startsAsClass = wording.New(`^\s*\{\s*"trundle"\s*:\s*"class"`)

// isClass tells whether a file says that it is a class.
func isClass(f *source.File) bool {
	var file struct{ Trundle any }
	return startsAsClass.Match(f.Text()) ||
		isJSON(f) && json.Unmarshal(f.Text(), &file) == nil && file.Trundle == "class"
}

// classAgain is what to do about a class file that cannot be read.
const classAgain = "save the class again from its page, class.html"

// class reads a class file. It is one file of many teams, so that a fault that all its works have is reported once.
func (t *tallying) class(f *source.File) {
	wrong := func(slug, what, hint string) { t.problems.Error(f, source.Span{}, slug, what, hint) }
	var file struct {
		Form   int
		Tables []json.RawMessage
	}
	err := json.Unmarshal(f.Text(), &file)
	works, broken := elements(f.Text(), "works")
	switch {
	case err != nil || broken != nil || file.Form < 1 || file.Tables == nil:
		wrong("not-runs", "this class file is damaged", classAgain)
		return
	case file.Form > newestForm:
		wrong("not-runs", "this class file is of a newer version than this program", "use a newer trundle")
		return
	case t.options.Pack == nil:
		wrong("pack-needed", "a class file says nothing of its records and their units; its pack does",
			"name the pack, as in  --pack lessons")
		return
	}
	said := map[string]bool{}
	for _, at := range works {
		var found problem.List
		if work := t.savedWork(f, at, &found); work != nil {
			work.inClass = true
			t.merge(work)
		}
		for _, p := range found.Sorted() {
			if !said[p.What] {
				said[p.What] = true
				t.problems.Add(p)
			}
		}
	}
	for _, raw := range file.Tables {
		var one struct{ Name, Text *string }
		if json.Unmarshal(raw, &one) == nil && one.Name != nil && one.Text != nil { // as the page does
			t.classTable(f, *one.Name, *one.Text)
		}
	}
}

// classTable reads a table of a class file, unless it is there already: last week's class file has most of this week's
// tables.
func (t *tallying) classTable(f *source.File, name, text string) {
	text = strings.TrimPrefix(text, "\ufeff")
	if t.seen[text] != nil {
		return
	}
	inside := source.NewFile(f.Name+"/"+path.Base(strings.ReplaceAll(name, `\`, "/")), []byte(text))
	t.seen[text], t.places[inside] = inside, t.places[f]
	read, found := table.Read(inside, t.words())
	if found.HasErrors() || read.Rows == 0 {
		t.leaveOut(inside, found)
		return
	}
	t.ofClass = append(t.ofClass, read)
}

// tablesOfClass takes the tables of the lesson out of class files, and says how many are of others.
func (t *tallying) tablesOfClass() {
	others := map[int]int{} // by the class file's place
	for _, read := range t.ofClass {
		if t.options.Pack.lessonOf(read) != t.options.Lesson {
			others[t.places[read.File]]++
			continue
		}
		read = t.options.Lesson.inItsUnits(t.askedAbout(read))
		var found problem.List
		for _, r := range t.options.Lesson.Records {
			if c, ok := read.Column(r.Name); ok {
				_, wrong := read.Numbers(c, r.Unit)
				found.Join(wrong)
			}
		}
		if found.HasErrors() {
			t.leaveOut(read.File, found)
			continue
		}
		t.tables = append(t.tables, read)
	}
	for i, f := range t.files {
		if others[i] > 0 {
			t.problems.Caution(f, source.Span{}, "other-lessons",
				"tables in it that are not of "+t.options.Lesson.Slug+" are left out: "+strconv.Itoa(others[i]),
				"nothing has to be done")
		}
	}
}

// askedAbout is a table of a class file with the columns that the lesson asks for and those that say something of a
// run, as the page of the class looks at it; who drove what, and whose run it is, may be missing.
func (t *tallying) askedAbout(read *table.Table) *table.Table {
	some := *read
	some.Columns = slices.DeleteFunc(slices.Clone(read.Columns), func(c *table.Column) bool {
		isAsked := t.options.Lesson.record(c.Name) != nil || strings.EqualFold(c.Name, t.options.By)
		return !isAsked && !contains(about, c.Name)
	})
	for _, name := range about[:2] {
		if _, ok := some.Column(name); ok {
			continue
		}
		c := &table.Column{Name: name, Written: name, At: read.Columns[0].At}
		for _, cell := range read.Columns[0].Cells {
			c.Cells = append(c.Cells, table.Cell{At: cell.At})
		}
		some.Columns = append(some.Columns, c)
	}
	return &some
}

// leaveOut reports what is wrong with a table of a class file, and that none of it counts, as on the class's page: the
// runs that can be read are no fair sample. With a decimal comma a run may have been parted, and one that ended on a
// whole centimetre not. Nobody can put it right there, and the rest of the class should not wait for it.
func (t *tallying) leaveOut(inside *source.File, found problem.List) {
	t.problems.Caution(inside, source.Span{}, "table-left-out",
		"no run of this table of the class counts: those that can be read may differ from those that cannot",
		"correct the file that was dropped on the page of the class, and name it beside the class file")
	for _, p := range found.Sorted() {
		p.Severity = problem.Caution
		t.problems.Add(p)
	}
}

// elements finds where the elements of a list stand that an object has under a name.
func elements(text []byte, name string) ([]source.Span, error) {
	d := json.NewDecoder(bytes.NewReader(text))
	if open, err := d.Token(); err != nil || open != json.Delim('{') {
		return nil, errors.Join(err, io.ErrUnexpectedEOF)
	}
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return nil, err
		}
		if key == name {
			return elementsNext(d)
		}
		var passed json.RawMessage
		if err := d.Decode(&passed); err != nil {
			return nil, err
		}
	}
	return nil, io.ErrUnexpectedEOF
}

// elementsNext finds those of the list that a decoder comes to next.
func elementsNext(d *json.Decoder) ([]source.Span, error) {
	if open, err := d.Token(); err != nil || open != json.Delim('[') {
		return nil, errors.Join(err, io.ErrUnexpectedEOF)
	}
	var all []source.Span
	for d.More() {
		var one json.RawMessage
		if err := d.Decode(&one); err != nil {
			return nil, err
		}
		end := int(d.InputOffset())
		all = append(all, source.Span{Start: end - len(one), End: end})
	}
	return all, nil
}
