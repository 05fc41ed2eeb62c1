package site

import (
	"slices"
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/locale"
	"trundle/generator/typography"
)

// titled is a lesson with parts of so many minutes each.
func titled(minutes int, titles ...string) *lesson.Lesson {
	l := &lesson.Lesson{}
	for _, title := range titles {
		l.Sections = append(l.Sections, &lesson.Section{Title: title, Minutes: minutes, HasMinutes: true})
	}
	return l
}

func TestALongTitleIsShortOnTheTapeWhereThatNamesItsPartAlone(t *testing.T) {
	for titles, want := range map[string]string{
		"One change, with the power off|Exit ticket: the team's log": "One change|Exit ticket",
		"On the floor: before|On the floor: after|Work":              "On the floor: before|On the floor: after|Work",
		"Exit: a|Exit ticket": "Exit: a|Exit ticket",
		": odd|Plain":         ": odd|Plain",
	} {
		var got []string
		for _, part := range tapeParts(titled(10, strings.Split(titles, "|")...)) {
			got = append(got, part.Label)
		}
		if strings.Join(got, "|") != want {
			t.Errorf("the tape of %s has %q, not %s", titles, got, want)
		}
	}
}

func TestANarrowPartIsNamedByItsFirstWordWithTheRestAsAnExtra(t *testing.T) {
	for _, x := range []struct {
		minutes            int
		title, first, rest string
	}{
		{3, "Pack away", "Pack", " away"},
		{4, "Exit ticket: the log", "Exit", " ticket"},
		{5, "Exit ticket", "Exit ticket", ""},
		{3, "Feast", "Feast", ""},
	} {
		part := tapeParts(titled(x.minutes, x.title))[0]
		if part.First() != x.first || part.Rest() != x.rest {
			t.Errorf("%s, %d min: %q and %q", x.title, x.minutes, part.First(), part.Rest())
		}
	}
}

func TestAWordThatIsLongerThanItsPartMayBePartedBetweenSyllables(t *testing.T) {
	for _, x := range []struct {
		language, title string
		minutes         int
		want            string
	}{
		{"de", "Aufwärmen", 5, "Auf-wär-men"}, {"de", "Aufwärmen", 8, "Aufwärmen"}, {"de", "Rechnen", 4, "Rech-nen"},
		{"es", "Calentamiento en parejas", 5, "Ca-len-ta-miento en parejas"}, {"fr", "Échauffement", 6, "Échauf-fe-ment"},
		{"en", "Warm-up", 5, "Warm-up"}, {"de", strings.Repeat("banane", 40), 5, strings.Repeat("banane", 40)},
	} {
		forms, err := locale.FormsOf(x.language)
		if err != nil {
			t.Fatal(err)
		}
		part := tapeParts(titled(x.minutes, x.title)).in(typography.In(forms))[0]
		if got := strings.ReplaceAll(part.First(), "\u00ad", "-"); got != x.want {
			t.Errorf("%s, %d min: %s", x.title, x.minutes, got)
		}
	}
}

func TestNumeralsStandWherePartsStartAndEveryTenMinutesWhereThereIsRoom(t *testing.T) {
	for _, x := range []struct {
		minutes []int
		want    []int
	}{
		{[]int{8, 18, 22, 7}, []int{0, 8, 20, 26, 30, 40, 48}},
		{[]int{6, 8, 6}, []int{0, 6, 10, 14}},
		{[]int{7, 6, 4}, []int{0, 7, 13}},
		{[]int{10, 10, 30}, []int{0, 10, 20, 30, 40}},
		{[]int{45}, []int{0, 10, 20, 30, 40}},
		{nil, nil},
	} {
		l := &lesson.Lesson{}
		for _, m := range x.minutes {
			l.Sections = append(l.Sections, &lesson.Section{Minutes: m, HasMinutes: true})
		}
		var got []int
		for _, n := range tapeParts(l).Numerals() {
			got = append(got, n.Minute)
			if n.Tick != !slices.ContainsFunc(tapeParts(l), func(p tapePart) bool { return p.From == n.Minute }) {
				t.Errorf("%v: the mark of %d is a tick: %v", x.minutes, n.Minute, n.Tick)
			}
		}
		if !slices.Equal(got, x.want) {
			t.Errorf("%v: the numerals are %v, not %v", x.minutes, got, x.want)
		}
	}
}
