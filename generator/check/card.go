package check

import (
	"cmp"
	"slices"
	"strings"

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
		case inside && !heading && !lesson.ForMentors(n):
			return false
		}
	}
	return inside
}

// startsAt tells whether a heading is a section's.
func startsAt(h *ast.Heading, s *lesson.Section) bool {
	return h.Lines().Len() > 0 && h.Lines().At(0).Start <= s.At.Start && s.At.Start <= h.Lines().At(0).Stop
}

// hazards looks every hazard statement of a card up.
func hazards(c *lesson.Card, problems *problem.List) {
	for _, h := range c.Hazards {
		if _, ok := hazard.Hazard(h.Value); ok {
			continue
		}
		if st, ok := hazard.Precaution(h.Value); ok {
			problems.Error(c.File, h.At, "unknown-hazard", st.Code+" is a precautionary statement, not a hazard statement", "move it to  precautions: […]")
			continue
		}
		problems.Error(c.File, h.At, "unknown-hazard", "there is no hazard statement "+h.Value,
			"copy the codes from section 2 of the safety data sheet, or leave hazards out if there is no such sheet")
	}
	if len(c.Hazards) > 0 && !c.Adults {
		problems.Error(c.File, c.Hazards[0].At, "hazard-for-students", "a substance with hazard statements is never a student's task",
			"write  who: adults")
	}
}

// precautions looks every precautionary statement of a card up.
func precautions(c *lesson.Card, problems *problem.List) {
	for _, p := range c.Precautions {
		if _, ok := hazard.Precaution(p.Value); ok {
			continue
		}
		if st, ok := hazard.Hazard(p.Value); ok {
			problems.Error(c.File, p.At, "unknown-precaution", st.Code+" is a hazard statement, not a precautionary statement", "move it to  hazards: […]")
			continue
		}
		problems.Error(c.File, p.At, "unknown-precaution", "there is no precautionary statement "+p.Value, precautionHint(p.Value))
	}
}

// precautionHint names the nearest known codes. A combination of known parts that is in no
// published one has to be taken apart.
func precautionHint(code string) string {
	const copied = "copy the codes from section 2 of the safety data sheet"
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

// nearPrecautions gives up to three known codes: of a combination those that share most
// parts with it, else those that the fewest slips of the pen lead to.
func nearPrecautions(code string) []string {
	type candidate struct {
		code          string
		shared, slips int
	}
	parts := partsOf(code)
	written := strings.Join(parts, "+")
	if len(parts) == 0 || len(written) > 40 {
		return nil
	}
	var all []candidate
	for _, st := range hazard.Precautions() {
		known := partsOf(st.Code)
		c := candidate{code: st.Code, slips: edits(written, strings.Join(known, "+"))}
		for _, part := range parts {
			if slices.Contains(known, part) {
				c.shared++
			}
		}
		all = append(all, c)
	}
	slices.SortStableFunc(all, func(a, b candidate) int { return cmp.Or(b.shared-a.shared, a.slips-b.slips) })
	var near []string
	for _, c := range all {
		if first := all[0]; c.shared == first.shared && c.slips == first.slips && len(near) < 3 && (c.shared > 0 || c.slips <= 2) {
			near = append(near, c.code)
		}
	}
	return near
}

// edits counts the letters to put in, leave out or change that lead from a to b.
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := corner
			if a[i] != b[j] {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
