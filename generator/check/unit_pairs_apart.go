package check

import (
	"regexp"
	"strings"
)

// This file holds what tells two quantities side by side apart from one quantity in
// two units. \x{fffc} stands for a computed value or another thing that is no text.

const (
	counts    = `(?:\d+|\x{fffc}|two|three|four|five|six|seven|eight|nine|ten|twelve|both|each)`
	fractions = `(?:half|halves|thirds?|quarters?|fourths?|fifths?|sixths?|eighths?|tenths?|hundredths?|per ?cent|%)`
	joins     = `(?:to|and|or|by|x|plus|minus|times|than|of|per|from)`
)

var (
	// partBefore: the first quantity is a part of a sum, a product or a range.
	partBefore = regexp.MustCompile(`(?i)(?:[-−–+×*·÷±^]|\d|\x{fffc}|[\d½¼¾\x{fffc}]['’"”] ?|` +
		`[\d½¼¾\x{fffc}%°″′] ?` + joins + `|(?:^|[^\pL])(?:x|plus|minus|times|per|twice|double|triple|between)|` +
		fractions + `(?: of)?(?: the)?|` +
		// four strips of 30 cm (1.2 m): the second is all of them together
		counts + ` (?:\pL+ ){1,2}(?:of|at))$`)
	// partOfOne: half an inch is not an inch.
	partOfOne = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:half|of|per|such|many|twice|times|every|and|or|to|than)$`)
	// listBefore: a comma behind a number goes on with a list.
	listBefore = regexp.MustCompile(`\d,$`)
	joinBefore = regexp.MustCompile(`^ ?` + joins + ` ?$`)
	listGap    = regexp.MustCompile(`^,(?: and| or)? $`)
)

// beginsOtherwise tells whether what stands before the first quantity, amounts[i],
// makes it a part of something else.
func beginsOtherwise(j joint, text string, amounts []amount, i int) bool {
	before := justBefore(text[:amounts[i].start])
	if m := saidNear.FindStringIndex(before); m != nil {
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
	return strings.TrimSpace(gap) == "" || gap != " or " && joinBefore.MatchString(gap) || j != byBracket && listGap.MatchString(gap)
}

var (
	closed    = regexp.MustCompile(`^ ?\)`)
	oneMore   = regexp.MustCompile(`^(?:[,;] | ?[=/≈] ?|,? or )(?:` + nearWords + ` ?)?$`)
	goesOn    = regexp.MustCompile(`^,?(?: (?:and|or|but|by|to|then))? ?(?:` + nearWords + ` )?(?:[-−–+×*·÷±/^\d½¼¾\x{fffc}]|a |an )`)
	stops     = regexp.MustCompile(`^(?:$|[\n.;:!?)\]"”’]|, | [—–] )`)
	stopsHere = regexp.MustCompile(`^[)\]"”’]*(?:$|\n|[.;:!?]+(?:$|[ \n)\]"”’]))`)
	newClause = regexp.MustCompile(`^ (?:and|but|so|because|if|when|while|then|exactly)(?:$|[ ,.;:])`)
	ofBoth    = regexp.MustCompile(`^ (?:of|long|wide|high|tall|deep|thick|across|apart|away)(?:$|[ ,.;:)])`)
	third     = regexp.MustCompile(`^ ?[=≈(]`)
)

// endsAsPair tells whether what follows the second quantity, amounts[i], leaves it to
// be the first said again: "120 cm (4 in wide)" and "10 cm, 4 in and 2 ft" do not.
func endsAsPair(j joint, text string, amounts []amount, i int) bool {
	after := head(text[amounts[i].end:])
	if j == byBracket {
		return closed.MatchString(after) || i+1 < len(amounts) && oneMore.MatchString(text[amounts[i].end:amounts[i+1].start]) &&
			amounts[i+1].unit.Dimension() == amounts[i].unit.Dimension() && closed.MatchString(text[amounts[i+1].end:])
	}
	if goesOn.MatchString(after) {
		return false
	}
	switch j {
	case byComma:
		return stopsHere.MatchString(after)
	case byOr:
		return stops.MatchString(after) || newClause.MatchString(after) || ofBoth.MatchString(after)
	case bySlash, byAbout:
		return stops.MatchString(after) || newClause.MatchString(after)
	}
	return stops.MatchString(after) || newClause.MatchString(after) || third.MatchString(after)
}

var (
	sentenceEnd = regexp.MustCompile(`[.!?]["”’)]*(?:\s|$)|\n`)
	// A text that tells of a slip shows one.
	tellsOfSlip = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:wrong|wrongly|mistakes?|mistook|mixed up|mix-up|false|≠|untrue|mistaken)(?:$|[^\pL])`)
	// A plan drawn to scale has 1 cm for 1 m.
	toScale = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:maps?|plans?|scale|scaled|drawings?|drawn|sketch|graph|grid|squared|models?|axis|stands? for)(?:$|[^\pL])`)
	choice  = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:either|choose|whether|pick|prefer|decide|depending|unless|try)(?:$|[^\pL])`)
	// Words that hold one quantity against another.
	contrast = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:\pL+er than|longer|shorter|heavier|lighter|farther|further|bigger|larger|smaller|` +
		`wider|nearer|closer|faster|slower|more|less|fewer|compare|compared|instead|rather|versus|difference)(?:$|[^\pL])`)
)

// meantOtherwise looks at the sentence around the two quantities for words that make
// them two: a choice, a question, a scale, a slip on show.
func meantOtherwise(j joint, text string, start, end int) bool {
	before, after := tail(text[:start]), head(text[end:])
	around := before + text[start:end] + after
	if all := sentenceEnd.FindAllStringIndex(before, -1); all != nil {
		before = before[all[len(all)-1][1]:]
	}
	next := after
	if m := sentenceEnd.FindStringIndex(after); m != nil {
		after = after[:m[1]]
		if m2 := sentenceEnd.FindStringIndex(next[m[1]:]); m2 != nil {
			next = next[:m[1]+m2[1]]
		}
	}
	sentence := before + text[start:end] + after
	// "One crew wrote 48 in = 120 cm. What went wrong?"
	if tellsOfSlip.MatchString(before + text[start:end] + next) {
		return true
	}
	if j == byBracket {
		return false
	}
	if strings.HasSuffix(strings.TrimRight(sentence, " \n\"”’)"), "?") || toScale.MatchString(around) {
		return true
	}
	if j == bySlash && strings.Contains(sentence, "=") {
		return true // a division
	}
	return (j == byOr || j == bySlash || j == byComma || j == byIs || j == byAbout) &&
		(contrast.MatchString(sentence) || choice.MatchString(before))
}

// reach is how many bytes around a pair are looked at, a few sentences, and near how
// many tell what a quantity is a part of; so a very long paragraph takes no longer
// than many short ones.
const reach, near = 600, 60

func tail(s string) string { return s[max(0, len(s)-reach):] }

func head(s string) string { return s[:min(len(s), reach)] }

func justBefore(s string) string { return s[max(0, len(s)-near):] }
