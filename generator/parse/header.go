package parse

// YAML headers: pack.yaml, kits.yaml and what begins a lesson or card.

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml"
	yamlast "github.com/goccy/go-yaml/ast"
	yamlparser "github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// fields is one YAML mapping of a file whose entries are taken one by one; what is left over
// at the end was misspelt.
type fields struct {
	file     *source.File
	problems *problem.List
	at       source.Span // of the mapping, for what is missing
	known    []string    // the fields that may be here, for hints
	entries  []entry     // those that nobody has taken yet
	words    *quantity.Vocabulary
}

// An entry is one field as it is written, its value not yet looked at.
type entry struct {
	key   lesson.Text
	value yamlast.Node
}

// splitHeader finds the header between two lines of three hyphens. It gives the
// header's text blanked before its start, so that lines and columns are the file's,
// and the body with the header blanked, for the same reason.
func splitHeader(f *source.File) (header, body []byte, at source.Span, ok bool) {
	if !isFence(f.Line(1)) {
		return nil, f.Text(), source.Span{}, false
	}
	for n := 2; f.LineStart(n) < len(f.Text()); n++ {
		if !isFence(f.Line(n)) {
			continue
		}
		start, end, after := f.LineStart(2), f.LineStart(n), f.LineStart(n+1)
		header = append(blank(f.Text()[:start]), f.Text()[start:end]...)
		body = append(blank(f.Text()[:after]), f.Text()[after:]...)
		return header, body, source.Span{Start: 0, End: len(strings.TrimRight(f.Line(1), " "))}, true
	}
	return nil, f.Text(), source.Span{}, false
}

// isFence tells whether a line ends or begins a header. Editors leave blanks behind; they are
// forgiven.
func isFence(line string) bool { return strings.TrimRight(line, " \t") == "---" }

// blank gives as many bytes, all spaces but for the ends of lines: the Markdown below a header then keeps its offsets
// and line numbers.
func blank(text []byte) []byte {
	out := bytes.Clone(text)
	for i, b := range out {
		if b != '\n' && b != '\r' {
			out[i] = ' '
		}
	}
	return out
}

// readFields parses a mapping whose fields may be the known ones; all of them if none is named,
// as for kits, which coaches name themselves. It is nil if the text is no mapping at all.
func readFields(f *source.File, problems *problem.List, text []byte, at source.Span, known ...string) *fields {
	fs := &fields{file: f, problems: problems, at: at, known: known}
	if !fs.sane(text) || !fs.closedOnce(text) {
		return nil
	}
	// A field that is there twice is reported by mapping, with its place and in our words.
	tree, err := yamlparser.ParseBytes(text, 0, yamlparser.AllowDuplicateMapKey())
	if err != nil {
		fs.malformed(err)
		return nil
	}
	if len(tree.Docs) == 0 || tree.Docs[0].Body == nil {
		return fs
	}
	if len(tree.Docs) > 1 && tree.Docs[1].Body != nil { // a comment, or what stands after  ...  or in the fence's line
		if _, comment := tree.Docs[1].Body.(*yamlast.CommentGroupNode); !comment {
			fs.secondSet(fs.span(tree.Docs[1].Body.GetToken()))
		}
	}
	if !fs.mapping(tree.Docs[0].Body) {
		return nil
	}
	return fs
}

// malformed reports what the YAML parser could not read. Its own words are for programmers; the
// one mistake that coaches do make, a colon in a title, gets a sentence of ours.
func (fs *fields) malformed(err error) {
	what, at := err.Error(), fs.at
	var syntax *yaml.SyntaxError
	if errors.As(err, &syntax) {
		what, at = syntax.Message, fs.span(syntax.Token)
	}
	what, _, _ = strings.Cut(what, "\n")
	if tab := fs.tabIn(at); tab != nil {
		fs.error(*tab, "yaml", "there is a tab here, where YAML takes blanks only",
			"put blanks in its place; two for each step to the right")
		return
	}
	if hint := fs.fieldSlip(at); hint != "" {
		fs.error(at, "yaml", "this is not written as a field is", hint)
		return
	}
	if strings.HasPrefix(what, "mapping value") {
		fs.error(at, "yaml", "text with a colon in it needs quotes",
			`put quotes round it, as in  title: "Rotations: how many?"`)
		return
	}
	fs.error(at, "yaml", "this is not well-formed YAML: "+what,
		"write one field a line, as in  title: Rotations for a distance")
}

// Slips in a line of fields, and fields that begin with a sign of YAML.
var (
	noBlankAfter  = wording.New(`^\s*([\pL-]+):(\S.*)$`)
	equalsField   = wording.New(`^\s*([\pL-]+)\s*=\s*(.*)$`)
	signInFront   = wording.New("^\\s*([\\pL-]+):\\s+(['\"\\[{!&*%@`|>].*)$")
	indentedField = wording.New(`^\s+[\pL-]+:(?:\s|$)`)
)

// fieldSlip is the hint for a line that YAML does not read, "" if it is not known what was meant.
func (fs *fields) fieldSlip(at source.Span) string {
	n := fs.file.Position(at.Start).Line
	line := fs.file.Line(n)
	if m := noBlankAfter.FindStringSubmatch(line); m != nil {
		return "put a blank after the colon:  " + m[1] + ": " + m[2]
	}
	if m := equalsField.FindStringSubmatch(line); m != nil && !strings.Contains(m[1], ":") {
		return "write a colon in place of the equals sign:  " + m[1] + ": " + m[2]
	}
	if m := signInFront.FindStringSubmatch(line); m != nil {
		switch text := strings.TrimSpace(m[2]); {
		case text[0] == '[' && !strings.Contains(text, "]"):
			return "close the bracket:  " + m[1] + ": " + text + "]"
		case text[0] == '"' && strings.Count(text, `"`) == 1:
			return "close the quotes:  " + m[1] + ": " + text + `"`
		default:
			return "put quotes round all of the text:  " + m[1] + ": " + strconv.Quote(text)
		}
	}
	if next := fs.file.Line(n + 1); indentedField.MatchString(next) && !indentedField.MatchString(line) {
		return "begin each field at the left edge; the one below is indented"
	}
	return ""
}

// tabIn finds a tab before the text of the line that the YAML parser stumbled over, or right after a colon or a
// hyphen there; nil if there is none.
func (fs *fields) tabIn(at source.Span) *source.Span {
	n := fs.file.Position(at.Start).Line
	line, start := fs.file.Line(n), fs.file.LineStart(n)
	i := strings.IndexByte(line, '\t')
	if i < 0 || strings.Trim(line[:i], " -") != "" && !strings.HasSuffix(strings.TrimRight(line[:i], " "), ":") {
		return nil
	}
	return &source.Span{Start: start + i, End: start + i + 1}
}

// mapping takes the entries of a mapping, false if it is something else. The YAML parser has one
// kind of node for a mapping of one field and another for more.
func (fs *fields) mapping(n yamlast.Node) bool {
	var values []*yamlast.MappingValueNode
	switch n := n.(type) {
	case *yamlast.MappingNode:
		values = n.Values
	case *yamlast.MappingValueNode:
		values = []*yamlast.MappingValueNode{n}
	case *yamlast.CommentGroupNode, *yamlast.NullNode:
		return true
	default:
		fs.error(fs.span(n.GetToken()), "yaml", "fields are expected here",
			"write one field a line, as in  title: Rotations for a distance")
		return false
	}
	seen := make(map[string]bool)
	for _, v := range values {
		key := lesson.Text{Value: v.Key.GetToken().Value, At: fs.span(v.Key.GetToken())}
		if seen[key.Value] {
			fs.error(key.At, "field-twice", "the field "+key.Value+" appears twice", "keep one of them")
			continue
		}
		seen[key.Value] = true
		fs.entries = append(fs.entries, entry{key, v.Value})
	}
	return true
}

// error reports a mistake in the fields.
func (fs *fields) error(at source.Span, slug, what, hint string) {
	fs.problems.Error(fs.file, at, slug, what, hint)
}

// span gives the place of a token. The YAML parser counts columns in characters.
func (fs *fields) span(t *token.Token) source.Span {
	if t == nil || t.Position == nil {
		return fs.at
	}
	start := fs.file.LineStart(t.Position.Line)
	line := fs.file.Line(t.Position.Line)
	column := 1
	end := start + len(line)
	// A column past the end of the line leaves the place at its start.
	for i := range line {
		if column == t.Position.Column {
			start += i
			break
		}
		column++
	}
	value := strings.TrimSpace(t.Origin) // as written, quotes included; a long text goes on below
	if first, _, more := strings.Cut(value, "\n"); more {
		value = first
	}
	return source.Span{Start: start, End: max(start, min(end, start+len(value)))}
}

// take removes and gives the value of a field, nil if it is not there.
func (fs *fields) take(name string) yamlast.Node {
	for i, e := range fs.entries {
		if e.key.Value == name {
			fs.entries = append(fs.entries[:i:i], fs.entries[i+1:]...) // a copy: the rest is still in use
			return e.value
		}
	}
	return nil
}

// misspelt tells whether a field that is missing is there with a slip in its name, which is a problem of its own.
func (fs *fields) misspelt(name string) bool {
	var others []string
	for _, e := range fs.entries {
		if !slices.Contains(fs.known, e.key.Value) {
			others = append(others, e.key.Value)
		}
	}
	return len(quantity.Nearest(name, others)) > 0
}

// has tells whether a field is there and not taken yet.
func (fs *fields) has(name string) bool {
	return slices.ContainsFunc(fs.entries, func(e entry) bool { return e.key.Value == name })
}

// text gives a field that is one line of text; need tells that it may not be missing.
func (fs *fields) text(name string, need bool) lesson.Text {
	n := fs.take(name)
	if n == nil {
		if need && !fs.misspelt(name) {
			fs.error(fs.at, "field-missing", "the field "+name+" is missing", "add a line  "+name+": …")
		}
		return lesson.Text{At: fs.at}
	}
	t, ok := fs.scalar(n)
	fs.cutByHash(name, t)
	if !ok && strings.HasPrefix(fs.file.Slice(t.At), "!") {
		fs.error(t.At, "field-kind", "the field "+name+" begins with a sign that means something else here",
			"put quotes round all of the text, as in  "+name+": \"…\"")
	} else if !ok {
		fs.error(t.At, "field-kind", "the field "+name+" must be one line of text",
			"write it after the colon, as in  "+name+": …")
	} else if need && strings.TrimSpace(t.Value) == "" {
		fs.error(t.At, "field-missing", "the field "+name+" is empty", "write its text after the colon")
	}
	return t
}

// hashNumber is what looks like a part of a text and begins a comment, as in  Reach hook #3.
var hashNumber = wording.New(`^\s+#[0-9].*`)

// cutByHash says that a text goes no further than to its hash.
func (fs *fields) cutByHash(name string, t lesson.Text) {
	rest, _, _ := bytes.Cut(fs.file.Text()[min(t.At.End, len(fs.file.Text())):], []byte("\n"))
	if m := hashNumber.Compiled().Find(rest); m != nil && t.Value != "" {
		fs.problems.Caution(fs.file, source.Span{Start: t.At.End, End: t.At.End + len(m)}, "field-cut",
			"what begins with # is a note to yourself, and no part of the field "+name,
			"put quotes round all of the text, as in  "+name+": "+strconv.Quote(t.Value+string(m)))
	}
}

// scalar gives a value as text, as it is written: a version 1.10 must not become 1.1, so numbers
// are read from their token and not from what YAML makes of them.
func (fs *fields) scalar(n yamlast.Node) (lesson.Text, bool) {
	t := lesson.Text{At: fs.span(n.GetToken())}
	switch n := n.(type) {
	case *yamlast.StringNode:
		t.Value = n.Value
	case *yamlast.LiteralNode:
		t.Value = strings.TrimSpace(n.Value.Value)
	case *yamlast.NullNode:
	case *yamlast.IntegerNode, *yamlast.FloatNode, *yamlast.BoolNode, *yamlast.InfinityNode, *yamlast.NanNode:
		t.Value = strings.TrimSpace(n.GetToken().Value)
	default:
		return t, false
	}
	return t, true
}

// hyphenForm is an item of a list whose hyphen has no blank after it.
var hyphenForm = wording.New(`^-\pL`)

// list gives a field that is a list of texts; one text alone will do as well.
func (fs *fields) list(name string) []lesson.Text {
	n := fs.take(name)
	if n == nil {
		return nil
	}
	nodes := []yamlast.Node{n}
	if seq, ok := n.(*yamlast.SequenceNode); ok {
		nodes = seq.Values
	} else if _, empty := n.(*yamlast.NullNode); empty {
		return nil
	}
	var all []lesson.Text
	for _, n := range nodes {
		t, ok := fs.scalar(n)
		if !ok {
			fs.error(t.At, "field-kind", "the field "+name+" must be a list of lines",
				"write each on a line of its own, as in  - 1 tape measure; put quotes round a line with a colon in it")
			continue
		}
		if hyphenForm.MatchString(t.Value) {
			fs.error(t.At, "field-kind", "the field "+name+" is one text that begins with a hyphen",
				"put a blank after each hyphen, as in  - 1 tape measure")
		} else if strings.TrimSpace(t.Value) != "" {
			all = append(all, t)
		}
	}
	return all
}

// likely is the number that was probably meant by a text such as "40 min".
func likely(text string, low, high int) int {
	digits := strings.TrimLeft(text, " ~")
	digits = digits[:len(digits)-len(strings.TrimLeft(digits, "0123456789"))]
	if n, err := strconv.Atoi(digits); err == nil && n >= low && n <= high {
		return n
	}
	return min(high, low+2)
}

// textsOf drops the places of texts that no check looks at one by one, such as goals.
func textsOf(texts []lesson.Text) []string {
	var all []string
	for _, t := range texts {
		all = append(all, t.Value)
	}
	return all
}

// number gives a field that is a whole number from low to high. It is needed wherever it is asked for.
func (fs *fields) number(name string, low, high int) (int, source.Span) {
	t := fs.text(name, true)
	if t.Value == "" {
		return 0, t.At
	}
	n, err := strconv.Atoi(t.Value)
	if err != nil || n < low || n > high {
		fs.error(t.At, "field-kind", fmt.Sprintf("the field %s must be a whole number from %d to %d", name, low, high),
			fmt.Sprintf("write it as in  %s: %d", name, likely(t.Value, low, high)))
		return 0, t.At
	}
	return n, t.At
}

// flag gives a field that is true or false; false if it is not there.
func (fs *fields) flag(name string) bool {
	t := fs.text(name, false)
	switch strings.ToLower(t.Value) {
	case "true":
		return true
	case "", "false":
		return false
	}
	fs.error(t.At, "field-kind", "the field "+name+" must be true or false", "write it as in  "+name+": true")
	return false
}

// quantity gives a field that is a quantity of the kind of the unit like.
func (fs *fields) quantity(name, like string, need bool) *quantity.Literal {
	n := fs.take(name)
	if n == nil {
		if need && !fs.misspelt(name) {
			fs.error(fs.at, "field-missing", "the field "+name+" is missing", "add it, as in  "+name+": 65 mm within 0.5 mm")
		}
		return nil
	}
	t, ok := fs.scalar(n)
	if !ok {
		fs.error(t.At, "field-kind", "the field "+name+" must be a number with its unit",
			"write it as in  "+name+": 65 mm within 0.5 mm")
		return nil
	}
	lit, negative, ok := fs.literal(name, t)
	if !ok {
		return nil
	}
	want, _ := quantity.LookupUnit(like)
	if negative || lit.Number.Float() == 0 || lit.Unit.Dimension() != want.Dimension() {
		fs.error(t.At, "field-kind", "the field "+name+" must be "+want.Dimension().String()+" of more than zero",
			"write it as in  "+example(name, like))
		return nil
	}
	return lit
}

// example is what a field of a kit may look like; a gear has no unit.
func example(name, like string) string {
	if like == "" {
		return name + ": 1"
	}
	return name + ": 65 " + like + " within 0.5 " + like
}

// fieldsHere begins the hint that names all fields of a place.
const fieldsHere = "the fields here are "

// done reports the fields that nobody took.
func (fs *fields) done() {
	for _, e := range fs.entries {
		hint := cmp.Or(quantity.DidYouMean(e.key.Value, fs.known), fieldsHere+strings.Join(fs.known, ", "))
		fs.error(e.key.At, "unknown-field", "there is no field "+e.key.Value, hint)
	}
}
