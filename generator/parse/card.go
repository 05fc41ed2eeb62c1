package parse

// Care cards.

import (
	"strings"

	"github.com/yuin/goldmark"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
)

// Card reads a care card.
func Card(md goldmark.Markdown, f *source.File) (*lesson.Card, problem.List) {
	return CardIn(lesson.DefaultLanguage, md, f, nil)
}

// CardIn reads a care card of a pack in a language, which may have words of its own, or decimal commas.
func CardIn(language string, md goldmark.Markdown, f *source.File, words *quantity.Vocabulary) (*lesson.Card,
	problem.List) {
	name := strings.TrimSuffix(f.Name[strings.LastIndexByte(f.Name, '/')+1:], ".md")
	c := &lesson.Card{File: f, Name: name, Language: language, Headings: cardHeadings(language)}
	header, body, at, problems := headerOf(f)
	c.Markdown, c.HeaderAt = body, at
	if header != nil {
		if fs := readFields(f, &problems, header, at, cardFields...); fs != nil {
			fs.words = words
			c.HasHeader = true
			c.Title = fs.title("title", true)
			fs.who(c)
			c.First = fs.text("first", false)
			c.Hazards = fs.list("hazards")
			c.Precautions = fs.list("precautions")
			if !fs.has("wear") { // nothing special to wear is something that a coach has to say
				fs.error(at, "field-missing", "the field wear is missing",
					"add a line  wear: [closed shoes]  or, if nothing special is worn,  wear: []")
			}
			c.Wear = textsOf(fs.list("wear"))
			c.Limit = fs.limit("limit")
			c.Everybody = fs.limit("limit-everybody")
			c.Mentions = fs.list("mentions")
			fs.done()
		}
	}
	var inBody problem.List
	c.Body, c.Sections, inBody = markdownWith(language, md, f, body, nil)
	problems.Join(inBody)
	marksOnCard(&document{file: f, problems: &problems}, c.Body)
	return c, problems
}

// cardFields are the fields that a card's header may have.
var cardFields = []string{"title", "who", "students", "adults", "first", "hazards", "precautions", "wear",
	"limit", "limit-source", "limit-everybody", "limit-everybody-source", "mentions"}

// who reads whom a card is for; one for both has to say what each may do. A card that does not say it rightly is
// taken for one for adults, which shows students less.
func (fs *fields) who(c *lesson.Card) {
	who := fs.text("who", true)
	c.Adults, c.Both = who.Value != "students" && who.Value != "both", who.Value == "both"
	if who.Value != "" && c.Adults && who.Value != "adults" {
		fs.error(who.At, "card-who", "a care card is for students, for adults or for both, not for “"+who.Value+"”",
			"write  who: students,  who: adults  or  who: both")
	}
	if c.Both {
		c.StudentsMay, c.AdultsMay = fs.text("students", true).Value, fs.text("adults", true).Value
		return
	}
	for _, name := range []string{"students", "adults"} {
		if who.Value != "students" && who.Value != "adults" { // missing or wrong, and so it is not known whom these are for
			fs.take(name)
		} else if fs.has(name) {
			text := fs.text(name, false)
			fs.error(text.At, "card-who",
				"the field "+name+" belongs to a card for both, and this one is for "+who.Value+" alone",
				"write  who: both,  or leave the field out")
		}
	}
}

// limit gives an exposure limit of a card, which is in ppm and names who published it.
func (fs *fields) limit(name string) *lesson.Limit {
	given, named := fs.has(name), fs.has(name+"-source")
	limit, origin := fs.text(name, given), fs.text(name+"-source", named)
	switch {
	case given && !named:
		fs.error(limit.At, "field-missing", "the limit has no source",
			"add a line  "+name+"-source: …  that says who published it, and for how many hours")
	case named && !given:
		fs.error(origin.At, "field-missing", "there is a "+name+"-source but no limit",
			"add a line such as  "+name+": 200 ppm")
	}
	if limit.Value == "" || origin.Value == "" {
		return nil
	}
	p := fs.words.NewParser(limit.Value, func(i int) int { return limit.At.Start + i })
	lit, negative, err := p.Quantity("the field " + name)
	if err == nil {
		err = p.End()
	}
	if err != nil {
		fs.problems.FromQuantity(fs.file, err)
		return nil
	}
	if negative || lit.Number.Float() <= 0 || lit.Unit.Symbol() != "ppm" || lit.Uncertainty.Exact != nil {
		fs.error(limit.At, "field-kind", "the field "+name+" must be a number of ppm alone, more than zero",
			"write it as published, as in  "+name+": 200 ppm")
		return nil
	}
	return &lesson.Limit{PPM: lit.Number.Float(), Text: lit.String(), Source: origin.Value, At: limit.At}
}
