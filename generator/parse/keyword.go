package parse

// What the lines of work, gauge and data blocks have in common: a keyword, something to read
// after it, a text in quotes. Which keywords there are is in a table beside each block's
// grammar.

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// A keyword is what a line of a block may start with.
type keyword[Line any] struct {
	word string
	read func(*reader, *Line) *quantity.Error
	text textRule
	many bool // several lines of a data block may start with it
}

// A textRule says whether a line has a text in quotes, and what a coach reads where it is not
// so. The zero rule leaves it to the coach.
type textRule struct {
	needed, refused  bool
	short            bool   // it stands beside a box, so that MaxPrompt is its limit
	slug, what, hint string // what goes on after "a key" and the like
}

// needsText is the rule of a line that says nothing without its text.
func needsText(what, hint string) textRule {
	return textRule{needed: true, slug: "no-prompt", what: what, hint: hint}
}

// refusesText is the rule of a line whose text nobody would ever see.
func refusesText(slug, what, hint string) textRule {
	return textRule{refused: true, slug: slug, what: what, hint: hint}
}

// MaxPrompt is how many characters a short text may have: a question, and not a page.
const MaxPrompt = 300

// A reader turns one statement into its node.
type reader struct {
	file     *source.File
	problems *problem.List
	find     *lesson.Statement // the find above, for slips
	above    *lesson.Statement // the last statement above with a row of its own
	text     *joined           // what is not in quotes
	prompt   string
	promptAt []source.Span
	hasText  bool
	p        *quantity.Parser
	words    *quantity.Vocabulary // of the pack
}

// A head is what every line of our blocks starts with.
type head struct {
	at     source.Span // the whole statement, without blanks around it
	word   string      // the keyword
	wordAt source.Span
	quoted bool // its quotes are in order
}

// head reads the keyword and the text in quotes, and sets the parser on what is between.
func (r *reader) head(lexemes []lexeme) head {
	h := head{at: spanOf(lexemes)}
	h.quoted = r.takeLexemes(lexemes)
	text := r.text.text.String()
	word := strings.TrimLeft(text, " \t")
	offset := len(text) - len(word)
	if i := strings.IndexFunc(word, func(c rune) bool { return !unicode.IsLetter(c) }); i >= 0 {
		word = word[:i]
	}
	offset += len(word)
	h.word = word
	h.wordAt = source.Span{Start: h.at.Start, End: h.at.Start + max(1, len(word))}
	r.p = r.words.NewParser(text[offset:], func(i int) int { return r.text.source(i + offset) })
	return h
}

// takeLexemes separates the text in quotes from the rest of a statement. It is false if the quotes
// are not in order, which is reported.
func (r *reader) takeLexemes(lexemes []lexeme) bool {
	r.text = &joined{}
	var open lexeme // the last text in quotes
	if inch := inchMark(lexemes); inch.End > 0 {
		written := string(r.file.Text()[inch.Start : inch.End-1])
		r.problems.Error(r.file, inch, "feet-and-inches", "a straight quote mark begins a text and is no inch",
			"write  "+written+" in")
		for _, t := range lexemes {
			if !t.quoted {
				r.text.add(t.text, t.at)
			}
		}
		return false
	}
	feet := feetAndInches(lexemes)
	if feet.End > 0 {
		r.problems.Error(r.file, feet, "feet-and-inches", "feet and inches are not read in this form",
			"write  "+feetHint(r.file.Text()[feet.Start:feet.End]))
		for _, t := range lexemes { // the keyword and the name are known all the same
			if !t.quoted {
				r.text.add(t.text, t.at)
			}
		}
		return false
	}
	for i, t := range lexemes {
		switch another := i+1 < len(lexemes) && lexemes[i+1].quoted; {
		case !t.quoted && r.hasText && !another && !t.blank():
			r.problems.Error(r.file, t.span(), "after-prompt", "nothing may follow the text in quotes",
				"put the text last in its statement")
			return false
		case !t.quoted:
			r.text.add(t.text, t.at)
			continue
		case t.mark >= 0 && r.hasText:
			r.problems.Error(r.file, source.Span{Start: t.mark, End: t.end}, "two-prompts",
				"a statement has one text in quotes; this is a second one",
				r.bothTexts(lexemes[0].at, t.mark))
			return false
		case t.mark >= 0:
			open = t
		}
		r.hasText = true
		open.closed = t.closed
		r.addPrompt(t)
	}
	if r.hasText && !open.closed {
		r.problems.Error(r.file, source.Span{Start: open.mark, End: open.end}, "open-quote",
			"this text in quotes is never closed",
			"end it with a quote mark in the same statement")
		return false
	}
	return true
}

// feetForm is the end of feet and inches such as 5'3, before the mark that would open a text.
var feetForm = wording.New(`([0-9]+)\s*['′’]\s*([0-9]+(?: [0-9]+/[0-9]+)?(?:\.[0-9]+)?)$`)

// feetAndInches is the place of a length such as 5'3", whose last mark is read as one that opens a text; it is
// empty if there is none.
func feetAndInches(lexemes []lexeme) source.Span {
	for i, t := range lexemes[:len(lexemes)-1] {
		if m := feetForm.FindStringIndex(t.text); m != nil && !t.quoted && lexemes[i+1].quoted {
			return source.Span{Start: t.at + m[0], End: t.at + m[1]}
		}
	}
	return source.Span{}
}

// inchForm is a number right before a quote mark.
var inchForm = wording.New(`[0-9][0-9 /.]*$`)

// inchMark is the place of a length such as 48", whose mark is read as one that opens a text; it is empty if there is
// none. A text in the same statement has marks of its own.
func inchMark(lexemes []lexeme) source.Span {
	marks := 0
	for _, t := range lexemes {
		if t.quoted {
			marks++
		}
	}
	for i, t := range lexemes[:len(lexemes)-1] {
		next := lexemes[i+1]
		if m := inchForm.FindStringIndex(t.text); m != nil && !t.quoted && next.quoted && next.mark == t.at+len(t.text) &&
			(marks > 1 || !next.closed) && !feetForm.MatchString(t.text) {
			return source.Span{Start: t.at + m[0], End: next.mark + 1}
		}
	}
	return source.Span{}
}

// feetHint is the same length as the language reads it.
func feetHint(written []byte) string {
	return feetForm.ReplaceAllString(string(written), "$1 ft $2 in")
}

// addPrompt adds a line's part of the text in quotes. However it is indented, one blank joins it to the part above.
func (r *reader) addPrompt(t lexeme) {
	text := strings.TrimSpace(t.text)
	if text == "" {
		return
	}
	if r.prompt != "" {
		r.prompt += " "
	}
	at := t.at + strings.Index(t.text, text)
	r.prompt += text
	r.promptAt = append(r.promptAt, source.Span{Start: at, End: at + len(text)})
}

// bothTexts is the hint for a second text in a statement.
func (r *reader) bothTexts(start, at int) string {
	if r.goesOn(start, at) {
		return indentedHint
	}
	return "put both into one pair of quotes"
}

// explained says more about an error, if it was probably a slip of the pen that coaches make: a text in marks that are
// no quotes here, such as 'so', a colon for an =, an indented statement.
func (r *reader) explained(h head, err *quantity.Error) *quantity.Error {
	mark, _ := utf8.DecodeRune(r.file.Text()[min(err.Span.Start, len(r.file.Text())):])
	if err.Slug == "unexpected-character" && !r.hasText && strings.ContainsRune("'‘’‚‹›«»`", mark) {
		err.What = "“" + string(mark) + "” does not begin a text"
		err.Hint = `write the text between straight quotes, as in  "Wheel"`
	} else if hint := slipAt(r.file, h.at.Start, err, r.words); hint != "" {
		err.Hint = hint
	}
	if r.goesOn(h.at.Start, err.Span.Start) {
		err.Hint = indentedHint
	}
	return err
}

// indentedHint is for a statement that was indented, and so taken for the end of the one above.
const indentedHint = "begin the line at its left edge: an indented line goes on with the one above it"

// keywordStart is a line that is indented and would be a statement of its own otherwise.
var keywordStart = wording.New(`^[ \t]+(\pL+)[ \t]+\S`)

// goesOn tells whether a place is on a line that was probably meant as a statement of its own.
func (r *reader) goesOn(start, at int) bool {
	line := r.file.LineStart(r.file.LineAt(at))
	if line <= start || at > len(r.file.Text()) {
		return false
	}
	m := keywordStart.FindSubmatch(r.file.Text()[line:])
	return m != nil && keywordNamed(statementKeywords, string(m[1])) != nil
}

// meantWords are words that say the same as a keyword to somebody who does not know it, in small letters.
var meantWords = map[string]string{
	"let": "given", "set": "given", "const": "given", "value": "given", "var": "given", "measured": "measure",
	"measurement": "measure", "readings": "record", "runs": "record", "data": "record", "guess": "predict",
	"estimate": "predict", "prediction": "predict", "question": "find", "ask": "find", "calculate": "find",
	"compute": "find", "solve": "find", "work": "find", "answer": "key", "solution": "key", "result": "key",
	"hint": "slip", "mistake": "slip", "wrong": "slip", "error": "slip", "write": "say", "explain": "say",
	"text": "say", "expect": "listen", "scatter": "fitted", "fit": "fitted", "points": "dots",
	"curve": "line", "function": "line", "bar": "bars", "x": "vary", "name": "title", "heading": "title",
	"groups": "group", "base": "group", "distance": "along", "forward": "along", "sideways": "across",
	"drift": "across", "criterion": "near", "score": "judged", "scores": "judged",
	"strip": "wrap", "protractor": "rose", "angle": "rose", "grid": "squares", "tape": "ruler", "stop": "target",
}

// bulletForm is how a list's item begins in Markdown.
var bulletForm = wording.New(`^\s*(?:[-*+•]|[0-9]+[.)])\s+`)

// unknownKeyword reports a line that starts with none of its block's keywords, and gives the
// one that was probably meant, "" if none is near.
func (r *reader) unknownKeyword(slug, block string, h head, words []string) (meant string) {
	hint := "a line starts with " + alternatives(words)
	if lower := strings.ToLower(h.word); slices.Contains(words, lower) {
		meant, hint = lower, "did you mean "+lower+"? Keywords have no capitals"
	} else if near := quantity.Nearest(h.word, words); len(near) > 0 {
		meant, hint = near[0], quantity.DidYouMean(h.word, words)
	} else if near := meantWords[lower]; slices.Contains(words, near) {
		meant, hint = near, "did you mean "+near+"?"
	}
	if bullet := bulletForm.FindString(r.text.text.String()); bullet != "" {
		hint = "leave the " + strings.TrimSpace(bullet) + " out: each line is a statement and begins with its keyword"
	}
	what := "“" + h.word + "” is not a keyword of a " + block + " block"
	if h.word == "" {
		what = "a line of a " + block + " block starts with a keyword"
	}
	r.problems.Error(r.file, h.wordAt, slug, what, hint)
	return meant
}

// textFits tells whether a line has the text that its rule asks for. line is what a coach
// would call it, such as "a key".
func (r *reader) textFits(rule textRule, at source.Span, line string) bool {
	if rule.needed && r.prompt == "" || rule.refused && r.hasText {
		r.problems.Error(r.file, at, rule.slug, line+" "+rule.what, rule.hint)
		return false
	}
	if n := utf8.RuneCountInString(r.prompt); rule.short && n > MaxPrompt {
		r.problems.Error(r.file, r.promptAt[0], "prompt-too-long",
			line+" has a text of at most "+strconv.Itoa(MaxPrompt)+" characters, and this one has "+strconv.Itoa(n),
			"ask in one or two sentences, and tell the rest above the block")
		return false
	}
	return true
}

// keywordNamed is the keyword of a word, nil if there is none. A slip of the keyboard is for unknownKeyword to notice.
func keywordNamed[Line any](all []keyword[Line], word string) *keyword[Line] {
	if i := slices.IndexFunc(all, func(k keyword[Line]) bool { return k.word == word }); i >= 0 {
		return &all[i]
	}
	return nil
}

// wordsOf are the words that a coach may choose from, in the order of the table.
func wordsOf[Line any](all []keyword[Line]) []string {
	words := make([]string, len(all))
	for i, k := range all {
		words[i] = k.word
	}
	return words
}

// alternatives writes a list as "a, b or c".
func alternatives(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
