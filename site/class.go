package site

// The mentors' page of the whole class, and what it knows of each lesson: the same fields by which students' pages
// judge, what is asked, and which answers to choose are right. None of it may be in the students' edition.

import (
	"bytes"
	"encoding/json"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/work"
)

// ClassPage is the name of the mentors' page of the whole class, and ClassScript that of its script.
const (
	ClassPage   = "class.html"
	ClassScript = "assets/class.js"
	classStyle  = "assets/class.css"
)

// IsOfClass tells whether an asset is for that page alone.
func IsOfClass(name string) bool { return name == ClassScript || name == classStyle }

// ClassLesson is the name of the script with what that page knows of a lesson.
func ClassLesson(l *lesson.Lesson) string { return "class/" + l.Slug + ".js" }

// classData is what the script of the page starts with.
type classData struct {
	Pack    string       `json:"pack"`
	Names   string       `json:"names"`
	Title   string       `json:"title"`
	Version string       `json:"version"`
	Ours    string       `json:"ours"` // what a robot is called that its team measured itself
	Lessons []ClassIndex `json:"lessons"`
}

// ClassIndex is a lesson by which files are told apart; Records are in small letters.
type ClassIndex struct {
	Slug    string   `json:"slug"`
	Key     string   `json:"key"`
	Title   string   `json:"title"`
	Records []string `json:"records"`
}

// ClassIndexOf gives what the page knows of a lesson.
func ClassIndexOf(l *work.Lesson) ClassIndex {
	one := ClassIndex{Slug: l.Slug, Key: l.Key(), Title: l.Title, Records: []string{}}
	for _, f := range l.Fields {
		if f.Statement.Kind == lesson.Record {
			one.Records = append(one.Records, strings.ToLower(f.Statement.Name))
		}
	}
	return one
}

// Class makes the page.
func (s *Site) Class(p *lesson.Pack, lessons []ClassIndex) ([]byte, error) {
	table, err := s.names.of(p)
	if err != nil {
		return nil, err
	}
	data := classData{Pack: PackID(p), Names: table.Sum, Title: p.Title, Version: p.Version,
		Ours: s.words.Say("kit-ours"), Lessons: lessons}
	text, err := json.Marshal(data) // which writes < > & as \u…
	if err != nil {
		return nil, err
	}
	content := trusted(`<script type="application/json" id="_class">` + string(text) + `</script>`)
	return s.page("class.html", frame{Edition: Mentors, Title: s.words.Say("class-page"), Pack: p, Class: true,
		Content: content})
}

// classField is a field with what the page of the class needs besides.
type classField struct {
	field
	Runs int      `json:"c,omitempty"`
	Ask  string   `json:"ask,omitempty"`
	Aim  *float64 `json:"aim,omitempty"`
}

// classAsk is a question; Answers are those to choose from.
type classAsk struct {
	Name    string        `json:"n"`
	Ask     string        `json:"ask"`
	Answers []classAnswer `json:"answers,omitempty"`
}

// classAnswer is an answer to choose, with what is said of it.
type classAnswer struct {
	Text  string `json:"text"`
	Right bool   `json:"right,omitempty"`
	Hint  string `json:"hint,omitempty"`
}

// ClassLesson makes the script of a lesson.
func (s *Site) ClassLesson(p *lesson.Pack, l *work.Lesson) ([]byte, error) {
	var out struct {
		Week   int                `json:"week"`
		Fields []classField       `json:"fields"`
		Asks   []classAsk         `json:"asks"`
		Kits   map[string]kitData `json:"kits,omitempty"`
		Kit    string             `json:"kit,omitempty"`
		Units  [][2]string        `json:"units,omitempty"`
	}
	out.Week, out.Fields, out.Asks = l.Week, []classField{}, []classAsk{}
	if len(l.KitUsed) > 0 {
		out.Kit, out.Kits = l.Kit.Key, kits(s.words, p, l)
		for _, f := range l.KitUsed {
			out.Units = append(out.Units, [2]string{f.Name, f.Literal.Unit.Symbol()})
		}
	}
	for _, f := range l.Fields {
		one := classField{field: fieldOf(s.words, f), Ask: s.marks.Text(f.Statement.Prompt)}
		if f.Statement.Kind == lesson.Record {
			one.Runs = len(f.Statement.Texts)
			if aim := l.AimOf(f); aim != nil {
				x := quantity.Snapped(aim.Number)
				one.Aim = &x
			}
		}
		if f.Statement.Kind == lesson.Find {
			out.Asks = append(out.Asks, classAsk{Name: f.Statement.Name, Ask: one.Ask})
		}
		out.Fields = append(out.Fields, one)
	}
	for _, c := range l.Chooses {
		ask := classAsk{Name: c.Name, Ask: s.marks.Text(c.Prompt)}
		for _, a := range c.Answers {
			answer := classAnswer{Text: a.Text, Right: a.Right}
			if a.Hint != nil {
				answer.Hint = s.marks.Text(a.Hint.Prompt)
			}
			ask.Answers = append(ask.Answers, answer)
		}
		out.Asks = append(out.Asks, ask)
	}
	var script bytes.Buffer
	script.WriteString(stamp)
	name, err := json.Marshal(l.Slug)
	if err != nil {
		return nil, err
	}
	script.WriteString("(trundle.classLessons??={})[" + string(name) + "]=")
	enc := json.NewEncoder(&script)
	enc.SetEscapeHTML(false) // it is a file of its own, not part of a page
	err = enc.Encode(out)
	return script.Bytes(), err
}
