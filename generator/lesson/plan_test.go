package lesson_test

import (
	"fmt"
	"slices"
	"testing"

	"trundle/generator/lesson"
)

func TestPartsFollowEachOtherInTime(t *testing.T) {
	l := &lesson.Lesson{Sections: []*lesson.Section{
		{ID: "a", Title: "Warm-up: the gate", Minutes: 8, HasMinutes: true},
		{ID: "b", Title: "Roles"},
		{ID: "c", Title: "Work: on paper", Minutes: 17, HasMinutes: true},
		{ID: "n", Title: "Notes", Minutes: 5, HasMinutes: true, Mentors: true},
		{ID: "d", Title: "Work, on the floor", Minutes: 40, HasMinutes: true},
	}}
	var got []string
	for _, p := range lesson.TimedParts(l) {
		got = append(got, fmt.Sprintf("%s %s %d-%d", p.ID, p.Label, p.From, p.To))
	}
	want := []string{"a Warm-up 0-8", "c Work: on paper 8-25", "d Work, on the floor 25-65"}
	if !slices.Equal(got, want) {
		t.Errorf("the parts are %q, want %q", got, want)
	}
}

func TestAClockGoesOnFromTheStart(t *testing.T) {
	at := func(minutes int) *int { return &minutes }
	for _, c := range []struct {
		start  *int
		minute int
		want   string
	}{
		{nil, 0, "0:00"}, {nil, 68, "1:08"}, {at(18*60 + 30), 0, "18:30"}, {at(18*60 + 30), 31, "19:01"},
		{at(0), 0, "00:00"}, {at(9 * 60), 5, "09:05"}, {at(23*60 + 50), 20, "00:10"},
	} {
		if got := lesson.ClockAt(c.start, c.minute); got != c.want {
			t.Errorf("%d minutes after the start the clock shows %s, want %s", c.minute, got, c.want)
		}
	}
}
