// Package reading has the words by which checks understand lessons that are not in English: whom a text is for, who
// does a step, what needs a care card, what units are called. They are data, a folder for each
// language; see DEVELOPERS.md.
package reading

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"reflect"
	"slices"
	"strings"
	"sync"

	"github.com/goccy/go-yaml"

	"trundle/generator/hazard"
	"trundle/generator/locale"
)

// Native is the language that checks read without such data: sentences of it are taken apart by patterns.
const Native = "en"

// A Language is what a folder says. What it lacks is empty, and then checks stop more.
type Language struct {
	Tag        string
	Commas     bool // decimals come after a comma
	Texts      Texts
	Substances []Substance       // nil if the folder has no such table
	Units      map[string]string // symbols by the names of their units
}

// A Substance is a row of substances.csv. Its word is the first of its forms.
type Substance struct {
	hazard.Word
	Forms []string
}

// Texts are the lists of reading.yaml. What each is for, and which way an error in it falls, is in DEVELOPERS.md.
type Texts struct {
	StudentsLabels []string `yaml:"students-labels"`
	MentorLabels   []string `yaml:"mentor-labels"`
	MentorNotes    []string `yaml:"mentor-notes"`
	IfTime         []string `yaml:"if-time"`
	OnPaper        []string `yaml:"on-paper"`
	NotOnPaper     []string `yaml:"not-on-paper"`
	CardBefore     []string `yaml:"card-before"`
	CardDuring     []string `yaml:"card-during"`
	CardAfter      []string `yaml:"card-after"`
	CardWrong      []string `yaml:"card-wrong"`
	ToDo           []string `yaml:"to-do"`

	Endings      []string          `yaml:"endings"`
	Compounds    bool              `yaml:"compounds"`
	Spellings    map[string]string `yaml:"spellings"`
	HeadNoun     string            `yaml:"head-noun"`
	QualifiedBy  []string          `yaml:"qualified-by"`
	FalseFriends []string          `yaml:"false-friends"`

	Adults           []string `yaml:"adults"`
	HandsOver        []string `yaml:"hands-over"`
	Forbids          []string `yaml:"forbids"`
	ForbidsNot       []string `yaml:"forbids-not"`
	NotBefore        []string `yaml:"not-before"`
	KeptAway         []string `yaml:"kept-away"`
	SmallWords       []string `yaml:"small-words"`
	Conjunctions     []string `yaml:"conjunctions"`
	LeadIns          []string `yaml:"lead-ins"`
	StandsFor        []string `yaml:"stands-for"`
	StandsForEndings []string `yaml:"stands-for-endings"`
	MayStandFor      []string `yaml:"may-stand-for"`

	AdultWords []string `yaml:"adult-words"`
	CallsAdult []string `yaml:"calls-adult"`
	Dangers    []string `yaml:"dangers"`

	About      []string `yaml:"about"`
	Exactly    []string `yaml:"exactly"`
	PairInside []string `yaml:"pair-inside"`
	PairWhich  []string `yaml:"pair-which"`
	PairEquals []string `yaml:"pair-equals"`
	SlipWords  []string `yaml:"slip-words"`
	ScaleWords []string `yaml:"scale-words"`
	PartBefore []string `yaml:"part-before"`
}

// languages keeps what was read.
var languages sync.Map

// Of gives a language's words, nil for Native. A language that has none is one of which nothing is understood.
func Of(tag string) *Language {
	if tag == Native || tag == "" {
		return nil
	}
	read, _ := languages.LoadOrStore(tag, sync.OnceValue(func() *Language {
		l, err := load(tag)
		if err != nil {
			panic(fmt.Sprintf("reading: %s: %v", tag, err)) // embedded, and its test reads it
		}
		return l
	}))
	return read.(func() *Language)()
}

// load reads a folder.
func load(tag string) (*Language, error) {
	l := &Language{Tag: tag}
	forms, err := locale.FormsOf(tag)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	l.Commas = forms.Commas()
	data, err := locale.Read(tag, "reading.yaml")
	if err == nil {
		err = yaml.NewDecoder(bytes.NewReader(data), yaml.DisallowUnknownField()).Decode(&l.Texts)
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("reading.yaml: %w", err)
	}
	if l.Substances, err = substances(tag); err != nil {
		return nil, fmt.Errorf("substances.csv: %w", err)
	}
	if l.Units, err = units(tag); err != nil {
		return nil, fmt.Errorf("units.csv: %w", err)
	}
	return l, nil
}

// rows reads a table of a folder without its head, nil if there is none. Lines that begin with # tell where it is from.
func rows(tag, name string, columns ...string) ([][]string, error) {
	data, err := locale.Read(tag, name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	if len(all) == 0 || !slices.Equal(all[0], columns) {
		return nil, fmt.Errorf("the columns are not %s", strings.Join(columns, ", "))
	}
	return all[1:], nil
}

func substances(tag string) ([]Substance, error) {
	table, err := rows(tag, "substances.csv", "word", "forms", "kind", "alarm", "source")
	if err != nil {
		return nil, err
	}
	var all []Substance
	for _, row := range table {
		w := hazard.Word{Text: row[0], Kind: row[2], Alarm: hazard.Alarm(row[3]), Source: row[4]}
		if !w.Known() {
			return nil, fmt.Errorf("“%s” has the kind “%s” and the alarm “%s”", w.Text, w.Kind, w.Alarm)
		}
		all = append(all, Substance{w, append([]string{w.Text}, split(row[1])...)})
	}
	return all, nil
}

func units(tag string) (map[string]string, error) {
	table, err := rows(tag, "units.csv", "unit", "names")
	if err != nil {
		return nil, err
	}
	all := map[string]string{}
	for _, row := range table {
		for _, name := range split(row[1]) {
			all[name] = row[0]
		}
	}
	return all, nil
}

// split cuts what stands between strokes.
func split(list string) []string {
	var all []string
	for _, part := range strings.Split(list, "|") {
		if part = strings.TrimSpace(part); part != "" {
			all = append(all, part)
		}
	}
	return all
}

// Has tells whether a text is one of a list, whatever its capitals, blanks and apostrophes.
func Has(list []string, text string) bool {
	text = typed(text)
	return slices.ContainsFunc(list, func(one string) bool { return strings.EqualFold(typed(one), text) })
}

// typed is a text as it is typed: plain blanks and apostrophes.
func typed(text string) string {
	return strings.ReplaceAll(strings.Join(strings.Fields(text), " "), "’", "'")
}

// mayLack are lists of which a language may have none.
var mayLack = []string{"spellings", "false-friends", "stands-for-endings", "may-stand-for", "qualified-by", "compounds"}

// Missing names the lists of reading.yaml that are empty and should not be.
func (l *Language) Missing() []string {
	var all []string
	texts := reflect.ValueOf(l.Texts)
	for i := range texts.NumField() {
		name := texts.Type().Field(i).Tag.Get("yaml")
		if texts.Field(i).IsZero() && !slices.Contains(mayLack, name) {
			all = append(all, name)
		}
	}
	return all
}
