package main

// This file prints what an editor needs to help: the schemas of the fields, and the form of a problem's line.

import (
	"fmt"
	"io"

	"trundle/generator/problem"
	"trundle/generator/schema"
)

// printSchemas lists the schemas, or prints one as it is, to be kept in a file.
func printSchemas(w io.Writer, words []string) (unknown string) {
	if len(words) == 0 {
		fmt.Fprint(w, wrapped("A schema says which fields a file may have. An editor that understands JSON Schema "+
			"(draft 2020-12) completes and underlines with it. Each is printed by its name:", 0)+
			"\n\n   trundle help schemas pack >pack.schema.json\n\n")
		var rows [][2]string
		for _, s := range schema.All() {
			rows = append(rows, [2]string{s.Name, s.Of})
		}
		printRows(w, rows)
		fmt.Fprint(w, "\n"+wrapped("How a file is told of its schema is in the manual of your editor: most of those "+
			"that understand YAML take a list of files with their schemas, or a comment on the first line.", 0)+"\n\n")
		printProblemLine(w)
		return ""
	}
	return printEach(w, words, schema.Named, func(w io.Writer, s schema.Schema) { _, _ = w.Write(s.Text) })
}

// printProblemLine says how the first line of a problem is made up, so that an editor can find its place.
func printProblemLine(w io.Writer) {
	fmt.Fprintf(w, "%s\n\n   %s\n\n%s\n\n%s", wrapped("The first line of a problem matches this regular expression; "+
		"the lines below it are indented, and show the place and what to do:", 0), problem.LinePattern,
		wrapped("For an editor that wants it as JSON, with the number of the group that each part is in:", 0),
		problem.LineJSON())
}
