package parse

// Answers to choose from: the texts of a choose, and the slip that says to which wrong answer its hint belongs. They
// are the only statements with more than one text in quotes, so they are taken apart before the others are read.

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Limits of a choose: a page and a sheet have a line for each answer.
const (
	fewestAnswers, MaxAnswers = 2, 8
	MaxOfAnswer               = 120 // characters
)

// rightMark ends a right answer; bar stands between two.
const rightMark, bar = "*", "|"

// formOfChoose is what hints show.
const formOfChoose = `write it as in  choose more = "More*" | "Fewer"   "What does a smaller wheel need?"`

// barsAndHints says what goes where.
const barsAndHints = "write a | between any two answers, and the question last, without one; a hint for a wrong " +
	`answer goes below, as in  slip "Fewer" "It carries the robot less far."`

// A quotedText is a text in quotes with what stands after it, up to the next one.
type quotedText struct {
	first   int // lexeme
	text    string
	at      []source.Span // the pieces of it, a line each
	after   string
	afterAt source.Span
	closed  bool
}

// span is the place of a text; of an empty one that of its marks.
func (t quotedText) span(lexemes []lexeme) source.Span {
	if len(t.at) == 0 {
		l := lexemes[t.first]
		return source.Span{Start: l.mark, End: max(l.at, l.mark+1)}
	}
	return source.Span{Start: t.at[0].Start, End: t.at[len(t.at)-1].End}
}

// quotedTexts are the texts of a statement, each with all of its lines.
func quotedTexts(lexemes []lexeme) []quotedText {
	var all []quotedText
	for i, l := range lexemes {
		if l.quoted && (l.mark >= 0 || len(all) == 0) {
			all = append(all, quotedText{first: i})
		}
		text := strings.TrimSpace(l.text)
		at := source.Span{Start: l.at + strings.Index(l.text, text)}
		at.End = at.Start + len(text)
		if len(all) == 0 {
			continue
		}
		last := &all[len(all)-1]
		if l.quoted {
			last.closed = l.closed
		}
		switch {
		case text == "":
		case l.quoted:
			last.text, last.at = strings.TrimSpace(last.text+" "+text), append(last.at, at)
		case last.after == "":
			last.after, last.afterAt = text, at
		default:
			last.after += " " + text
		}
	}
	return all
}

// several takes out of a statement what only a choose, and a slip below one, have beside a last text. It is false if
// that is not in order, which is reported.
func (r *reader) several(s *lesson.Statement, lexemes []lexeme) ([]lexeme, bool) {
	texts := quotedTexts(lexemes)
	isChoose := s.Kind == lesson.Choose
	isSlip := s.Kind == lesson.Slip && r.above != nil && r.above.Kind == lesson.Choose
	switch {
	case len(texts) == 0 || !isChoose && !isSlip:
		return lexemes, true
	case !texts[len(texts)-1].closed: // the other statements leave this to takeLexemes
		last := texts[len(texts)-1]
		return lexemes[:texts[0].first], r.refuse(last.span(lexemes), "open-quote", "this text in quotes is never closed",
			"end it with a quote mark in the same statement")
	case isChoose:
		return r.answers(s, lexemes, texts)
	}
	return r.answerOfSlip(s, lexemes, texts)
}

// refuse reports something, and is false.
func (r *reader) refuse(at source.Span, slug, what, hint string) bool {
	r.problems.Error(r.file, at, slug, what, hint)
	return false
}

// answers = text { "|" text }. What comes next without a bar before it is the question. The lexemes that are left are
// those of the name and the question; where answers are not in order, those of the name.
func (r *reader) answers(s *lesson.Statement, lexemes []lexeme, texts []quotedText) ([]lexeme, bool) {
	name := lexemes[:texts[0].first]
	before := ""
	for _, l := range name {
		before += l.text
	}
	if _, unquoted, found := strings.Cut(before, "="); found && strings.TrimSpace(unquoted) != "" {
		at := name[len(name)-1].at + strings.Index(name[len(name)-1].text, "=") + 1
		return name, r.refuse(source.Span{Start: at, End: texts[0].span(lexemes).Start - 1}, "choose-form",
			"the answers to choose from stand in quotes", formOfChoose)
	} else if !found {
		return name, r.refuse(texts[0].span(lexemes), "choose-form",
			"the answers to choose from come after the name and a =", formOfChoose)
	}
	for i, t := range texts {
		after := strings.TrimSpace(strings.TrimPrefix(t.after, rightMark))
		s.Answers = append(s.Answers, answer(t, lexemes))
		switch {
		case after == bar && i+1 < len(texts):
		case after == bar:
			return name, r.refuse(t.afterAt, "choose-form", "there is no answer after this |",
				"take it away, or write one more answer")
		case after != "" && i+1 < len(texts):
			return name, r.refuse(t.afterAt, "choose-form", "between two answers stands a |, and not “"+after+"”", barsAndHints)
		case after != "":
			return name, r.refuse(t.afterAt, "after-prompt", "nothing may follow the question",
				"put the question last in its statement")
		case i+2 < len(texts):
			return name, r.refuse(texts[i+1].span(lexemes), "choose-form", "there is no | before this text",
				barsAndHints)
		default: // the question is next, if there is one
			if i+1 < len(texts) {
				if after := texts[i+1].after; after != "" {
					return name, r.refuse(texts[i+1].afterAt, "after-prompt", "nothing may follow the question",
						"put the question last in its statement")
				}
				return slices.Concat(name, lexemes[texts[i+1].first:]), r.answersFit(s)
			}
			return name, r.answersFit(s)
		}
	}
	return name, r.answersFit(s)
}

// answer reads one: a * at its end, within the quotes or right after them, marks a right one.
func answer(t quotedText, lexemes []lexeme) lesson.Answer {
	text, right := strings.CutSuffix(t.text, rightMark)
	return lesson.Answer{Text: strings.TrimSpace(text), At: t.span(lexemes), Pieces: t.at,
		Right: right || strings.HasPrefix(t.after, rightMark)}
}

// answersFit tells whether there are neither too few nor too many, none twice, and right and wrong ones among them.
func (r *reader) answersFit(s *lesson.Statement) bool {
	n := len(s.Answers)
	if n < fewestAnswers || n > MaxAnswers {
		return r.refuse(s.Answers[0].At, "choose-answers", "a choose has "+strconv.Itoa(fewestAnswers)+" to "+
			strconv.Itoa(MaxAnswers)+" answers, and this one has "+strconv.Itoa(n), formOfChoose)
	}
	right := 0
	for i, a := range s.Answers {
		switch isSame := func(b lesson.Answer) bool { return strings.EqualFold(a.Text, b.Text) }; {
		case a.Text == "":
			return r.refuse(a.At, "choose-answers", "this answer is empty", "write what students choose, or take it away")
		case utf8.RuneCountInString(a.Text) > MaxOfAnswer:
			return r.refuse(a.At, "choose-answers", "an answer has at most "+strconv.Itoa(MaxOfAnswer)+
				" characters, and this one has "+strconv.Itoa(utf8.RuneCountInString(a.Text)), "say it in a few words")
		case slices.ContainsFunc(s.Answers[:i], isSame):
			return r.refuse(a.At, "choose-answers", "“"+a.Text+"” is there twice", "take one of them away")
		case a.Right:
			right++
		}
	}
	switch right {
	case 0:
		return r.refuse(s.Answers[0].At, "choose-right", "none of these answers is marked as the right one",
			"end the right one with a *, as in \""+s.Answers[0].Text+"*\"; for an opinion use say")
	case n:
		return r.refuse(s.Answers[0].At, "choose-right", "all of these answers are marked as right",
			"leave the * to the right one; for an opinion use say")
	}
	return true
}

// answerOfSlip reads  slip "answer" "hint"  below a choose. The lexemes that are left are those of the hint.
func (r *reader) answerOfSlip(s *lesson.Statement, lexemes []lexeme, texts []quotedText) ([]lexeme, bool) {
	keyword, at := lexemes[:1], texts[0].span(lexemes)
	if len(texts) != 2 || texts[0].after != "" || texts[1].after != "" {
		if r.above.Broken {
			return keyword, false
		}
		return keyword, r.refuse(at, "slip-answer", twoTexts, slipForm(r.above))
	}
	s.Answer = strings.TrimSuffix(texts[0].text, rightMark)
	left := slices.Concat(keyword, lexemes[texts[1].first:])
	return left, r.above.Broken || r.belongs(s, at)
}

// belongs finds the wrong answer that a slip is about, by its text or how that begins.
func (r *reader) belongs(s *lesson.Statement, at source.Span) bool {
	var wrong []string
	for _, a := range r.above.Answers {
		if !a.Right {
			wrong = append(wrong, a.Text)
		}
	}
	i := answerNamed(r.above.Answers, s.Answer)
	switch {
	case i < 0:
		hint := quantity.DidYouMean(s.Answer, wrong)
		if hint == "" {
			hint = "write one of its wrong answers: " + alternatives(wrong)
		}
		return r.refuse(at, "slip-answer", "“"+s.Answer+"” is no answer of the choose above, or begins more than one", hint)
	case r.above.Answers[i].Right:
		return r.refuse(at, "slip-answer",
			"“"+r.above.Answers[i].Text+"” is marked as right, and a slip is for a wrong answer",
			"take the slip away, or the * of that answer")
	case r.above.Answers[i].Hint != nil:
		return r.refuse(at, "slip-answer", "“"+r.above.Answers[i].Text+"” has a hint already", "keep one of the two")
	}
	r.above.Answers[i].Hint = s
	return true
}

// answerNamed is the answer that a text is, or else the only one that it begins; −1 if there is none.
func answerNamed(all []lesson.Answer, text string) int {
	text = strings.ToLower(strings.TrimRight(text, " .…"))
	found := -1
	for i, a := range all {
		full := strings.ToLower(a.Text)
		if strings.TrimRight(full, " .…") == text {
			return i
		}
		if text == "" || !strings.HasPrefix(full, text) {
			continue
		}
		if found >= 0 {
			found = len(all)
			continue
		}
		found = i
	}
	if found == len(all) {
		return -1
	}
	return found
}

// keywordOf is the word that a statement begins with.
func keywordOf(lexemes []lexeme) string {
	if lexemes[0].quoted {
		return ""
	}
	text := strings.TrimLeft(lexemes[0].text, " \t")
	if i := strings.IndexFunc(text, func(c rune) bool { return !unicode.IsLetter(c) }); i >= 0 {
		return text[:i]
	}
	return text
}

// slipOfChoose belongs to the choose above it; answerOfSlip has read it.
func (r *reader) slipOfChoose(s *lesson.Statement) *quantity.Error {
	s.Of = r.above
	if s.Answer == "" && !r.hasText {
		return &quantity.Error{Span: quantity.Span(s.At), Slug: "slip-answer",
			What: twoTexts, Hint: slipForm(r.above)}
	}
	return nil
}

// twoTexts is what is wrong with a slip that does not say which answer it is about.
const twoTexts = "a slip below a choose has two texts: a wrong answer, and the hint for it"

// slipForm is how one is written for the first wrong answer of a choose.
func slipForm(choose *lesson.Statement) string {
	example := "the wrong answer"
	if i := slices.IndexFunc(choose.Answers, func(a lesson.Answer) bool { return !a.Right }); i >= 0 {
		example = choose.Answers[i].Text
	}
	return "write it as in  slip \"" + example + "\" \"the hint\""
}

// choose = "choose" name "=" text { "|" text } prompt. The texts have been taken by answers.
func (r *reader) choose(s *lesson.Statement) *quantity.Error {
	if r.p.AtEnd() {
		return &quantity.Error{Span: quantity.Span(s.At), Slug: "choose-form",
			What: "a choose needs a name, answers to choose from and a question", Hint: formOfChoose}
	}
	if err := r.define(s); err != nil {
		return err
	}
	if !r.p.Sign("=") || len(s.Answers) == 0 {
		return &quantity.Error{Span: quantity.Span(s.At), Slug: "choose-form",
			What: "there are no answers in quotes to choose from", Hint: formOfChoose}
	}
	return nil
}
