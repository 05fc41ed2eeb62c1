package check

// The pack's words: each explained once, and used by a lesson.

import (
	"cmp"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Words checks the glossary of a pack, of which uses says what the lessons use.
func Words(p *lesson.Pack, uses []lesson.Use) problem.List {
	var problems problem.List
	g := p.Words
	if len(g.Terms) == 0 {
		problems.Error(g.File, source.Span{}, "word-heading", "this file explains no word",
			"write  ## word  for each, and below it what the word means; or leave the file out")
	}
	twice := wordTwice(g, &problems)
	for _, t := range g.Terms {
		if t.Name() != "" && !explained(t) {
			problems.Error(g.File, t.At(), "word-meaning", "“"+t.Name()+"” is not explained",
				"write below the heading, for students, what the word means")
		}
	}
	wordUnused(g, uses, twice, &problems)
	phraseIdle(g, uses, twice, &problems)
	nothingToWork(g.Body, source.Span{}, func(at source.Span) {
		problems.Error(g.File, at, "value-in-words", "the words of a pack have no values to work with",
			`write the number out, or \{ for a brace; values and work blocks belong in lessons`)
	})
	for n := g.Body.FirstChild(); n != nil; n = n.NextSibling() {
		if n.Kind() != ast.KindHeading { // a word may be “answer key”
			mentorCheck{g.File, g.Markdown, nil, &problems}.mentorLike(n)
		}
	}
	unitPairs(&lesson.Lesson{File: g.File, Body: g.Body, Markdown: g.Markdown}, &problems)
	links(p, g.File, g.Body, g.Markdown, &problems)
	pictureTexts(g.File, g.Body, g.Markdown, &problems)
	return problems
}

// wordTwice reports a spelling that two terms have: a lesson could lead to one of them only. It gives all that was
// reported, by its place.
func wordTwice(g *lesson.Glossary, problems *problem.List) map[source.Span]bool {
	first, reported := map[string]source.Span{}, map[source.Span]bool{}
	for _, t := range g.Terms {
		for _, s := range t.Spellings {
			other, twice := first[spelt(s)]
			if !twice {
				first[spelt(s)] = s.At
				continue
			}
			reported[s.At] = true
			problems.Add(problem.Problem{
				Slug: "word-twice", File: g.File, Span: s.At, What: "“" + s.Value + "” is here twice",
				Hint:    "keep one, and say there what both say",
				Related: []problem.Related{{File: g.File, Span: other, What: "it is here, too"}},
			})
		}
	}
	for _, phrase := range g.Otherwise {
		if _, bare := first[spelt(phrase)]; bare {
			reported[phrase.At] = true
			problems.Error(g.File, phrase.At, "otherwise-wide", "“"+phrase.Value+"” is a word that is explained below",
				"write it with the words around it, as in  does not mean")
		}
	}
	return reported
}

// spelt is a spelling as it is compared: capitals and the number of blanks make no difference.
func spelt(s lesson.Text) string { return strings.ToLower(strings.Join(strings.Fields(s.Value), " ")) }

// explained tells whether students read something below a term.
func explained(t *lesson.Term) bool {
	found := false
	for _, n := range t.Meaning {
		_ = ast.Walk(n, func(n ast.Node, _ bool) (ast.WalkStatus, error) {
			if _, isHeading := n.(*ast.Heading); isHeading || n.Kind() == lesson.KindMentorNote ||
				n.Kind() == lesson.KindMentorSection {
				return ast.WalkSkipChildren, nil
			}
			found = found || n.Type() == ast.TypeInline
			return ast.WalkContinue, nil
		})
	}
	return found
}

// wordUnused reports terms to which no page leads: no lesson uses them, nor what is said of another that is used.
func wordUnused(g *lesson.Glossary, uses []lesson.Use, reported map[source.Span]bool, problems *problem.List) {
	used := map[*lesson.Term]bool{}
	reach := slices.Clone(uses) // what is still to be followed
	for len(reach) > 0 {
		t := reach[len(reach)-1].Term
		reach = reach[:len(reach)-1]
		if t != nil && !used[t] {
			used[t] = true
			reach = append(reach, g.UsedInMeaning(t)...)
		}
	}
	for _, t := range g.Terms {
		if t.Name() != "" && !used[t] && !reported[t.At()] {
			problems.Caution(g.File, t.At(), "word-unused", "no lesson uses “"+t.Name()+"” in its text",
				"leave it out; or add another spelling after a comma, as in  ## leg, legs")
		}
	}
}

// phraseIdle reports phrases that are in no lesson.
func phraseIdle(g *lesson.Glossary, uses []lesson.Use, reported map[source.Span]bool, problems *problem.List) {
	met := map[int]bool{}
	for _, u := range uses {
		if u.Term == nil {
			met[u.Phrase] = true
		}
	}
	for i, phrase := range g.Otherwise {
		if !met[i] && !reported[phrase.At] {
			problems.Caution(g.File, phrase.At, "otherwise-idle", "no lesson has “"+phrase.Value+"” in its text",
				"leave it out")
		}
	}
}

// checkWord looks for the term that a link ends with.
func checkWord(g *lesson.Glossary, fragment string, fail func(string)) {
	if fragment == "" {
		return
	}
	var ids []string
	for _, t := range g.Terms {
		if t.ID == fragment {
			return
		}
		ids = append(ids, "#"+t.ID)
	}
	fail(cmp.Or(quantity.DidYouMean("#"+fragment, ids),
		lesson.WordsFile+" has no such word; a link ends with its first spelling, as in #percent-error"))
}
