package quantity

// This file holds the parser and its expressions; units, quantities and targets are in
// parse_unit.go. Each method is one rule of the grammar, written above it.

import "slices"

// MaxDepth bounds brackets within brackets.
const MaxDepth = 100

// MaxPower bounds the power of a unit, as in m^3.
const MaxPower = 9

// Parser reads the pieces of a statement one after the other: expressions,
// quantities, units, steps, and the words between them. Every method that reads
// returns an *Error with its place; after one the parser is of no further use.
type Parser struct {
	tokens   []token
	i        int
	depth    int
	endWords []string // see Stop
	words    *Vocabulary

	inFormula bool   // what is read now may be followed by × and a name
	letter    string // see Literal
}

// NewParser starts at the beginning of text. Position k of the text is at(k) in
// the spans that come out; at must not decrease.
func NewParser(text string, at func(int) int) *Parser {
	return (*Vocabulary)(nil).NewParser(text, at)
}

// Stop names words that end an expression even right after a number, where a unit would be.
func (p *Parser) Stop(words ...string) { p.endWords = words }

// ParseExpr reads text as one expression, positions counted from its start.
func ParseExpr(text string) (Expr, *Error) {
	p := NewParser(text, identity)
	e, err := p.Expr()
	if err != nil {
		return nil, err
	}
	return e, p.End()
}

// ParseUnit reads a unit such as "cm/s".
func ParseUnit(text string) (Unit, *Error) {
	p := NewParser(text, identity)
	u, err := p.Unit()
	if err != nil {
		return Unit{}, err
	}
	return u, p.End()
}

func identity(i int) int { return i }

func (p *Parser) peek() token { return p.tokens[min(p.i, len(p.tokens)-1)] }

func (p *Parser) peekAt(n int) token { return p.tokens[min(p.i+n, len(p.tokens)-1)] }

func (p *Parser) next() token {
	t := p.peek()
	p.i++
	return t
}

// Sign takes the given sign if it comes next.
func (p *Parser) Sign(sign string) bool {
	t := p.peek()
	if t.text == ";" { // which only texts with decimal commas have
		t.text = ","
	}
	if t.kind != tokenSign || t.text != sign {
		return false
	}
	p.i++
	return true
}

// Word takes the given word if it comes next.
func (p *Parser) Word(word string) bool {
	t := p.peek()
	if t.kind != tokenName || t.text != word {
		return false
	}
	p.i++
	return true
}

// Words takes two words that stand one after the other, if both are there.
func (p *Parser) Words(first, second string) bool {
	if p.peek().text != first || p.peekAt(1).text != second {
		return false
	}
	p.next()
	p.next()
	return true
}

// Expect takes the given sign or says that it is missing.
func (p *Parser) Expect(sign, context string) *Error {
	if p.Sign(sign) {
		return nil
	}
	return p.unexpected(quote(sign), context)
}

// Name takes a name that is being defined.
func (p *Parser) Name(context string) (*Name, *Error) {
	t := p.peek()
	if t.kind != tokenName || t.text == "π" {
		return nil, p.unexpected("a name", context)
	}
	p.i++
	return &Name{t.span, t.text}, nil
}

// End says what is left over, if anything.
func (p *Parser) End() *Error {
	if p.peek().kind == tokenEnd {
		return nil
	}
	return p.unexpected("", "")
}

// AtEnd tells whether all has been read.
func (p *Parser) AtEnd() bool { return p.peek().kind == tokenEnd }

// Place is where the next token is.
func (p *Parser) Place() Span { return p.peek().span }

// unexpected is the error for a token that the grammar has no place for: wanted is what
// should be there, "" where anything more is too much.
func (p *Parser) unexpected(wanted, context string) *Error {
	t := p.peek()
	if t.kind == tokenBad {
		t.err.Span = t.span
		return t.err
	}
	e := &Error{Span: t.span, Slug: "syntax"}
	found := quote(t.text)
	switch {
	case t.kind == tokenEnd && wanted != "":
		e.What = wanted + " is missing at the end of " + context
		e.Hint = "finish " + context + " with " + wanted
	case wanted != "":
		e.What = found + " is where " + wanted + " should be in " + context
		e.Hint = "put " + wanted + " here"
	default:
		e.What = found + " does not belong here"
		e.Hint = p.afterOperand(t)
	}
	return e
}

// afterOperand is the hint for something that follows a whole expression: what was
// probably meant by it.
func (p *Parser) afterOperand(t token) string {
	before := token{}
	if p.i > 0 {
		before = p.tokens[p.i-1]
	}
	if hint := meantInWords(before, t); hint != "" {
		return hint
	}
	switch {
	case t.kind == tokenName && before.kind == tokenNumber:
		return "if " + t.text + " is a name, write × between; if it is a unit, see the list of units"
	case t.text == "," && before.kind == tokenNumber && p.peekAt(1).kind == tokenNumber:
		if p.words.HasCommas() {
			return "write decimals with a comma and no blank, as in 3,4"
		}
		return "write thousands without a comma, as in 1000, and decimals with a point"
	case t.kind == tokenNumber && p.atom(before.text) != nil:
		return "to put two units together write the unit of each, as in 5 ft 3 in"
	case t.kind == tokenName || t.kind == tokenNumber || t.text == "(":
		return "write + − × or ÷ between two values"
	case t.text == ")":
		return "take this bracket away, or open one before it"
	}
	return "take it away, or check whether something is missing before it"
}

// expr = sum [ ("<" | "≤" | ">" | "≥" | "=" | "≠") sum | "within" sum "of" sum ]
func (p *Parser) Expr() (Expr, *Error) {
	p.depth++
	defer func() { p.depth-- }()
	if p.depth > MaxDepth {
		return nil, &Error{Span: p.peek().span, Slug: "too-deep",
			What: "brackets are nested more than " + itoa(MaxDepth) + " deep",
			Hint: "split the expression into several finds"}
	}
	left, err := p.sum()
	if err != nil {
		return nil, err
	}
	return p.comparison(left)
}

// sum = term { ("+" | "-") term }
func (p *Parser) sum() (Expr, *Error) { return p.chain("+-", p.term) }

// term = unary { ("*" | "/") unary }
func (p *Parser) term() (Expr, *Error) { return p.chain("*/", p.unary) }

// chain = operand { op operand }, from left to right
func (p *Parser) chain(ops string, operand func() (Expr, *Error)) (Expr, *Error) {
	left, err := operand()
	for err == nil {
		t := p.peek()
		if t.kind != tokenSign || len(t.text) != 1 || !slices.Contains([]byte(ops), t.text[0]) {
			return left, nil
		}
		p.i++
		var right Expr
		right, err = operand()
		left = &Binary{Op: t.text[0], Left: left, Right: right, OpAt: t.span}
	}
	return nil, err
}

// unary = ("-" | "+") unary | power
func (p *Parser) unary() (Expr, *Error) {
	t := p.peek()
	if t.kind != tokenSign || t.text != "-" && t.text != "+" {
		return p.power()
	}
	p.depth++
	defer func() { p.depth-- }()
	if p.depth > MaxDepth {
		return nil, &Error{Span: t.span, Slug: "too-deep", What: "more signs in a row than anyone can follow",
			Hint: "write one sign or none"}
	}
	p.i++
	operand, err := p.unary()
	if err != nil || t.text == "+" {
		return operand, err
	}
	return &Unary{t.span, operand}, nil
}

// power = primary [ "^" unary ]
func (p *Parser) power() (Expr, *Error) {
	base, err := p.primary()
	if err != nil {
		return nil, err
	}
	t := p.peek()
	raised := t.kind == tokenSign && (t.text == "²" || t.text == "³")
	if !raised && (t.kind != tokenSign || t.text != "^") {
		return base, nil
	}
	p.i++
	if lit, ok := base.(*Literal); ok && !lit.bare() && !p.bracketed() {
		return nil, &Error{Span: Span{base.Span().Start, t.span.End}, Slug: "unclear-power",
			What: "it is not clear whether the number alone or its unit too is raised to the power",
			Hint: "write (" + base.String() + ") ^ …, or a unit with its own power as in 4 cm^2"}
	}
	if raised {
		exponent := map[string]string{"²": "2", "³": "3"}[t.text]
		number, _, _ := scanNumber(exponent)
		return &Binary{'^', base, &Literal{At: t.span, Number: number}, t.span}, nil
	}
	p.depth++
	defer func() { p.depth-- }()
	exponent, err := p.unary()
	if err != nil {
		return nil, err
	}
	return &Binary{'^', base, exponent, t.span}, nil
}

// bracketed tells whether a closing bracket stands just before the "^".
func (p *Parser) bracketed() bool {
	before := p.tokens[p.i-2]
	return before.kind == tokenSign && before.text == ")"
}

// primary = literal | name | name "[" number "]" | name "(" expr { "," expr } ")" | "(" expr ")"
func (p *Parser) primary() (Expr, *Error) {
	t := p.peek()
	switch {
	case t.kind == tokenNumber:
		return p.literal()
	case t.kind == tokenName && p.peekAt(1).kind == tokenSign && p.peekAt(1).text == "(" && t.text != "π":
		return p.call()
	case isCurrency(t.text):
		if p.moneyAhead() {
			return p.literal()
		}
		return nil, p.signOfMoney(t)
	case t.kind == tokenName && p.peekAt(1).kind == tokenSign && p.peekAt(1).text == "[" && t.text != "π":
		return p.reading()
	case t.kind == tokenName:
		p.i++
		if t.text == "π" {
			t.text = "pi"
		}
		return &Name{t.span, t.text}, nil
	case p.Sign("("):
		e, err := p.Expr()
		if err != nil {
			return nil, err
		}
		return e, p.closing(t)
	}
	return nil, p.unexpected("a value", "an expression")
}

// closing takes a closing bracket. At the end of the text the error is at the one that
// opened, since nothing can be pointed at where it is missing.
func (p *Parser) closing(open token) *Error {
	if p.Sign(")") {
		return nil
	}
	if p.peek().kind == tokenEnd {
		return &Error{Span: open.span, Slug: "syntax", What: "this bracket is never closed", Hint: "close it with )"}
	}
	return p.unexpected(quote(")"), "this expression")
}

// call = name "(" [ expr { "," expr } ] ")"
func (p *Parser) call() (Expr, *Error) {
	name, open := p.next(), p.next()
	c := &Call{NameAt: name.span, Name: name.text, words: p.words}
	first := p.i
	for !p.Sign(")") {
		if len(c.Args) > 0 && !p.Sign(",") {
			return nil, p.closing(open)
		}
		arg, err := p.Expr()
		if err != nil {
			return nil, err
		}
		c.Args = append(c.Args, arg)
	}
	c.At = Span{name.span.Start, p.tokens[p.i-1].span.End}
	c.unclear = p.oneOrMore(c, first, p.i-1)
	return c, nil
}
