package quantity

// This file holds the parser's rules for comparisons and for single readings.

import (
	"math"
	"slices"
)

// comparison reads what is compared with a sum that has been read, if anything.
func (p *Parser) comparison(left Expr) (Expr, *Error) {
	t := p.peek()
	e, err := p.comparedBySign(left)
	if err == nil && e == nil {
		e, err = p.comparedWithin(left)
	}
	if err != nil {
		return nil, err
	}
	if e == nil {
		return left, nil
	}
	if next := p.peek(); p.isComparison(next) || p.limitAhead() {
		return nil, &Error{Span: Span{t.span.Start, next.span.End}, Slug: "compare-two",
			What: "only two values are compared at a time",
			Hint: "for a value between two others write how far it may be from their middle, as in  x within 1 cm of 4 cm"}
	}
	return e, nil
}

func (p *Parser) isComparison(t token) bool {
	return t.kind == tokenSign && (comparing[t.text] != "" || t.text == "==") && !slices.Contains(p.endWords, t.text)
}

// comparedBySign gives nil where no sign of a comparison comes next.
func (p *Parser) comparedBySign(left Expr) (Expr, *Error) {
	t := p.peek()
	if !p.isComparison(t) {
		return nil, nil
	}
	p.i++
	op := t.text
	if op == "==" {
		op = "="
	}
	right, err := p.sum()
	if err != nil {
		return nil, err
	}
	return &Comparison{Op: op, Left: left, Right: right, OpAt: t.span}, nil
}

// comparedWithin gives nil where neither the word within comes next nor, after a number with a limit, the word of.
func (p *Parser) comparedWithin(left Expr) (Expr, *Error) {
	e := &Comparison{Op: limitWord, Left: left, OpAt: p.peek().span}
	lit, isLiteral := left.(*Literal)
	var err *Error
	switch {
	case p.peek().kind == tokenName && p.peek().text == "of" && isLiteral && lit.Limit:
		value := *lit
		value.Uncertainty, value.UncertaintyUnit, value.Limit = Number{}, Unit{}, false
		value.At.End, value.SureAt = lit.SureAt.Start, Span{}
		e.Left, e.OpAt = &value, lit.SureAt
		e.Within = &Literal{At: Span{lit.SureAt.End, lit.At.End}, Number: lit.Uncertainty, Unit: lit.UncertaintyUnit}
	case p.limitAhead():
		p.i++
		if e.Within, err = p.sum(); err != nil {
			return nil, err
		}
	default:
		return nil, nil
	}
	if !p.Word("of") {
		err := p.unexpected("“of”", "a comparison")
		err.Hint = "write what it is near to, as in  x within 2 cm of L; a limit of its own stands only after a number"
		return nil, err
	}
	e.Right, err = p.sum()
	return e, err
}

// reading = name "[" number "]"
func (p *Parser) reading() (Expr, *Error) {
	name, open := p.next(), p.next()
	n := p.peek()
	x := n.number.Float()
	if n.kind != tokenNumber || x < 1 || x != math.Trunc(x) || x > mostPlace {
		return nil, &Error{Span: Span{open.span.Start, n.span.End}, Slug: "no-reading",
			What: "the readings of a record are counted 1, 2, 3 and so on",
			Hint: "write  " + name.text + "[1]  for the first one"}
	}
	p.i++
	if !p.Sign("]") {
		return nil, p.unexpected(quote("]"), "a reading")
	}
	return &Reading{At: Span{name.span.Start, p.tokens[p.i-1].span.End},
		Record: &Name{name.span, name.text}, Number: int(x)}, nil
}

// mostPlace bounds the number of a reading.
const mostPlace = 100000

// inBrackets are functions that people write without brackets, as they are to be written.
var inBrackets = map[string]string{
	"if": "if(e < 5 %, 1, 0)", "mod": "mod(L, 20 cm)", "floor": "floor(n)", "ceil": "ceil(n)", "round": "round(n)",
	"count": "count(s)", "mean": "mean(s)", "sqrt": "sqrt(x)",
}

// meantInWords is the hint for a word, or a sign, of another language that joins two values; "" for any other.
func meantInWords(before, t token) string {
	switch {
	case t.text == "and" || t.text == "or":
		return "for two conditions write an if within an if: if(a < b, c < d, no) is yes where both are, " +
			"if(a < b, yes, c < d) where one is"
	case t.text == "between":
		return "write how far it may be from the middle, as in  x within 1 cm of 4 cm"
	case before.text == "%" && t.kind == tokenNumber:
		return "for what a division leaves over write mod(7, 3)"
	case before.kind == tokenName && inBrackets[before.text] != "" && (t.kind == tokenName || t.kind == tokenNumber):
		return "write it with brackets, as in " + inBrackets[before.text]
	}
	return ""
}
