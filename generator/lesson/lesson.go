// Package lesson holds the tree of a pack after parsing: the pack and its kits, its
// lessons and care cards, and the nodes that trundle adds to Markdown. Nothing here
// is worked out yet, and nothing is changed after parsing.
package lesson

import (
	"slices"
	"strings"
	"time"

	"github.com/yuin/goldmark/ast"

	"trundle/generator/picture"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/table"
)

// Text is a piece of a header with its place.
type Text struct {
	Value string
	At    source.Span
}

// MeantOtherwise is a phrase with a word in it that calls for a care card, and why it needs none here.
type MeantOtherwise struct{ Phrase, Reason Text }

// DefaultLanguage is that of a pack that names none.
const DefaultLanguage = "en"

// Pack is everything that the pack's folder says.
type Pack struct {
	File           *source.File // pack.yaml
	Title          string
	ID             Text      // what entries are kept under, whatever the title is; may be empty
	Season         Text      // entries of other seasons are kept apart; may be empty
	Start          time.Time // the day of week 1's lesson, UTC; zero if pack.yaml does not say
	Renamed        *Renamed  // nil if no name has changed
	Version        string
	Language       string
	LanguageAt     source.Span // empty if pack.yaml names none
	Kit            Text        // key of the default kit
	Address        string      // of the folder with the students' pages on the web, with its slash; "" if it has none
	Club           string      // who hands the pack out, "" if nobody is named
	Logo           Text        // its mark, a picture of the pack, "pictures/club.png"
	Kits           []*Kit
	Lessons        []*Lesson
	Parts          []*Part
	Cards          []*Card
	Words          *Glossary // nil if the pack has no words.md
	MeantOtherwise []MeantOtherwise
	Vocabulary     *quantity.Vocabulary        // what it names itself beside the language's own words
	Driving        []Text                      // names of the cards that every lesson in which a robot drives carries
	Data           map[string]*table.Table     // files of runs, by name, "data/bases.csv"
	Pictures       map[string]*picture.Picture // by name, "pictures/lock.png"; nil for one that no page shows
	Refused        map[string]string           // pictures that could not be read, and why
	Unread         []string                    // other files and folders that could not be read, which was reported
}

// IsUnread tells whether a file is there and could not be read. That was reported, so what would use it is silent.
func (p *Pack) IsUnread(name string) bool {
	return slices.ContainsFunc(p.Unread, func(unread string) bool {
		return name == unread || strings.HasPrefix(name, unread+"/")
	})
}

// LacksLesson tells whether a lesson is there and could not be read.
func (p *Pack) LacksLesson() bool {
	return slices.ContainsFunc(p.Unread, func(unread string) bool {
		return strings.HasSuffix(unread, ".md") && !strings.Contains(unread, "/") && unread != WordsFile
	})
}

// DefaultKit is the kit whose values keys are compared with, nil if the pack has none.
func (p *Pack) DefaultKit() *Kit {
	for _, k := range p.Kits {
		if k.Key == p.Kit.Value {
			return k
		}
	}
	return nil
}

// Card finds a care card by its name, "damp-cloth".
func (p *Pack) Card(name string) (*Card, bool) {
	for _, c := range p.Cards {
		if c.Name == name {
			return c, true
		}
	}
	return nil, false
}

// Kit is the measured facts of one robot.
type Kit struct {
	Key    string // "heron"
	Title  string // "Heron"
	Fields []Field
}

// Has tells whether a kit states all of some facts.
func (k *Kit) Has(facts []Field) bool {
	for _, f := range facts {
		if !slices.ContainsFunc(k.Fields, func(own Field) bool { return own.Name == f.Name && own.Literal != nil }) {
			return false
		}
	}
	return true
}

// OwnKit is what a team picks on the page if it measures the facts of its robot itself.
const OwnKit = "ours"

// Field is one fact of a kit: wheel, track, gear, or one that the pack names itself.
type Field struct {
	Name    string
	Literal *quantity.Literal // nil if it could not be read
}

// KitFields are the facts that a kit may state, with the unit that shows the kind of
// quantity each is; "" for a plain number.
var KitFields = []struct{ Name, Like string }{{"wheel", "mm"}, {"track", "mm"}, {"gear", ""}}

// Lesson is one lesson file.
type Lesson struct {
	File      *source.File
	Slug      string // "03-rotations-for-a-distance"
	ID        Text   // what entries are kept under, whatever the file is called; may be empty
	Title     string
	Week      int
	Minutes   int
	MinutesAt source.Span
	Goals     []string
	Materials []string
	Standards []string
	Care      []Text
	HeaderAt  source.Span
	HasHeader bool // the header could be read
	// CareByHand: in a language that checks cannot read, its author has looked for what needs a care card.
	CareByHand bool
	Draft      bool     // not ready: checked and shown in the preview, and not handed out
	Body       ast.Node // a goldmark document over Markdown
	Markdown   []byte   // the file with its header blanked, so that offsets are the file's
	Sections   []*Section
	Words      *quantity.Vocabulary // what its pack names itself
	Language   string               // of its pack

	outline *outline // of a lesson whose body was let go, nil while it is there
}

// Section is a heading of level 2 and what follows it.
type Section struct {
	ID         string
	Title      string
	Minutes    int
	HasMinutes bool
	IfTime     bool // it may be left out
	Spare      int  // as many of its minutes are for when there is time
	Mentors    bool // for the mentors' edition only
	At         source.Span
}
