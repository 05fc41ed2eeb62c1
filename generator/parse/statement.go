package parse

// Work blocks, statement by statement.

import (
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/source"
)

// MaxLines is the most that one block may have. No lesson needs as many; a file that somebody
// pasted by mistake gets one problem instead of a thousand.
const MaxLines = 1000

// statements reads a work block. block = { line }: one statement a line, an indented line
// goes on with the one above it, # starts a comment.
func statements(doc *document, lines []sourceLine) []*lesson.Statement {
	if len(lines) > MaxLines {
		l := lines[MaxLines]
		doc.problems.Error(doc.file, source.Span{Start: l.at, End: l.at + len(l.text)}, "block-too-long",
			"this work block has "+problem.Plural(len(lines), "line")+"; "+problem.Plural(MaxLines, "line")+
				" are the most",
			"split it into several blocks")
		return nil
	}
	var all []*lesson.Statement
	var find, above *lesson.Statement
	for _, lexemes := range statementsOf(lines) {
		r := reader{file: doc.file, problems: doc.problems, words: doc.words, find: find, above: above}
		s := r.statement(lexemes)
		if s == nil {
			continue
		}
		switch {
		case s.Kind == lesson.Find:
			find = s
		case s.Kind == lesson.Slip && !s.Broken && s.Of == find:
			find.Slips = append(find.Slips, s)
		case s.Kind == lesson.Listen && !s.Broken:
			above.Listens = append(above.Listens, s)
		}
		if !s.Kind.BelongsAbove() {
			above = s
		}
		all = append(all, s)
	}
	return all
}

// meantStatement reports a statement whose keyword is none. What it was meant to define is known all the same, so that
// lines below that use it are not reported as well.
func (r *reader) meantStatement(s *lesson.Statement, h head) *lesson.Statement {
	meant := r.unknownKeyword("unknown-keyword", "work", h, wordsOf(statementKeywords))
	if s.Kind = lesson.StatementKind(meant); meant == "" {
		s.Kind = lesson.Given // as in  let x = 5 cm
	}
	if s.Kind.BelongsAbove() {
		return nil
	}
	s.Broken = true
	if r.define(s) != nil || meant == "" && !r.p.Sign("=") {
		return nil
	}
	return s
}

// statement reads one statement, nil if its keyword is none. A broken one keeps its name if it has one, so that lines
// below that use it are not reported as well.
func (r *reader) statement(lexemes []lexeme) *lesson.Statement {
	s := &lesson.Statement{Kind: lesson.StatementKind(keywordOf(lexemes)), At: spanOf(lexemes)}
	lexemes, inOrder := r.several(s, lexemes)
	h := r.head(lexemes)
	s.Kind, s.Prompt, s.PromptAt = lesson.StatementKind(h.word), r.prompt, r.promptAt
	k := keywordNamed(statementKeywords, h.word)
	if k == nil {
		return r.meantStatement(s, h)
	}
	err := k.read(r, s)
	if err == nil {
		err = r.p.End()
	}
	switch {
	case !h.quoted || !inOrder: // reported; what the statement defines is known all the same
		s.Broken = true
	case err != nil:
		r.problems.FromQuantity(r.file, r.explained(h, err))
		s.Broken = true
	default:
		s.Broken = !r.textFits(k.text, s.At, "a "+k.word)
	}
	return s
}
