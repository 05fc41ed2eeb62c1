package check

// What a care card must have: its parts, and codes that exist.

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/hazard"
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/prose"
	"trundle/generator/quantity"
)

// sectionsOfCard are the parts that every care card has, and what belongs there.
var sectionsOfCard = []struct{ title, content string }{
	{"Before", "what to look at and put on before it begins"},
	{"During", "how it is done"},
	{"After", "what to tidy up, and how long to wait"},
	{"If something goes wrong", "when to stop, whom to call and what to do first"},
}

// cardSections sees to it that a card has all its parts, and something in each.
func cardSections(c *lesson.Card, problems *problem.List) {
	if !c.HasHeader {
		return
	}
	var titles []string
	below := map[string]*lesson.Section{}
	for _, s := range c.Sections {
		if !s.Mentors { // what only mentors see does not help a student
			title := strings.ToLower(strings.TrimRight(c.TitleOf(s.Title), " .:?!…"))
			titles = append(titles, title)
			below[title] = s
		}
	}
	var missing, hints []string // one problem names all parts that are not there
	for _, want := range sectionsOfCard {
		title := strings.ToLower(want.title)
		s := below[title]
		if s == nil {
			hint := "add a heading  ## " + titleIn(c, want.title) + "  with " + want.content
			if near := quantity.Nearest(title, titles); len(near) == 1 {
				hint = "write  ## " + titleIn(c, want.title) + "  instead of  ## " + below[near[0]].Title
			}
			missing, hints = append(missing, "“"+titleIn(c, want.title)+"”"), append(hints, hint)
		} else if emptyBelow(c, s) {
			problems.Error(c.File, s.At, "card-section", "there is nothing below “"+s.Title+"”", "write "+want.content)
		}
	}
	if len(missing) > 0 {
		problems.Error(c.File, c.HeaderAt, "card-section", "the care card has no part "+strings.Join(missing, ", "),
			strings.Join(hints, "; "))
	}
}

// titleIn is a part's title in the language of a card.
func titleIn(c *lesson.Card, title string) string {
	if own := c.Headings[title]; len(own) > 0 {
		first, size := utf8.DecodeRuneInString(own[0])
		return string(unicode.ToUpper(first)) + own[0][size:]
	}
	return title
}

// emptyBelow tells whether nothing but smaller headings stands between a section's heading and the next.
func emptyBelow(c *lesson.Card, s *lesson.Section) bool {
	inside := false // the section's own part of the card
	for n := c.Body.FirstChild(); n != nil; n = n.NextSibling() {
		h, heading := n.(*ast.Heading)
		switch {
		case heading && h.Level <= 2:
			if inside {
				return true
			}
			inside = startsAt(h, s)
		case inside && !heading && !lesson.ForMentors(n) && prose.In(c.Language).Says(n, c.Markdown):
			return false
		}
	}
	return inside
}

// startsAt tells whether a heading is a section's.
func startsAt(h *ast.Heading, s *lesson.Section) bool {
	return h.Lines().Len() > 0 && h.Lines().At(0).Start <= s.At.Start && s.At.Start <= h.Lines().At(0).Stop
}

// A codeList is one of a card's two lists of codes.
type codeList struct {
	slug, name, kind string
	lookup           func(code string) (hazard.Statement, bool)
	hint             func(code string) string
}

// copyFromSheet is the advice for every code that is unknown: nobody should have to guess one.
const copyFromSheet = "copy the codes from section 2 of the safety data sheet"

var (
	hazardList = codeList{"unknown-hazard", "hazards", "hazard statement", hazard.Hazard, func(string) string {
		return copyFromSheet + ", or leave hazards out if there is no such sheet"
	}}
	precautionList = codeList{"unknown-precaution", "precautions", "precautionary statement", hazard.Precaution,
		precautionHint}
)

// cardCodes looks every code of a card up, and what follows from having one.
func cardCodes(c *lesson.Card, problems *problem.List) {
	before := problems.Count()
	lookUp(c, c.Hazards, hazardList, precautionList, problems)
	lookUp(c, c.Precautions, precautionList, hazardList, problems)
	// A code on the label is reason enough, whatever the hazard: the club's adults decide with the
	// sheet in hand, and no card can do that for them.
	if len(c.Hazards) > 0 && !c.Adults && problems.Count() == before {
		problems.Error(c.File, c.Hazards[0].At, "hazard-for-students",
			"a substance with hazard statements is never a student's task",
			"write  who: adults")
	}
	for _, limit := range []*lesson.Limit{c.Limit, c.Everybody} {
		if limit != nil && !c.Adults {
			problems.Error(c.File, limit.At, "hazard-for-students",
				"a substance with an exposure limit is never a student's task",
				"write  who: adults")
		}
		if limit != nil && limit.PPM >= 1e6 { // a slip of the unit, mostly
			problems.Error(c.File, limit.At, "limit-too-large",
				"a million ppm is all of the air; no limit is as high", "copy the limit from its source")
		}
	}
}

// lookUp reports the codes of one list that are unknown, or belong in the other.
func lookUp(c *lesson.Card, codes []lesson.Text, l, other codeList, problems *problem.List) {
	for _, code := range codes {
		if st, ok := l.lookup(code.Value); ok {
			if _, translated := st.In(c.Language); !translated {
				problems.Caution(c.File, code.At, "statement-language",
					"there is no official text of "+st.Code+" in “"+c.Language+"” here, and cards show the English one",
					"see the product's label for it, and say what it means in the card's own words")
			}
			continue
		}
		what, hint := "there is no "+l.kind+" "+code.Value, l.hint(code.Value)
		if st, ok := other.lookup(code.Value); ok {
			what, hint = st.Code+" is a "+other.kind+", not a "+l.kind, "move it to  "+other.name+": […]"
		}
		problems.Error(c.File, code.At, l.slug, what, hint)
	}
}

// precautionHint names the nearest known codes. A combination of known parts that is in no
// published one has to be taken apart.
func precautionHint(code string) string {
	parts, near := partsOf(code), nearPrecautions(code)
	unknown := slices.ContainsFunc(parts, func(part string) bool { _, ok := hazard.Precaution(part); return !ok })
	within := len(near) > 0 && !slices.ContainsFunc(parts,
		func(part string) bool { return !slices.Contains(partsOf(near[0]), part) })
	switch {
	case len(parts) > 1 && !unknown && !within:
		return "that combination is not a published one; write its parts one by one: " + strings.Join(parts, ", ")
	case len(near) == 1:
		return "the nearest known code is " + near[0] + "; " + copyFromSheet
	case len(near) > 1:
		return "the nearest known codes are " + strings.Join(near, ", ") + "; " + copyFromSheet
	}
	return copyFromSheet
}

// partsOf takes a combination such as P305+P351+P338 apart. Labels print blanks in it.
func partsOf(code string) []string {
	return strings.FieldsFunc(strings.ToUpper(code), func(r rune) bool { return strings.ContainsRune("+ []", r) })
}

// nearPrecautions gives up to three known codes: of a combination the shortest of those that
// share most parts with it, of a single code those that one slip of the pen leads to.
func nearPrecautions(code string) []string {
	parts := partsOf(code)
	if len(parts) == 1 {
		var codes []string
		for _, st := range hazard.Precautions() {
			codes = append(codes, st.Code)
		}
		near := quantity.Nearest(parts[0], codes)
		return near[:min(len(near), 3)]
	}
	var near []string
	shared, length := 1, 0 // of the nearest so far; a combination shares one part at least
	for _, st := range hazard.Precautions() {
		published := partsOf(st.Code)
		n := 0
		for _, part := range parts {
			if slices.Contains(published, part) {
				n++
			}
		}
		switch {
		case n < shared, n == shared && length > 0 && len(published) > length: // another is nearer
		case n == shared && len(published) == length:
			near = append(near, st.Code)
		default:
			near, shared, length = []string{st.Code}, n, len(published)
		}
	}
	return near[:min(len(near), 3)]
}
