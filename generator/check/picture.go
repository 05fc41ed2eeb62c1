package check

// Here: what is wrong with a picture where a lesson or card shows it. Whether its file can be handed out was looked
// into by picture; here that gets its place.

import (
	"bytes"
	"maps"
	"net/url"
	"path"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/bundle"
	"trundle/generator/lesson"
	"trundle/generator/picture"
	"trundle/generator/problem"
	"trundle/generator/prose"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// pictureAt reports what is wrong with the picture that one place of a text shows. Each place has a report of its own:
// only one of two names may be wrong.
func pictureAt(p *lesson.Pack, f *source.File, destination string, at source.Span, problems *problem.List) {
	name := lesson.PictureName(f.Name, destination)
	shown, ok := p.Pictures[name]
	if !ok && p.IsUnread(name) {
		return
	}
	if !ok || name == "" {
		pictureNowhere(p, f, name, destination, at, problems)
		return
	}
	if why := bundle.Unsafe(name); why != "" {
		problems.Caution(f, at, "picture-name", "the picture “"+destination+"” cannot be handed out: "+why,
			"rename the file, and write its new name here")
	}
	if shown == nil {
		return
	}
	for _, fault := range shown.Faults {
		problems.Add(pictureProblem(f, destination, at, shown, fault))
	}
}

// pictureProblem gives a fault its place: where the picture is shown, or in its own text if it has one.
func pictureProblem(f *source.File, destination string, at source.Span, shown *picture.Picture,
	fault picture.Fault) problem.Problem {
	p := problem.Problem{Slug: fault.Slug, File: f, Span: at, What: "the picture “" + destination + "” " + fault.What,
		Hint: fault.Hint}
	if fault.Caution {
		p.Severity = problem.Caution
	}
	if fault.Inside {
		p.File, p.Span, p.What = shown.File, fault.At, fault.What
		p.Related = []problem.Related{{File: f, Span: at, What: "the picture is shown here"}}
	}
	return p
}

// pictureNowhere says why there is no such picture, as exactly as can be told, and which one may have been meant.
func pictureNowhere(p *lesson.Pack, f *source.File, name, destination string, at source.Span, problems *problem.List) {
	what := "there is no picture “" + destination + "” in the pack"
	hint := "put the file into the pack's folder pictures/ and name it as pictures/lock.png"
	u, err := url.Parse(destination)
	switch why, refused := p.Refused[name]; {
	case err == nil && (u.Scheme != "" || u.Host != ""):
		what = "this picture is not in the pack"
		hint = "pages must work without a network: save the picture into pictures/"
	case strings.HasPrefix(destination, "/"), name == "" && strings.Contains(destination, ".."):
		what = "the picture “" + destination + "” lies outside the pack"
	case refused:
		what = "the picture “" + destination + "” cannot be used: " + why
	default:
		if meant := pictureMeant(p, f.Name, destination); meant != "" {
			hint = "did you mean " + meant + "?"
		}
	}
	problems.Error(f, at, "picture-nowhere", what, hint)
}

// pictureMeant finds the picture that a wrong name was meant for, and writes it as the file must: one that differs in
// capitals alone, one of that name whose folder was left out, or one that is spelt nearly so.
func pictureMeant(p *lesson.Pack, from, destination string) string {
	unescaped, err := url.PathUnescape(destination)
	if err != nil {
		return ""
	}
	written := path.Join(path.Dir(from), unescaped)
	names := slices.Sorted(maps.Keys(p.Pictures))
	meant := ""
	for _, name := range names {
		if strings.EqualFold(name, written) || meant == "" && strings.EqualFold(path.Base(name), path.Base(written)) {
			meant = name
		}
	}
	for _, name := range names {
		if meant == "" && strings.EqualFold(strings.TrimSuffix(name, path.Ext(name)), strings.TrimSuffix(written,
			path.Ext(written))) {
			meant = name
		}
	}
	if near := quantity.Nearest(written, names); meant == "" && len(near) == 1 {
		meant = near[0]
	}
	if meant == "" {
		return ""
	}
	return strings.Repeat("../", strings.Count(from, "/")) + strings.NewReplacer("%", "%25", " ", "%20").Replace(meant)
}

// pictureTexts looks at how the pictures of a file are written, whatever there is in the pack.
func pictureTexts(f *source.File, body ast.Node, src []byte, problems *problem.List) {
	_ = ast.Walk(body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if n.Type() == ast.TypeBlock && n.FirstChild() != nil && n.FirstChild().Type() == ast.TypeInline &&
			bytes.Contains(linesOf(n, src), []byte("![")) {
			picturesAsText(f, prose.Below(n, src), problems)
		}
		if image, ok := n.(*ast.Image); ok {
			pictureText(f, image, src, problems)
		}
		return ast.WalkContinue, nil
	})
}

// linesOf are the lines of a block as they are in the file.
func linesOf(n ast.Node, src []byte) []byte {
	lines := n.Lines()
	if lines.Len() == 0 {
		return nil
	}
	return src[lines.At(0).Start:lines.At(lines.Len()-1).Stop]
}

// pictureText asks for the words that say what a picture shows.
func pictureText(f *source.File, image *ast.Image, src []byte, problems *problem.List) {
	if said := lesson.TextOf(image, src, func(*lesson.Value) string { return "…" }); strings.TrimSpace(said) != "" {
		return
	}
	start := max(0, image.Pos())
	problems.Caution(f, source.Span{Start: start, End: min(len(src), start+len("![]"))}, "picture-without-text",
		"nothing says what this picture shows to those who cannot see it",
		"write it between the brackets, as in ![The lock from above](pictures/lock.png)")
}

// asPicture is what is written as a picture; if it stands in a text, Markdown did not take it for one.
var asPicture = wording.New(`!\[[^\[\]]*\]\(([^()]*(?:\([^()]*\)[^()]*)*)\)`)

// picturesAsText finds pictures that readers would see as they are typed, mostly because of a blank in the name.
func picturesAsText(f *source.File, said prose.Run, problems *problem.List) {
	for _, m := range asPicture.FindAllSubmatchIndex(said.Text, -1) {
		if at := said.Span(m[0], m[1]).Start; f.Text()[at] == '\\' || m[2] == m[3] { // an escaped ! is meant as a text
			continue
		}
		destination, _, _ := strings.Cut(string(said.Text[m[2]:m[3]]), ` "`)
		hint := "write it as in ![The lock](pictures/lock.png), or \\! for the sign itself"
		if strings.Contains(destination, " ") {
			hint = "a blank ends the name: write " + strings.ReplaceAll(strings.TrimSpace(destination), " ",
				"%20") + ", or rename the file without blanks"
		}
		problems.Error(f, said.Span(m[2], m[3]), "picture-as-text",
			"this is not taken for a picture, and would be shown as it is typed", hint)
	}
}
