package prose

// What looks as if it were meant for mentors: headings, and labels at the start of a line. A check cannot know;
// whatever it is not sure of is taken for theirs, and a coach says otherwise with "Students:".

import (
	"slices"
	"strings"

	"trundle/generator/wording"
)

// HeadingForMentors tells whether a section with such a heading looks as if it were for mentors.
func HeadingForMentors(heading Run) bool {
	text := string(heading.Text)
	return heads(text) || heads(remark.ReplaceAllString(text, "")) // Answers (do not hand out)
}

// remark is what a heading says after its own words.
var remark = wording.New(`(?:\s[(\[—–-]|[:：]).*$`)

// heads looks at a heading or a part of it.
func heads(text string) bool {
	words := wordsIn([]byte(text))
	led := false // by an article
	for len(words) > 1 && is(words[0], anArticle) && words[0] != "our" {
		words, led = words[1:], true
	}
	if len(words) == 0 {
		return false
	}
	// "The mentor decides" and "The key to a straight line" are sentences of a lesson.
	if k := kindOf(words[0]); led && len(words) > 1 && (k == aKey || k == aPerson && !isMatter(words[1])) {
		return false
	}
	return headsPerson(words) || headsAnswers(words) || headsKey(words)
}

// headsPerson finds "Coach", "Teacher's guide", "Notes for leaders" and "Mentor hold". A verb is none: "Coach your
// robot".
func headsPerson(words []string) bool {
	if kindOf(words[0]) == aPerson {
		return len(words) == 1 || !slices.Contains(afterVerb, words[1]) && (words[1] != "led")
	}
	if len(words) == 2 && isMentor(words[1]) && !slices.Contains(toMentor, words[0]) { // Lead mentor
		return true
	}
	for i, word := range words {
		if kindOf(word) != aPerson {
			continue
		}
		before := words[i-1]
		if is(before, anArticle) && i > 1 {
			before = words[i-2]
		}
		if !is(before, aPreposition) {
			continue
		}
		if i <= 2 || slices.ContainsFunc(words[:i], isMatter) { // "For the coach", "Hints for the coach"
			return true
		}
	}
	return false
}

// headsAnswers finds "Notes", "Answers to part 2", "Sample solutions" and "Questions and answers".
func headsAnswers(words []string) bool {
	for i, word := range words {
		if k := kindOf(word); (k == anAnswer || k == aMatter) && headsAnswer(words[:i], word, words[i+1:]) {
			return true
		}
	}
	return false
}

// headsAnswer looks at what stands before and after such a word.
func headsAnswer(before []string, word string, after []string) bool {
	answer := kindOf(word) == anAnswer
	goesOn := len(after) > 0 && (is(after[0], aPreposition) || is(after[0], aConjunction) || isNumber(after[0]) ||
		answer && is(after[0], aSheet))
	if len(before) == 0 {
		return len(after) == 0 || goesOn && after[0] != "of" // "Notes of the flight" are about something
	}
	switch last := before[len(before)-1]; {
	case kindOf(last) == aPerson || slices.Contains(leading, last):
		return true
	case answer && is(last, aQuality):
		return len(after) == 0 || goesOn
	default:
		return answer && !singleAnswer(word) && len(after) == 0 && is(last, aConjunction)
	}
}

// headsKey finds "Key", "Answer key" and "Key to part 2", and no "Key words".
func headsKey(words []string) bool {
	for i, word := range words {
		if kindOf(word) != aKey {
			continue
		}
		last := i == len(words)-1
		if i == 0 && (last || words[1] != "of" && is(words[1], aPreposition) ||
			is(words[1], aConjunction)) {
			return true
		}
		if i > 0 && (kindOf(words[i-1]) == anAnswer || kindOf(words[i-1]) == aPerson || words[i-1] == "marking" ||
			words[i-1] == "scoring") {
			return true
		}
	}
	return false
}

// English words that make a sentence of a heading.
var (
	leading = []string{"coaching", "mentoring", "teaching", "leading", "facilitation"}
	// toMentor stand before a mentor of whom a heading speaks: Ask mentor
	toMentor = []string{"your", "our", "a", "the", "ask", "meet", "thank", "call", "find", "tell", "every", "each",
		"no"}
	afterVerb = []string{"on", "the", "your", "a", "an", "it", "them", "each", "our", "this", "one", "another"}
)

// isMatter tells whether a word is one for what mentors are told.
func isMatter(word string) bool {
	k := kindOf(word)
	return k == aMatter || k == anAnswer || k == aKey || is(word, aHint)
}

// singleAnswer is true for one answer or solution, which a lesson speaks of in many ways.
func singleAnswer(word string) bool { return word == "answer" || word == "solution" }

func isNumber(word string) bool { return strings.Trim(word, "0123456789") == "" }

// elided is an article that French and Italian put before a vowel, as in l'insegnante.
var elided = wording.New(`^(?:l|d|un|dell|all|qu)['’‘]`)

// wordsIn are the words of a text in small letters.
func wordsIn(text []byte) []string {
	plain := strings.ReplaceAll(strings.ToLower(string(text)), "&", " and ")
	words := strings.FieldsFunc(plain, func(r rune) bool {
		return !strings.ContainsRune("'’‘", r) && !isLetterOrDigit(r)
	})
	for i, word := range words {
		if strings.ContainsAny(word, "'’‘") { // few do
			words[i] = elided.ReplaceAllString(word, "")
		}
	}
	return words
}
