// Package language lists the coach's language, every word with what it means. Which words there are is asked of those
// who read them; what they mean is in words.csv.
package language

import (
	_ "embed"
	"encoding/csv"
	"slices"
	"strings"
	"sync"

	"trundle/generator/locale"
	"trundle/generator/parse"
	"trundle/generator/quantity"
)

//go:embed words.csv
var wordsFile string

// A Word is a keyword, a field, a unit, a formula.
type Word struct {
	Name    string
	Form    string // as it is written
	Meaning string // empty as long as words.csv has no row for it
}

// A Section is the words of one place.
type Section struct {
	Name  string // by which it is asked for
	Title string // a sentence
	Words []Word
}

// outline is the order of the sections, each with its first sentence. Sections that are not the parser's or the
// calculator's are those of words.csv alone: forms that are no words.
var outline = []Section{
	{Name: "files", Title: "A pack is a folder with these files."},
	{Name: "pack.yaml", Title: "Fields of pack.yaml."},
	{Name: "kits.yaml", Title: "Fields of a kit; kits.yaml has one below each name, as in heron: {title: Heron, …}."},
	{Name: "formulas.yaml", Title: "Fields of a formula of the pack's own; formulas.yaml has them below its name, and " +
		"lessons call it by that."},
	{Name: "renamed.yaml", Title: "Fields of renamed.yaml, where the old name of a thing leads to its new one."},
	{Name: "lesson", Title: "Fields of a lesson's header, which stands between two lines of ---."},
	{Name: "card", Title: "Fields of a care card's header."},
	{Name: "words.md",
		Title: "Fields of the header of words.md, which needs none. Each word is a heading, ## mean, the means, " +
			"with its spellings between commas; what it means comes below."},
	{Name: "text", Title: "A lesson is Markdown. These mean something more in it."},
	{Name: "blocks", Title: "Blocks begin with ``` and one of these, and end with ```. One line is one statement; an " +
		"indented line continues the one above it; # begins a comment."},
	{Name: "work", Title: "Statements of a work block. A name is defined once and holds to the end of the lesson."},
	{Name: "runs", Title: "Lines of a runs block, which reads repeated trials from a file."},
	{Name: "chart", Title: "Lines of a chart block. line, dots, bars, steps, fitted and path say what is drawn; a " +
		"block has one of these kinds."},
	{Name: "compare", Title: "Lines of a compare block, which weighs what counts."},
	{Name: "readers", Title: "Lines of a readers block, which measures the measurers."},
	{Name: "show", Title: "Lines of a show block, each a figure that follows the boxes: what it is drawn of, perhaps " +
		"until and the find that it waits for, a text."},
	{Name: "gauge", Title: "Lines of a gauge block, which prints measuring aids at true scale: a gauge, a size, a text."},
	{Name: "expressions", Title: "How numbers and calculations are written."},
	{Name: "units", Title: "Units of one kind can be mixed, as in 20 in + 70 cm; cm/s and m^2 are made of them, " +
		"without spaces."},
	{Name: "formulas", Title: "Formulas of the trade. Gear is motor rotations for one wheel rotation."},
	{Name: "functions", Title: "Functions of mathematics, of a record or several values, and of two records."},
}

// Sections gives the whole language. A word that has no row in words.csv is there without a meaning.
func Sections() []Section {
	all := slices.Clone(outline)
	known := vocabularies()
	for i := range all {
		all[i].Words = words(all[i].Name, known[all[i].Name])
	}
	return all
}

// vocabularies are the words of each section, from those who read them.
func vocabularies() map[string][]Word {
	known := map[string][]Word{}
	for _, v := range parse.Vocabularies() {
		for _, name := range v.Words {
			known[v.Of] = append(known[v.Of], Word{Name: name, Form: name})
		}
	}
	for section, all := range map[string][]quantity.Description{"units": quantity.DescribeUnits(),
		"formulas": quantity.DescribeFormulas(), "functions": quantity.DescribeFunctions()} {
		for _, d := range all {
			known[section] = append(known[section], Word(d))
		}
	}
	return known
}

// words joins the words that are known with what words.csv says of them.
func words(section string, known []Word) []Word {
	written := slices.DeleteFunc(slices.Clone(rows()), func(r row) bool { return r.section != section })
	if known == nil {
		for _, r := range written {
			known = append(known, r.Word)
		}
		return known
	}
	for i, w := range known {
		for _, r := range written {
			if r.Name == w.Name {
				known[i] = r.Word
			}
		}
	}
	return known
}

// A row is one of words.csv.
type row struct {
	section string
	Word
}

// rows reads the file once. It is part of the program, so that a fault in it is the program's.
var rows = sync.OnceValue(func() []row {
	file := strings.ReplaceAll(wordsFile, "{languages}", locale.Either(locale.Tags()))
	read, err := csv.NewReader(strings.NewReader(file)).ReadAll()
	if err != nil {
		panic(err)
	}
	all := make([]row, 0, len(read))
	for _, r := range read[1:] { // the first names the columns
		w := row{r[0], Word{r[1], r[2], r[3]}}
		if w.Form == "" {
			w.Form = w.Name
		}
		all = append(all, w)
	}
	return all
})
