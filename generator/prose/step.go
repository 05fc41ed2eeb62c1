package prose

// The texts that students see, which of them are steps, and whom a sentence of a step is for.

import (
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"
	tables "github.com/yuin/goldmark/extension/ast"

	"trundle/generator/lesson"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// A step by another name than an item of a list: "Step 2", "2." and the like at the start of a
// line, or a number and nothing else.
var (
	startsWithNumber = wording.New(`(?im)^[^\pL\pN\n]*(?:` +
		`steps? (?:\d+|one|two|three|four|five|six|seven|eight|nine|ten)\b|` +
		`\d{1,2}[*_\\]*\s?[.):–—][*_]*(?:\s|$)|` +
		`\d{1,2}\s-\s)`)
	isOnlyNumber = wording.New(`(?i)^\W*(?:step )?\d{1,2}\W*$`)
)

// A Passage is a text that students see: a step by its number, a heading, or another one, which is a step if it tells
// them to do something.
type Passage struct {
	Run
	Step    bool
	Heading bool
	Quiet   bool // it names things and tells students nothing: a note for mentors, code
}

// InSmallLetters is its text.
func (p Passage) InSmallLetters() Run { return small(p.Run) }

// Passages gives them in the order of the page. Steps are items of numbered lists, blocks and rows of tables that start
// with a number, and what is below a heading or a line that is a step's.
func Passages(l *lesson.Lesson) []Passage {
	s := passages{src: l.Markdown}
	_ = ast.Walk(l.Body, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		if lesson.ForMentors(n) {
			s.all = append(s.all, Passage{Run: spoken(n, s.src, ". "), Quiet: true})
			return ast.WalkSkipChildren, nil
		}
		if block, ok := n.(*lesson.WorkBlock); ok {
			for _, statement := range block.Statements {
				if r := prompt(l, statement); len(r.Text) > 0 {
					s.add(r, false)
				}
			}
		}
		return s.visit(n), nil
	})
	return s.all
}

// passages collects those of a lesson.
type passages struct {
	src   []byte
	all   []Passage
	below int // the level of the heading whose step this is, belowLine for a line of text, 0 outside of steps
}

func (s *passages) add(r Run, step bool) { s.all = append(s.all, Passage{Run: r, Step: step}) }

// belowLine is deeper than any heading: the step ends at the next one.
const belowLine = 7

// visit looks at a node and says whether what is below it is still to be looked at.
func (s *passages) visit(n ast.Node) ast.WalkStatus {
	switch n := n.(type) {
	case *ast.ListItem:
		if n.Parent().(*ast.List).IsOrdered() {
			s.add(spoken(n, s.src, ". "), true)
			return ast.WalkSkipChildren
		}
	case *tables.TableRow:
		s.row(n)
		return ast.WalkSkipChildren
	case *ast.Heading:
		s.heading(n)
	case *ast.FencedCodeBlock, *ast.CodeBlock:
		for _, line := range linesAsTheyAre(n, s.src) {
			s.all = append(s.all, Passage{Run: line, Quiet: true})
		}
	case *ast.Paragraph, *ast.TextBlock, *ast.HTMLBlock:
		s.block(n)
	}
	return ast.WalkContinue
}

// row takes a row of a table that has a number in a cell of its own.
func (s *passages) row(n ast.Node) {
	for cell := n.FirstChild(); cell != nil; cell = cell.NextSibling() {
		if isOnlyNumber.Match(spoken(cell, s.src, " ").Text) {
			s.add(spoken(n, s.src, " "), true)
			return
		}
	}
	s.add(spoken(n, s.src, ". "), false)
}

// heading begins a step, goes on with the one above, or ends it.
func (s *passages) heading(n *ast.Heading) {
	text := spoken(n, s.src, ". ")
	if n.Level <= s.below {
		s.below = 0
	}
	if startsWithNumber.Match(text.Text) {
		s.below = n.Level
	}
	s.all = append(s.all, Passage{Run: text, Step: s.below > 0, Heading: true})
}

// block takes a text that begins with a number, or that is below one.
func (s *passages) block(n ast.Node) {
	text := spoken(n, s.src, ". ")
	s.add(text, s.below > 0 || startsWithNumber.Match(sourceOf(n, s.src)))
	if s.below == 0 && isOnlyNumber.Match(text.Text) {
		s.below = belowLine
	}
}

// sourceOf is a block as it is written, lines kept apart, marks and all.
func sourceOf(n ast.Node, src []byte) []byte {
	var all []byte
	for i := range n.Lines().Len() {
		s := n.Lines().At(i)
		all = append(all, src[s.Start:s.Stop]...)
	}
	return all
}

// A clause ends where a sentence or a thought of its own begins. The group is what it ends
// with. An abbreviation is followed by no capital letter.
var clauseEnd = wording.New(
	`([.!?;]["”’)*]*\s+)\p{Lu}|` +
		`(;\s+|(?:,\s*)?(?:\b(?i:and|but)\s+)?\b(?i:then)\s+|,\s+(?:and|but)\s+)|` +
		`(\s(?:and|but)\s+)you\b`)

// Clauses cuts a step into its clauses, in small letters.
func Clauses(step Run) []Run {
	var all []Run
	lower, start := small(step), 0
	cut := func(end int) {
		if end > start {
			all = append(all, lower.slice(start, end))
		}
		start = end
	}
	for _, m := range clauseEnd.FindAllSubmatchIndex(step.Text, -1) {
		cut(max(m[3], m[5], m[7])) // of three groups one has matched
	}
	cut(len(step.Text))
	return all
}

// Who does what a clause says, and whether it says to do it.
var (
	numberOfStep = wording.New(`^[^\pL\pN]*(?:steps? [\pL\pN]+|\d{1,2})?[^\pL\pN]*`)
	adultDoesIt  = wording.New(`^(?:(?:your|the|an|a|one|only|some|our|another) )*` +
		`(?:adults?|mentors?|teachers?|coach(?:es)?|parents?|volunteers?|instructors?|grown-?ups?)(?:$|[^\pL'’])`)
	adultHasItDone = wording.New(`^[\pL -]*?\b(?:says?|said|tells?|told|shows?|showed|` +
		`asks?|asked|lets?|wants?|gives you)\b`)
	forbidsIt = wording.New(`^(?:never|do not|don['’]t|no|nobody|avoid|stop|stay|` +
		`(?:keep|step|stand) (?:away|off|out|back|clear)|leave|wait)\b`)
	// Whoever stops, waits or calls may go on all the same: Stop and wipe it with …
	mayGoOn    = wording.New(`^(?:stop|stay|leave|wait|(?:call|tell|warn|fetch) )`)
	goesOn     = wording.New(`(?:\b(?:and|then|but|so)|[,:–—]) (?:then )?(?:` + handling + `)\b`)
	callsAdult = wording.New(`^(?:call|tell|warn|fetch) (?:your|the|an|a) (?:adult|mentor|teacher|coach|` +
		`parent|instructor)s?\b`)
	neverForget = wording.New(`^(?:never|do not|don['’]t) forget\b`)
	isKeptAway  = wording.New(`^ (?:(?:is|are|stays?|remains?) ` +
		`(?:not|never|forbidden|locked|put away|kept|(?:only )?for (?:the |your |an? )?(?:adult|mentor|teacher|` +
		`coach)(?:e?s)?|out of)|cards?\b)`)
	asksQuestion = wording.New(`\? *$`)
	asksToDoIt   = wording.New(`^(?:\pL+,? )?(?:could|can|will|would) (?:you|we|someone|somebody|` +
		`one of you)\b|\bplease\b`)
	mayNot = wording.New(`^(?:you|we|they|(?:all |no )?students?|pupils?|children|kids|teams?|` +
		`everybody|everyone|one)(?: \pL+)? ` +
		`(?:never|(?:must|may|do|does|should|need|will|are|can) ?not|(?:must|do|does|should|need|wo|are|ca)n['’]t)\b`)
	notThis = wording.New(`\b(?:never|not|no|instead of|rather than|without|than)(?: (?:with|in|into|any|` +
		`the|your|a|of))*\s*$`)
)

// LeavesAlone tells whether a clause gives what a part of it names to an adult, forbids it, or
// only asks.
func LeavesAlone(clause Run, part source.Span) bool {
	text := string(clause.Text)
	start := len(numberOfStep.FindString(text))
	said := text[min(start, part.Start):]
	switch {
	case asksQuestion.MatchString(text):
		return !asksToDoIt.MatchString(said)
	case notThis.MatchString(text[:part.Start]):
		return true
	case mayNot.MatchString(said) && !goesOn.MatchString(said[:max(0, part.Start-start)]):
		return true
	case adultDoesIt.MatchString(said) && !adultHasItDone.MatchString(said[:max(0, part.Start-start)]):
		return true
	case mayGoOn.MatchString(said) && goesOn.MatchString(said[:max(0, part.Start-start)]):
		return false
	case callsAdult.MatchString(said):
		return true
	case forbidsIt.MatchString(said) && !neverForget.MatchString(said):
		return true
	}
	return isKeptAway.MatchString(text[part.End:])
}

// Says tells whether a node has a word in it that is more than a note to oneself.
func (t *Tongue) Says(n ast.Node, src []byte) bool {
	written := toDo
	if t != nil {
		written = toDoAbroad
	}
	text := written.ReplaceAllString(string(Shown(n, src).Text), "")
	return strings.IndexFunc(text, unicode.IsLetter) >= 0 && (t == nil || t.says(text))
}

// toDo is what somebody writes who means to write later.
var toDo = wording.New(`(?i)\b(?:todo|to do|tbd|tba|fixme|xxx)\b`)

// toDoAbroad is the same in a language of its own: there "todo" may be a word, as it is in Spanish.
var toDoAbroad = wording.New(`\bTODO\b|(?i)\b(?:to do|tbd|tba|fixme|xxx)\b`)
