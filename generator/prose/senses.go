package prose

// Where a word that calls for a card means something else, by the words around it.

import (
	"slices"
	"strings"

	"trundle/generator/hazard"
)

// beforeComparison and gotBefore are words before a comparison: the wheel is cleaner, the line gets thinner.
var (
	beforeComparison = strings.Fields("is are was were be been being look looks looked become becomes became much even far " +
		"slightly bit lot stay stays stayed feel feels felt")
	gotBefore = strings.Fields("get gets got getting")
	// A cleaner is had from somebody, or for something; a comparison ends, or goes on another way.
	ofThing = strings.Fields("from for out on onto into in off")
)

// meansOther tells whether the words from i to end of a text are not what they look like.
func meansOther(text []byte, words []token, i, end int, e *Entry) bool {
	word := func(n int) string {
		if n < 0 || n >= len(words) || n >= 1 && n == end && !joins(text[words[n-1].end:words[n].start]) ||
			n == i-1 && !joins(text[words[n].end:words[i].start]) {
			return ""
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
	case word(end) == "than", word(end) == "and" && word(end+1) == e.Text:
		return true
	case slices.Contains(ofThing, word(end)):
		return false
	}
	before := word(i - 1)
	return slices.Contains(beforeComparison, before) || slices.Contains(gotBefore, before) ||
		before == "and" && word(i-2) == e.Text
}

// plainBefore are words that stand before the name of a substance and say nothing of which it is.
var plainBefore = func() map[string]bool {
	all := map[string]bool{}
	for _, word := range strings.Fields("the a an this that these those your our their its his her my some any no each every " +
		"one two three of with without in on into onto to from for by at near and or but if when while as than then is are was " +
		"were be not never use uses using used take takes taking need needs put puts apply applies wipe wipes pour pours " +
		"get gets fetch have has had open opens bring brings buy keep keeps hold holds touch touches smell smells leave leaves " +
		"more less little much enough only same such what which whose whether new fresh you we they i it he she him them us " +
		"mentor mentors adult adults teacher teachers coach coaches student students team teams everybody nobody someone s " +
		"also again once still just may can must will should would could do does did don t about like except because so " +
		"against over under after before until spray sprays clean cleans damp wet drop drops bottle can small all both either") {
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
