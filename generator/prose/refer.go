package prose

// Sentences that tell students to do something, and words that stand for what was named before: it, the can, some.

import (
	"bytes"
	"slices"
	"strings"

	"trundle/generator/source"
	"trundle/generator/wording"
)

// handling are verbs of using a substance or tool. Those of ambiguousVerbs are nouns or adjectives as well, and count
// only before a word that goes with a verb.
const handling = `use|take|put|apply|pour|wipe|rub|dab|drip|dip|soak|moisten|dampen|squirt|mist|spread|smear|` +
	`dissolve|mix|` +
	`dilute|shake|open|uncap|hold|try|get|grab|fetch|bring|pick|pass|hand|give|treat|wash|scrub|degrease|remove|` +
	`loosen|touch|` +
	`smell|sniff|cut|trim|slice|carve|score|solder|heat|melt|charge|plug|connect|switch|turn|press|fill|empty|` +
	`add|drop|` +
	`clean|spray|brush|wet|swab|glue|stick|fix|join|coat|cover|paint|drill|saw|polish|point|aim|blow|run|let|` +
	`make|keep|` +
	`place|lay|set|start|begin|go|repeat|continue|finish|work|test|burn|light|warm|sand|file|grind|store|carry|` +
	`move|lift|` +
	`decant|sprinkle|dribble|splash|screw|unscrew|unplug|insert|attach|help|do`

var (
	ambiguousVerbs = strings.Fields("clean spray brush wet swab glue stick fix coat cover paint drill saw polish " +
		"point place set " +
		"start work test light warm sand file store cut hand mist plug open drop run hold touch blow")
	handles = wording.New(`^(?:` + handling + `)$`)
	leadIn  = wording.New(`^(?:(?:then|now|next|first|second|third|finally|lastly|last|also|please|` +
		`carefully|gently|` +
		`quickly|slowly|just|once more|again|and|but|or|so|after that|afterwards|step|at last|simply|always|only|` +
		`todo|ok|okay|` +
		`[\d]+|it(?:['’]s| is) (?:now )?(?:time|your turn) to|time to|let['’]?s|let us|(?:be|make) sure (?:to|` +
		`you)|remember to|` +
		`(?:do not|don['’]t|never) forget to|try to|go ahead and|feel free to|(?:can|could|will|` +
		`would) you(?: all)?|why not|` +
		`(?:it(?:['’]s| is) )?your turn)[\s,.:)-]+)*`)
	toStudents = wording.New(`^(?:you|we|everyone|everybody|each of you|one of you|(?:all )?students|` +
		`pupils|kids|children|` +
		`teams|(?:each|every|the|one|a|your) (?:team|student|pupil|child|kid|pair|group|person|skipper|helper|` +
		`driver|reader|` +
		`timekeeper|builder|partner)s?)\b(?: (?:can|may|must|should|will|now|then|to|each|all|have|has|need|needs))*`)
	whichOnes  = wording.New(`^ (?:that|who|which|whose)\b`)
	segmentEnd = wording.New(`[,:;–—(]\s*|\s(?:and|or|then|but)\s`)
	verbObject = wording.New(`^(?:it|them|this|that|these|those|the|a|an|your|its|their|our|each|every|` +
		`all|both|some|any|on|` +
		`onto|with|over|into|in|off|down|up|around|along|at|away|out|from|two|one|more|well|carefully|gently)$`)
)

// Instructs tells whether a clause tells its readers to handle something: it has a part that begins with a verb of
// doing
// so, or says that students do. part is what they would handle, whose own words are no verbs.
func Instructs(clause Run, part source.Span) bool {
	text := string(clause.Text)
	start := 0
	for {
		end := len(text)
		next := end
		if m := segmentEnd.FindStringIndex(text[start:]); m != nil {
			end, next = start+m[0], start+m[1]
		}
		if beginsWithVerb(text[start:end], start, part, text) {
			return true
		}
		if next >= len(text) {
			return false
		}
		start = next
	}
}

// beginsWithVerb looks at a segment of a clause, which starts at offset.
func beginsWithVerb(segment string, offset int, part source.Span, clause string) bool {
	trimmed := strings.TrimLeft(segment, " *_\n\ufffc\"'“‘-•[]xX.")
	at := offset + len(segment) - len(trimmed)
	lead := len(leadIn.FindString(trimmed))
	trimmed, at = trimmed[lead:], at+lead
	if m := toStudents.FindStringIndex(trimmed); m != nil {
		return !whichOnes.MatchString(trimmed[m[1]:]) // teams that use it are not told to
	}
	words := tokens([]byte(trimmed))
	if len(words) == 0 {
		return false
	}
	verb := trimmed[words[0].start:words[0].end]
	if !handles.MatchString(verb) {
		return false
	}
	if !slices.Contains(ambiguousVerbs, verb) {
		return true
	}
	if at == part.Start && at+words[0].end < part.End {
		return false // the spray of spray paint
	}
	if len(words) < 2 {
		return false
	}
	if at+words[1].start == part.Start { // spray contact cleaner on …
		rest := tokens([]byte(clause[part.End:]))
		return len(rest) > 0 && verbObject.MatchString(clause[part.End:][rest[0].start:rest[0].end])
	}
	return verbObject.MatchString(trimmed[words[1].start:words[1].end])
}

// Named is what a lesson has named, as far as a later sentence may stand for it.
type Named struct {
	Phrase    string
	Substance bool // or unknown
	Quietly   bool // where students do not read it as prose: in a note for mentors, in code
}

// Sureness tells how surely a word stands for what was named.
type Sureness int

const (
	Silent Sureness = iota
	Perhaps
	Surely
)

const pronoun = `(it|them|this|that|these|those|some|one)\b`

// withNothingElse is what follows a pronoun that has no noun of its own: use this on it, and not use this table.
var withNothingElse = wording.New(`^(?:$|[^\pL\s-]|\s+(?:on|onto|over|into|in|to|and|or|at|from|for|with|until|` +
	`again|once|twice|carefully|gently|` +
	`outside|inside|together|first|next|yourself|yourselves|slowly|quickly|lightly|well|now|then|out|off|up|down|` +
	`away|there|here|before|after|when|if|while|only|by|near|along|under|across|around|as|but|every|` +
	`all|sparingly|of (?:it|this|that|them))\b)`)

var (
	points     = wording.New(`^(?:the|this|that|your|these|those|some|more)$`)
	likeOthers = wording.New(`^(?:same|little)$`)
	endings    = wording.New(`^(?:s|es|ies|y|e|ves)?$`)
	container  = wording.New(`^(?:cans?|bottles?|tins?|tubes?|canisters?|containers?|jars?|sprays?|aerosols?|` +
		`liquids?|fluids?|stuff|products?|chemicals?|cleaners?|solvents?|nozzles?|flask|vapou?rs?|substances?|drops?)$`)
	withIt = wording.New(`\b(?:wip|clean|rub|spray|wet|dab|moisten|dampen|soak|brush|treat|touch|cut|trim|` +
		`carv|slic|solder|` +
		`heat|melt|glu|stick|fix|fill|scor|cover|coat|polish|scrub|wash|degreas|remov|loosen|dissolv|charg|go over)` +
		`[\pL]*\b.*\b(?:with|using) ` + pronoun)
	ofIt = wording.New(`\b(?:some|little|bit|bits|drop|drops|lot|much|more|any|puff|puffs|squirt|dab|` +
		`amount|splash|half|` +
		`burst|rest|all|enough|plenty|cap|capful|spoonful|dash|layer|coat) of ` + pronoun)
	intoIt = wording.New(`\b(?:dip|soak|lay|put|hold|dunk|leave|stir|wet)\b.*\b(?:in|into) ` + pronoun)
	aDrop  = wording.New(`\b((?:a|an|one|two|three|some|another)(?: (?:quick|little|small|short|tiny|good|` +
		`last|single))? ` +
		`(?:drop|squirt|dab|puff|splash|spritz|burst|spray)s?)\b|\b(a (?:little|bit))(?: more)? (?:on|onto|in|` +
		`into|over)\b`)
	// A verb of it without any object: Shake well. Spray.
	bareVerb = wording.New(`^[^\pL]*(?:(?:then|now|and|first|next),? )*(shake|spray|squirt|uncap|sniff|` +
		`pour|dab|apply|dilute)` +
		`(?:\W*$| (?:well|again|once|briefly|lightly|gently|carefully|evenly|sparingly|twice|on|onto|over|into|` +
		`from|for|until)\b)`)
	helpYourself = wording.New(`\bhelp yoursel(?:f|ves) to ` + pronoun)
	substance    = wording.New(`\b(?:spray|squirt|pour|drip|dab|dribble|sprinkle|smear|appl(?:y|ie)|uncap|` +
		`shake|sniff|smell|` +
		`swallow|drink|dilute|mix|decant|splash|mist)s? (?:on )?` + pronoun)
	general = wording.New(`\b(use|try|open|hold|take|get|fetch|bring|pass|grab|put|rub|dip|spread|hand|` +
		`give|pick up|touch|` +
		`add|drop|place|work)(?:s|es)? (?:over )?` + pronoun)
	toolIt  = wording.New(`\b(?:switch|turn|plug|heat|warm) (?:on )?` + pronoun + ``)
	another = wording.New(`(?:^|[^\pL])(?:the|a|an|your|its|their|each|one|two|three|another|this|that|` +
		`these|those)\s+(\pL+)`)
	roles = wording.New(`^(?:adult|mentor|teacher|coach|parent|instructor|grown|volunteer|little|bit|` +
		`lot|few|drop|one|` +
		`other|same|card)`)
	afterPreposition = wording.New(`\b(?:in|on|at|from|for|of|with|to|near|by|into|onto|over|off|under|` +
		`behind|until|when|` +
		`while|if)\s*$`)
)

// StandsFor finds words in a clause for what was named in an earlier one. between is what was said after that.
func StandsFor(clause Run, named []Named, between []Run) (part source.Span, how Sureness) {
	text := clause.Text
	if part, ok := headOf(text, named); ok {
		return part, Surely
	}
	used := usesUp(named)
	sure := []*wording.Pattern{withIt}
	if used {
		sure = append(sure, ofIt, intoIt, substance, aDrop, bareVerb, helpYourself)
	}
	for _, form := range sure {
		if m := standing(form, text); m != nil {
			return lastGroup(m), Surely
		}
	}
	if !slices.ContainsFunc(named, func(n Named) bool { return !n.Quietly }) {
		return source.Span{}, Silent
	}
	if m := standing(general, text); m != nil {
		part := lastGroup(m)
		switch {
		case !namesAnother(append(slices.Clone(between), clause.slice(0, m[0]))):
			return part, Surely
		case slices.Contains([]string{"use", "try", "open", "rub", "spread"}, string(text[m[2]:m[3]])):
			return part, Perhaps
		}
	}
	if m := standing(toolIt, text); m != nil && !used && !namesAnother(append(slices.Clone(between),
		clause.slice(0, m[0]))) {
		return lastGroup(m), Surely
	}
	return source.Span{}, Silent
}

// standing finds a pattern whose last group stands for a thing by itself.
func standing(form *wording.Pattern, text []byte) []int {
	for _, m := range form.FindAllSubmatchIndex(text, -1) {
		part := lastGroup(m)
		switch string(text[part.Start:part.End]) {
		case "this", "that", "these", "those", "some", "one":
			if !withNothingElse.Match(text[part.End:]) {
				continue
			}
		}
		return m
	}
	return nil
}

// lastGroup is the last group of a pattern that matched.
func lastGroup(m []int) source.Span {
	i := len(m) - 2
	for m[i] < 0 {
		i -= 2
	}
	return source.Span{Start: m[i], End: m[i+1]}
}

// usesUp tells whether any of what was named is used up.
func usesUp(named []Named) bool {
	return slices.ContainsFunc(named, func(n Named) bool { return n.Substance })
}

// headOf finds the noun of something that was named, or of what such a thing is in, and what points at it: the knives,
// that same bottle.
func headOf(text []byte, named []Named) (part source.Span, ok bool) {
	nouns, used := nounsOf(named), usesUp(named)
	words := tokens(text)
	follows := func(i int) bool {
		return i < len(words) && len(bytes.TrimSpace(text[words[i-1].end:words[i].start])) == 0
	}
	isHead := func(w token) bool {
		word := text[w.start:w.end]
		return used && container.Match(word) || slices.ContainsFunc(nouns, func(noun string) bool {
			ending, ok := bytes.CutPrefix(word, []byte(strings.TrimSuffix(noun, "y")))
			return ok && endings.Match(ending) || string(oneOf(word)) == noun
		})
	}
	for i, w := range words {
		if !points.Match(text[w.start:w.end]) || !follows(i+1) {
			continue
		}
		if next := words[i+1]; likeOthers.Match(text[next.start:next.end]) && follows(i+2) && isHead(words[i+2]) {
			return source.Span{Start: w.start, End: words[i+2].end}, true
		}
		if isHead(words[i+1]) {
			return source.Span{Start: w.start, End: words[i+1].end}, true
		}
	}
	return part, false
}

// nounsOf gives the nouns of what was named, each as what one and many of it have in common.
func nounsOf(named []Named) []string {
	var all []string
	for _, n := range named {
		if words := cutUp(n.Phrase); len(words) > 0 {
			noun := string(oneOf([]byte(words[len(words)-1])))
			if !slices.Contains(all, noun) {
				all = append(all, noun)
			}
		}
	}
	return all
}

// namesAnother tells whether texts name a thing that a pronoun after them may stand for instead.
func namesAnother(texts []Run) bool {
	for _, r := range texts {
		for _, m := range another.FindAllSubmatchIndex(r.Text, -1) {
			if !roles.Match(r.Text[m[2]:m[3]]) && !afterPreposition.Match(r.Text[:m[0]+1]) {
				return true
			}
		}
	}
	return false
}
