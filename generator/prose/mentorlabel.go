package prose

// Labels such as "Coach:" and "Answer –" at the start of a line, and those that nearly say "Students:".

import (
	"slices"
	"strings"

	"trundle/generator/wording"
)

// A label is what stands before a colon, or what is used as one, at the start of a line.
var (
	// colons are the colon and what looks like one; the list is from memory.
	colons    = `:：ː∶꞉׃։፡⁚᛬︰﹕;\]`
	labelEnd  = `(?:\s?[` + colons + `]|\s?[—–]\s?|\s+[-−]\s|\.\s|\)\s)`
	labelForm = wording.New(`^[^\pL\pN_]*(\pL[\pL\pN'’‘]*(?:[ -]+[\pL\pN'’‘]+){0,5}?)` +
		`(?:\s\([^)]{0,40}\))?[^\pL\pN\s:.;_\]-]*(` + labelEnd + `)\s*(.*)$`)
	// alone is a label with a line of its own.
	alone = wording.New(`^[^\pL\pN_]*(\pL[\pL'’]*(?:[ -]+[\pL'’]+){0,3})[^\pL\pN_]*$`)
	// called is a line that speaks to somebody: "Mentors, please note".
	called = wording.New(`(?i)^[^\pL\pN_]*(\pL+),\s+(?:please|note|bitte|nota|attention)\b`)
	// room is where students are to write: a line, dots, or boxes.
	room = wording.New(`__|\.{4}|……|□|☐`)
)

// longestLabel bounds where a label ends, in bytes.
const longestLabel = 120

// mayHaveLabel is true if a line's start has a mark that ends a label, or if the line is short: nearly all lines of
// a season fail this, which saves trying the patterns.
func mayHaveLabel(start string, length int) bool {
	stop := strings.Index(start, ". ")
	return length < 40 || stop >= 0 && stop < 60 || strings.ContainsAny(start, strings.TrimSuffix(colons, `\]`)+"]—–,") ||
		strings.Contains(start, " - ") || strings.Contains(start, " − ") || strings.Contains(start, ") ")
}

// LineForMentors tells whether a line looks as if it began a note for mentors, or gave an answer.
func LineForMentors(line Run) bool {
	text := string(line.Text)
	start := text[:min(len(text), longestLabel)]
	if !mayHaveLabel(start, len(text)) {
		return false
	}
	if m := labelForm.FindStringSubmatch(text); m != nil {
		words := wordsIn([]byte(m[1]))
		if labelsPerson(words) || labelsMentor(words, m[1]) && strings.ContainsAny(m[2], colons) {
			return true
		}
		rangeOf := strings.Trim(m[2], "—–") == "" // Answer 1–3 in your notebook
		if labelsAnswer(words) && !(rangeOf && isNumber(words[len(words)-1])) && !room.MatchString(m[3]) {
			return true
		}
	}
	if m := called.FindStringSubmatch(text); m != nil && kindOf(m[1]) == aPerson {
		return true
	}
	if m := alone.FindStringSubmatch(text); m != nil {
		words := wordsIn([]byte(m[1]))
		return len(words) < 3 && isMentor(words[0]) && (len(words) == 1 || words[1] == "only" || isMatter(words[1]))
	}
	return false
}

// labelsPerson finds "Coach", "For the teacher", "Hints for coaches" and "Teacher note".
func labelsPerson(words []string) bool {
	n := len(words)
	for i, word := range words {
		if kindOf(word) != aPerson {
			continue
		}
		rest := words[i+1:]
		last := len(rest) == 0 || len(rest) == 1 && (isMatter(rest[0]) || rest[0] == "only" || rest[0] == "here")
		switch {
		case !last:
			return false
		case i == 0:
			return true
		case i == 1 && is(words[0], anArticle) && n == 2:
			return true
		}
		before := words[:i]
		if is(before[len(before)-1], anArticle) && len(before) > 1 {
			before = before[:len(before)-1]
		}
		at := before[len(before)-1]
		return is(at, aPreposition) && (len(before) == 1 || slices.ContainsFunc(before, isMatter))
	}
	return false
}

// labelsMentor finds a mentor with a word or two that no other person's label would have: "Mentors say".
func labelsMentor(words []string, label string) bool {
	return isMentor(words[0]) && len(label) <= len("mentors")+12 && !slices.Contains(words, "led")
}

func isMentor(word string) bool {
	plain := fold(word)
	return kindOf(word) == aPerson && (plain == "mentor" || plain == "mentors" ||
		oneSlip([]rune(plain), []rune("mentor")))
}

// labelsAnswer finds "Answers", "Notes", "Key", "Answer key" and "Correct answer".
func labelsAnswer(words []string) bool {
	for len(words) > 1 && (is(words[0], anArticle) && words[0][0] != 'a' && words[0] != "our" || is(words[0], aQuality)) {
		words = words[1:]
	}
	switch k := kindOf(words[0]); {
	case k != anAnswer && k != aMatter && k != aKey:
		return false
	case len(words) == 1:
		return true
	case len(words) == 2:
		return kindOf(words[1]) == aKey || isNumber(words[1])
	}
	return false
}

// studentForm is a quote's first line that was probably meant for students.
var studentForm = wording.New(`^[^\pL\pN]*((?:\pL[\pL'’]*[ -]+){0,4}?\pL[\pL'’]*)[^\pL\pN\s:.;,_-]*(?:\s?,|` +
	labelEnd +
	`|\s?$)`)

// NearlyStudents tells whether a quote's first line nearly says that it is for students.
func NearlyStudents(line Run) bool {
	m := studentForm.FindSubmatch(line.Text)
	if m == nil {
		return false
	}
	words := wordsIn(m[1])
	last := len(words) - 1
	if last > 0 && words[last] == "only" {
		last--
	}
	if kindOf(words[last]) != aStudent {
		return false
	}
	return last == 0 || is(words[last-1], aPreposition) || is(words[last-1], anArticle)
}
