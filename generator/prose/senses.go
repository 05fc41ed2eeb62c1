package prose

// Where a word that calls for a card means something else, by the words around it.

import (
	"slices"
	"strings"

	"trundle/generator/hazard"
)

// beforeComparison and gotBefore are words before a comparison: the wheel is cleaner, the line gets thinner.
var (
	beforeComparison = strings.Fields("is are was were be been being look looks looked become becomes became " +
		"much even far " +
		"slightly bit lot stay stays stayed feel feels felt")
	gotBefore = strings.Fields("get gets got getting")
	// A cleaner is had from somebody, or for something; a comparison ends, or goes on another way.
	ofThing = strings.Fields("from for out on onto into in off")
)

// meansOther tells whether the words from i to end of a text are not what they look like.
func meansOther(text []byte, words []token, i, end int, e *Entry) bool {
	word := func(n int) string { // "" beyond the sentence
		low, high := min(n, i), max(n, end-1)
		if n < 0 || n >= len(words) {
			return ""
		}
		for k := low; k < high; k++ {
			if (k < i || k >= end-1) && !joins(text[words[k].end:words[k+1].start]) {
				return ""
			}
		}
		return string(text[words[n].start:words[n].end])
	}
	switch {
	case e.Otherwise:
		return false // whoever asks has to see that it is used
	case word(end) == "free" && word(end+1) != "of":
		return true // alcohol-free
	case e.Word == nil:
		return false
	case e.Word.Alarm == hazard.Pass:
		return true
	case e.Word.Alarm != hazard.Compare:
		return false
	}
	return compares(word, i, end, e)
}

// adverbs stand between a verb and its comparison: it is now cleaner.
var adverbs = strings.Fields("now still already also really clearly often always then")

// makesSo are verbs whose comparison comes after a noun: make the line thinner.
var makesSo = strings.Fields("make makes made making")

// ofThese follow a comparison of several: the lighter of the two.
var ofThese = []string{"the two", "the three", "the four", "these two", "those two", "both ", "all three", "all the"}

// compares tells whether the word from i to end is a comparison. word gives those around it, "" where a sentence ends.
func compares(word func(int) string, i, end int, e *Entry) bool {
	next, before := word(end), i-1
	for before > 0 && slices.Contains(adverbs, word(before)) {
		before--
	}
	switch {
	case next == "than", next == "and" && word(end+1) == e.Text, word(i-1) == "and" && word(i-2) == e.Text:
		return true
	case slices.Contains(ofThing, next):
		return false
	case next == "of" && slices.Contains(ofThese, word(end+1)+" "+word(end+2)):
		return true
	case slices.Contains(beforeComparison, word(before)), slices.Contains(gotBefore, word(before)):
		return true
	case followsNoun(e, next):
		return !e.Word.Substance()
	}
	for n := i - 2; n >= 0 && n > i-7 && word(n) != "" && !plainBefore[word(i-1)]; n-- {
		if slices.Contains(makesSo, word(n)) {
			return true
		}
	}
	return false
}

// beforeNoun tells whether what may be a noun stands right after the words from i to end. After "a cleaner" a word in s
// is a verb: a cleaner stands there.
func beforeNoun(text []byte, words []token, i, end int) bool {
	if end >= len(words) || !joins(text[words[end-1].end:words[end].start]) {
		return false
	}
	next, before := string(text[words[end].start:words[end].end]), ""
	if i > 0 {
		before = string(text[words[i-1].start:words[i-1].end])
	}
	if before == "the" && next == "the" { // the cleaner the wheel, the better the grip
		return true
	}
	if before == "a" && strings.HasSuffix(next, "s") {
		return false
	}
	return !plainBefore[next] && !slices.Contains(ofThing, next)
}

// followsNoun tells whether a noun may follow a word that compares: a lighter robot, a cleaner line.
func followsNoun(e *Entry, next string) bool {
	return e.Word != nil && next != "" && !plainBefore[next]
}

// plainBefore are words that stand before the name of a substance and say nothing of which it is.
var plainBefore = func() map[string]bool {
	all := map[string]bool{}
	for _, word := range strings.Fields("the a an this that these those your our their its his her my some any " +
		"no each every " +
		"one two three of with without in on into onto to from for by at near and or but if when while as than " +
		"then before after is are was " +
		"were be not never use uses using used take takes taking need needs put puts apply applies wipe wipes " +
		"pour pours " +
		"get gets fetch have has had open opens bring brings buy keep keeps hold holds touch touches smell " +
		"smells leave leaves " +
		"more less little much enough only same such what which whose whether new fresh you we they i it he she " +
		"him them us " +
		"mentor mentors adult adults teacher teachers coach coaches student students team teams everybody nobody " +
		"someone s " +
		"also again once still just may can must will should would could do does did don t about like except " +
		"because so " +
		"against over under after before until here there today left please too tonight anywhere spray sprays " +
		"clean cleans damp wet drop drops bottle can small all both either") {
		all[word] = true
	}
	return all
}()

// Qualified tells whether a word that the text does not know stands before a hit: the "moss" of moss cleaner.
func Qualified(text []byte, h Hit) bool {
	end := h.Start
	for end > 0 && joins(text[end-1:end]) {
		end--
	}
	words := tokens(text[:end])
	if len(words) == 0 || words[len(words)-1].end != end || end == h.Start {
		return false
	}
	return !plainBefore[string(text[words[len(words)-1].start:end])]
}

// Endings gives the hits that the last words of a phrase are: of "window cleaner", "window cleaner" and "cleaner".
func Endings(phrase string) []*Entry {
	words := cutUp(phrase)
	var all []*Entry
	for i := range words {
		text := []byte(strings.Join(words[i:], " "))
		parts := tokens(text)
		if e, n := table().longest(text, parts); e != nil && n == len(parts) && e.Word.Alarm != hazard.Pass {
			all = append(all, e)
		}
	}
	return all
}
