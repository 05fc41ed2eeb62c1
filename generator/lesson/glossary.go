package lesson

// The pack's words: its glossary, words.md, and where lessons use what it explains.

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/source"
)

// WordsFile is the name of a pack's glossary.
const WordsFile = "words.md"

// Glossary is what a pack says that its words mean.
type Glossary struct {
	File      *source.File
	Title     string // of its page; "" if the header gives none
	Intro     []ast.Node
	Terms     []*Term
	Otherwise []Text // phrases with a term in them that mean something else, as in "what does that mean"
	Body      ast.Node
	Markdown  []byte
	Sections  []*Section // a term each, for links

	byID    map[string]*Term
	index   map[string]spelling // by its tokens, with a blank between two
	longest map[string]int      // how many tokens the longest spelling has, by its first
}

// MaxTokens is how many words and signs a spelling may have. With a limit the time that a search takes grows with the
// text alone.
const MaxTokens = 12

// Term is a word of the trade and what it means.
type Term struct {
	ID        string
	Spellings []Text // the first is its name
	Heading   *ast.Heading
	Meaning   []ast.Node
}

// Name is what a term is called.
func (t *Term) Name() string {
	if len(t.Spellings) == 0 {
		return ""
	}
	return t.Spellings[0].Value
}

// At is the place of the term's heading.
func (t *Term) At() source.Span {
	if len(t.Spellings) == 0 {
		return source.Span{Start: t.Heading.Pos(), End: t.Heading.Pos()}
	}
	return t.Spellings[0].At
}

// A spelling is how a term, or a phrase that means something else, is written.
type spelling struct {
	tokens int
	term   *Term // nil of a phrase
	phrase int   // which of Otherwise
}

// Index makes the glossary ready to be looked for in texts. Of two terms with one spelling the first has it.
func (g *Glossary) Index() {
	g.byID, g.index, g.longest = map[string]*Term{}, map[string]spelling{}, map[string]int{}
	add := func(text string, term *Term, phrase int) {
		tokens := tokensOf([]byte(text), 0, nil)
		key := keyOf(tokens)
		if _, taken := g.index[key]; taken || len(tokens) == 0 || len(tokens) > MaxTokens {
			return
		}
		g.index[key] = spelling{len(tokens), term, phrase}
		g.longest[tokens[0].text] = max(g.longest[tokens[0].text], len(tokens))
	}
	for i, p := range g.Otherwise {
		add(p.Value, nil, i)
	}
	for _, t := range g.Terms {
		g.byID[t.ID] = t
		for _, s := range t.Spellings {
			add(s.Value, t, -1)
		}
	}
}

// TooLong tells whether a text has more words and signs than a spelling may have.
func TooLong(text string) bool { return len(tokensOf([]byte(text), 0, nil)) > MaxTokens }

// keyOf writes tokens as the index has them.
func keyOf(tokens []token) string {
	var b strings.Builder
	for i, t := range tokens {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(t.text)
	}
	return b.String()
}

// A Use is a place in a text that has a term, or a phrase that means something else.
type Use struct {
	Term   *Term       // nil of a phrase
	Phrase int         // which of the glossary's Otherwise, if it is one
	At     source.Span // from its first letter to after its last; empty if the coach's own link leads to the term
}

// FirstUses gives, in order, where the running text below some nodes first uses each term: paragraphs, points of lists,
// cells of tables; no headings, links, code, values, and nothing for mentors. Phrases that mean something else
// are among them. A term that is none of those wanted is left out.
func (g *Glossary) FirstUses(src []byte, wanted func(*Term) bool, tops ...ast.Node) []Use {
	var all []Use
	seen := map[*Term]bool{}
	found := func(u Use) {
		if u.Term == nil || !seen[u.Term] && wanted(u.Term) {
			seen[u.Term] = u.Term != nil
			all = append(all, u)
		}
	}
	for _, top := range tops {
		_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			switch n.(type) { // the others: what is in them is visited
			case *MentorNote, *MentorSection, *ast.Heading:
				return ast.WalkSkipChildren, nil
			case *ast.Paragraph, *ast.TextBlock, *tables.TableCell:
				if entering {
					g.inBlock(n, src, found)
				}
				return ast.WalkSkipChildren, nil
			}
			return ast.WalkContinue, nil
		})
	}
	return all
}

// UsedIn gives the first uses of all terms in a lesson, and those to which links of its own lead; without their places
// if its body was let go.
func (g *Glossary) UsedIn(l *Lesson) []Use {
	if l.IsOutline() {
		return l.outline.uses()
	}
	uses := g.FirstUses(l.Markdown, func(*Term) bool { return true }, l.Body)
	return append(uses, g.linked(l.File.Name, l.Body)...)
}

// UsedInMeaning gives the first uses of other terms in what is said of one, and those to which its links lead.
func (g *Glossary) UsedInMeaning(t *Term) []Use {
	uses := g.FirstUses(g.Markdown, func(other *Term) bool { return other != t }, t.Meaning...)
	uses = slices.DeleteFunc(uses, func(u Use) bool { return u.Term == nil })
	return append(uses, g.linked(g.File.Name, t.Meaning...)...)
}

// linked gives the terms to which the links of a file lead.
func (g *Glossary) linked(file string, tops ...ast.Node) []Use {
	var all []Use
	for _, top := range tops {
		_ = ast.Walk(top, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
			l, ok := n.(*ast.Link)
			if !ok || !entering {
				return ast.WalkContinue, nil
			}
			kind, _, fragment := Classify(file, string(l.Destination))
			if t := g.byID[fragment]; t != nil && (kind == ToWords || kind == Here && file == WordsFile) {
				all = append(all, Use{Term: t, Phrase: -1})
			}
			return ast.WalkContinue, nil
		})
	}
	return all
}

// inBlock looks through the text of a block: pieces that follow each other are one text, what is emphasised is another.
func (g *Glossary) inBlock(n ast.Node, src []byte, found func(Use)) {
	var run []token
	flush := func() {
		g.inText(run, found)
		run = nil
	}
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			run = tokensOf(src[c.Segment.Start:c.Segment.Stop], c.Segment.Start, run)
			if c.HardLineBreak() {
				flush()
			}
		case *ast.Emphasis:
			flush()
			g.inBlock(c, src, found)
		default:
			flush()
		}
	}
	flush()
}

// inText finds the longest spelling at each place, and goes on after it.
func (g *Glossary) inText(text []token, found func(Use)) {
	for i := 0; i < len(text); {
		s, ok := g.longestAt(text[i:])
		if !ok {
			i++
			continue
		}
		found(Use{s.term, s.phrase, source.Span{Start: text[i].at.Start, End: text[i+s.tokens-1].at.End}})
		i += s.tokens
	}
}

// longestAt is the longest spelling that a text begins with.
func (g *Glossary) longestAt(text []token) (spelling, bool) {
	for n := min(len(text), g.longest[text[0].text]); n > 0; n-- {
		if s, ok := g.index[keyOf(text[:n])]; ok {
			return s, true
		}
	}
	return spelling{}, false
}

// A token is a word in small letters, or a sign.
type token struct {
	text string
	at   source.Span
}

// tokensOf adds the tokens of a text that begins at an offset. A hyphen between two letters belongs to the word, so
// that "key" is not found in "key-card"; an apostrophe does not, so that "barge" is found in "barge's".
func tokensOf(text []byte, offset int, to []token) []token {
	start := -1 // of the word that has begun
	var word []byte
	end := func(at int) {
		if start >= 0 {
			to = append(to, token{strings.ToLower(string(word)), source.Span{Start: offset + start, End: offset + at}})
			word, start = word[:0], -1
		}
	}
	for i := 0; i < len(text); {
		shown, size := Character(text[i:])
		first, _ := utf8.DecodeRuneInString(shown)
		switch joins := start >= 0 && isHyphen(first) && startsWord(text[i+size:]); {
		case ofWord(first) || joins:
			if start < 0 {
				start = i
			}
			word = append(word, shown...)
		default:
			if end(i); !unicode.IsSpace(first) {
				to = append(to, token{shown, source.Span{Start: offset + i, End: offset + i + size}})
			}
		}
		i += size
	}
	end(len(text))
	return to
}

// ofWord tells whether a character is of a word.
func ofWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }

// isHyphen is true of the one that is typed and of the one at which no line breaks.
func isHyphen(r rune) bool { return r == '-' || r == '\u2010' || r == '\u2011' }

// startsWord tells whether a text goes on with a word.
func startsWord(text []byte) bool {
	r, _ := utf8.DecodeRune(text)
	return ofWord(r)
}
