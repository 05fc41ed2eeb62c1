package prose

// Words of a language in their forms: plurals by its endings, and parts of compounds.

import (
	"slices"
	"strings"
	"sync"

	"trundle/generator/hazard"
)

// forms are phrases of a language, found in all their forms.
type forms struct {
	tongue *Tongue
	root   node
	single map[string]*Entry // those of one word, which may be parts of compounds

	lock      sync.Mutex
	compounds map[string]*Entry // that were met
}

// shortestPart is how long a word is at least that counts as a part of another.
const shortestPart = 4

func (t *Tongue) newForms() *forms {
	return &forms{tongue: t, single: map[string]*Entry{}, compounds: map[string]*Entry{}}
}

// add takes a phrase in; of the same words the first one of the highest rank stays.
func (f *forms) add(form string, e *Entry) {
	words := f.tongue.phrase(form)
	at := &f.root
	for _, word := range words {
		if at.next[word] == nil {
			if at.next == nil {
				at.next = map[string]*node{}
			}
			at.next[word] = &node{}
		}
		at = at.next[word]
	}
	if at == &f.root || at.found != nil && at.found.rank() >= e.rank() {
		return
	}
	at.found = e
	if len(words) == 1 && len(words[0]) >= shortestPart {
		f.single[words[0]] = e
	}
}

// after is where a phrase goes on with a word in any of its forms.
func (f *forms) after(at *node, word string) []*node {
	var all []*node
	take := func(form string) {
		if n := at.next[form]; n != nil {
			all = append(all, n)
		}
	}
	take(word)
	for _, ending := range f.tongue.Texts.Endings {
		if stem, found := strings.CutSuffix(word, ending); found {
			take(stem)
		}
		take(word + ending)
	}
	return all
}

// longest gives the longest phrase at the beginning of some words, and how many of them it takes.
func (f *forms) longest(text []byte, words []plainWord) (found *Entry, n int) {
	at := []*node{&f.root}
	for i, w := range words {
		if i > 0 && !joins(text[words[i-1].end:w.start]) {
			break
		}
		var next []*node
		for _, from := range at {
			next = append(next, f.after(from, w.text)...)
		}
		if at = next; len(at) == 0 {
			break
		}
		for _, node := range at {
			if node.found != nil && (n <= i || found.rank() < node.found.rank()) {
				found, n = node.found, i+1
			}
		}
	}
	return found, n
}

// compound gives an entry for a word with one of the single words at its end or beginning, if the language joins them.
// The compound is a word of its own: a card for one cleaner is none for another.
func (f *forms) compound(word string) *Entry {
	if !f.tongue.Texts.Compounds {
		return nil
	}
	f.lock.Lock()
	defer f.lock.Unlock()
	if e, met := f.compounds[word]; met {
		return e
	}
	e := f.part(word)
	if e != nil && e.Word != nil {
		own := *e.Word
		if own.Text = word; own.Alarm == hazard.Compare {
			own.Alarm = hazard.Stop
		}
		e = &Entry{Text: word, Word: &own}
	}
	f.compounds[word] = e
	return e
}

// part finds the part of a compound that matters most: a harmless end such as that of Durchmesser does not make its
// beginning harmless.
func (f *forms) part(word string) *Entry {
	var end, start *Entry
	for _, form := range f.stems(word) {
		for i := 1; i <= len(form)-shortestPart && end == nil; i++ {
			end = f.single[form[i:]]
		}
	}
	for i := len(word) - 1; i >= shortestPart && start == nil; i-- {
		start = f.single[word[:i]]
	}
	harmless := func(e *Entry) bool { return e == nil || e.Word != nil && e.Word.Alarm == hazard.Pass }
	if harmless(end) && !harmless(start) {
		return start
	}
	return end
}

// stems are a word and what is left of it without one of the endings.
func (f *forms) stems(word string) []string {
	all := []string{word}
	for _, ending := range f.tongue.Texts.Endings {
		if stem, found := strings.CutSuffix(word, ending); found {
			all = append(all, stem)
		}
	}
	return all
}

// same tells whether two words are forms of one.
func (t *Tongue) same(a, b string) bool {
	return a == b || slices.ContainsFunc(t.Texts.Endings, func(e string) bool { return a == b+e || b == a+e })
}

func (t *Tongue) equal(a, b phrase) bool { return slices.EqualFunc(a, b, t.same) }

// in gives the phrases in a text in small letters, those of its language's table and English ones that surely mean a
// substance or tool among them.
func (f *forms) in(text []byte) []Hit {
	var hits []Hit
	words := f.tongue.words(text)
	for i := 0; i < len(words); {
		found, n := f.at(text, words[i:])
		if found == nil {
			i++
			continue
		}
		if found.Word == nil || found.Word.Alarm != hazard.Pass {
			hits = append(hits, Hit{Entry: found, Start: words[i].start, End: words[i+n-1].end})
		}
		i += n
	}
	return hits
}

// at gives the phrase at the beginning of some words. Whole words come before parts of them.
func (f *forms) at(text []byte, words []plainWord) (found *Entry, n int) {
	table := f.tongue.substances
	found, n = f.longest(text, words)
	if other, m := table.longest(text, words); other != nil && (m > n || m == n && found.rank() < other.rank()) {
		found, n = other, m
	}
	if other, m := f.tongue.inEnglish(text, words); m > n {
		found, n = other, m
	}
	if found != nil {
		return found, n
	}
	if found = f.compound(words[0].text); found == nil {
		found = table.compound(words[0].text)
	}
	return found, 1
}

// inEnglish gives what the English table surely means, but for what is a harmless word of the language.
func (t *Tongue) inEnglish(text []byte, words []plainWord) (found *Entry, n int) {
	plain := make([]token, 0, mostWords)
	for _, w := range words[:min(len(words), mostWords)] {
		plain = append(plain, w.token)
	}
	found, n = table().longest(text, plain)
	if found == nil || found.Word.Alarm != hazard.Stop {
		return nil, 0
	}
	for _, w := range plain[:n] {
		if t.friends[string(text[w.start:w.end])] {
			return nil, 0
		}
	}
	return found, n
}

// mostWords is more than any phrase of the English table has.
const mostWords = 8

// Same tells whether two phrases are the same words, one or many.
func (t *Tongue) Same(a, b string) bool {
	if t == nil {
		return Same(a, b)
	}
	return t.equal(t.phrase(a), t.phrase(b))
}

// Has tells whether a text has the words of a phrase, one or many.
func (t *Tongue) Has(text, phrase string) bool {
	if t == nil {
		return Has(text, phrase)
	}
	all, words := t.phrase(text), t.phrase(phrase)
	for i := 0; len(words) > 0 && i+len(words) <= len(all); i++ {
		if t.equal(all[i:i+len(words)], words) {
			return true
		}
	}
	return false
}

// Heads tells whether a phrase's main words are those of another: "window cleaner" is a cleaner.
func (t *Tongue) Heads(phrase, head string) bool {
	if t == nil {
		return EndsWith(phrase, head)
	}
	all, words := t.phrase(phrase), t.phrase(head)
	if n := len(words); n == 0 || n > len(all) {
		return false
	}
	if t.headFirst() {
		return t.equal(all[:len(words)], words)
	}
	return t.equal(all[len(all)-len(words):], words) ||
		t.Texts.Compounds && len(words) == 1 && strings.HasSuffix(all[len(all)-1], words[0])
}

func (t *Tongue) headFirst() bool { return t.Texts.HeadNoun == "first" }

// Kinds gives the hits that the main words of a phrase are: of "window cleaner", "window cleaner" and "cleaner".
func (t *Tongue) Kinds(mention string) []*Entry {
	all := Endings(mention)
	if t == nil {
		return all
	}
	text := []byte(strings.ToLower(mention))
	words := t.words(text)
	take := func(e *Entry) {
		if e != nil && e.Word.Alarm != hazard.Pass {
			all = append(all, e)
		}
	}
	for i := range words {
		part := words[i:]
		if t.headFirst() {
			part = words[:len(words)-i]
		}
		if e, n := t.substances.longest(text, part); n == len(part) {
			take(e)
		}
	}
	if len(words) > 0 && t.Texts.Compounds {
		last := words[len(words)-1].text
		take(t.substances.compound(last))
		take(t.substances.part(last))
	}
	return all
}

// Qualified tells whether a word stands beside a hit that may make another thing of it: the "moss" of moss cleaner.
func (t *Tongue) Qualified(text []byte, h Hit) bool {
	if t == nil {
		return Qualified(text, h)
	}
	after := t.words(text[h.End:])
	return len(after) > 1 && joins(text[h.End:h.End+after[0].start]) && starts(after, t.qualifiedBy) > 0
}

// formsFinder finds a phrase in any of its forms: by the language's endings, as its table of substances lists them, and
// at the end of a compound.
func (t *Tongue) formsFinder(text string) func(text []byte) (from, to int, found bool) {
	sought := []phrase{t.phrase(text)}
	for _, s := range t.Substances {
		forms := t.phrases(s.Forms)
		if slices.ContainsFunc(forms, func(p phrase) bool { return t.equal(p, sought[0]) }) {
			sought = append(sought, forms...)
		}
	}
	return func(text []byte) (from, to int, found bool) {
		words := t.words(text)
		for i := range words {
			for _, p := range sought {
				if t.isAt(text, words[i:], p) {
					return words[i].start, words[i+len(p)-1].end, true
				}
			}
		}
		return 0, 0, false
	}
}

// isAt tells whether a phrase stands at the beginning of some words.
func (t *Tongue) isAt(text []byte, words []plainWord, p phrase) bool {
	if len(p) == 0 || len(p) > len(words) {
		return false
	}
	for i, word := range p {
		if i > 0 && !joins(text[words[i-1].end:words[i].start]) || !t.same(words[i].text, word) {
			return len(p) == 1 && t.endsIn(words[0].text, word)
		}
	}
	return true
}

// endsIn tells whether a word is a compound with another at its end: Kontaktreiniger is a Reiniger.
func (t *Tongue) endsIn(compound, word string) bool {
	if !t.Texts.Compounds || len(word) < shortestPart {
		return false
	}
	isEnd := func(form string) bool { return strings.HasSuffix(form, word) }
	return slices.ContainsFunc((&forms{tongue: t}).stems(compound), isEnd)
}
