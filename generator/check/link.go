package check

// Links and pictures.

import (
	"bytes"
	"cmp"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// links follows every link and picture of a file, those for mentors too: a mentor who meets a dead link before a class
// has no time to look for the page.
func links(p *lesson.Pack, f *source.File, body ast.Node, src []byte, problems *problem.List) {
	_ = ast.Walk(body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		switch n := n.(type) {
		case *ast.Link:
			linkTo(p, f, string(n.Destination), placeOfLink(n, n.Destination, src), problems)
		case *ast.AutoLink: // an address of mail leads nowhere within the pack
			if n.AutoLinkType == ast.AutoLinkURL {
				at := max(0, n.Pos())
				linkTo(p, f, string(n.URL(src)), source.Span{Start: at, End: at + 1}, problems)
			}
		case *ast.Image:
			pictureAt(p, f, string(n.Destination), placeOfLink(n, n.Destination, src), problems)
		}
		return ast.WalkContinue, nil
	})
}

// placeOfLink finds a link's destination in the text from where the link starts; a
// link by reference has it elsewhere, so then the link itself is shown.
func placeOfLink(n ast.Node, destination, src []byte) source.Span {
	start := max(0, n.Pos())
	end := min(len(src), start+2000) // a link's text may be long, and a search must not be
	if i := bytes.Index(src[start:end], []byte("("+string(destination))); i >= 0 {
		return source.Span{Start: start + i + 1, End: start + i + 1 + len(destination)}
	}
	return source.Span{Start: start, End: start + 1}
}

// linkTo follows one link. Addresses of the web are left alone: a build needs no network.
func linkTo(p *lesson.Pack, f *source.File, destination string, at source.Span, problems *problem.List) {
	kind, target, fragment := lesson.Classify(f.Name, destination)
	fail := func(hint string) {
		problems.Error(f, at, "link-nowhere", "the link “"+destination+"” leads nowhere", hint)
	}
	switch kind {
	case lesson.Elsewhere: // nobody looks into the web
	case lesson.Nowhere:
		if page, _, isPage := strings.Cut(destination, ".html"); isPage && slices.Contains(lessonNames(p), page) {
			fail("link to the lesson's file:  " + page + ".md")
			return
		}
		fail("link to a lesson (03-rotations.md), a card (care/damp-cloth.md), a heading (#warm-up) or a web " +
			"address (https://…)")
	case lesson.Here:
		checkHeading(sectionsOf(p, f), fragment, fail)
	case lesson.ToLesson:
		i := slices.IndexFunc(p.Lessons, func(l *lesson.Lesson) bool { return l.Slug == target })
		if i < 0 && p.IsUnread(target+".md") {
			return
		}
		if i < 0 {
			fail(fileMeant(target, slices.Concat(lessonNames(p), cardFiles(p))))
			return
		}
		if p.Lessons[i].Draft && !isDraft(p, f) {
			problems.Error(f, at, "link-to-draft", "the link “"+destination+"” leads to a draft, which is not handed out",
				"leave the link out until "+target+".md is ready, or make this lesson a draft, too")
			return
		}
		checkHeading(p.Lessons[i].Sections, fragment, fail)
	case lesson.ToWords:
		if p.IsUnread(lesson.WordsFile) {
			return
		}
		if p.Words == nil {
			fail("the pack has no " + lesson.WordsFile)
			return
		}
		checkWord(p.Words, fragment, fail)
	case lesson.ToCard:
		if _, ok := p.Card(target); !ok && !p.IsUnread(cardFile(target)) {
			fail(fileMeant("care/"+target, cardFiles(p)))
		}
	}
}

// isDraft tells whether a file is a lesson that is not ready.
func isDraft(p *lesson.Pack, f *source.File) bool {
	return slices.ContainsFunc(p.Lessons, func(l *lesson.Lesson) bool { return l.File.Name == f.Name && l.Draft })
}

// fileMeant says which file of the pack a link may have meant. Names are compared with their ending, as they are typed.
func fileMeant(name string, names []string) string {
	files := make([]string, len(names))
	for i, n := range names {
		files[i] = n + ".md"
	}
	if slices.Contains(files, "care/"+name+".md") {
		return "did you mean care/" + name + ".md?"
	}
	return cmp.Or(quantity.DidYouMean(name+".md", files), "there is no file "+name+".md in the pack")
}

// lessonNames are the lessons as a link names them, without their ending.
func lessonNames(p *lesson.Pack) []string {
	var names []string
	for _, l := range p.Lessons {
		names = append(names, l.Slug)
	}
	return names
}

// cardNames are the cards as a header's care names them.
func cardNames(p *lesson.Pack) []string {
	var names []string
	for _, c := range p.Cards {
		names = append(names, c.Name)
	}
	return names
}

// cardFile is where a card of a name is.
func cardFile(name string) string { return "care/" + name + ".md" }

// cardFiles are the cards as a link names them, without their ending.
func cardFiles(p *lesson.Pack) []string {
	names := cardNames(p)
	for i, name := range names {
		names[i] = "care/" + name
	}
	return names
}

// sectionsOf are the headings of a file, for links within it.
func sectionsOf(p *lesson.Pack, f *source.File) []*lesson.Section {
	for _, l := range p.Lessons {
		if l.File.Name == f.Name {
			return l.Sections
		}
	}
	for _, c := range p.Cards {
		if c.File == f {
			return c.Sections
		}
	}
	if p.Words != nil && p.Words.File == f {
		return p.Words.Sections
	}
	return nil
}

// checkHeading looks for the heading that a link ends with; fail is told what to do about it.
func checkHeading(sections []*lesson.Section, fragment string, fail func(string)) {
	if fragment == "" {
		return
	}
	var ids []string
	for _, s := range sections {
		if s.ID == fragment {
			return
		}
		ids = append(ids, "#"+s.ID)
	}
	fail(cmp.Or(quantity.DidYouMean("#"+fragment, ids), "the headings are "+strings.Join(ids, ", ")))
}
