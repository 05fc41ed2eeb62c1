package generator

// The limits that an author may meet, for whoever looks them up. A constant whose name begins with Max is one of them;
// a test sees to it that each of these, wherever it is, has its row here.

import (
	"strconv"

	"trundle/generator/bundle"
	"trundle/generator/check"
	"trundle/generator/lesson"
	"trundle/generator/parse"
	"trundle/generator/picture"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/read"
	"trundle/generator/table"
	"trundle/generator/tally"
	"trundle/generator/work"
)

// Limits are those of one matter.
type Limits struct {
	Of   string
	Rows []Limit
}

// A Limit is how much there may be at most, and of what.
type Limit struct{ Most, Of string }

// AllLimits gives the limits in the order in which an author may meet them.
func AllLimits() []Limits {
	return []Limits{
		{"a pack and its files", ofPack()},
		{"a lesson", ofLesson()},
		{"work blocks and expressions", ofWork()},
		{"runs", ofRuns()},
		{"pictures", ofPictures()},
		{"what teams hand in", []Limit{
			count(quantity.MaxAnswer, "characters of an answer"),
			count(tally.MaxText, "characters of an entry"),
			count(tally.MaxTeam, "characters of the name of a team or a robot"),
			count(tally.MaxEntries, "entries of a file of saved work"),
		}},
		{"bundles that are checked", []Limit{
			count(bundle.MaxFiles, "files of a bundle"),
			size(bundle.MaxAll, "all of them together, unpacked"),
		}},
		{"problems that are printed", []Limit{
			count(problem.MaxPrinted, "problems on a terminal; a report has all"),
			count(problem.MaxOfKind, "problems of one kind in a file, there and in a report; the others are counted"),
		}},
	}
}

func ofPack() []Limit {
	return []Limit{
		count(read.MaxFiles, "files of a pack"),
		size(read.MaxMarkdown, "a lesson, a part, a care card or words.md"),
		size(read.MaxMarkdownLine, "a line of one"),
		size(parse.MaxWithParts, "a lesson with its parts put in"),
		size(read.MaxText, "any other text, such as a file of runs"),
		size(read.MaxLine, "a line of one"),
		size(parse.MaxHeader, "a header, or the fields of a file such as pack.yaml"),
		count(parse.MaxBrackets, "brackets within each other on a line of fields"),
		count(parse.MaxMarks, "lists and keys within each other on a line of fields"),
		count(check.MaxSlug, "bytes of the name of a lesson's file"),
		count(bundle.MaxName, "bytes of any name of a file or folder in a bundle"),
		count(parse.MaxTitle, "characters of a title, and of a club's name"),
		count(parse.MaxKits, "kits"),
		count(parse.MaxFormulas, "formulas of the pack's own"),
		count(quantity.MaxFormula, "numbers, names and signs of one, with all that it calls written out"),
		count(parse.MaxID, "characters of an id"),
		count(parse.MaxSeason, "characters of a season"),
		count(parse.MaxVersion, "characters of a version"),
		count(parse.MaxAddress, "bytes of the pages' address"),
	}
}

func ofLesson() []Limit {
	return []Limit{
		count(parse.MaxWeek, "the last week"),
		count(parse.MaxMinutes, "minutes"),
		count(parse.MaxHeadings, "headings"),
		count(parse.MaxBlocks, "paragraphs, items of lists and their like"),
		count(read.MaxDepth, "quotes and lists within each other"),
		count(read.MaxIndent, "blanks before a line"),
		count(parse.MaxStars, "marks for bold and italic type in a paragraph"),
		count(parse.MaxLinks, "links and pictures"),
		count(parse.MaxCells, "cells of tables"),
		count(parse.MaxValues, "values in braces"),
		count(parse.MaxCode, "lines of code"),
		size(lesson.MaxColoured, "a program that is coloured; a longer one is shown in one colour"),
		size(lesson.MaxColouredSlow, "the same in Go, Java or HTML"),
		count(lesson.MaxColouredLine, "bytes of a line of one"),
		size(lesson.MaxColouredPage, "all programs of a lesson that are coloured"),
		count(lesson.MaxTokens, "words and signs of a term in words.md"),
	}
}

func ofWork() []Limit {
	return []Limit{
		count(parse.MaxStatements, "statements of a lesson"),
		count(parse.MaxLines, "lines of a block"),
		count(parse.MaxName, "characters of the name of a value, of a kit or of a fact of one"),
		count(parse.MaxPrompt, "characters of a question"),
		count(parse.MaxReadings, "readings of a record"),
		count(parse.MaxAnswers, "answers to choose from"),
		count(parse.MaxOfAnswer, "characters of one"),
		count(parse.MaxGauges, "gauges of a lesson"),
		count(parse.MaxTimes, "times that a figure of a path is drawn larger sideways"),
		count(quantity.MaxTokens, "numbers, names and signs of an expression"),
		count(quantity.MaxDepth, "brackets within each other"),
		count(quantity.MaxDigits, "digits of a number"),
		count(quantity.MaxPower, "the power of a unit, as in m^3"),
	}
}

func ofRuns() []Limit {
	return []Limit{
		count(table.MaxRows, "rows of a file"),
		count(table.MaxColumns, "columns"),
		count(table.MaxCell, "characters of a cell"),
		count(table.MaxNumber, "the largest number"),
		count(work.MaxData, "runs, chart, compare, readers and show blocks of a lesson"),
		count(work.MaxGroups, "groups of one block"),
		count(tally.MaxGroups, "groups of a tally"),
		count(parse.MaxPoints, "points of a weight or a score"),
	}
}

func ofPictures() []Limit {
	return []Limit{
		size(read.MaxPicture, "a file"),
		size(MaxPictures, "all that pages show, together"),
		size(check.MaxLogo, "the logo"),
		count(picture.MaxPixels, "pixels, of all frames together"),
		count(picture.MaxSide, "pixels along the longer side; a larger photo is made smaller"),
		count(picture.MaxFrames, "frames of a moving picture"),
		count(picture.MaxScans, "scans of a JPEG"),
		size(picture.MaxDrawing, "an SVG"),
		count(picture.MaxElements, "elements of an SVG, each as often as it is drawn"),
		count(picture.MaxDepth, "elements of an SVG within each other"),
	}
}

func count(n int, of string) Limit { return Limit{quantity.Grouped(n), of} }

// size writes a number of bytes in the largest unit in which it is a whole number.
func size(bytes int, of string) Limit {
	for _, unit := range []struct {
		name string
		bits int
	}{{"GB", 30}, {"MB", 20}, {"kB", 10}} {
		if n := bytes >> unit.bits; n > 0 && n<<unit.bits == bytes {
			return Limit{strconv.Itoa(n) + " " + unit.name, of}
		}
	}
	return Limit{quantity.Grouped(bytes) + " bytes", of}
}
