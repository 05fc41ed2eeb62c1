package prose

// What looks as if it were meant for mentors: headings, and labels at the start of a line. A check cannot know;
// whatever it is not sure of is taken for theirs, and a coach says otherwise with "Students:".

import (
	"regexp"
	"slices"
	"strings"
)

// HeadingForMentors tells whether a section with such a heading looks as if it were for mentors.
func HeadingForMentors(heading Run) bool {
	text := string(heading.Text)
	return heads(text) || heads(remark.ReplaceAllString(text, "")) // Answers (do not hand out)
}

// remark is what a heading says after its own words.
var remark = regexp.MustCompile(`(?:\s[(\[—–-]|[:：]).*$`)

// heads looks at a heading or a part of it.
func heads(text string) bool {
	words := wordsIn([]byte(text))
	article := false
	for len(words) > 1 && isArticle(words[0]) && words[0] != "our" {
		words, article = words[1:], true
	}
	if len(words) == 0 {
		return false
	}
	// "The mentor decides" and "The key to a straight line" are sentences of a lesson.
	if k := kindOf(words[0]); article && len(words) > 1 && (k == keys || k == person && !isMatter(words[1])) {
		return false
	}
	return headsPerson(words) || headsAnswers(words) || headsKey(words)
}

// headsPerson finds "Coach", "Teacher's guide", "Notes for leaders" and "Mentor hold". A verb is none: "Coach your
// robot".
func headsPerson(words []string) bool {
	if kindOf(words[0]) == person {
		return len(words) == 1 || !slices.Contains(afterVerb, words[1]) && (words[1] != "led")
	}
	if len(words) == 2 && isMentor(words[1]) && !slices.Contains(toMentor, words[0]) { // Lead mentor
		return true
	}
	for i, word := range words {
		if kindOf(word) != person {
			continue
		}
		before := words[i-1]
		if isArticle(before) && i > 1 {
			before = words[i-2]
		}
		if !slices.Contains(prepositions, before) {
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
		if k := kindOf(word); k != answers && k != matter {
			continue
		}
		last, single := i == len(words)-1, singleAnswer(word)
		after := !last && (slices.Contains(prepositions, words[i+1]) || isNumber(words[i+1]) ||
			slices.Contains(conjunctions, words[i+1]) || kindOf(word) == answers && slices.Contains(ofSheets, words[i+1]))
		switch {
		case i == 0 && (last || after && !aboutSomething(words[1])):
			return true
		case i == 0:
		case kindOf(words[i-1]) == person || slices.Contains(leading, words[i-1]):
			return true
		case kindOf(word) == answers && slices.Contains(ofAnswers, words[i-1]) && (last || after):
			return true
		case kindOf(word) == answers && !single && last && slices.Contains(conjunctions, words[i-1]):
			return true
		}
	}
	return false
}

// headsKey finds "Key", "Answer key" and "Key to part 2", and no "Key words".
func headsKey(words []string) bool {
	for i, word := range words {
		if kindOf(word) != keys {
			continue
		}
		last := i == len(words)-1
		if i == 0 && (last || words[1] != "of" && slices.Contains(prepositions, words[1]) ||
			slices.Contains(conjunctions, words[1])) {
			return true
		}
		if i > 0 && (kindOf(words[i-1]) == answers || kindOf(words[i-1]) == person || words[i-1] == "marking" ||
			words[i-1] == "scoring") {
			return true
		}
	}
	return false
}

// What stands about the words of the table in a heading.
var (
	articles     = []string{"the", "a", "an", "our", "all", "la", "le", "les", "el", "los", "las", "die", "der", "das", "il", "i", "gli", "de", "het", "o", "os", "as"}
	prepositions = []string{"for", "to", "of", "für", "fuer", "para", "pour", "per", "voor", "aux", "al", "a", "à",
		"zu", "zum", "zur", "del", "della", "dell", "do", "da", "dos", "das", "du", "des", "au", "van", "von", "op", "la", "le", "les", "los", "las", "el", "die", "den", "il", "gli", "de", "het", "o", "os", "persona", "personas"}
	// ofSheets follow "Answer" and "Solutions": a sheet, or that they are the right ones.
	ofSheets = []string{"sheet", "sheets", "page", "pages", "booklet", "manual", "book", "guide", "correctas",
		"correctes", "corrette", "corretas", "modelo"}
	leading      = []string{"coaching", "mentoring", "teaching", "leading", "facilitation", "lehrer", "trainer"}
	toMentor     = []string{"your", "our", "a", "the", "ask", "meet", "thank", "call", "find", "tell", "every", "each", "no"}
	conjunctions = []string{"and", "with", "und", "mit", "et", "avec", "y", "con", "e", "en", "met", "com"}
	ofAnswers    = []string{"key", "sample", "model", "worked", "correct", "right", "full", "expected", "suggested",
		"possible", "example", "complete", "good"}
	afterVerb = []string{"on", "the", "your", "a", "an", "it", "them", "each", "our", "this", "one", "another"}
)

func isArticle(word string) bool { return slices.Contains(articles, word) }

// isMatter tells whether a word is one for what mentors are told.
func isMatter(word string) bool {
	k := kindOf(word)
	return k == matter || k == answers || k == keys || slices.Contains([]string{"note", "hint", "hints", "tip", "tips",
		"guide", "information", "info", "hinweis", "tipp", "conseil", "consejo", "consiglio", "remarque", "background", "instructions", "hinweise", "conseils", "consejos", "nota",
		"notas", "notes", "notizen", "guida", "guía", "tipps", "consigli", "note", "tips", "dicas"}, word)
}

// singleAnswer is true for one answer or solution, which a lesson speaks of in many ways.
func singleAnswer(word string) bool { return word == "answer" || word == "solution" }

// aboutSomething is true for what follows "Notes" where they are about a matter: "Notes of the flight".
func aboutSomething(word string) bool { return word == "of" }

func isNumber(word string) bool { return strings.Trim(word, "0123456789") == "" }

// A label is what stands before a colon, or what is used as one, at the start of a line.
var (
	// colons are the colon and what looks like one; the list is from memory.
	colons    = `:：ː∶꞉׃։፡⁚᛬︰﹕;\]`
	labelEnd  = `(?:\s?[` + colons + `]|\s?[—–]\s?|\s+[-−]\s|\.\s|\)\s)`
	labelForm = regexp.MustCompile(`^[^\pL\pN_]*(\pL[\pL\pN'’‘]*(?:[ -]+[\pL\pN'’‘]+){0,5}?)(?:\s\([^)]{0,40}\))?[^\pL\pN\s:.;_\]-]*(` +
		labelEnd + `)\s*(.*)$`)
	// alone is a label with a line of its own.
	alone = regexp.MustCompile(`^[^\pL\pN_]*(\pL[\pL'’]*(?:[ -]+[\pL'’]+){0,3})[^\pL\pN_]*$`)
	// called is a line that speaks to somebody: "Mentors, please note".
	called = regexp.MustCompile(`(?i)^[^\pL\pN_]*(\pL+),\s+(?:please|note|bitte|nota|attention)\b`)
	// room is where students are to write: a line, dots, or boxes.
	room = regexp.MustCompile(`__|\.{4}|……|□|☐`)
)

// LineForMentors tells whether a line looks as if it began a note for mentors, or gave an answer.
func LineForMentors(line Run) bool {
	text := string(line.Text)
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
	if m := called.FindStringSubmatch(text); m != nil && kindOf(m[1]) == person {
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
		if kindOf(word) != person {
			continue
		}
		rest := words[i+1:]
		last := len(rest) == 0 || len(rest) == 1 && (isMatter(rest[0]) || rest[0] == "only" || rest[0] == "here")
		switch {
		case !last:
			return false
		case i == 0:
			return true
		case i == 1 && isArticle(words[0]) && n == 2:
			return true
		}
		before := words[:i]
		if isArticle(before[len(before)-1]) && len(before) > 1 {
			before = before[:len(before)-1]
		}
		at := before[len(before)-1]
		return slices.Contains(prepositions, at) && (len(before) == 1 || slices.ContainsFunc(before, isMatter))
	}
	return false
}

// labelsMentor finds a mentor with a word or two that no other person's label would have: "Mentors say".
func labelsMentor(words []string, label string) bool {
	return isMentor(words[0]) && len(label) <= len("mentors")+12 && !slices.Contains(words, "led")
}

func isMentor(word string) bool {
	return kindOf(word) == person && (fold(word) == "mentor" || fold(word) == "mentors" || oneSlip(fold(word), "mentor"))
}

// labelsAnswer finds "Answers", "Notes", "Key", "Answer key" and "Correct answer".
func labelsAnswer(words []string) bool {
	for len(words) > 1 && (isArticle(words[0]) && words[0][0] != 'a' && words[0] != "our" || slices.Contains(ofAnswers, words[0])) {
		words = words[1:]
	}
	switch k := kindOf(words[0]); {
	case k != answers && k != matter && k != keys:
		return false
	case len(words) == 1:
		return true
	case len(words) == 2:
		return kindOf(words[1]) == keys || isNumber(words[1])
	}
	return false
}

// studentForm is a quote's first line that was probably meant for students.
var studentForm = regexp.MustCompile(`^[^\pL\pN]*((?:\pL[\pL'’]*[ -]+){0,4}?\pL[\pL'’]*)[^\pL\pN\s:.;,_-]*(?:\s?,|` + labelEnd +
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
	if kindOf(words[last]) != student {
		return false
	}
	return last == 0 || slices.Contains(prepositions, words[last-1]) || isArticle(words[last-1])
}

// elided is an article that French and Italian put before a vowel, as in l'insegnante.
var elided = regexp.MustCompile(`^(?:l|d|un|dell|all|qu)['’‘]`)

// wordsIn are the words of a text in small letters.
func wordsIn(text []byte) []string {
	plain := strings.ReplaceAll(strings.ToLower(string(text)), "&", " and ")
	words := strings.FieldsFunc(plain, func(r rune) bool {
		return !strings.ContainsRune("'’‘", r) && !isLetterOrDigit(r)
	})
	for i, word := range words {
		words[i] = elided.ReplaceAllString(word, "")
	}
	return words
}
