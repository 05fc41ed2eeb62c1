package lesson

// The nodes that trundle adds to goldmark's, and what stands in their blocks.

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/quantity"
	"trundle/generator/source"
)

// The kinds of nodes that trundle adds to goldmark's.
var (
	KindWorkBlock     = ast.NewNodeKind("WorkBlock")
	KindGaugeBlock    = ast.NewNodeKind("GaugeBlock")
	KindFilledCode    = ast.NewNodeKind("FilledCode")
	KindValue         = ast.NewNodeKind("Value")
	KindMentorNote    = ast.NewNodeKind("MentorNote")
	KindMentorSection = ast.NewNodeKind("MentorSection")
)

// WorkBlock is a fenced block "work".
type WorkBlock struct {
	ast.BaseBlock
	Statements []*Statement
}

// GaugeBlock is a fenced block "gauge": measuring aids to be printed at true scale.
type GaugeBlock struct {
	ast.BaseBlock
	Gauges []*Gauge
}

// Gauge is one line of a gauge block: kind expr ["in" unit] ["text"].
type Gauge struct {
	Kind   GaugeKind
	At     source.Span
	Expr   quantity.Expr
	Target quantity.Target
	Text   string
	TextAt []source.Span // as PromptAt of a statement
	Broken bool          // it has a problem of its own
}

// FilledCode is a fenced block of code marked "filled".
type FilledCode struct {
	ast.BaseBlock
	Language string
	Parts    []CodePart
}

// Truth writes yes or no as the program's language does.
func (n *FilledCode) Truth(x float64) string {
	word := "true"
	if x == 0 {
		word = "false"
	}
	if strings.HasPrefix(n.Language, "py") || n.Language == "micropython" || n.Language == "circuitpython" {
		return strings.ToUpper(word[:1]) + word[1:]
	}
	return word
}

// CodePart is a piece of code as written, or a value to be put in.
type CodePart struct {
	Code  string
	Value *Value // nil for code
}

// Value is a computed value in prose: {expr in unit to step}.
type Value struct {
	ast.BaseInline
	Expr   quantity.Expr
	Target quantity.Target
	At     source.Span // braces included
}

// MentorNote is a block quote, unless it starts with "Students:".
type MentorNote struct{ ast.BaseBlock }

// MentorSection is a section headed "Mentor notes", its heading included.
type MentorSection struct{ ast.BaseBlock }

func (*WorkBlock) Kind() ast.NodeKind     { return KindWorkBlock }
func (*GaugeBlock) Kind() ast.NodeKind    { return KindGaugeBlock }
func (*FilledCode) Kind() ast.NodeKind    { return KindFilledCode }
func (*Value) Kind() ast.NodeKind         { return KindValue }
func (*MentorNote) Kind() ast.NodeKind    { return KindMentorNote }
func (*MentorSection) Kind() ast.NodeKind { return KindMentorSection }

// IsRaw keeps goldmark from parsing the lines of a block for inline Markdown.
func (*WorkBlock) IsRaw() bool  { return true }
func (*GaugeBlock) IsRaw() bool { return true }
func (*FilledCode) IsRaw() bool { return true }

func (n *WorkBlock) Dump(src []byte, level int)     { ast.DumpHelper(n, src, level, nil, nil) }
func (n *GaugeBlock) Dump(src []byte, level int)    { ast.DumpHelper(n, src, level, nil, nil) }
func (n *FilledCode) Dump(src []byte, level int)    { ast.DumpHelper(n, src, level, nil, nil) }
func (n *Value) Dump(src []byte, level int)         { ast.DumpHelper(n, src, level, nil, nil) }
func (n *MentorNote) Dump(src []byte, level int)    { ast.DumpHelper(n, src, level, nil, nil) }
func (n *MentorSection) Dump(src []byte, level int) { ast.DumpHelper(n, src, level, nil, nil) }

// ForMentors tells whether a node stands in a part for mentors only.
func ForMentors(n ast.Node) bool {
	for ; n != nil; n = n.Parent() {
		if k := n.Kind(); k == KindMentorNote || k == KindMentorSection {
			return true
		}
	}
	return false
}

// declared is the attribute of a text that says "Students:". No renderer writes it.
const declared = "declared"

// Declare marks a heading or a text that its coach says is for students, though it looks otherwise.
func Declare(n ast.Node) { n.SetAttributeString(declared, true) }

// Declared tells whether a node is marked so.
func Declared(n ast.Node) bool {
	_, found := n.AttributeString(declared)
	return found
}

// Statement is one line of a work block.
type Statement struct {
	Kind   StatementKind
	At     source.Span // of the statement without blanks or comments around it
	Name   string      // what it defines, or the find that a key is for; "" for a slip or listen
	NameAt source.Span
	Target quantity.Target // of find, record and predict
	Expr   quantity.Expr   // of given, find, slip; of measure a Literal or a field of the kit

	Literal  *quantity.Literal // the quantity of a key
	Negative bool              // the key's sign

	Numbers []float64 // of a record
	Texts   []string  // the record's numbers as written
	InOrder bool      // they follow each other and do not scatter

	With *quantity.Name // of a record: the one in whose runs it is read, nil if in runs of its own

	// Broken tells that the statement has a problem of its own. It is kept so that its name is
	// known and what depends on it is not reported as a second problem.
	Broken bool

	Prompt   string        // or the hint of a slip, or what a listen says
	PromptAt []source.Span // the pieces of it, a line each; a blank stands between two
	Slips    []*Statement
	Answers  []Answer     // of a choose
	Answer   string       // of a slip below a choose: the wrong one that it is about
	Listens  []*Statement // of a say: what mentors listen for
	Of       *Statement   // the find or choose that a slip belongs to, the say of a listen
}

// Answer is one of those to choose from.
type Answer struct {
	Text   string
	At     source.Span
	Pieces []source.Span // as PromptAt of a statement
	Right  bool
	Hint   *Statement // the slip for who chooses it, nil if there is none
}
