package check_test

// What is read in other languages than English: sentences that must be stopped, and sentences that must pass.

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"trundle/generator/check"
	"trundle/generator/hazard"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/problem"
	"trundle/generator/reading"
	"trundle/generator/source"
	"trundle/generator/work"
)

// packIn makes a pack in a language whose one card for adults mentions what is given.
func packIn(t *testing.T, tag string, mentions []string) *lesson.Pack {
	t.Helper()
	p, _ := parse.PackFile(source.NewFile("pack.yaml", []byte("title: P\nversion: 1\nlanguage: "+tag+"\n")))
	card := &lesson.Card{File: source.NewFile("care/all.md", nil), Name: "all", Language: tag, Adults: true}
	for _, m := range mentions {
		card.Mentions = append(card.Mentions, lesson.Text{Value: m})
	}
	p.Cards = []*lesson.Card{card, {File: source.NewFile("care/none.md", nil), Name: "none", Language: tag}}
	return p
}

// slugsIn gives the slugs of what is found in a lesson in a language, without those of the test's own making.
func slugsIn(p *lesson.Pack, card, body string) []string {
	found, _ := foundInLesson(p, card, body)
	return found
}

func foundInLesson(p *lesson.Pack, card, body string) (slugs []string, l *lesson.Lesson) {
	header := "---\ntitle: T\nweek: 1\nminutes: 10\ncare: [" + card + "]\n---\n\n"
	l, found := parse.LessonIn(p.Language, parse.NewMarkdown(), source.NewFile("01-t.md", []byte(header+body+"\n")), nil)
	found.Join(allFound(p, mustWork(l, p)))
	var all []string
	for _, one := range found.Sorted() {
		if one.Slug != "time-plan" && !slices.Contains(all, one.Slug) {
			all = append(all, one.Slug)
		}
	}
	return all, l
}

func mustWork(l *lesson.Lesson, p *lesson.Pack) *work.Lesson {
	worked, _ := work.ForKits(l, p)
	return worked
}

// TestSentencesOfOtherLanguagesAreStoppedOrPass reads testdata/reading, a table for each language.
func TestSentencesOfOtherLanguagesAreStoppedOrPass(t *testing.T) {
	for _, tag := range foreignTags(t) {
		f, err := os.Open(filepath.Join("..", "..", "testdata", "reading", tag+".csv"))
		if err != nil {
			t.Error(err)
			continue
		}
		rows, err := csv.NewReader(f).ReadAll()
		_ = f.Close()
		if err != nil {
			t.Fatal(tag, err)
		}
		var stops []string
		for _, s := range reading.Of(tag).Substances {
			if s.Alarm != hazard.Pass {
				stops = append(stops, s.Text)
			}
		}
		all := packIn(t, tag, stops)
		for _, row := range rows[1:] {
			if got := foundIn(all, row[0], row[1]); (len(got) > 0) != (row[2] == "stop") {
				t.Errorf("%s %s: “%s” finds %v; wanted is %s, %s", tag, row[0], row[1], got, row[2], row[3])
			}
		}
		if len(rows) < 40 {
			t.Errorf("%s has only %d sentences", tag, len(rows)-1)
		}
	}
}

// foreignTags are the languages that have words for checks, English left out.
func foreignTags(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "locale", "*", "reading.yaml"))
	if err != nil || len(files) < 3 {
		t.Fatal(files, err)
	}
	var all []string
	for _, name := range files {
		all = append(all, filepath.Base(filepath.Dir(name)))
	}
	return all
}

// foundIn gives what is found of the kind that a row is about.
func foundIn(p *lesson.Pack, kind, sentence string) []string {
	wanted, card, body := []string{}, "all", sentence
	switch kind {
	case "step":
		wanted = []string{"adults-step", "adults-step-unsure"}
		body = "1. " + sentence
	case "card":
		wanted, card = []string{"card-missing"}, "none"
		p = &lesson.Pack{File: p.File, Language: p.Language, Cards: p.Cards[1:]}
	case "mentor-heading":
		wanted, body = []string{"mentor-like"}, "## "+sentence+"\n\nx y."
	case "mentor-line":
		wanted = []string{"mentor-like"}
	case "pair":
		wanted = []string{"unit-pair"}
	case "key":
		wanted = []string{"given-away"}
		body = "```work\ngiven d = 65 mm\ngiven L = 139.27 cm\nfind n in rot to 0.01 = rotations(L, d) \"How many?\"" +
			"\nkey n = 6.82 rot\n```\n\n" + sentence
	}
	found, l := foundInLesson(p, card, body)
	if first := l.Body.FirstChild(); kind == "mentor-heading" && first.Kind() == lesson.KindMentorSection {
		return []string{"it is for mentors"}
	}
	return slices.DeleteFunc(found, func(slug string) bool { return !slices.Contains(wanted, slug) })
}

// TestALanguageHasAllThatChecksRead lists what its folder lacks.
func TestALanguageHasAllThatChecksRead(t *testing.T) {
	for _, tag := range foreignTags(t) {
		l := reading.Of(tag)
		if len(l.Substances) < 150 || len(l.Units) < 20 {
			t.Errorf("%s has %d substances and %d names of units", tag, len(l.Substances), len(l.Units))
		}
		for _, name := range l.Missing() {
			t.Errorf("%s/reading.yaml has no %s", tag, name)
		}
		missing := 0
		for _, s := range hazard.Precautions() {
			if _, ok := s.In(tag); !ok {
				missing++
			}
		}
		if missing > 60 {
			t.Errorf("%s lacks %d precautionary statements", tag, missing)
		}
	}
}

// TestAStatementThatALanguageLacksIsEnglishAndSaysSo: a card never goes without its warning.
func TestAStatementThatALanguageLacksIsEnglishAndSaysSo(t *testing.T) {
	text := "---\ntitle: C\nwho: adults\nwear: []\nhazards: [H222]\n---\n\n" + cardBody
	for tag, want := range map[string]string{"en": "", "de": "", "xx": "statement-language"} {
		c, found := parse.CardIn(tag, parse.NewMarkdown(), source.NewFile("care/c.md", []byte(text)), nil)
		found.Join(check.Card(&lesson.Pack{Language: tag, Cards: []*lesson.Card{c}}, c))
		if got := slugs(found.Sorted()); got != want {
			t.Errorf("%s finds %q, not %q", tag, got, want)
		}
	}
	statement, _ := hazard.Hazard("H222")
	if german, ok := statement.In("de"); !ok || german.Text == statement.Text || german.Code != "H222" {
		t.Errorf("H222 in German is %+v, %v", german, ok)
	}
}

// TestALanguageWithoutWordsStopsAtCareByHand: nothing is understood, so that its coach has to look.
func TestALanguageWithoutWordsStopsAtCareByHand(t *testing.T) {
	for _, c := range []struct {
		tag    string
		byHand bool
		want   string
	}{{"xx", false, "care-by-hand"}, {"xx", true, ""}, {"en", false, ""}, {"en", true, "care-by-hand"},
		{"de", false, ""}, {"de", true, "care-by-hand"}} {
		var found problem.List
		l := &lesson.Lesson{File: source.NewFile("01-t.md", nil), HasHeader: true, CareByHand: c.byHand}
		check.UnreadLanguage(&lesson.Pack{Language: c.tag}, l, &found)
		if got := slugs(found.Sorted()); got != c.want {
			t.Errorf("%s, read by hand %v: found is %q", c.tag, c.byHand, got)
		}
	}
	p := packIn(t, "xx", []string{"blurp"})
	if !slices.Contains(slugsIn(p, "all", "1. Hepl blurp."), "adults-step") {
		t.Error("what a card leaves to adults is not stopped in an unknown language")
	}
}
