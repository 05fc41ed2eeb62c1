package drawn

// What a figure's picture shows: its numbers as far as this edition may have them, and the sentence that stands for it.

import (
	"html"
	"strconv"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
	"trundle/site/words"
)

// Width is that of a still picture. A script draws as wide as the page has room.
const Width = 360.0

// Heights are those of the pictures, whoever draws them. The style sheet and the script have them too.
var Heights = map[lesson.FigureKind]float64{
	lesson.UnrollFigure: 148, lesson.LapsFigure: 112, lesson.TapeFigure: 144, lesson.PathFigure: 144,
	lesson.ReadFigure: 100, lesson.PartFigure: 72, lesson.ShuffleFigure: 144,
}

// A view is a figure as one edition sees it.
type view struct {
	*work.Figure
	words    words.Words
	width    float64
	open     bool // it may have numbers
	told     bool // what a record's figure shows besides its readings, too
	first    []float64
	second   []float64
	roll     float64 // of unroll: how far it has rolled
	missing  []string
	p        *pen
	sentence string
}

// Picture gives a figure's still picture and the sentence for it. Students see no number that is theirs to find, nor
// one of the example.
func Picture(w words.Words, f *work.Figure, mentors bool) (svg, sentence string) {
	v := view{Figure: f, words: w, width: Width, open: mentors || f.Until.Value == "", told: mentors, roll: 1,
		p: &pen{write: w.Number}}
	for i, value := range f.Values {
		numbers := value.Numbers
		if value.OfStudents && !mentors {
			numbers, v.missing = nil, append(v.missing, value.Names...)
		}
		if i == 0 {
			v.first = numbers
		} else {
			v.second = numbers
		}
	}
	v.draw()
	// The script draws as wide as the page and as high as this: the page must not move when it does.
	high := strconv.FormatFloat(Heights[f.Kind], 'f', -1, 64)
	return `<svg viewBox="0 0 360 ` + high + `" preserveAspectRatio="xMinYMid" role="img" aria-label="` +
		html.EscapeString(v.sentence) + `">` + v.p.String() + "</svg>", v.sentence
}

func (v *view) draw() {
	switch v.Kind {
	case lesson.UnrollFigure:
		v.unroll()
	case lesson.LapsFigure:
		v.laps()
	case lesson.TapeFigure:
		v.stops()
	case lesson.PathFigure:
		v.path()
	case lesson.ReadFigure:
		v.read()
	case lesson.PartFigure:
		v.part()
	case lesson.ShuffleFigure:
		v.shuffle()
	}
}

// say ends with what the figure waits for.
func (v *view) say(name string, parts ...string) {
	v.sentence = saying(v.words, name, parts...)
	if !v.open {
		v.sentence += " " + saying(v.words, "shut", v.Until.Value)
	}
}

// empty says what the figure is drawn from, when that is not there.
func (v *view) empty() { v.sentence = saying(v.words, "empty", strings.Join(v.missing, ", ")) }

// parts of a unit of the tape.
func (v *view) parts() int {
	if v.Inches {
		return 16
	}
	return 10
}

// shown writes one value as people read it: as the lesson does, else in its own unit. A tape is in cm or inches,
// whatever the value is in, so that 48 in stays 48 in on a tape of cm.
func (v *view) shown(i int) string {
	value := v.Values[i]
	if value.Text != "" {
		return v.words.Number(value.Text)
	}
	q, _ := quantity.New(value.Numbers[0], v.Unit).In(value.Unit)
	return v.amount(q.Number, value.Unit)
}
