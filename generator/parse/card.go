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
	name := strings.TrimSuffix(f.Name[strings.LastIndexByte(f.Name, '/')+1:], ".md")
	c := &lesson.Card{File: f, Name: name}
	header, body, at, problems := headerOf(f)
	c.Markdown, c.HeaderAt = body, at
	if header != nil {
		if fs := readFields(f, &problems, header, at, "title", "who", "hazards", "precautions", "wear", "limit",
			"limit-source", "mentions"); fs != nil {
			c.HasHeader = true
			c.Title = fs.text("title", true).Value
			who := fs.text("who", true)
			c.Adults = who.Value != "students" // what cannot be read is on the safe side
			if who.Value != "" && who.Value != "students" && who.Value != "adults" {
				problems.Error(f, who.At, "card-who",
					"a care card is for students or for adults, not for “"+who.Value+"”",
					"write  who: students  or  who: adults")
			}
			c.Hazards = fs.list("hazards")
			c.Precautions = fs.list("precautions")
			if !fs.has("wear") { // nothing special to wear is something that a coach has to say
				fs.error(at, "field-missing", "the field wear is missing",
					"add a line  wear: [closed shoes]  or, if nothing special is worn,  wear: []")
			}
			c.Wear = textsOf(fs.list("wear"))
			c.Limit = fs.limit()
			c.Mentions = fs.list("mentions")
			fs.done()
		}
	}
	var inBody problem.List
	c.Body, c.Sections, inBody = Markdown(md, f, body)
	problems.Join(inBody)
	return c, problems
}

// limit gives the exposure limit of a card, which is in ppm and names who published it.
func (fs *fields) limit() *lesson.Limit {
	given, named := fs.has("limit"), fs.has("limit-source")
	limit, origin := fs.text("limit", given), fs.text("limit-source", named)
	switch {
	case given && !named:
		fs.error(limit.At, "field-missing", "the limit has no source",
			"add a line  limit-source: …  that says who published it, and for how many hours")
	case named && !given:
		fs.error(origin.At, "field-missing", "there is a limit-source but no limit",
			"add a line such as  limit: 200 ppm")
	}
	if limit.Value == "" || origin.Value == "" {
		return nil
	}
	p := quantity.NewParser(limit.Value, func(i int) int { return limit.At.Start + i })
	lit, negative, err := p.Quantity("the field limit")
	if err == nil {
		err = p.End()
	}
	if err != nil {
		fs.problems.FromQuantity(fs.file, err)
		return nil
	}
	if negative || lit.Number.Float() <= 0 || lit.Unit.Symbol() != "ppm" || lit.Uncertainty.Exact != nil {
		fs.error(limit.At, "field-kind", "the field limit must be a number of ppm, more than zero and without ±",
			"write it as published, as in  limit: 200 ppm")
		return nil
	}
	return &lesson.Limit{PPM: lit.Number.Float(), Text: lit.String(), Source: origin.Value, At: limit.At}
}
