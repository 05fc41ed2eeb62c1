package check

import (
	"regexp"
	"slices"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/hazard"
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
)

// sectionsOfCard are the parts that every care card has, and what belongs there.
var sectionsOfCard = []struct{ title, says string }{
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
		if !s.Mentors {
			title := strings.ToLower(strings.TrimRight(s.Title, " .:?!…"))
			titles = append(titles, title)
			below[title] = s
		}
	}
	var missing, hints []string
	for _, want := range sectionsOfCard {
		title := strings.ToLower(want.title)
		s := below[title]
		if s == nil {
			hint := "add a heading  ## " + want.title + "  with " + want.says
			if near := quantity.Nearest(title, titles); len(near) == 1 {
				hint = "write  ## " + want.title + "  instead of  ## " + below[near[0]].Title
			}
			missing, hints = append(missing, "“"+want.title+"”"), append(hints, hint)
		} else if emptyBelow(c, s) {
			problems.Error(c.File, s.At, "card-section", "nothing stands below “"+s.Title+"”", "write "+want.says)
		}
	}
	if len(missing) > 0 {
		problems.Error(c.File, c.HeaderAt, "card-section", "the care card has no part "+strings.Join(missing, ", "), strings.Join(hints, "; "))
	}
}

// emptyBelow tells whether nothing but smaller headings stands between a section's heading and the next.
func emptyBelow(c *lesson.Card, s *lesson.Section) bool {
	inside := false
	for n := c.Body.FirstChild(); n != nil; n = n.NextSibling() {
		h, heading := n.(*ast.Heading)
		switch {
		case heading && h.Level <= 2:
			if inside {
				return true
			}
			inside = startsAt(h, s)
		case inside && !heading && !lesson.ForMentors(n) && says(n, c.Markdown):
			return false
		}
	}
	return inside
}

// says tells whether a node has a word in it that is more than a note to oneself.
func says(n ast.Node, src []byte) bool {
	return strings.IndexFunc(toDo.ReplaceAllString(string(wholeRun(n, src).text), ""), unicode.IsLetter) >= 0
}

// toDo is what stands where somebody means to write later.
var toDo = regexp.MustCompile(`(?i)\b(?:todo|to do|tbd|tba|fixme|xxx)\b`)

// startsAt tells whether a heading is a section's.
func startsAt(h *ast.Heading, s *lesson.Section) bool {
	return h.Lines().Len() > 0 && h.Lines().At(0).Start <= s.At.Start && s.At.Start <= h.Lines().At(0).Stop
}

// A list is one of a card's two lists of codes.
type list struct {
	slug, name, kind string
	lookup           func(code string) (hazard.Statement, bool)
	hint             func(code string) string
}

const copied = "copy the codes from section 2 of the safety data sheet"

var (
	hazardList = list{"unknown-hazard", "hazards", "hazard statement", hazard.Hazard, func(string) string {
		return copied + ", or leave hazards out if there is no such sheet"
	}}
	precautionList = list{"unknown-precaution", "precautions", "precautionary statement", hazard.Precaution, precautionHint}
)

// statements looks every statement of a card up.
func statements(c *lesson.Card, problems *problem.List) {
	known(c, c.Hazards, hazardList, precautionList, problems)
	known(c, c.Precautions, precautionList, hazardList, problems)
	if len(c.Hazards) > 0 && !c.Adults {
		problems.Error(c.File, c.Hazards[0].At, "hazard-for-students", "a substance with hazard statements is never a student's task",
			"write  who: adults")
	}
	for _, limit := range []*lesson.Limit{c.Limit, c.Everybody} {
		if limit != nil && !c.Adults {
			problems.Error(c.File, limit.At, "hazard-for-students", "a substance with an exposure limit is never a student's task",
				"write  who: adults")
		}
		if limit != nil && limit.PPM >= 1e6 {
			problems.Error(c.File, limit.At, "limit-too-large", "a million ppm is all of the air; no limit is as high", "copy the limit from its source")
		}
	}
}

// known looks the codes of one list up; one that belongs into the other is told so.
func known(c *lesson.Card, codes []lesson.Text, l, other list, problems *problem.List) {
	for _, code := range codes {
		if _, ok := l.lookup(code.Value); ok {
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
	within := len(near) > 0 && !slices.ContainsFunc(parts, func(part string) bool { return !slices.Contains(partsOf(near[0]), part) })
	switch {
	case len(parts) > 1 && !unknown && !within:
		return "that combination is not a published one; write its parts one by one: " + strings.Join(parts, ", ")
	case len(near) == 1:
		return "the nearest known code is " + near[0] + "; " + copied
	case len(near) > 1:
		return "the nearest known codes are " + strings.Join(near, ", ") + "; " + copied
	}
	return copied
}

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
		known := partsOf(st.Code)
		n := 0
		for _, part := range parts {
			if slices.Contains(known, part) {
				n++
			}
		}
		switch {
		case n < shared, n == shared && length > 0 && len(known) > length:
		case n == shared && len(known) == length:
			near = append(near, st.Code)
		default:
			near, shared, length = []string{st.Code}, n, len(known)
		}
	}
	return near[:min(len(near), 3)]
}
