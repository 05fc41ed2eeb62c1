package parse

// The judged lines of a compare block: groups with their points.

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// judgedEnd is what comes after the scores: the most that a score can be, and the weight.
var judgedEnd = wording.New(`\sof\s+([0-9]+(?:\.[0-9]+)?)(?:\s+weight\s+([0-9]+(?:\.[0-9]+)?))?\s*$`)

// judgedOf finds the word alone, to say what is wrong with what comes after it.
var judgedOf = wording.New(`\sof\s`)

// judged = group number { "," group number } "of" number ["weight" number]. A group is
// written as in the file, blanks and all, so this is read as text.
func (r *reader) judged(l *lesson.DataLine) *quantity.Error {
	text := r.text.text.String()
	if of := strings.LastIndex(text, " of "); of >= 0 && r.words.HasCommas() {
		text = text[:of] + strings.ReplaceAll(text[of:], ",", ".") // the numbers after it
	}
	start := strings.Index(text, l.Keyword) + len(l.Keyword)
	at := func(from, to int) quantity.Span { // a statement over several lines is one text, so places are looked up
		return quantity.Span{Start: r.text.source(from), End: r.text.source(max(from, to-1)) + 1}
	}
	r.p = quantity.NewParser("", func(int) int { return l.At.End }) // nothing is left for it
	end := judgedEnd.FindStringSubmatchIndex(text)
	if of := judgedOf.FindStringIndex(text); end == nil && of != nil {
		return &quantity.Error{Span: at(of[0]+1, len(text)), Slug: "judged-of",
			What: "after “of” come the most points there are and, if there is one, the weight",
			Hint: "write it as in  of 5 weight 2"}
	}
	if end == nil {
		return &quantity.Error{Span: at(start, len(text)), Slug: "judged-of",
			What: "this does not say how many points there are at the most",
			Hint: "write it as in  judged Heron 4, Coot 5 of 5 weight 2"}
	}
	l.Of, _ = strconv.ParseFloat(text[end[2]:end[3]], 64)
	if !(l.Of > 0 && l.Of <= MaxPoints) {
		return &quantity.Error{Span: at(end[2], end[3]), Slug: "judged-of",
			What: "the most points are more than 0 and at most 1000", Hint: "write the most points, such as 5"}
	}
	if end[4] >= 0 {
		l.Weight, _ = strconv.ParseFloat(text[end[4]:end[5]], 64)
		if err := weighed(l.Weight, at(end[4], end[5])); err != nil {
			return err
		}
	}
	for from := start; from < end[0]; { // a score up to each comma, the last one up to "of"
		to := end[0]
		if i := r.scoreEnd(text[from:to]); i >= 0 {
			to = from + i
		}
		s, err := r.score(text[from:to], l.Of)
		s.At = source.Span(at(from+leading(text[from:to]), to))
		if err != "" {
			return &quantity.Error{Span: quantity.Span(s.At), Slug: "judged-score", What: err,
				Hint: "write the group and its points, as in  Heron 4"}
		}
		for _, other := range l.Scores {
			if other.Group == s.Group {
				return &quantity.Error{Span: quantity.Span(s.At), Slug: "judged-score",
					What: s.Group + " has two scores here", Hint: "leave one of them out"}
			}
		}
		l.Scores = append(l.Scores, s)
		from = to + 1
	}
	if len(l.Scores) == 0 {
		return &quantity.Error{Span: at(start, len(text)), Slug: "judged-score", What: "there is no score here",
			Hint: "write the group and its points, as in  Heron 4"}
	}
	return nil
}

// scoreEnd finds what sets a score apart from the next, −1 if there is no next.
func (r *reader) scoreEnd(text string) int {
	if !r.words.HasCommas() {
		return strings.IndexByte(text, ',')
	}
	isDigit := func(i int) bool { return i >= 0 && i < len(text) && '0' <= text[i] && text[i] <= '9' }
	for i, c := range text {
		if c == ';' || c == ',' && !(isDigit(i-1) && isDigit(i+1)) {
			return i
		}
	}
	return -1
}

// score reads "Heron 4"; why is not empty if it cannot. Infinity and NaN, which the number's reader knows, fall
// outside of every range.
func (r *reader) score(text string, most float64) (s lesson.Score, why string) {
	text = strings.TrimSpace(text)
	i := strings.LastIndexAny(text, " \t") // the name of a group may have blanks in it
	if i < 0 {
		return s, "“" + text + "” is not a group with its points"
	}
	number := text[i+1:]
	if r.words.HasCommas() {
		number = strings.Replace(number, ",", ".", 1)
	}
	points, err := strconv.ParseFloat(number, 64)
	if strings.HasSuffix(strings.TrimSpace(text[:i]), "=") || strings.HasSuffix(strings.TrimSpace(text[:i]), ":") {
		return s, "there is a sign between a group and its points"
	}
	s = lesson.Score{Group: strings.TrimSpace(text[:i]), Points: points}
	switch {
	case err != nil || !utf8.ValidString(text):
		return s, "“" + text[i+1:] + "” is not a number of points"
	case !(points >= 0 && points <= most):
		return s, text[i+1:] + " points are not between 0 and the most there are"
	}
	return s, ""
}

// leading is how many bytes of blanks a text begins with.
func leading(s string) int { return len(s) - len(strings.TrimLeft(s, " \t")) }
