package site

// The style sheets of the pages: which small files make up each.

import (
	"embed"
	"fmt"

	"trundle/generator/lesson"
)

//go:embed styles/*.css
var styleFiles embed.FS

// StyleSheet is the name of the style sheet that every page has. It depends on the pack, as no other does.
const StyleSheet = "assets/site.css"

// BelowSheet is the name of the one for what is further down on a lesson's page.
const BelowSheet = "assets/below.css"

// PrintSheet is the name of the one for pages that are printed.
const PrintSheet = "assets/print.css"

// Typeface names the files of the pages' typeface, regular and bold, and its licence, which goes wherever they go. They
// are made by .ci/fonts.
var Typeface = []string{"assets/regular.woff2", "assets/bold.woff2", "assets/fonts.txt"}

// A styleSheet is a file that pages refer to: small files, one after the other.
type styleSheet struct {
	name  string
	files []string
}

// pageStyles: every page has the first three. A lesson asks for the third right before its text, and for that of
// figures right before its first one, so that what stands above is shown without them.
// What comes of answers is in the script that checks them: check.js.
var pageStyles = []styleSheet{
	{StyleSheet, []string{"base", "type", "tape", "lesson"}},
	{PrintSheet, []string{"print"}},
	{BelowSheet, []string{"below", "work"}},
	{"assets/figures.css", []string{"figures", "chart"}},
	{"assets/show.css", []string{"show"}}, // as figures, right before the first figure of a show block
	{"assets/mentors.css", []string{"mentors", "answers"}},
	{"assets/season.css", []string{"season"}},
	{classStyle, []string{"class"}},         // of the mentors' page of the class
	{"assets/start.css", []string{"start"}}, // of the page that a bundle starts with
	{"assets/care.css", []string{"care"}},
	{"assets/words.css", []string{"words"}}, // of the page that explains the pack's words
	{"assets/log.css", []string{"log"}},     // of students' lessons, which ask for it right before their log
}

// pageStyle makes one for a pack, or for a page without one.
func pageStyle(sheet styleSheet, p *lesson.Pack) ([]byte, error) {
	var all []byte
	for _, name := range sheet.files {
		text, err := styleFiles.ReadFile("styles/" + name + ".css")
		if err != nil {
			return nil, err
		}
		all = append(all, text...)
	}
	if sheet.name == StyleSheet && p != nil {
		all = append(all, tapeWidths(p)...)
	}
	small, err := smaller(all, "css")
	if err != nil {
		return nil, fmt.Errorf("%s: %w", sheet.name, err)
	}
	return small, nil
}
