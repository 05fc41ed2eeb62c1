package prose

// What looks as if it were meant for mentors.

import "regexp"

// These are meant for mentors.
var (
	noteForMentors = regexp.MustCompile(`(?i)^[^\pL]*` +
		`(?:(?:a )?(?:for|to|(?:notes?|hints?) (?:to|for)) (?:the |our )?)?` +
		`mentors?(?:\b[^.!?\]]{0,12}?[:：\]]| only\b|\s*[—–]\s|\s+-\s|[^\pL]*$)`)
	headingForMentors = regexp.MustCompile(`(?i)\bmentors?\b.*\bnotes?\b|` +
		`\bnotes?\b.*\bmentors?\b|^\W*(?:for )?mentors?\b`)
)

// These may be meant for students all the same: a box for answers, a coach who speaks in a
// story.
var (
	answerOrNote = regexp.MustCompile(`(?i)^[^\pL]*(?:` +
		`(?:(?:correct |right )?answers?|answer keys?|solutions?)\s*(?:[:：]|\s[—–-]\s)\s*[\pL\pN−-]|` +
		`(?:(?:for|to|(?:notes?|hints?) (?:to|for)) (?:the |our )?)?` +
		`(?:coach(?:es)?|teachers?|tutors?|instructors?)\s*(?:[:：]|\s[—–-]\s))`)
	headingOfAnswers = regexp.MustCompile(`(?i)^\W*(?:the )?(?:answers?|answer keys?)\W*$|` +
		`\bnotes? (?:for|to) (?:the |our )?(?:coach|teacher|tutor|instructor)`)
)

// Audience tells whom a text is for.
type Audience int

const (
	Students       Audience = iota
	PerhapsMentors          // a coach should look
	CertainlyMentors
)

// HeadingFor tells whom a section with such a heading is for.
func HeadingFor(heading Run) Audience {
	switch {
	case headingForMentors.Match(heading.Text):
		return CertainlyMentors
	case headingOfAnswers.Match(heading.Text):
		return PerhapsMentors
	}
	return Students
}

// LineFor tells whom a text is for that begins with such a line.
func LineFor(line Run) Audience {
	switch {
	case noteForMentors.Match(line.Text):
		return CertainlyMentors
	case answerOrNote.Match(line.Text):
		return PerhapsMentors
	}
	return Students
}
