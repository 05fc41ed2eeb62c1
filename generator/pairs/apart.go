package pairs

// This file holds what distinguishes two quantities side by side from one quantity in
// two units. \x{fffc} stands for a computed value or another thing that is not text.

import (
	"strings"

	"trundle/generator/wording"
)

const (
	countWords    = `(?:\d+|\x{fffc}|two|three|four|five|six|seven|eight|nine|ten|twelve|both|each)`
	fractionWords = `(?:half|halves|thirds?|quarters?|fourths?|fifths?|sixths?|eighths?|tenths?|hundredths?|per ?cent|%)`
	joinWords     = `(?:to|and|or|by|x|plus|minus|times|than|of|per|from)`
)

var (
	// partBefore: the first quantity is a part of a sum, a product or a range.
	partBefore = wording.New(`(?i)(?:[-−–+×*·÷±^]|\d|\x{fffc}|[\d½¼¾\x{fffc}]['’"”] ?|` +
		`[\d½¼¾\x{fffc}%°″′] ?` + joinWords + `|(?:^|[^\pL])(?:x|plus|minus|times|per|twice|double|triple|between)|` +
		fractionWords + `(?: of)?(?: the)?|` +
		// four strips of 30 cm (1.2 m): the second is all of them together
		countWords + ` (?:\pL+ ){1,2}(?:of|at))$`)
	// partOfOne: half an inch is not an inch.
	partOfOne = wording.New(`(?i)(?:^|[^\pL])(?:half|of|per|such|many|twice|times|every|and|or|to|than)$`)
	// listBefore: a comma after a number goes on with a list.
	listBefore = wording.New(`\d,$`)
	joinBefore = wording.New(`^ ?` + joinWords + ` ?$`)
	listGap    = wording.New(`^,(?: and| or)? $`)
)

// beginsOtherwise tells whether what stands before the first quantity, amounts[i],
// makes it a part of something else.
func beginsOtherwise(j joint, text string, amounts []amount, i int) bool {
	before := justBefore(text[:amounts[i].start])
	if m := saidAbout.FindStringIndex(before); m != nil {
		before = before[:m[0]] // what stands before "about 3 in" counts as if "about" were not there
	}
	before = strings.TrimRight(before, " (")
	if partBefore.MatchString(before) || amounts[i].word && partOfOne.MatchString(before) {
		return true
	}
	if j != byBracket && listBefore.MatchString(before) {
		return true
	}
	if i == 0 {
		return false
	}
	gap := text[amounts[i-1].end:amounts[i].start]
	// "20 cm 3 in" and "3 cm to 2 in": the first is not alone.
	return strings.TrimSpace(gap) == "" || gap != " or " && joinBefore.MatchString(gap) ||
		j != byBracket && listGap.MatchString(gap)
}

var (
	closesBracket = wording.New(`^ ?\)`)
	oneMoreUnit   = wording.New(`^(?:[,;] | ?[=/≈] ?|,? or )(?:` + aboutWords + ` ?)?$`)
	goesOnAfter   = wording.New(`^,?(?: (?:and|or|but|by|to|then))? ?(?:` + aboutWords + ` )?` +
		`(?:[-−–+×*·÷±/^\d½¼¾\x{fffc}]|a |an )`)
	clauseEnds    = wording.New(`^(?:$|[\n.;:!?)\]"”’]|, | [—–] )`)
	sentenceEnds  = wording.New(`^[)\]"”’]*(?:$|\n|[.;:!?]+(?:$|[ \n)\]"”’]))`)
	clauseBegins  = wording.New(`^ (?:and|but|so|because|if|when|while|then|exactly)(?:$|[ ,.;:])`)
	measureOfBoth = wording.New(`^ (?:of|long|wide|high|tall|deep|thick|across|apart|away)(?:$|[ ,.;:)])`)
	thirdAmount   = wording.New(`^ ?[=≈(]`)
)

// endsAsPair tells whether what follows the second quantity, amounts[i], leaves it to
// be the first said again: "120 cm (4 in wide)" and "10 cm, 4 in and 2 ft" do not.
func endsAsPair(j joint, text string, amounts []amount, i int) bool {
	after := nextSentences(text[amounts[i].end:])
	if j == byBracket {
		return closesBracket.MatchString(after) || i+1 < len(amounts) && closesAfter(text, amounts[i], amounts[i+1])
	}
	if goesOnAfter.MatchString(after) {
		return false
	}
	switch j {
	case byComma:
		return sentenceEnds.MatchString(after)
	case byOr:
		return clauseEnds.MatchString(after) || clauseBegins.MatchString(after) || measureOfBoth.MatchString(after)
	case bySlash, byAbout:
		return clauseEnds.MatchString(after) || clauseBegins.MatchString(after)
	}
	return clauseEnds.MatchString(after) || clauseBegins.MatchString(after) || thirdAmount.MatchString(after)
}

// closesAfter tells whether the bracket has one more unit, c, of the kind of b in it:
// "48 in (122 cm, 1.22 m)".
func closesAfter(text string, b, c amount) bool {
	return oneMoreUnit.MatchString(text[b.end:c.start]) && c.unit.Dimension() == b.unit.Dimension() &&
		closesBracket.MatchString(text[c.end:])
}

// words matches any of some words, alone and in any case.
func words(alternatives ...string) *wording.Pattern {
	return wording.New(`(?i)(?:^|[^\pL])(?:` + strings.Join(alternatives, "|") + `)(?:$|[^\pL])`)
}

var (
	sentenceEnd = wording.New(`[.!?]["”’)]*(?:\s|$)|\n`)
	// A text that is about a slip shows one.
	tellsOfSlip = words(`wrong|wrongly|mistakes?|mistook|mixed up|mix-up|false|≠|untrue|mistaken`)
	// A plan drawn to scale has 1 cm for 1 m.
	toScale = words(`maps?|plans?|scale|scaled|drawings?|drawn|sketch|graph|grid|squared|models?|axis|stands? for`)

	choiceWords = words(`either|choose|whether|pick|prefer|decide|depending|unless|try`)
	// Words that compare one quantity with another.
	contrastWords = words(`\pL+er than|longer|shorter|heavier|lighter|farther|further|bigger|larger|smaller`,
		`wider|nearer|closer|faster|slower|more|less|fewer|compare|compared|instead|rather|versus|difference`)
)

// meantOtherwise looks at the sentence around the two quantities for words that make
// them two: a choice, a question, a scale, a slip on show.
func meantOtherwise(j joint, text string, start, end int) bool {
	before, both, after := lastSentences(text[:start]), text[start:end], nextSentences(text[end:])
	around := before + both + after
	if ends := sentenceEnd.Compiled().FindAllStringIndex(before, -1); ends != nil {
		before = before[ends[len(ends)-1][1]:]
	}
	rest, next := splitSentence(after)
	following, _ := splitSentence(next)
	sentence := before + both + rest
	// "One crew wrote 48 in = 120 cm. What went wrong?"
	if tellsOfSlip.MatchString(sentence + following) {
		return true
	}
	if j == byBracket {
		return false
	}
	question := strings.HasSuffix(strings.TrimRight(sentence, " \n\"”’)"), "?")
	if question || toScale.MatchString(around) {
		return true
	}
	if j == bySlash && strings.Contains(sentence, "=") {
		return true // a division
	}
	return j.loose() && (contrastWords.MatchString(sentence) || choiceWords.MatchString(before))
}

// splitSentence parts a text after its first sentence.
func splitSentence(s string) (sentence, rest string) {
	if m := sentenceEnd.FindStringIndex(s); m != nil {
		return s[:m[1]], s[m[1]:]
	}
	return s, ""
}

// contextBytes is how many bytes around a pair are searched, a few sentences, and
// adjacentBytes how many tell what a quantity is a part of; so a very long paragraph takes
// no longer than many short ones.
const contextBytes, adjacentBytes = 600, 60

func lastSentences(s string) string { return s[max(0, len(s)-contextBytes):] }

func nextSentences(s string) string { return s[:min(len(s), contextBytes)] }

func justBefore(s string) string { return s[max(0, len(s)-adjacentBytes):] }
