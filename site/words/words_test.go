package words

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"testing"

	"trundle/generator/locale"
)

// slots are the places of a text where something is put in: %s, %d, {}.
var slots = regexp.MustCompile(`%[^%\s]|\{\}`)

// faults lists what a language lacks or has too much, text by text, beside the first language.
func faults(first, other Words) []string {
	var all []string
	for _, name := range slices.Sorted(maps.Keys(first)) {
		text, ok := other[name]
		switch {
		case !ok:
			all = append(all, name+" is missing")
		case text == "":
			all = append(all, name+" is empty")
		case !slices.Equal(slots.FindAllString(first[name], -1), slots.FindAllString(text, -1)):
			all = append(all, name+" puts in other things")
		}
	}
	for _, name := range slices.Sorted(maps.Keys(other)) {
		if _, ok := first[name]; !ok {
			all = append(all, name+" is used nowhere")
		}
	}
	return all
}

func TestEveryLanguageHasEveryText(t *testing.T) {
	en, err := Load("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, language := range locale.Tags() {
		w, err := Load(language)
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range faults(en, w) {
			t.Errorf("%s/words.yaml: %s", language, fault)
		}
	}
}

func TestWhatALanguageLacksIsListed(t *testing.T) {
	first := Words{"a": "one %s of %d", "b": "two", "c": "three", "d": "half of {}"}
	got := faults(first, Words{"a": "%d von %s", "b": "", "d": "die Hälfte von {}", "e": "mehr"})
	want := "[a puts in other things b is empty c is missing e is used nowhere]"
	if fmt.Sprint(got) != want {
		t.Errorf("found %v; %s was expected", got, want)
	}
}

func TestALanguageThatIsNotThereIsAnError(t *testing.T) {
	if _, err := Load("xx"); err == nil {
		t.Error("no error")
	}
}
