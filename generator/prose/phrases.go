package prose

// Many phrases looked for in one pass over a text: the table of words that call for a card, and a pack's own.

import (
	"bytes"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"trundle/generator/hazard"
	"trundle/generator/source"
)

// Phrases are phrases as a tree of words. One and many of a word are the same, and so are blanks and hyphens.
type Phrases struct {
	root    node
	foreign *forms // those of a language that is not English, instead
}

// NewPhrases gives none yet, for texts of a language.
func NewPhrases(t *Tongue) *Phrases {
	if t == nil {
		return &Phrases{}
	}
	return &Phrases{foreign: t.newForms()}
}

// A node is where a phrase goes on, or ends.
type node struct {
	next  map[string]*node
	found *Entry
}

// An Entry is what a text was found to say.
type Entry struct {
	Text      string
	Word      *hazard.Word // of the table, nil if it is the pack's own
	Otherwise bool         // the pack says that it means something else
}

// rank decides between two entries for the same words. What a pack's cards mention comes first.
func (e *Entry) rank() int {
	switch {
	case e.Word == nil && !e.Otherwise:
		return 3
	case e.Word != nil && e.Word.Alarm != hazard.Ask: // a bare word cannot be meant otherwise everywhere
		return 2
	case e.Otherwise:
		return 1
	}
	return 0
}

// table is the tree of the table's words. Making it takes a millisecond; that is why it waits for a first lesson.
var table = sync.OnceValue(func() *Phrases {
	p := &Phrases{}
	words := hazard.Words()
	for i := range words {
		e := &Entry{Text: words[i].Text, Word: &words[i]}
		p.Add(e)
		// Many write two words as one: superglue, gluegun.
		if parts := cutUp(e.Text); len(parts) == 2 && e.Word.Alarm != hazard.Pass {
			p.add([]string{strings.Join(parts, "")}, e)
		}
	}
	return p
})

// Add takes a phrase in; of the same words the first one stays.
func (p *Phrases) Add(e *Entry) {
	if p.foreign != nil {
		p.foreign.add(e.Text, e)
		return
	}
	p.add(cutUp(e.Text), e)
}

func (p *Phrases) add(words []string, e *Entry) {
	at := &p.root
	for _, word := range words {
		key := string(oneOf([]byte(word)))
		if at.next[key] == nil {
			if at.next == nil {
				at.next = map[string]*node{}
			}
			at.next[key] = &node{}
		}
		at = at.next[key]
	}
	if at != &p.root && (at.found == nil || at.found.rank() < e.rank()) {
		at.found = e
	}
}

// A Hit is an entry and where a text has it.
type Hit struct {
	*Entry
	Start, End int
	Doubtful   bool // it may be a comparison: a cleaner line
}

// token is a word of a text.
type token struct{ start, end int }

// In gives the phrases in a text in small letters from left to right, the longest at each place, and none within
// another: "window cleaner" is one, and its "cleaner" is not a second. What only looks like one is left out.
func (p *Phrases) In(text []byte) []Hit {
	if p.foreign != nil {
		return p.foreign.in(text)
	}
	var hits []Hit
	words := tokens(text)
	for i := 0; i < len(words); {
		found, n := p.longest(text, words[i:])
		if own, m := table().longest(text, words[i:]); own != nil && (m > n || m == n && found.rank() < own.rank()) {
			found, n = own, m
		}
		if found == nil {
			i++
			continue
		}
		if !meansOther(text, words, i, i+n, found) {
			doubtful := found.Word != nil && found.Word.Alarm == hazard.Compare && beforeNoun(text, words, i, i+n)
			hits = append(hits, Hit{found, words[i].start, words[i+n-1].end, doubtful})
		}
		i += n
	}
	return hits
}

// longest gives the longest phrase at the beginning of some words, and how many of them it takes.
func (p *Phrases) longest(text []byte, words []token) (found *Entry, n int) {
	at := &p.root
	for i, w := range words {
		if i > 0 && !joins(text[words[i-1].end:w.start]) {
			break
		}
		at = at.next[string(oneOf(text[w.start:w.end]))]
		if at == nil {
			break
		}
		if at.found != nil {
			found, n = at.found, i+1
		}
	}
	return found, n
}

// cutUp cuts a phrase into its words, in small letters.
func cutUp(phrase string) []string {
	text := []byte(strings.ToLower(phrase))
	var words []string
	for _, w := range tokens(text) {
		words = append(words, string(text[w.start:w.end]))
	}
	return words
}

// tokens cuts a text into words: letters and digits.
func tokens(text []byte) []token {
	var all []token
	start := -1
	for i := 0; i < len(text); {
		r, size := rune(text[i]), 1
		if r >= utf8.RuneSelf {
			r, size = utf8.DecodeRune(text[i:])
		}
		isWord := 'a' <= r && r <= 'z' || '0' <= r && r <= '9' ||
			r >= utf8.RuneSelf && (unicode.IsLetter(r) || unicode.IsMark(r))
		if isWord && start < 0 {
			start = i
		}
		if !isWord && start >= 0 {
			all, start = append(all, token{start, i}), -1
		}
		i += size
	}
	if start >= 0 {
		all = append(all, token{start, len(text)})
	}
	return all
}

// joins tells whether what stands between two words lets them be one phrase.
func joins(between []byte) bool {
	for _, r := range string(between) {
		if !unicode.IsSpace(r) && !unicode.Is(unicode.Pd, r) && r != '_' && r != '\'' && r != '’' {
			return false
		}
	}
	return true
}

// oneOf is what one and many of a word have in common: knife and knives are knif, battery and batteries are battery.
func oneOf(word []byte) []byte {
	n := len(word)
	if n <= 3 || word[n-1] != 's' && word[n-1] != 'e' {
		return word
	}
	switch {
	case bytes.HasSuffix(word, []byte("ies")) && n > 4:
		return append(bytes.Clone(word[:n-3]), 'y')
	case bytes.HasSuffix(word, []byte("ves")):
		return append(bytes.Clone(word[:n-3]), 'f')
	case bytes.HasSuffix(word, []byte("ve")):
		return append(bytes.Clone(word[:n-2]), 'f')
	case bytes.HasSuffix(word, []byte("fe")):
		return word[:n-1]
	case hissing(word):
		return word[:n-2]
	case word[n-1] == 's' && word[n-2] != 's' && word[n-2] != 'u' && word[n-2] != 'i':
		return word[:n-1]
	}
	return word
}

// hissing tells whether a word has the es of boxes, brushes, torches.
func hissing(word []byte) bool {
	stem, ok := bytes.CutSuffix(word, []byte("es"))
	return ok && (bytes.HasSuffix(stem, []byte("x")) || bytes.HasSuffix(stem, []byte("ss")) ||
		bytes.HasSuffix(stem, []byte("sh")) || bytes.HasSuffix(stem, []byte("ch")))
}

// Same tells whether two phrases are the same words, one or many.
func Same(a, b string) bool { return slices.Equal(onesOf(a), onesOf(b)) }

// EndsWith tells whether a phrase ends with the words of another.
func EndsWith(phrase, ending string) bool {
	all, end := onesOf(phrase), onesOf(ending)
	return len(end) > 0 && len(end) <= len(all) && slices.Equal(all[len(all)-len(end):], end)
}

func onesOf(phrase string) []string {
	words := cutUp(phrase)
	for i, word := range words {
		words[i] = string(oneOf([]byte(word)))
	}
	return words
}

// Part is where a hit is in its text.
func (h Hit) Part() source.Span { return source.Span{Start: h.Start, End: h.End} }

// Has tells whether a text has the words of a phrase, one or many.
func Has(text, phrase string) bool {
	all, words := onesOf(text), onesOf(phrase)
	for i := 0; len(words) > 0 && i+len(words) <= len(all); i++ {
		if slices.Equal(all[i:i+len(words)], words) {
			return true
		}
	}
	return false
}
