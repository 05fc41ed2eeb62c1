package words

import (
	"cmp"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"trundle/generator/locale"
)

// slots are the places of a text where something is put in: %s, %[2]d, {}, {2}.
var slots = regexp.MustCompile(`(%)(?:\[(\d)\])?([sd])|(\{)(\d?)\}`)

// putIn lists what a text puts in, each with its number, in the order of the numbers.
func putIn(text string) []string {
	var all []string
	for i, m := range slots.FindAllStringSubmatch(strings.ReplaceAll(text, "%%", ""), -1) {
		all = append(all, cmp.Or(m[2], m[5], strconv.Itoa(i+1))+m[1]+m[3]+m[4])
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// lessOf tells whether a text in the singular puts in what the other form does, or leaves some of it out.
func lessOf(one, other string) bool {
	return !slices.ContainsFunc(putIn(one), func(slot string) bool { return !slices.Contains(putIn(other), slot) })
}

// lonePercent is a sign of percent that Sprintf would take for more.
var lonePercent = regexp.MustCompile(`%[^sd\[]|%$`)

// faults lists what a language lacks or has too much, text by text, beside the first language.
func faults(first, other Words) []string {
	var all []string
	for _, name := range slices.Sorted(maps.Keys(first)) {
		text, ok := other[name]
		if strings.Contains(name, "#") || strings.HasPrefix(name, "form-") { // a language has a singular where it needs one
			continue
		}
		switch {
		case !ok:
			all = append(all, name+" is missing")
		case text == "":
			all = append(all, name+" is empty")
		case !slices.Equal(putIn(first[name]), putIn(text)), !lessOf(other[name+OneForm], text):
			all = append(all, name+" puts in other things")
		case strings.Count(first[name], "%%") > 0 && lonePercent.MatchString(strings.ReplaceAll(text, "%%", "")):
			all = append(all, name+" has a single % where %% is needed")
		}
	}
	for _, name := range slices.Sorted(maps.Keys(other)) {
		if _, ok := first[strings.TrimSuffix(name, OneForm)]; !ok && name[0] != '#' {
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
	first := Words{"f": "%s of %d", "g": "{} of {}", "h#one": "%d h", "h": "%d hs",
		"a": "one %s of %d", "b": "two", "c": "three", "d": "half of {}"}
	got := faults(first, Words{"f": "%[2]d und %[1]s", "g": "{2} und {1}", "h#one": "%s", "h": "%d",
		"a": "%d von %s", "b": "", "d": "die Hälfte von {}", "e": "mehr"})
	want := "[a puts in other things b is empty c is missing h puts in other things e is used nowhere]"
	if fmt.Sprint(got) != want {
		t.Errorf("found %v; %s was expected", got, want)
	}
}

func TestALanguageThatIsNotThereIsAnError(t *testing.T) {
	if _, err := Load("xx"); err == nil {
		t.Error("no error")
	}
}
