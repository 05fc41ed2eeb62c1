package parse

// Parts: the line {{part NAME}} of a lesson, and the text that stands in its place. A lesson is then parsed as one
// text, so that names, headings and links are those of the lesson; source.Join leads each place back to its own file.

import (
	"bytes"
	"maps"
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

var (
	// partLine is a line that puts a part in.
	partLine = wording.New(`(?m)^\{\{[ \t]*part(?:[ \t]+([^\n]*?))?[ \t]*\}\}[ \t]*$`)
	// partName is how a part may be called.
	partName = wording.New(`^[\pL\pN][\pL\pN_-]*$`)
)

// MaxWithParts is how long a lesson may become: a short one could name a long part a thousand times.
const MaxWithParts = 8 << 20

// Parts are those of a pack.
type Parts struct {
	named  map[string]*part
	unread bool // their folder is there and could not be read
}

// part is a text to be put in: its file, and what of that is put in.
type part struct {
	*lesson.Part
	cuts []source.Cut
	size int
}

// NewParts reads a pack's parts. Those that are there and could not be read are empty, so that nobody is told that they
// are not there; nor is anybody if the folder could not be read.
func NewParts(files []*source.File, unread []string) (Parts, problem.List) {
	var problems problem.List
	all := Parts{named: map[string]*part{}, unread: slices.Contains(unread, strings.TrimSuffix(lesson.PartsFolder, "/"))}
	for _, f := range files {
		p := &part{Part: &lesson.Part{Name: nameOfPart(f.Name), File: f}}
		p.read(&problems)
		all.named[p.Name] = p
	}
	for _, file := range unread {
		if name := nameOfPart(file); strings.HasPrefix(file, lesson.PartsFolder) {
			all.named[name] = &part{Part: &lesson.Part{Name: name, File: source.NewFile(file, nil), Used: true}}
		}
	}
	return all, problems
}

// All are the parts in the order of their names, with what lessons have put in marked as used.
func (ps Parts) All(lessons []Joined) []*lesson.Part {
	for _, l := range lessons {
		for _, name := range l.Parts {
			ps.named[name].Used = true
		}
	}
	var all []*lesson.Part
	for _, name := range slices.Sorted(maps.Keys(ps.named)) {
		all = append(all, ps.named[name].Part)
	}
	return all
}

// nameOfPart is "ready" for parts/ready.md.
func nameOfPart(file string) string {
	return strings.TrimSuffix(strings.TrimPrefix(file, lesson.PartsFolder), ".md")
}

// read finds what of a part is put in: all of it but a header and lines that ask for other parts, which are errors.
func (p *part) read(problems *problem.List) {
	f := p.File
	_, body, at, headed := splitHeader(f)
	from := 0
	if headed {
		from = len(body) - len(bytes.TrimLeft(body, " \n"))
		problems.Error(f, at, "part-header", "a part has no header: it is a piece of the lessons that it is put into",
			"take out the lines from --- to ---; what the header says belongs in the headers of those lessons")
	}
	add := func(c source.Cut) {
		p.cuts = append(p.cuts, c)
		p.size += max(len(c.Instead), c.At.End-c.At.Start)
	}
	for _, m := range partLines(body) {
		at := source.Span{Start: m[0], End: m[1]}
		problems.Error(f, at, "part-in-part", "a part cannot put another part in",
			"put both into the lesson, one below the other, or copy the text of the other to this place")
		add(source.Cut{File: f, At: source.Span{Start: from, End: at.Start}})
		add(source.Cut{File: f, At: at, Instead: []byte{}})
		from = at.End
	}
	add(source.Cut{File: f, At: source.Span{Start: from, End: len(f.Text())}})
	end := source.Span{Start: len(f.Text()), End: len(f.Text())}
	if open, found := openAtEnd(body); found {
		problems.Error(f, open, "part-open", "this block goes on to the end of the part, and would go on in the lesson",
			"end it: a block that begins with ``` ends with a line of ```")
		// Whatever else is wrong is then found as if it had been ended.
		add(source.Cut{File: f, At: end, Instead: []byte("\n" + endOf(body[open.Start:]))})
	}
	add(source.Cut{File: f, At: end, Instead: []byte("\n\n")})
}

// openAtEnd finds a block that nothing ends, by what becomes of a paragraph below it.
func openAtEnd(body []byte) (at source.Span, found bool) {
	src := append(bytes.Clone(body), "\n\nx\n"...)
	last := blocksOf(src).LastChild()
	if last.Kind() == ast.KindParagraph {
		return source.Span{}, false
	}
	start := max(0, last.Pos())
	end := start + len(bytes.TrimRight(firstLine(body[start:]), " \t"))
	return source.Span{Start: start, End: end}, true
}

// firstLine is a text up to its first end of line.
func firstLine(text []byte) []byte {
	line, _, _ := bytes.Cut(text, []byte("\n"))
	return line
}

// endOf is what ends an open block, "" for HTML, of which there is no one end.
func endOf(block []byte) string {
	for _, mark := range []string{"`", "~"} {
		if n := len(block) - len(bytes.TrimLeft(block, mark)); n > 0 {
			return strings.Repeat(mark, n)
		}
	}
	return ""
}

// blocksOf finds the blocks of a text and leaves alone what is in them.
func blocksOf(src []byte) ast.Node {
	return parser.NewParser(parser.WithBlockParsers(parser.DefaultBlockParsers()...)).Parse(text.NewReader(src))
}

// partLines finds the lines of a body that put a part in, each with the place of the name: what stands in a block of
// code is a part of that code.
func partLines(body []byte) [][]int {
	if !bytes.HasPrefix(body, []byte("{{")) && !bytes.Contains(body, []byte("\n{{")) {
		return nil // found out a hundred times faster than the pattern would
	}
	all := partLine.FindAllSubmatchIndex(body, -1)
	if all == nil {
		return nil
	}
	code := map[int]bool{} // where lines of code begin
	_ = ast.Walk(blocksOf(body), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		switch n.Kind() {
		case ast.KindFencedCodeBlock, ast.KindCodeBlock, ast.KindHTMLBlock:
			for i := range n.Lines().Len() {
				code[n.Lines().At(i).Start] = true
			}
		}
		return ast.WalkContinue, nil
	})
	return slices.DeleteFunc(all, func(m []int) bool { return code[m[0]] })
}

// Joined is a lesson's text with its parts put in, and their names.
type Joined struct {
	*source.File
	Parts []string
}

// PutIn gives a lesson's text with its parts put in. Without any it is the file itself.
func (ps Parts) PutIn(f *source.File) (Joined, problem.List) {
	var problems problem.List
	_, body, _, _ := splitHeader(f)
	lines := partLines(body)
	if len(lines) == 0 {
		return Joined{File: f}, problems
	}
	var names []string
	var cuts []source.Cut
	from, size := 0, len(f.Text())
	for _, m := range lines {
		at := source.Span{Start: m[0], End: m[1]}
		// The empty line takes the place of the one that names the part: it keeps the part from what is above it.
		cuts = append(cuts, source.Cut{File: f, At: source.Span{Start: from, End: at.Start}},
			source.Cut{File: f, At: at, Instead: []byte("\n")})
		from = at.End
		p := ps.of(f, at, m, &problems)
		if p == nil || size > MaxWithParts { // once it was too long, no more is put in, and no more is said
			continue
		}
		if size += p.size; size > MaxWithParts {
			problems.Error(f, at, "parts-too-large", "with its parts this lesson is longer than trundle accepts",
				"put in fewer or shorter parts")
			continue
		}
		names = append(names, p.Name)
		cuts = append(cuts, p.cuts...)
	}
	cuts = append(cuts, source.Cut{File: f, At: source.Span{Start: from, End: len(f.Text())}})
	return Joined{source.Join(f.Name, cuts), names}, problems
}

// of finds the part that a line names; it reports a name that is none, and gives nil.
func (ps Parts) of(f *source.File, line source.Span, m []int, problems *problem.List) *part {
	if m[2] < 0 || m[2] == m[3] {
		problems.Error(f, line, "part-name", "this line does not say which part is put in",
			"write the name of a file in the folder parts, without its ending, as in  {{part ready}}")
		return nil
	}
	at := source.Span{Start: m[2], End: m[3]}
	name := f.Slice(at)
	if p, found := ps.named[name]; found {
		return p
	}
	names := slices.Sorted(maps.Keys(ps.named))
	if !partName.MatchString(name) {
		hint := "write the name of a file in the folder parts, without folder and ending, as in  {{part ready}}"
		if meant := strings.TrimSuffix(name[strings.LastIndexAny(name, `/\`)+1:], ".md"); ps.named[meant] != nil {
			hint = "write  {{part " + meant + "}}"
		}
		problems.Error(f, at, "part-name", "a part cannot be called “"+name+"”", hint)
		return nil
	}
	if ps.unread {
		return nil
	}
	hint := quantity.DidYouMean(name, names)
	switch {
	case hint != "":
	case len(names) == 0:
		hint = "the pack has no parts; write this one as parts/" + name + ".md"
	default:
		hint = "write it as parts/" + name + ".md; the pack has " + listed(names)
	}
	problems.Error(f, at, "unknown-part", "there is no part called "+name, hint)
	return nil
}

// listed writes names one after another, a few at most.
func listed(names []string) string {
	const most = 12
	if len(names) > most {
		return strings.Join(names[:most], ", ") + ", …"
	}
	return strings.Join(names, ", ")
}

// misplacedPart reads two braces that were meant to put a part in, and are no line of their own. It gives their length.
var misplacedPart = wording.New(`^\{\{[ \t]*(?i:parts?)\b[^{}\n]*\}\}`)

// partInText reports a part within other text. The braces are then text, so that nothing is said of them as a value.
func partInText(doc *document, line []byte, at int) ast.Node {
	m := misplacedPart.Compiled().Find(line)
	if m == nil {
		return nil
	}
	span := source.Span{Start: at, End: at + len(m)}
	doc.problems.Error(doc.file, span, "part-place",
		"a part is put in by a line of its own in a lesson, with no blank or other mark before it",
		`write  {{part NAME}}  alone on a line, as it is here; write \{\{ for braces that are only text`)
	return ast.NewTextSegment(text.NewSegment(span.Start, span.End))
}
