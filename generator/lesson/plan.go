package lesson

// The plan of an evening: which part of a lesson takes from when to when, and what a clock shows then.

import (
	"strconv"
	"strings"

	"trundle/generator/source"
)

// A TimedPart is a part of a lesson whose heading has minutes. From and To count minutes from the start of the lesson.
type TimedPart struct {
	ID, Title string
	Label     string // the title, or as much of it as names this part alone
	Minutes   int
	IfTime    bool // it may be left out
	Spare     int  // as many of its minutes are for when there is time
	From, To  int
	At        source.Span // of its heading
}

// IsTimed tells whether a section is a part of the plan.
func (s *Section) IsTimed() bool { return s.HasMinutes && !s.Mentors }

// TimedParts are those of a lesson, in order; what is for mentors takes none of the time.
func TimedParts(l *Lesson) []TimedPart {
	var all []TimedPart
	from := 0
	for _, s := range l.Sections {
		if !s.IsTimed() {
			continue
		}
		all = append(all, TimedPart{ID: s.ID, Title: s.Title, Label: s.Title, Minutes: s.Minutes, From: from,
			To: from + s.Minutes, At: s.At, IfTime: s.IfTime, Spare: s.Spare})
		from += s.Minutes
	}
	for i := range all {
		if label := shortTitle(all, i); label != "" {
			all[i].Label = label
		}
	}
	return all
}

// shortTitle is a part's title up to its first colon or comma: five minutes of a plan are no room for "One change, with
// the power off". It is "" where another part would have the same.
func shortTitle(all []TimedPart, i int) string {
	end := strings.IndexAny(all[i].Title, ":,")
	if end <= 0 {
		return ""
	}
	short := all[i].Title[:end]
	for j, other := range all {
		if j != i && strings.HasPrefix(other.Title, short) {
			return ""
		}
	}
	return short
}

// ClockAt is what a clock shows so many minutes after the start of a lesson, 18:30. start is in minutes after midnight;
// if it is nil, nobody has said when the lesson starts, and the minutes are counted from there, 0:30.
func ClockAt(start *int, minute int) string {
	const hour, day = 60, 24 * 60
	if start == nil {
		return strconv.Itoa(minute/hour) + ":" + twoDigits(minute%hour)
	}
	at := (*start + minute) % day
	return twoDigits(at/hour) + ":" + twoDigits(at%hour)
}

func twoDigits(n int) string { return string([]byte{'0' + byte(n/10), '0' + byte(n%10)}) }
