package prose

// The words by which a coach says whom a text is for, in the languages of mentor-words.csv, and what counts as
// one of them: other capitals, letters that look alike, one slip of the pen.

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"trundle/generator/wording"
)

// wordKind says what a word of the table is about.
type wordKind string

const (
	anyWord     wordKind = ""        // a word that says nothing of it
	aPerson     wordKind = "person"  // mentor, coach
	aMatter     wordKind = "matter"  // notes
	anAnswer    wordKind = "answer"  // answers, solutions
	aKey        wordKind = "key"     // key
	aStudent    wordKind = "student" // students, pupils
	anotherWord wordKind = "other"   // a real word that is one slip away from one above, such as reader

	// What stands about them. A word may be several of these, such as "la".
	anArticle    wordKind = "article"     // the
	aPreposition wordKind = "preposition" // for
	aConjunction wordKind = "conjunction" // and
	aQuality     wordKind = "quality"     // correct, of answers
	aSheet       wordKind = "sheet"       // sheet, after Answer; or that they are the right ones
	aHint        wordKind = "hint"        // tips, of what somebody is told
)

//go:embed mentor-words.csv
var mentorWordsFile string

// shortestSlip is how long a word is at least of which a slip is looked for: shorter ones have too many real words
// near them, as key has. A slip in another language than English needs a longer word still, since there is no
// list of real words near it.
const (
	shortestSlip        = 5
	shortestForeignSlip = 8
)

// asWritten ends the source of a word of which no slip is looked for, since it would be near another language's.
const asWritten = "as it is written"

// wordTable is the table made ready for looking up.
type wordTable struct {
	kinds  map[string]wordKind // by the folded word
	about  map[wordKind]map[string]bool
	spelt  [][]rune        // the words of which slips count, in the order of the file
	unsaid map[string]bool // the real words near them
}

// mentorWords reads the table once. It is part of the program, so that a row that is not in order is a bug.
var mentorWords = sync.OnceValue(func() wordTable {
	rows, err := csv.NewReader(strings.NewReader(mentorWordsFile)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("mentor-words.csv: %v", err))
	}
	t := wordTable{kinds: map[string]wordKind{}, about: map[wordKind]map[string]bool{}, unsaid: map[string]bool{}}
	for _, kind := range []wordKind{anArticle, aPreposition, aConjunction, aQuality, aSheet, aHint} {
		t.about[kind] = map[string]bool{}
	}
	for _, row := range rows[1:] {
		language, kind, word := row[0], wordKind(row[1]), fold(row[2])
		if around, found := t.about[kind]; found {
			around[word] = true
			continue
		}
		if kind == anotherWord {
			t.unsaid[word] = true
			continue
		}
		t.kinds[word] = kind
		if strings.HasSuffix(row[3], asWritten) {
			continue
		}
		if length := utf8.RuneCountInString(word); length >= shortestForeignSlip ||
			language == "en" && length >= shortestSlip {
			t.spelt = append(t.spelt, []rune(word))
		}
	}
	return t
})

// kindOf is what a word is about. One and many, "mentor's" and one slip of the pen make no difference.
func kindOf(word string) wordKind {
	t := mentorWords()
	word = fold(word)
	for _, ending := range []string{"'s", "s'", "s", "es", "in", "innen", ""} {
		if stem, ok := strings.CutSuffix(word, ending); ok {
			if k := t.kinds[stem]; k != anyWord {
				return k
			}
		}
	}
	if compound.MatchString(word) {
		return aPerson
	}
	if t.unsaid[word] || utf8.RuneCountInString(word) < shortestSlip-1 {
		return anyWord
	}
	singular := strings.TrimSuffix(word, "s")
	written, one := []rune(word), []rune(nil)
	if singular != word && !t.unsaid[singular] {
		one = []rune(singular)
	}
	for _, known := range t.spelt {
		if oneSlip(written, known) || one != nil && oneSlip(one, known) {
			return t.kinds[string(known)]
		}
	}
	return anyWord
}

// is tells whether a word is one of those that stand about the others.
func is(word string, kind wordKind) bool { return mentorWords().about[kind][fold(word)] }

// compound is one word of German for what is told to somebody, as Lehrerhinweise; folded.
var compound = wording.New(`^(?:lehrer|lehrkraft|betreuer|mentoren|mentor|trainer|leiter|kursleiter)` +
	`(?:seiten?|infos?|hinweise?|notiz|notizen|teil|blatt|heft|handreichung|tipps?|losung|losungen|kommentar)$`)

// alike are letters of other scripts that look like Latin ones, and letters with marks, as a reader sees them.
// The list is from memory: what a copied text or another keyboard may bring.
var alike = strings.NewReplacer(
	"а", "a", "е", "e", "о", "o", "р", "p", "с", "c", "х", "x", "у", "y", "т", "t", "н", "h", "м", "m",
	"к", "k", "ѕ", "s", "і", "i", "α", "a", "ο", "o", "ε", "e", "ν", "v", "τ", "t", "κ", "k", "μ", "m",
	"ι", "i", "á", "a", "à", "a", "â", "a", "ã", "a", "ä", "a", "é", "e", "è", "e", "ê", "e", "ë", "e",
	"í", "i", "ì", "i", "î", "i", "ï", "i", "ó", "o", "ò", "o", "ô", "o", "õ", "o", "ö", "o", "ú", "u",
	"ù", "u", "û", "u", "ü", "u", "ñ", "n", "ç", "c", "ß", "ss", "’", "'", "‘", "'", "\u00ad", "",
	"\u200b", "", "\u2060", "")

// fold makes a word plain: small letters of the Latin alphabet.
func fold(word string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.Mn, r): // an accent that is a character of its own
			return -1
		case r >= 'ａ' && r <= 'ｚ': // of the width of a Chinese character
			return r - 'ａ' + 'a'
		}
		return r
	}, alike.Replace(strings.ToLower(word)))
}

// oneSlip tells whether two words differ by one letter that is left out, put in, mistaken, or changed over with
// its neighbour.
func oneSlip(x, y []rune) bool {
	if len(x) > len(y) {
		x, y = y, x
	}
	if len(y) > len(x)+1 { // most words
		return false
	}
	i := 0
	for i < len(x) && x[i] == y[i] {
		i++
	}
	switch rest := x[i:]; {
	case len(y) == len(x)+1:
		return slices.Equal(rest, y[i+1:])
	case len(rest) == 0:
		return false
	case slices.Equal(rest[1:], y[i+1:]):
		return true
	default:
		return len(rest) > 1 && rest[0] == y[i+1] && rest[1] == y[i] && slices.Equal(rest[2:], y[i+2:])
	}
}

// isLetterOrDigit counts what joins a word's letters, seen or not, as a part of it.
func isLetterOrDigit(r rune) bool {
	return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.Mn, r) || r == '\u00ad' || r == '\u200b'
}
