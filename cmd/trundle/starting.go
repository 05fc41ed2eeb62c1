package main

// This file reads the time at which a lesson begins.

import (
	"fmt"
	"strconv"
	"strings"

	"trundle/generator/wording"
)

// starting is the flag of commands that make run sheets. It is typed and not in the pack, since a pack is taught in
// several halls.
type starting struct {
	Start *string `placeholder:"HH:MM" help:"start_at"`
}

var (
	timeOfDay = wording.New(`^([0-9]{1,2}):([0-9]{2})$`)
	// otherTime is one of a clock of twelve hours, or with another sign between hours and minutes, or with no minutes.
	otherTime = wording.New(`(?i)^([0-9]{1,2})(?:\s*[:.h]\s*([0-9]{2}))?\s*(?:([ap])\.?\s?m\.?|h)?$`)
)

// minutes are those after midnight at which a lesson begins, nil if nothing was typed.
func (s starting) minutes(p *program) (*int, error) {
	if s.Start == nil {
		return nil, nil
	}
	if m := timeOfDay.FindStringSubmatch(*s.Start); m != nil {
		if at, ok := minutesOf(m[1], m[2], ""); ok {
			return &at, nil
		}
	}
	meant := "18:30"
	if m := otherTime.FindStringSubmatch(strings.TrimSpace(*s.Start)); m != nil {
		if at, ok := minutesOf(m[1], m[2], strings.ToLower(m[3])); ok {
			meant = fmt.Sprintf("%d:%02d", at/60, at%60)
		}
	}
	return nil, p.misuse(fmt.Errorf("--start takes a time from 0:00 to 23:59; “%s” is not one", plain(*s.Start)),
		"write it as in --start "+meant)
}

// minutesOf puts a time together; half is "a" or "p" of a clock of twelve hours.
func minutesOf(hours, minutes, half string) (at int, ok bool) {
	h, _ := strconv.Atoi(hours)
	m, _ := strconv.Atoi(minutes) // "" are none
	switch {
	case half != "" && (h < 1 || h > 12):
		return 0, false
	case half != "":
		h %= 12
	}
	if half == "p" {
		h += 12
	}
	return 60*h + m, h < 24 && m < 60
}
