package parse

// The words by which a coach marks whom a text is for and what a heading's part is, in English and in the language of
// the pack.

import (
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/reading"
)

// marks are such words, in small letters and without their colons.
type marks struct {
	// students make a quote one for students. There are few, so that no slip of the pen is taken for one.
	students []string
	// mentors come off the start of a note, whose box says the same. Any other label stays: it is text of the note.
	mentors []string
	// notes are the heading of the part for mentors, beside English.
	notes []string

	spare, onPaper, notOnPaper []string // what stands between brackets, beside English
}

// marksOf gives those of a language. English ones are always among them: they are trundle's own.
func marksOf(language string) marks {
	m := marks{students: []string{"students"}, mentors: []string{"mentor", "mentors"}}
	if l := reading.Of(language); l != nil {
		t := l.Texts
		m.students = slices.Concat(m.students, labels(t.StudentsLabels))
		m.mentors = slices.Concat(m.mentors, labels(t.MentorLabels))
		m.notes, m.spare, m.onPaper, m.notOnPaper = t.MentorNotes, t.IfTime, t.OnPaper, t.NotOnPaper
	}
	return m
}

// labels are words before a colon, and before the blank that French has there.
func labels(words []string) []string {
	var all []string
	for _, word := range words {
		word = strings.ToLower(word)
		all = append(all, word, word+" ", word+"\u00a0", word+"\u202f")
	}
	return all
}

// near gives the mark of the pack's language that words in brackets are one slip of the pen away from, "" if there is
// none, and the slug of what is reported of such a mark.
func (m marks) near(words string) (mark, slug string) {
	for _, kind := range []struct {
		slug string
		list []string
	}{{"if-time", m.spare}, {"paper-mark", slices.Concat(m.onPaper, m.notOnPaper)}} {
		if found := quantity.Nearest(words, kind.list); len(found) > 0 {
			return found[0], kind.slug
		}
	}
	return "", ""
}

// ifTime tells whether words in brackets say that a part is for when there is time.
func (m marks) ifTime(words string) bool { return words == ifTimeMark || reading.Has(m.spare, words) }

// paper gives the mark that words in brackets are.
func (m marks) paper(words string) (lesson.PaperMark, bool) {
	switch {
	case reading.Has(m.onPaper, words):
		return lesson.OnPaper, true
	case reading.Has(m.notOnPaper, words):
		return lesson.NotOnPaper, true
	}
	mark, is := paperMarks[words]
	return mark, is
}

// cardHeadings are the headings of a language for the parts that every care card has, by their English titles.
func cardHeadings(language string) map[string][]string {
	l := reading.Of(language)
	if l == nil {
		return nil
	}
	return map[string][]string{
		lesson.CardBefore: l.Texts.CardBefore, lesson.CardDuring: l.Texts.CardDuring,
		lesson.CardAfter: l.Texts.CardAfter, lesson.CardWrong: l.Texts.CardWrong,
	}
}
