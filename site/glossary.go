package site

// The pack's words: the page that explains them, and the links that lead there from where a page first uses one.

import (
	"html"
	"html/template"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	markdown "github.com/yuin/goldmark/renderer/html"
	"github.com/yuin/goldmark/util"

	"trundle/generator/lesson"
	"trundle/generator/source"
)

// WordsPage is the name of the page of a pack's words, below an edition's folder.
const WordsPage = "words.html"

// explainedWord is a word as the page shows it.
type explainedWord struct {
	*lesson.Term
	Meaning template.HTML
	Lessons []*lesson.Lesson // that use it
}

// wordsPage is the content of that page.
type wordsPage struct {
	Intro template.HTML
	Words []explainedWord
}

// Words makes the page of a pack's words, in the order of the alphabet.
func (s *Site) Words(p *lesson.Pack, e Edition) ([]byte, error) {
	g := p.Words
	b := s.glossaryBody(p, e)
	var content wordsPage
	var err error
	if content.Intro, err = b.blocks(g.Intro); err != nil {
		return nil, err
	}
	usedIn := map[*lesson.Term][]*lesson.Lesson{}
	for _, l := range p.Lessons {
		for _, u := range g.UsedIn(l) {
			if n := len(usedIn[u.Term]); n == 0 || usedIn[u.Term][n-1] != l {
				usedIn[u.Term] = append(usedIn[u.Term], l)
			}
		}
	}
	for _, t := range g.Terms {
		b.explained = linksOf(g.UsedInMeaning(t), "")
		meaning, err := b.blocks(t.Meaning)
		if err != nil {
			return nil, err
		}
		content.Words = append(content.Words, explainedWord{t, meaning, usedIn[t]})
	}
	forms := s.words.Forms()
	slices.SortStableFunc(content.Words, func(a, b explainedWord) int { return forms.Compare(a.Name(), b.Name()) })
	return s.page("words.html", frame{Edition: e, Title: s.wordsTitle(p), Pack: p, Glossary: true, Content: content})
}

// wordsTitle is what the page of a pack's words is called.
func (s *Site) wordsTitle(p *lesson.Pack) string {
	if p.Words.Title != "" {
		return p.Words.Title
	}
	return s.words.Say("words-page")
}

// glossaryBody renders what is said of words.
func (s *Site) glossaryBody(p *lesson.Pack, e Edition) *body {
	g := p.Words
	return &body{site: s, words: s.words, mentors: e == Mentors, pack: p,
		file: g.File.Name, source: g.File, markdown: g.Markdown, ofWords: true}
}

// blocks renders one block after the other.
func (b *body) blocks(nodes []ast.Node) (template.HTML, error) {
	var all strings.Builder
	for _, n := range nodes {
		text, err := b.render(n)
		if err != nil {
			return "", err
		}
		all.WriteString(text)
	}
	return trusted(all.String()), nil
}

// wordPassages are what mentors can search of the pack's words.
func (s *Site) wordPassages(p *lesson.Pack) []passage {
	if p.Words == nil {
		return nil
	}
	b := s.glossaryBody(p, Mentors)
	first := passage{address: WordsPage, where: s.wordsTitle(p), heading: s.wordsTitle(p)}
	all := b.passages(p.Words.Body, first)
	if len(all[0].text) == 0 {
		all = all[1:]
	}
	return all
}

// wordLinks are the links to the pack's words in a text: the address by where each begins, and where each ends.
type wordLinks struct {
	begin map[int]string
	end   map[int]bool
}

// linksOf gives the links of uses from a page to the page with the words.
func linksOf(uses []lesson.Use, page string) wordLinks {
	all := wordLinks{map[int]string{}, map[int]bool{}}
	for _, u := range uses {
		if u.Term != nil && u.At != (source.Span{}) {
			all.begin[u.At.Start], all.end[u.At.End] = addressIn(page, u.Term.ID), true
		}
	}
	return all
}

// wordsIn gives the links of a lesson's page.
func wordsIn(p *lesson.Pack, l *lesson.Lesson) wordLinks {
	if p.Words == nil {
		return wordLinks{}
	}
	return linksOf(p.Words.UsedIn(l), WordsPage)
}

// text writes a piece of text as goldmark does, with the links to words in it. A word of two parts may go over the end
// of a line: its link begins in one piece and ends in the next.
func (b *body) text(w util.BufWriter, src []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		return ast.WalkContinue, nil
	}
	t := n.(*ast.Text)
	if t.IsRaw() {
		markdown.DefaultWriter.RawWrite(w, t.Segment.Value(src))
		return ast.WalkContinue, nil
	}
	written := t.Segment.Start
	write := func(to int) {
		markdown.DefaultWriter.Write(w, src[written:to])
		written = to
	}
	for at := t.Segment.Start; at <= t.Segment.Stop && len(b.explained.begin) > 0; at++ {
		if b.explained.end[at] && at > t.Segment.Start {
			write(at)
			put(w, "</a>")
		}
		if address := b.explained.begin[at]; address != "" && at < t.Segment.Stop {
			write(at)
			put(w, `<a class="word" href="`, html.EscapeString(address), `">`)
		}
	}
	write(t.Segment.Stop)
	switch {
	case t.HardLineBreak():
		put(w, "<br>\n")
	case t.SoftLineBreak():
		put(w, "\n")
	}
	return ast.WalkContinue, nil
}
