package site

// The tape along the top of a lesson: its parts, the numerals of its minutes, a ring for each question, and the widths
// of all that as classes of the style sheet.

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/typography"
	"trundle/generator/work"
)

// A tapeStrip is a lesson's tape, part by part.
type tapeStrip []tapePart

// tapePart is a timed part of a lesson on the tape.
type tapePart struct {
	lesson.TimedPart
	Finds []string // its questions by name, in the order of the page: students' tapes have a ring for each
	marks typography.Marks
}

// narrow is up to how many minutes a part may be too short for two words of its name, on a screen or another.
const narrow = 4

// First is as much of a part's label as always fits: a narrow part's first word, the whole label of another. Words that
// have no room in the part on a phone may be parted: not every browser knows the syllables of every language.
func (p tapePart) First() string {
	const minute, edge, letter = 13.4, 7.6, 8.4 // how wide they are there, in pixels
	return p.marks.Parted(strings.TrimSuffix(p.Label, p.Rest()), int((float64(p.Minutes)*minute-edge)/letter))
}

// Rest is what follows the first word of a narrow part's label; the style sheet shows it where there is room.
func (p tapePart) Rest() string {
	end := strings.IndexByte(p.Label, ' ')
	if end < 0 || p.Minutes > narrow {
		return ""
	}
	return p.Label[end:]
}

// tapeParts are the timed parts of a lesson, each with when it starts and ends.
func tapeParts(l *lesson.Lesson) tapeStrip {
	var all tapeStrip
	for _, part := range lesson.TimedParts(l) {
		all = append(all, tapePart{TimedPart: part})
	}
	return all
}

// in lets words be parted as a language does.
func (t tapeStrip) in(language typography.Marks) tapeStrip {
	for i := range t {
		t[i].marks = language
	}
	return t
}

// punch gives each part the questions that stand in it; those before the first have no ring.
func (t tapeStrip) punch(l *work.Lesson) {
	for _, f := range l.Fields {
		if f.Statement.Kind != lesson.Find {
			continue
		}
		for i, part := range slices.Backward(t) {
			if part.At.Start <= f.Statement.At.Start {
				t[i].Finds = append(part.Finds, f.Statement.Name)
				break
			}
		}
	}
}

// Minutes are those of the whole lesson.
func (t tapeStrip) Minutes() int {
	if len(t) == 0 {
		return 0
	}
	return t[len(t)-1].To
}

// A numeral stands beside its mark, so many percent of the tape from its start. The mark is the edge of a part, or a
// long tick.
type numeral struct {
	Minute int
	At     string
	Tick   bool
}

// apart is how many minutes a numeral needs for itself: "17:20" is as wide on a narrow tablet.
const apart = 4

// Numerals stand where a part starts, and every ten minutes where there is room between those.
func (t tapeStrip) Numerals() []numeral {
	var all []numeral
	for _, part := range t {
		all = append(all, t.numeral(part.From, false))
		for ten := (part.From + apart + 9) / 10 * 10; ten <= part.To-apart; ten += 10 {
			all = append(all, t.numeral(ten, true))
		}
	}
	return all
}

func (t tapeStrip) numeral(minute int, tick bool) numeral {
	at := 100 * float64(minute) / float64(max(t.Minutes(), 1))
	return numeral{minute, strconv.FormatFloat(at, 'f', 1, 64) + "%", tick}
}

// tapeWidths makes a class for each number of minutes that a lesson of the pack or a part of one has, since the
// security policy of the pages allows no style in the HTML: both are as wide as their minutes.
func tapeWidths(p *lesson.Pack) []byte {
	seen := map[int]bool{}
	for _, l := range p.Lessons {
		whole := 0
		for _, s := range l.Sections {
			if s.IsTimed() {
				seen[s.Minutes] = true
				whole += s.Minutes
			}
		}
		seen[whole] = true
	}
	var css []byte
	for _, m := range slices.Sorted(maps.Keys(seen)) {
		n := strconv.Itoa(m)
		css = append(css, ".m"+n+"{--m:"+n+"}\n"...)
	}
	return css
}
