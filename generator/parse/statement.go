package parse

import (
	"sort"
	"strings"
	"unicode"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// A line is one line of a block: its text without the line's end and where that
// starts in the file.
type line struct {
	text string
	at   int
}

// A joined text is put together from pieces of the file; it knows for each of its
// bytes where that stands.
type joined struct {
	text   strings.Builder
	pieces []piece
}

type piece struct{ at, source int }

func (j *joined) add(text string, at int) {
	if j.text.Len() > 0 {
		j.pieces = append(j.pieces, piece{j.text.Len(), at})
		j.text.WriteByte(' ')
	}
	j.pieces = append(j.pieces, piece{j.text.Len(), at})
	j.text.WriteString(text)
}

// source turns an offset of the joined text into one of the file.
func (j *joined) source(i int) int {
	k := sort.Search(len(j.pieces), func(k int) bool { return j.pieces[k].at > i }) - 1
	if k < 0 {
		return 0
	}
	return j.pieces[k].source + i - j.pieces[k].at
}

// The most lines that one block may have, and the most statements of one lesson.
const maxLines = 1000

// statements reads a work block. block = { line }: one statement a line, an
// indented line goes on, # starts a comment.
func statements(f *source.File, lines []line, problems *problem.List) []*lesson.Statement {
	if len(lines) > maxLines {
		l := lines[maxLines]
		problems.Error(f, source.Span{Start: l.at, End: l.at + len(l.text)}, "block-too-long",
			"this work block has "+count(len(lines), "line")+"; "+count(maxLines, "line")+" are the most",
			"split it into several blocks")
		return nil
	}
	var all []*lesson.Statement
	var find *lesson.Statement
	for _, group := range groups(lines) {
		p := reader{file: f, problems: problems, find: find}
		s := p.statement(group)
		if s == nil {
			continue
		}
		switch {
		case s.Kind == lesson.Find:
			find = s
		case s.Kind == lesson.Slip && !s.Broken:
			find.Slips = append(find.Slips, s)
		}
		all = append(all, s)
	}
	return all
}

// groups puts each line together with the indented ones that go on with it.
func groups(lines []line) [][]line {
	var all [][]line
	for _, l := range lines {
		code := withoutComment(l.text)
		if strings.TrimSpace(code) == "" {
			continue
		}
		l.text = code
		indented := code[0] == ' ' || code[0] == '\t'
		if indented && len(all) > 0 {
			all[len(all)-1] = append(all[len(all)-1], l)
			continue
		}
		all = append(all, []line{l})
	}
	return all
}

// withoutComment cuts a line at a # that does not stand in quotes.
func withoutComment(s string) string {
	var closing rune
	for i, r := range s {
		switch {
		case closing != 0 && r == closing:
			closing = 0
		case closing == 0 && r == '#':
			return s[:i]
		case closing == 0 && quotes[r] != 0:
			closing = quotes[r]
		}
	}
	return s
}

// quotes are the ways to open a prompt, each with its end. Word processors turn
// straight quotes into curly ones, so both will do.
var quotes = map[rune]rune{'"': '"', '“': '”'}

// A reader turns one statement into its node.
type reader struct {
	file     *source.File
	problems *problem.List
	find     *lesson.Statement // the find above, for slips
	text     *joined
	prompt   string
	hasText  bool
	p        *quantity.Parser
}

// A head is what every line of our blocks starts with.
type head struct {
	at     source.Span // the whole statement, without blanks around it
	word   string      // the keyword
	quoted bool        // its quotes are in order
}

// head reads the keyword and the text in quotes, and sets the parser on what is between.
func (r *reader) head(group []line) head {
	r.text = &joined{}
	first := strings.TrimLeft(group[0].text, " \t")
	start := group[0].at + len(group[0].text) - len(first)
	last := group[len(group)-1]
	h := head{at: source.Span{Start: start, End: last.at + len(strings.TrimRight(last.text, " \t"))}}
	h.quoted = r.takePrompt(group)
	text := r.text.text.String()
	word := strings.TrimLeft(text, " \t")
	skipped := len(text) - len(word)
	if i := strings.IndexFunc(word, func(c rune) bool { return !unicode.IsLetter(c) }); i >= 0 {
		word = word[:i]
	}
	offset := skipped + len(word)
	h.word = word
	r.p = quantity.NewParser(text[offset:], func(i int) int { return r.text.source(i + offset) })
	return h
}

func (r *reader) statement(group []line) *lesson.Statement {
	h := r.head(group)
	word, start, at, quoted := h.word, h.at.Start, h.at, h.quoted
	s := &lesson.Statement{Kind: lesson.StatementKind(word), At: at, Prompt: r.prompt}
	err, known := r.read(s)
	if !known {
		r.unknownKeyword(word, source.Span{Start: start, End: start + max(1, len(word))})
		return nil
	}
	if err == nil {
		err = r.p.End()
	}
	switch {
	case !quoted: // told already; what the statement binds is known all the same
		s.Broken = true
	case err != nil:
		r.problems.FromQuantity(r.file, err)
		s.Broken = true
	default:
		s.Broken = !r.promptFits(s)
	}
	return s
}

// takePrompt splits the text in quotes off the statement.
func (r *reader) takePrompt(group []line) bool {
	var prompt []string
	var closing rune
	var open source.Span
	for _, l := range group {
		rest, at := l.text, l.at
		for rest != "" {
			if closing != 0 {
				i := strings.IndexRune(rest, closing)
				if i < 0 {
					prompt = append(prompt, strings.TrimSpace(rest))
					break
				}
				prompt = append(prompt, rest[:i])
				end := i + len(string(closing))
				rest, at, closing = rest[end:], at+end, 0
				continue
			}
			i := strings.IndexAny(rest, "\"“")
			if i < 0 {
				if r.hasText && strings.TrimSpace(rest) != "" {
					r.problems.Error(r.file, source.Span{Start: at, End: at + len(rest)}, "after-prompt",
						"nothing may follow the text in quotes", "put the text last in its statement")
					return false
				}
				r.text.add(rest, at)
				break
			}
			if i > 0 {
				r.text.add(rest[:i], at)
			}
			opening := []rune(rest[i:])[0]
			closing = quotes[opening]
			open = source.Span{Start: at + i, End: at + len(rest)}
			if r.hasText {
				r.problems.Error(r.file, open, "two-prompts", "a statement has one text in quotes; this is a second one",
					"put both into one pair of quotes")
				return false
			}
			r.hasText = true
			end := i + len(string(opening))
			rest, at = rest[end:], at+end
		}
	}
	if closing != 0 {
		r.problems.Error(r.file, open, "open-quote", "this text in quotes is never closed", "end it with a quote mark on the same statement")
		return false
	}
	r.prompt = strings.TrimSpace(strings.Join(prompt, " "))
	return true
}

func (r *reader) unknownKeyword(word string, at source.Span) {
	names := make([]string, len(lesson.StatementKinds))
	for i, k := range lesson.StatementKinds {
		names[i] = string(k)
	}
	hint := "a line starts with " + strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
	for _, name := range names {
		if strings.EqualFold(name, word) {
			hint = "did you mean " + name + "? Keywords have no capitals"
		}
	}
	if near := quantity.Nearest(word, names); len(near) == 1 {
		hint = "did you mean " + near[0] + "?"
	}
	what := "“" + word + "” starts no statement"
	if word == "" {
		what = "a statement starts with a keyword"
	}
	r.problems.Error(r.file, at, "unknown-keyword", what, hint)
}

// promptFits tells whether the statement has the text that its kind needs.
func (r *reader) promptFits(s *lesson.Statement) bool {
	switch s.Kind {
	case lesson.Measure, lesson.Record:
		if s.Prompt == "" {
			r.problems.Error(r.file, s.At, "no-prompt", "a "+string(s.Kind)+" must tell the student what to measure",
				"end the statement with a text in quotes")
			return false
		}
	case lesson.Slip:
		if s.Prompt == "" {
			r.problems.Error(r.file, s.At, "no-prompt", "a slip must have the hint that its answer deserves",
				"end the statement with the hint in quotes")
			return false
		}
	case lesson.Key:
		if r.hasText {
			r.problems.Error(r.file, s.At, "prompt-on-key", "a key has no text of its own", "put the text on its find")
			return false
		}
	}
	return true
}

func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return grouped(n) + " " + noun + "s"
}
