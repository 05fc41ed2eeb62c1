package main

// This file prints the list of the coach's language.

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"trundle/generator/language"
)

// printLanguage prints all of the language, or the sections and words that are named.
func printLanguage(w io.Writer, names []string) (unknown string) {
	all := language.Sections()
	if len(names) == 0 {
		fmt.Fprintf(w, "%s\n", wrapped("This is all that trundle reads in a pack. trundle start makes one to look at; "+
			"trundle help language and a name below shows a part of this alone, or what is said of a word.", 0))
		var rows [][2]string
		for _, s := range all {
			rows = append(rows, [2]string{s.Name, s.Title})
		}
		fmt.Fprintln(w)
		printRows(w, rows)
		for _, s := range all {
			printSection(w, s)
		}
		return ""
	}
	about := func(name string) ([]language.Section, bool) {
		parts := partsAbout(all, name)
		return parts, len(parts) > 0
	}
	return printEach(w, names, about, func(w io.Writer, parts []language.Section) {
		for i, s := range parts {
			if i > 0 {
				fmt.Fprintln(w)
			}
			printWords(w, s)
		}
	})
}

// partsAbout finds what is said of a name: a whole section, or the rows of a word in all sections that have it.
func partsAbout(all []language.Section, name string) []language.Section {
	var found []language.Section
	for _, s := range all {
		if s.Name == name {
			return []language.Section{s}
		}
		s.Words = slices.DeleteFunc(slices.Clone(s.Words), func(w language.Word) bool { return w.Name != name })
		if len(s.Words) > 0 {
			found = append(found, s)
		}
	}
	return found
}

// printSection prints a section with its name above it.
func printSection(w io.Writer, s language.Section) {
	fmt.Fprintf(w, "\n%s\n", strings.ToUpper(s.Name))
	printWords(w, s)
}

// printWords prints the first sentence of a section and its words.
func printWords(w io.Writer, s language.Section) {
	fmt.Fprintf(w, "%s\n\n", wrapped(s.Title, 0))
	var rows [][2]string
	for _, word := range s.Words {
		rows = append(rows, [2]string{word.Form, capital(word.Meaning) + "."})
	}
	printRows(w, rows)
}

// languageNames are all names that can be asked for here, for whoever slips on one.
func languageNames() []string {
	var names []string
	for _, s := range language.Sections() {
		names = append(names, s.Name)
		for _, word := range s.Words {
			names = append(names, word.Name)
		}
	}
	return names
}
