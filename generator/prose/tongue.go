package prose

// How a language that is not English is read: words made plain, and phrases of its data found among them.

import (
	"slices"
	"strings"
	"sync"

	"trundle/generator/pairs"
	"trundle/generator/reading"
)

// A Tongue is a language made ready for reading. Nil is English, which is read by patterns instead.
type Tongue struct {
	*reading.Language
	substances *forms
	friends    map[string]bool // English words that mean something harmless
	pairs      *pairs.Words
	lists
}

// lists are the lists of a language as plain words.
type lists struct {
	adults, handsOver, forbids, forbidsNot, notBefore, keptAway, small, conjunctions, leadIns,
	stands, mayStandFor, adultWords, callsAdult, dangers, qualifiedBy, toDo []phrase
}

// A phrase is its words made plain. anyWords stands for a few of any.
type phrase []string

const (
	anyWords = "…"
	fewWords = 3
	anyMany  = 8
)

var tongues sync.Map

// In gives the tongue of a language, nil for English.
func In(tag string) *Tongue {
	l := reading.Of(tag)
	if l == nil {
		return nil
	}
	made, _ := tongues.LoadOrStore(tag, sync.OnceValue(func() *Tongue { return newTongue(l) }))
	return made.(func() *Tongue)()
}

func newTongue(l *reading.Language) *Tongue {
	t, texts := &Tongue{Language: l, friends: map[string]bool{}}, l.Texts
	t.lists = lists{
		t.phrases(texts.Adults), t.phrases(texts.HandsOver), t.phrases(texts.Forbids), t.phrases(texts.ForbidsNot),
		t.phrases(texts.NotBefore), t.phrases(texts.KeptAway), t.phrases(texts.SmallWords), t.phrases(texts.Conjunctions),
		t.phrases(texts.LeadIns), t.phrases(texts.StandsFor), t.phrases(texts.MayStandFor), t.phrases(texts.AdultWords),
		t.phrases(texts.CallsAdult), t.phrases(texts.Dangers), t.phrases(texts.QualifiedBy),
		t.phrases(texts.ToDo),
	}
	for _, word := range texts.FalseFriends {
		t.friends[strings.ToLower(word)] = true
	}
	t.pairs = pairs.NewWords(l.Commas, l.Units, pairs.Lists{About: texts.About, Exactly: texts.Exactly,
		Inside: texts.PairInside, Which: texts.PairWhich, Equals: texts.PairEquals,
		Slip: texts.SlipWords, Scale: texts.ScaleWords, PartBefore: texts.PartBefore})
	t.substances = t.newForms()
	for i := range l.Substances {
		e := &Entry{Text: l.Substances[i].Text, Word: &l.Substances[i].Word}
		for _, form := range l.Substances[i].Forms {
			t.substances.add(form, e)
		}
	}
	return t
}

// PairWords are those about one quantity in two units, nil in English.
func (t *Tongue) PairWords() *pairs.Words {
	if t == nil {
		return nil
	}
	return t.pairs
}

// NamesOf are a language's names of a unit, by its symbol.
func (t *Tongue) NamesOf(symbol string) []string {
	if t == nil {
		return nil
	}
	var all []string
	for name, of := range t.Units {
		if of == symbol {
			all = append(all, name)
		}
	}
	slices.Sort(all)
	return all
}

// IsUnit tells whether a word is the name of a unit.
func (t *Tongue) IsUnit(word string) bool {
	_, known := t.Units[strings.ToLower(word)]
	return known
}

// plain makes a word comparable: small letters without marks, but for letters that the language has another spelling
// of. In German ä is ae, and sägen is not sagen.
func (t *Tongue) plain(word string) string {
	word = strings.ToLower(word)
	for written, meant := range t.Texts.Spellings { // they do not overlap
		word = strings.ReplaceAll(word, written, meant)
	}
	return fold(word)
}

// words are those of a text with their places.
func (t *Tongue) words(text []byte) []plainWord {
	var all []plainWord
	for _, w := range tokens(text) {
		all = append(all, plainWord{w, t.plain(string(text[w.start:w.end]))})
	}
	return all
}

// A plainWord is a word of a text made plain.
type plainWord struct {
	token
	text string
}

func (t *Tongue) phrase(text string) phrase {
	var all phrase
	for i, part := range strings.Split(strings.ToLower(text), anyWords) {
		if i > 0 {
			all = append(all, anyWords)
		}
		for _, w := range t.words([]byte(part)) {
			all = append(all, w.text)
		}
	}
	return all
}

func (t *Tongue) phrases(texts []string) []phrase {
	var all []phrase
	for _, text := range texts {
		if p := t.phrase(text); len(p) > 0 {
			all = append(all, p)
		}
	}
	return all
}

// starts gives how many words the longest of some phrases takes at the start of words, 0 if none is there.
func starts(words []plainWord, phrases []phrase) int { return startsWith(words, phrases, fewWords) }

// startsWith is starts with a limit to what anyWords may stand for.
func startsWith(words []plainWord, phrases []phrase, gap int) int {
	most := 0
	for _, p := range phrases {
		most = max(most, p.starts(words, gap))
	}
	return most
}

func (p phrase) starts(words []plainWord, gap int) int {
	for i, word := range p {
		if word == anyWords {
			for skipped := 1; skipped <= gap && i+skipped < len(words); skipped++ {
				if n := p[i+1:].starts(words[i+skipped:], gap); n > 0 {
					return i + skipped + n
				}
			}
			return 0
		}
		if i >= len(words) || words[i].text != word {
			return 0
		}
	}
	return len(p)
}

// holds gives where the first of some phrases is among words.
func holds(words []plainWord, phrases []phrase) (from, to int, found bool) {
	for i := range words {
		if n := starts(words[i:], phrases); n > 0 {
			return i, i + n, true
		}
	}
	return 0, 0, false
}

// ends tells whether words end with one of some phrases.
func ends(words []plainWord, phrases []phrase) bool {
	return slices.ContainsFunc(phrases, func(p phrase) bool {
		return len(p) <= len(words) && p.starts(words[len(words)-len(p):], fewWords) == len(p)
	})
}
