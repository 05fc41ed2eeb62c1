package site

// Care cards on pages: the page of all cards, the lines above a lesson's work, and the mark beside the step that first
// names what a card is about.

import (
	"html"
	"html/template"
	"slices"
	"strings"
	"sync"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"
	"github.com/yuin/goldmark/util"

	"trundle/generator/hazard"
	"trundle/generator/lesson"
	"trundle/generator/prose"
)

// cardView is a card as an edition shows it.
type cardView struct {
	*lesson.Card
	Own         bool               // the reader's own; a card for adults is none of the students'
	SignalWord  string             // "danger", "warning", or "" if there is no hazard statement
	Statements  []hazard.Statement // of the hazards, with the official texts
	Precautions []hazard.Statement // the same of the precautions
	Gaps        bool               // a precaution has a blank or a choice, which the label settles
	Wrong       template.HTML      // what to do if something goes wrong, whatever its place in the source
	Body        template.HTML      // the rest
	Lessons     []*lesson.Lesson   // that this edition shows it with: the ways back
}

// Stated gives the official texts of a card's statements. There are gaps if a precaution has a blank or a
// choice, which the label settles.
func Stated(c *lesson.Card) (hazards, precautions []hazard.Statement, gaps bool) {
	for _, code := range c.Hazards {
		if s, ok := hazard.Hazard(code.Value); ok {
			s, _ = s.In(c.Language) // the check says so if there is only the English text
			hazards = append(hazards, s)
		}
	}
	for _, code := range c.Precautions {
		if s, ok := hazard.Precaution(code.Value); ok {
			gaps = gaps || s.HasGaps()
			s, _ = s.In(c.Language)
			precautions = append(precautions, s)
		}
	}
	return hazards, precautions, gaps
}

// SignalWord gives the name of a card's signal word, "danger" or "warning", or "".
func SignalWord(c *lesson.Card) string {
	hazards, _, _ := Stated(c)
	var codes []string
	for _, s := range hazards {
		codes = append(codes, s.Code)
	}
	return strings.ToLower(hazard.SignalWord(codes))
}

// viewOf is a card as an edition shows it, without its text.
func viewOf(c *lesson.Card, e Edition) cardView {
	v := cardView{Card: c, Own: e == Mentors || !c.Adults}
	if v.Own {
		v.Statements, v.Precautions, v.Gaps = Stated(c)
		v.SignalWord = SignalWord(c)
	}
	return v
}

// CardsOf gives the cards of a lesson that an edition shows with it. A card for adults that only mentors' notes name is
// none of the students': it would tell them of a can that should not be in the room.
func CardsOf(p *lesson.Pack, l *lesson.Lesson, e Edition) []*lesson.Card {
	if before, ok := l.Noticed(); ok && e == Students {
		return before.Cards
	}
	var all []*lesson.Card
	var said *prose.Seeker
	for _, ref := range l.Care {
		c, ok := p.Card(ref.Value)
		if !ok {
			continue
		}
		if e == Students && c.Adults {
			if said == nil {
				said = prose.NewStudentsSeeker(l)
			}
			if !namesCard(said, l, c) {
				continue
			}
		}
		all = append(all, c)
	}
	return all
}

// namesCard tells whether what students read names what a card is about, or links to the card.
func namesCard(said *prose.Seeker, l *lesson.Lesson, c *lesson.Card) bool {
	found := func(phrase string) bool { _, ok := said.Find(phrase); return ok }
	named := slices.ContainsFunc(c.Mentions, func(m lesson.Text) bool {
		return found(m.Value) || slices.ContainsFunc(shortFor(prose.In(l.Language), m.Value), found)
	})
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if lesson.ForMentors(n) {
			return ast.WalkSkipChildren, nil
		}
		named = named || entering && leadsTo(n, l.File.Name, c)
		return ast.WalkContinue, nil
	})
	return named
}

// shortFor are the words that call for a card and that a phrase ends with, or begins with in some languages: "the
// cleaner" may be the contact cleaner of the sentence before.
func shortFor(tongue *prose.Tongue, phrase string) []string {
	var all []string
	for _, e := range tongue.Kinds(phrase) {
		all = append(all, e.Text)
	}
	return all
}

// leadsTo tells whether a node is a link to a card.
func leadsTo(n ast.Node, file string, c *lesson.Card) bool {
	l, ok := n.(*ast.Link)
	if !ok {
		return false
	}
	kind, target, _ := lesson.Classify(file, string(l.Destination))
	return kind == lesson.ToCard && target == c.Name
}

// careLines are those cards, for the lines above the lesson's work.
func careLines(p *lesson.Pack, l *lesson.Lesson, e Edition) []cardView {
	var all []cardView
	for _, c := range CardsOf(p, l, e) {
		all = append(all, viewOf(c, e))
	}
	return all
}

// Care makes the page of care cards. Of a card for adults the students' edition has no word that its author wrote
// but its title: how it is done is not for them, and a card that nobody thought of splitting must not tell them.
func (s *Site) Care(p *lesson.Pack, e Edition) ([]byte, error) {
	var cards []cardView
	for _, c := range p.Cards {
		view := viewOf(c, e)
		for _, l := range p.Lessons {
			if slices.Contains(CardsOf(p, l, e), c) {
				view.Lessons = append(view.Lessons, l)
			}
		}
		if view.Own {
			b := &body{
				site: s, words: s.words, mentors: e == Mentors, pack: p,
				file: c.File.Name, source: c.File, markdown: c.Markdown, idPrefix: c.Name + "-",
			}
			if err := b.card(&view); err != nil {
				return nil, err
			}
		}
		cards = append(cards, view)
	}
	return s.page("care.html", frame{Edition: e, Title: s.words.Say("care-page"), Pack: p, Cards: true, Content: cards})
}

// card renders a card's text, and what to do if something goes wrong apart from the rest.
func (b *body) card(view *cardView) error {
	for _, part := range view.Parts() {
		nodes := part.Blocks
		if part.Heading != nil {
			nodes = append([]ast.Node{part.Heading}, nodes...)
		}
		for _, n := range nodes {
			out, err := b.render(n)
			if err != nil {
				return err
			}
			if part.Is(lesson.CardWrong) {
				view.Wrong += trusted(out)
			} else {
				view.Body += trusted(out)
			}
		}
	}
	return nil
}

// mentions are tests for the phrases that cards mention, each made once a language for all lessons and both editions.
type mentions struct{ finders sync.Map }

func (m *mentions) finder(language, phrase string) func(text []byte) bool {
	said := [2]string{language, phrase}
	found, ok := m.finders.Load(said)
	if !ok {
		found, _ = m.finders.LoadOrStore(said, prose.In(language).Finder(phrase))
	}
	return found.(func([]byte) bool)
}

// firstUses finds for each card of a lesson the block that names first, in this edition, what the card is about.
func (b *body) firstUses(p *lesson.Pack, l *lesson.Lesson) map[ast.Node][]*lesson.Card {
	finders := map[*lesson.Card][]func([]byte) bool{}
	var waiting []*lesson.Card
	for _, ref := range l.Care {
		c, ok := p.Card(ref.Value)
		if !ok || finders[c] != nil {
			continue
		}
		for _, m := range c.Mentions {
			finders[c] = append(finders[c], b.site.mentions.finder(l.Language, m.Value))
		}
		waiting = append(waiting, c)
	}
	here := map[ast.Node][]*lesson.Card{}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch {
		case !entering || len(waiting) == 0:
			return ast.WalkContinue, nil
		case !b.mentors && lesson.ForMentors(n):
			return ast.WalkSkipChildren, nil
		case !slices.Contains([]ast.NodeKind{ast.KindParagraph, ast.KindTextBlock, tables.KindTableCell}, n.Kind()):
			return ast.WalkContinue, nil
		}
		text := []byte(strings.ToLower(lesson.TextOf(n, l.Markdown, nil)))
		var still []*lesson.Card
		for _, c := range waiting {
			switch {
			case !slices.ContainsFunc(finders[c], func(in func([]byte) bool) bool { return in(text) }):
				still = append(still, c)
			case !b.linksTo(n, c):
				here[n] = append(here[n], c)
			}
		}
		waiting = still
		return ast.WalkContinue, nil
	})
	return here
}

// linksTo tells whether a block has a link of its own to a card, which makes a mark one too many.
func (b *body) linksTo(block ast.Node, c *lesson.Card) bool {
	found := false
	_ = ast.Walk(block, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		found = found || entering && leadsTo(n, b.file, c)
		return ast.WalkContinue, nil
	})
	return found
}

// marks puts the links to the cards that a block is the first to need.
func (b *body) marks(w util.BufWriter, n ast.Node) {
	for _, c := range b.here[n] {
		put(w, ` <a class="care-here" href="care.html#`, html.EscapeString(c.Name), `">→`, "\u00a0",
			html.EscapeString(c.Title), "</a>")
	}
}

// paragraph and textBlock do as goldmark does, and add their marks.
func (b *body) paragraph(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if entering {
		put(w, "<p", b.at(n), ">")
	} else {
		b.marks(w, n)
		put(w, "</p>\n")
	}
	return ast.WalkContinue, nil
}

func (b *body) textBlock(w util.BufWriter, _ []byte, n ast.Node, entering bool) (ast.WalkStatus, error) {
	if !entering {
		b.marks(w, n)
		if n.NextSibling() != nil && n.FirstChild() != nil {
			put(w, "\n")
		}
	}
	return ast.WalkContinue, nil
}
