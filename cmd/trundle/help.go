package main

// This file prints the help screens: the list of what there is, one command, one topic, one problem.

import (
	"bufio"
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/alecthomas/kong"

	"trundle/generator/problem"
	"trundle/generator/quantity"
)

// helpCommand shows help in answer to words: of commands, topics and problems alike.
type helpCommand struct {
	Words []string `arg:"" optional:"" name:"word" help:"A command, a topic, or the short name of a problem."`
}

// helpWidth is how many columns a line of help takes at most; the terminal itself is not asked, so that the help of all
// computers reads the same and a test can compare it.
const helpWidth = 80

// A topic is something to read about that is not a command.
type topic struct {
	name, purpose string
	// print takes the words after the topic's name, and gives back the first that it does not know.
	print func(w io.Writer, words []string) (unknown string)
}

// topics are in the order in which they are listed.
func topics() []topic {
	return []topic{
		{"problems", "what each problem means, by the short name in its brackets", printProblemKinds},
		{"language", "all that can be written in a pack, or one part of it, as in help language units", printLanguage},
		{"schemas", "what the fields of a pack's files may be, and the lines of problems, for editors", printSchemas},
		{"limits", "how much there may be at most in a pack, from the size of a file to the digits of a number", printLimits},
		{"codes", "the codes with which trundle ends, for scripts", printCodes},
		{"notices", "the licences of the libraries and fonts that trundle is made of", printNotices},
	}
}

// Run prints what there is about the words. It is written in one go: a line at a time takes longer than finding it.
func (c *helpCommand) Run(p *program, k *kong.Kong) error {
	out := bufio.NewWriter(p.stdout)
	unknown, ok := c.print(out, k.Model.Node)
	if err := out.Flush(); err != nil || ok {
		return nil // the writer below keeps the error
	}
	return p.noHelp(unknown, k.Model.Node)
}

// print goes through the words, and gives back the first that it does not know, if there is one. A topic takes all that
// follow it, as in help problems key-mismatch; else each word stands for itself.
func (c *helpCommand) print(w io.Writer, top *kong.Node) (unknown string, ok bool) {
	if len(c.Words) == 0 {
		printList(w, top)
		return "", true
	}
	for i, word := range c.Words {
		if i > 0 {
			fmt.Fprintln(w)
		}
		if j := slices.IndexFunc(topics(), func(t topic) bool { return t.name == word }); j >= 0 {
			unknown := topics()[j].print(w, c.Words[i+1:])
			return unknown, unknown == ""
		}
		if node := commandOf(top, word); node != nil {
			printCommand(w, top, node)
		} else if kind, ok := problem.KindOf(word); ok {
			printProblemKind(w, kind)
		} else if slices.Contains(languageNames(), word) {
			printLanguage(w, []string{word})
		} else {
			return word, false
		}
	}
	return "", true
}

// noHelp says that there is nothing to read about a word. The nearest word may be any kind of word that help knows.
func (p *program) noHelp(word string, top *kong.Node) error {
	var known []string
	for _, c := range top.Children {
		known = append(known, c.Name)
	}
	for _, t := range topics() {
		known = append(known, t.name)
	}
	for _, k := range problem.Kinds() {
		known = append(known, k.Slug)
	}
	known = append(known, languageNames()...)
	return p.misuse(fmt.Errorf("there is no help about %s", plain(word)),
		didYouMean(word, known, "")+"trundle help lists the commands and topics")
}

// didYouMean asks whether one of the nearest words was meant; prefix goes before each, such as the hyphens of a flag.
// It ends with a blank, because the answer to a wrong word always goes on with where to look.
func didYouMean(word string, known []string, prefix string) string {
	near := quantity.Nearest(word, known)
	if len(near) == 0 {
		return ""
	}
	return "did you mean " + prefix + strings.Join(near, " or "+prefix) + "? "
}

// printList says what there is.
func printList(w io.Writer, top *kong.Node) {
	fmt.Fprintf(w, "trundle turns a coach's lessons into a checked site for students and mentors.\n"+
		"To begin:\n\n   trundle start mypack\n   trundle preview mypack --open\n\nWhat it can do:\n\n")
	var rows [][2]string
	for _, c := range top.Children {
		rows = append(rows, [2]string{strings.TrimSpace(c.Name + " " + aboutOf(c.Name).form), c.Help})
	}
	printRows(w, rows)
	rows = nil
	fmt.Fprint(w, "\nMore about each with trundle help and its name. There is also help about:\n\n")
	for _, t := range topics() {
		rows = append(rows, [2]string{t.name, capital(t.purpose) + "."})
	}
	printRows(w, rows)
	fmt.Fprintf(w, "\ntrundle --version prints the version.\n")
}

// printCommand says what a command is for, gives an example, and then goes through its words and flags.
func printCommand(w io.Writer, top, command *kong.Node) {
	fmt.Fprintf(w, "%s\n\n   %s\n\n", wrapped(command.Help, 0), aboutOf(command.Name).example)
	var rows [][2]string
	for _, a := range command.Positional {
		rows = append(rows, [2]string{argumentName(a), a.Help})
	}
	for _, f := range slices.Concat(command.Flags, top.Flags) {
		if f.Name == "version" {
			continue // it goes with no command
		}
		rows = append(rows, [2]string{flagForm(f), f.Help})
	}
	printRows(w, rows)
}

// argumentName is a word that a person puts something in the place of: PACK, FILE.csv.
func argumentName(a *kong.Positional) string {
	name, suffix, has := strings.Cut(a.Name, ".")
	if has {
		suffix = "." + suffix
	}
	return strings.ToUpper(name) + suffix
}

// flagForm is a flag as it is typed.
func flagForm(f *kong.Flag) string {
	form := "--" + f.Name
	if f.Short != 0 {
		form = "-" + string(f.Short) + ", " + form
	}
	if !f.IsBool() {
		form += " " + f.PlaceHolder
	}
	return form
}

// printRows prints names with what they are, in two columns; a name that is long has a line of its own.
func printRows(w io.Writer, rows [][2]string) {
	const most = 24 // columns for a name; one such as --report FILE fits
	widest := 0
	for _, row := range rows {
		if n := utf8.RuneCountInString(row[0]); n <= most {
			widest = max(widest, n)
		}
	}
	for _, row := range rows {
		n := utf8.RuneCountInString(row[0])
		gap := strings.Repeat(" ", max(0, widest-n)+2)
		if n > most {
			gap = "\n" + strings.Repeat(" ", widest+5)
		}
		fmt.Fprintf(w, "   %s%s%s\n", row[0], gap, wrapped(row[1], widest+5))
	}
}

// wrapped breaks a text into lines, all but the first with an indent. The first goes on from what is there already,
// which is taken to be as wide as the indent.
func wrapped(text string, indent int) string {
	var b strings.Builder
	at := indent
	for i, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+n > helpWidth:
			b.WriteString("\n" + strings.Repeat(" ", indent))
			at = indent
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += n
	}
	return b.String()
}

// capital gives a text with a capital at its start: the same text is part of a sentence in one place and a sentence
// in another.
func capital(s string) string {
	if s == "" {
		return ""
	}
	r, n := utf8.DecodeRuneInString(s)
	return strings.ToUpper(string(r)) + s[n:]
}

// printEach prints what is found of each word, with a blank line between. It stops at the first word of which nothing
// is found, so that the answer about that one is not lost above the others.
func printEach[T any](w io.Writer, words []string, find func(string) (T, bool),
	printOne func(io.Writer, T)) (unknown string) {
	for i, word := range words {
		found, ok := find(word)
		if !ok {
			return word
		}
		if i > 0 {
			fmt.Fprintln(w)
		}
		printOne(w, found)
	}
	return ""
}

// printProblemKinds says what some problems mean, or all of them.
func printProblemKinds(w io.Writer, slugs []string) (unknown string) {
	if len(slugs) == 0 {
		fmt.Fprint(w, wrapped("Each problem ends with a short name in brackets, such as (key-mismatch). "+
			"An error stops the build; a caution does not. These are all of them:", 0)+"\n")
		for _, k := range problem.Kinds() {
			fmt.Fprintln(w)
			printProblemKind(w, k)
		}
		return ""
	}
	return printEach(w, slugs, problem.KindOf, printProblemKind)
}

// printProblemKind says what one kind of problem means, and what to do.
func printProblemKind(w io.Writer, k problem.Kind) {
	fmt.Fprintf(w, "%s\n   %s\n", k.Slug, wrapped(k.Meaning, 3))
	if k.Do != "" {
		fmt.Fprintf(w, "   %s\n", wrapped(k.Do, 3))
	}
}

// printCodes lists the exit codes; main.go has their names.
func printCodes(w io.Writer, words []string) (unknown string) {
	if len(words) > 0 {
		return words[0]
	}
	printRows(w, [][2]string{
		{"0", "All is well."},
		{"1", "There are errors in the pack, or in the files that were given."},
		{"2", "The command was not typed in a way that trundle understands."},
		{"3", "The computer could not do it: the disk is full, say, or permission is missing."},
	})
	return ""
}

// stamp is the version of a release; .ci/release has the linker set it.
var stamp string

// version is what a release says, else what the build knows of itself. A build from a checkout without version control
// has none.
func version() string {
	if stamp != "" {
		return stamp
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(devel)"
}
