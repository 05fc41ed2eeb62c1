package prose

// Who does a step, in a language that is not English. No verb is understood: whatever names a thing that is for adults
// is taken for a step, unless its sentence begins with who does it, or forbids it.

import (
	"bytes"
	"strings"
	"unicode"

	"trundle/generator/hazard"
	"trundle/generator/source"
)

// A Telling is a place where a text tells students of what is for adults.
type Telling struct {
	Hit  *Hit // nil if a word stands for what was named
	Part source.Span
	How  Sureness
}

// A piece of a text ends where a sentence does, at a comma, or before a conjunction.
type piece struct {
	from, to int  // words
	goesOn   bool // the sentence of the piece before
}

// Tells gives the places where a text in small letters tells students to handle something: the hits, and what stands
// for what was named, which may be nothing yet.
func (t *Tongue) Tells(r Run, hits []Hit, named []Named) []Telling {
	words := t.words(r.Text)
	var all []Telling
	listed := false // the piece before named something, and left it alone
	for _, p := range t.pieces(r.Text, words, hits) {
		refused, inside := false, 0
		for i := range hits {
			from, to, in := p.holds(words, hits[i])
			if !in {
				continue
			}
			inside++
			if !t.leavesAlone(r.Text, words, p, from, to) && !(listed && p.goesOn && t.isListed(words, p, from, to)) {
				all, refused = append(all, Telling{&hits[i], hits[i].Part(), Surely}), true
			}
		}
		if inside == 0 && len(named) > 0 {
			if from, to, how := t.standsFor(r.Text, words[p.from:p.to], named); how != Silent &&
				!t.leavesAlone(r.Text, words, p, p.from+from, p.from+to) {
				all = append(all, Telling{nil, source.Span{Start: words[p.from+from].start, End: words[p.from+to-1].end}, how})
			}
		}
		listed = inside > 0 && !refused
		for i := range hits {
			if _, _, in := p.holds(words, hits[i]); in {
				named = append(named, Named{Phrase: hits[i].Text})
			}
		}
	}
	return all
}

// holds gives the words of a hit if the piece has them.
func (p piece) holds(words []plainWord, h Hit) (from, to int, in bool) {
	for i := p.from; i < p.to; i++ {
		if words[i].start == h.Start {
			for to = i; to < p.to && words[to].start < h.End; to++ {
				continue
			}
			return i, to, true
		}
	}
	return 0, 0, false
}

// pieces cuts a text. What a hit says is not cut.
func (t *Tongue) pieces(text []byte, words []plainWord, hits []Hit) []piece {
	var all []piece
	start, goesOn := 0, false
	for i := 1; i <= len(words); i++ {
		if i == len(words) {
			return append(all, piece{start, i, goesOn})
		}
		if within(words[i].start, hits) {
			continue
		}
		ends, soft := cuts(text[words[i-1].end:words[i].start], text[words[i-1].start:words[i].end])
		n := starts(words[i:], t.conjunctions)
		if !ends && n == 0 {
			continue
		}
		all = append(all, piece{start, i, goesOn})
		start, goesOn = i, soft || !ends
		if n > 0 && i+n < len(words) && !within(words[i].start, hits) {
			start, i = i+n, i+n
		}
	}
	return all
}

// within tells whether a place is in a hit, after its start.
func within(at int, hits []Hit) bool {
	for _, h := range hits {
		if h.Start < at && at < h.End {
			return true
		}
	}
	return false
}

// cuts tells whether a piece ends at what is between two words, and whether its sentence goes on. 0,5 is one number.
func cuts(between, around []byte) (ends, goesOn bool) {
	if bytes.ContainsAny(between, ".!?;:()…\n[]") || bytes.Contains(between, []byte(" - ")) ||
		bytes.Contains(between, []byte("–")) || bytes.Contains(between, []byte("—")) {
		return string(between) != "." || !isDecimal(around), false
	}
	return bytes.Contains(between, []byte(",")) && !(string(between) == "," && isDecimal(around)), true
}

// isDecimal tells whether two words with a mark between them begin and end as a number does.
func isDecimal(around []byte) bool {
	first, last := around[0], around[len(around)-1]
	return '0' <= first && first <= '9' && '0' <= last && last <= '9'
}

// leavesAlone tells whether a piece gives what some of its words name to an adult, or forbids it.
func (t *Tongue) leavesAlone(text []byte, words []plainWord, p piece, from, to int) bool {
	said := words[p.from:from]
	for len(said) > 0 {
		n := starts(said, t.leadIns)
		if strings.Trim(said[0].text, "0123456789") == "" {
			n = 1
		}
		if n == 0 {
			break
		}
		said = said[n:]
	}
	if n := starts(said, t.adults); n > 0 {
		if _, _, handed := holds(said[n:], t.handsOver); !handed {
			return true
		}
	}
	whole := words[from-len(said) : p.to]
	if starts(whole, t.forbids) > 0 && startsWith(whole, t.forbidsNot, anyMany) == 0 {
		return true
	}
	if to < p.to && joins(text[words[to-1].end:words[to].start]) && starts(words[to:p.to], t.keptAway) > 0 {
		return true
	}
	for before := from; ; before-- {
		if ends(words[:before], t.notBefore) {
			return true
		}
		if before == 0 || before < len(words) && !joins(text[words[before-1].end:words[before].start]) ||
			!t.isSmall(words[before-1]) {
			return false
		}
	}
}

func (t *Tongue) isSmall(w plainWord) bool { return starts([]plainWord{w}, t.small) > 0 }

// isListed tells whether a piece is nothing but one more thing of a list, perhaps with where it is used:
// or acetone on it.
func (t *Tongue) isListed(words []plainWord, p piece, from, to int) bool {
	for _, w := range words[p.from:from] {
		if !t.isSmall(w) {
			return false
		}
	}
	return to == p.to || t.isSmall(words[to])
}

// standsFor finds words that stand for what was named.
func (t *Tongue) standsFor(text []byte, words []plainWord, named []Named) (from, to int, how Sureness) {
	if from, to, found := holds(words, t.stands); found {
		return from, to, Surely
	}
	for i, w := range words {
		if t.endsWithObject(string(text[w.start:w.end]), w.text) {
			return i, i + 1, Surely
		}
	}
	for _, n := range named {
		if n.Quietly {
			continue
		}
		if from, to, found := holds(words, t.mayStandFor); found {
			return from, to, Perhaps
		}
	}
	return 0, 0, Silent
}

// endsWithObject tells whether a word is a verb with its object, as límpialo is: only a word with an accent can be.
func (t *Tongue) endsWithObject(written, plain string) bool {
	if !strings.ContainsAny(strings.ToLower(written), "áéíóú") {
		return false
	}
	for _, ending := range t.Texts.StandsForEndings {
		if strings.HasSuffix(plain, ending) {
			return true
		}
	}
	return false
}

// LeftToAdults finds in a text in small letters where it gives something to adults. A sentence that has students call
// one does not.
func (t *Tongue) LeftToAdults(r Run) (part source.Span, found bool) {
	if t == nil {
		return LeftToAdults(r)
	}
	words := t.words(r.Text)
	for start := 0; start < len(words); {
		end := start + 1
		for end < len(words) {
			last, next := words[end-1], words[end]
			if ends, goesOn := cuts(r.Text[last.end:next.start], r.Text[last.start:next.end]); ends && !goesOn {
				break
			}
			end++
		}
		sentence := words[start:end]
		if from, to, named := holds(sentence, t.adultWords); named {
			if _, _, calls := holds(sentence, t.callsAdult); !calls {
				return source.Span{Start: sentence[from].start, End: sentence[to-1].end}, true
			}
		}
		start = end
	}
	return source.Span{}, false
}

// Danger finds the first word of danger in a text in small letters.
func (t *Tongue) Danger(r Run) (part source.Span, found bool) {
	if t == nil {
		return Danger(r)
	}
	words := t.words(r.Text)
	if from, to, found := holds(words, t.dangers); found {
		return source.Span{Start: words[from].start, End: words[to-1].end}, true
	}
	for _, h := range NewPhrases(t).In(r.Text) {
		if h.Word != nil && h.Word.Alarm == hazard.Stop {
			return h.Part(), true
		}
	}
	return source.Span{}, false
}

// says tells whether a text has a word in it that is more than a note to oneself.
func (t *Tongue) says(text string) bool {
	words := t.words([]byte(text))
	for i := 0; i < len(words); i++ {
		if n := starts(words[i:], t.toDo); n > 0 {
			i += n - 1
		} else if strings.IndexFunc(words[i].text, unicode.IsLetter) >= 0 {
			return true
		}
	}
	return false
}
