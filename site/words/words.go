// Package words holds the texts of the interface, words.yaml of each language's folder. Templates, scripts
// and drawings name a text and hold none of their own.
package words

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"

	"github.com/goccy/go-yaml"

	"trundle/generator/locale"
)

// Words are the texts of the interface in one language, by name. A text that has a form for the singular has it under
// its name and OneForm. They are a plain table, since scripts get a part of it as it is.
type Words map[string]string

// OneForm follows the name of a text in the form that it has for one of something.
const OneForm = "#one"

// Singular is the name of the numbers that OneForm is for, between blanks: in French 0 as well as 1.
const Singular = "#singular"

// goalsAsWritten is the name of what says that goals keep their capital.
const goalsAsWritten = "#goals-as-written"

// Goal lets a goal go on after "I can", by lower if the language has a small letter there.
func (w Words) Goal(text string, lower func(string) string) string {
	if w[goalsAsWritten] != "" {
		return text
	}
	return lower(text)
}

// Language is the name of the language's own tag.
const Language = "#language"

// text is one of words.yaml: a text, or one for each form of the number in it.
type text struct {
	One, Other string
	counted    bool
}

// UnmarshalYAML reads either.
func (t *text) UnmarshalYAML(read func(any) error) error {
	if read(&t.Other) == nil {
		return nil
	}
	var forms struct{ One, Other string }
	err := read(&forms)
	t.One, t.Other, t.counted = forms.One, forms.Other, true
	return err
}

// loaded keeps what was read of each language.
var loaded sync.Map

// Load gives the words of a language, such as "en", to whoever asks as a copy of their own; an error if there is none.
func Load(language string) (Words, error) {
	read, _ := loaded.LoadOrStore(language, sync.OnceValues(func() (Words, error) { return load(language) }))
	w, err := read.(func() (Words, error))()
	return maps.Clone(w), err
}

func load(language string) (Words, error) {
	data, err := locale.Read(language, "words.yaml")
	if err != nil {
		return nil, err
	}
	forms, err := locale.FormsOf(language)
	if err != nil {
		return nil, err
	}
	w, err := read(data, forms)
	if err != nil {
		return nil, err
	}
	w[Language] = language
	return w, nil
}

func read(data []byte, forms locale.Forms) (Words, error) {
	texts := map[string]text{}
	if err := yaml.Unmarshal(data, &texts); err != nil {
		return nil, err
	}
	w := Words{Singular: strings.Trim(fmt.Sprint(forms.Singular), "[]")}
	w.keep(forms)
	if forms.GoalsAsWritten {
		w[goalsAsWritten] = "true"
	}
	for name, t := range texts {
		if w[name] = t.Other; t.counted {
			w[name+OneForm] = t.One
		}
	}
	return w, nil
}

// Text gives a text, its numbers put in. The first whole number decides on its form.
func (w Words) Text(name string, args ...any) (string, error) {
	n := slices.IndexFunc(args, func(arg any) bool { _, whole := arg.(int); return whole })
	if n < 0 {
		return w.form(name, "", args)
	}
	return w.form(name, strconv.Itoa(args[n].(int)), args)
}

// form gives a text in the form that goes with a number, "" for none.
func (w Words) form(name, number string, args []any) (string, error) {
	text, ok := w[name]
	if !ok {
		return "", fmt.Errorf("words: no text %q in the language file", name)
	}
	if one, counted := w[name+OneForm]; counted && w.isOne(number) {
		text = one
	}
	if len(args) > 0 {
		return fmt.Sprintf(text, args...), nil
	}
	return text, nil
}

// isOne tells whether a language has the singular with a number.
func (w Words) isOne(number string) bool { return slices.Contains(strings.Fields(w[Singular]), number) }

// Say is Text for names in code; a test sees to it that all of them are there.
func (w Words) Say(name string, args ...any) string {
	text, err := w.Text(name, args...)
	if err != nil {
		panic(err)
	}
	return text
}

// SayOf is Say for a text whose number is put in as a word.
func (w Words) SayOf(n int, name string, args ...any) string {
	text, err := w.form(name, strconv.Itoa(n), args)
	if err != nil {
		panic(err)
	}
	return text
}

// Fill is Say for a text that scripts say, too: {} stands for the next of the parts, {2} for the second.
func (w Words) Fill(name string, parts ...string) string {
	n := slices.IndexFunc(parts, func(part string) bool { _, err := strconv.Atoi(part); return err == nil })
	number := ""
	if n >= 0 {
		number = parts[n]
	}
	text, err := w.form(name, number, nil)
	if err != nil {
		panic(err)
	}
	pairs := make([]string, 0, 2*len(parts))
	for i, part := range parts {
		text = strings.Replace(text, "{}", "{"+strconv.Itoa(i+1)+"}", 1)
		pairs = append(pairs, "{"+strconv.Itoa(i+1)+"}", part)
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// List puts several together: a, b and c.
func (w Words) List(all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	last := len(all) - 1
	return w.Say("way-and", strings.Join(all[:last], ", "), all[last])
}

// StartingWith gives the words whose names start with a prefix, by the rest of their names, and what
// decides on their forms.
func (w Words) StartingWith(prefix string) map[string]string {
	some := map[string]string{}
	for name, text := range w {
		if rest, ok := strings.CutPrefix(name, prefix); ok {
			some[rest] = text
			if strings.HasSuffix(name, OneForm) {
				some[Singular] = w[Singular]
			}
		}
	}
	return some
}
