package main

// This file prints what makes a shell complete what is typed, from what the parser knows.

import (
	"bufio"
	"embed"
	"slices"
	"strings"
	"text/template"

	"github.com/alecthomas/kong"

	"trundle/cmd/trundle/starter"
)

// scripts are templates, one for each shell.
//
//go:embed completion
var scripts embed.FS

// completionCommand prints a script for the shell to read at its start. The script lists everything itself, and does
// not ask trundle while somebody types: that would start a process for every press of the tab key.
type completionCommand struct {
	Shell string `arg:"" enum:"bash,zsh,fish,powershell" help:"The shell: bash, zsh, fish or powershell."`
}

// Run fills a template for the shell. Each shell quotes a text in its own way, so each has a function of its own.
func (c *completionCommand) Run(p *program, k *kong.Kong) error {
	t, err := template.New("").Funcs(template.FuncMap{
		"fish": func(s string) string { return strings.NewReplacer(`\`, `\\`, "'", `\'`).Replace(s) },
		// PowerShell takes typographic quotes for quotes, too.
		"powershell": func(s string) string {
			return strings.NewReplacer("'", "''", "‘", "‘‘", "’", "’’", "‚", "‚‚", "‛", "‛‛").Replace(s)
		},
		"zsh": func(s string) string {
			return strings.NewReplacer(`\`, `\\`, "'", `'\''`, "[", `\[`, "]", `\]`, ":", `\:`).Replace(s)
		},
	}).ParseFS(scripts, "completion/trundle."+c.Shell) // the others would only take time
	if err != nil {
		return err
	}
	out := bufio.NewWriter(p.stdout) // a template writes word by word
	if err := t.ExecuteTemplate(out, "trundle."+c.Shell, typedOf(k.Model.Node, nil)); err != nil {
		return err
	}
	return out.Flush()
}

// A completedCommand is what can be completed: a command with its flags, or the whole program with its commands.
// The templates know only this, and nothing of the parser, so that a change of the parser leaves them alone.
type completedCommand struct {
	Name, Help string
	Flags      []typedFlag
	Argument   typedValue
	Commands   []completedCommand
}

// A typedFlag is a flag as a shell offers it.
type typedFlag struct {
	Long, Short string // without their hyphens; Short may be empty
	Help        string
	Value       typedValue
}

// A typedValue says what goes with a flag or a command.
type typedValue struct {
	Kind   string // folder, file, words, any, or nothing if there is none
	Suffix string // of the files, such as .csv; may be empty
	Words  []string
}

// Takes tells whether there is a value at all; a flag without one is followed by the next flag.
func (v typedValue) Takes() bool { return v.Kind != "" }

// List is the words as a shell takes them.
func (v typedValue) List() string { return strings.Join(v.Words, " ") }

// Names are the names of the commands.
func (t completedCommand) Names() []string {
	var names []string
	for _, c := range t.Commands {
		names = append(names, c.Name)
	}
	return names
}

// typedOf reads what kong knows of a command. Flags of the whole program, such as --help, go
// with every command.
func typedOf(n *kong.Node, above []*kong.Flag) completedCommand {
	t := completedCommand{Name: n.Name, Help: firstSentence(n.Help)}
	flags := slices.Concat(above, n.Flags)
	for _, f := range flags {
		if above != nil && f.Name == "version" {
			continue // it goes with no command
		}
		one := typedFlag{Long: f.Name, Help: firstSentence(f.Help)}
		if f.Short != 0 {
			one.Short = string(f.Short)
		}
		if !f.IsBool() {
			one.Value = typedValueOf(f.PlaceHolder, f.Enum)
		}
		t.Flags = append(t.Flags, one)
	}
	for _, c := range n.Children {
		t.Commands = append(t.Commands, typedOf(c, flags))
	}
	if len(n.Positional) > 0 {
		first := n.Positional[0]
		t.Argument = typedValueOf(first.Name, first.Enum)
		if also := first.Tag.Get("also"); also != "" { // files beside folders, which lie on the way to files
			t.Argument = typedValue{Kind: "file", Suffix: also}
		}
	}
	// What help knows can only be listed where all commands are known, at the top.
	for i, c := range t.Commands {
		if c.Argument.Kind == "help" {
			words := t.Names()
			for _, about := range topics() {
				words = append(words, about.name)
			}
			t.Commands[i].Argument = typedValue{Kind: "words", Words: words}
		}
	}
	return t
}

// typedValueOf knows from the name of a value what it is. A flag or word of a new kind is completed with nothing, which
// is better than with files, until it has a case here.
func typedValueOf(name, enum string) typedValue {
	name = strings.ToLower(name)
	_, suffix, hasSuffix := strings.Cut(name, ".")
	switch {
	case enum != "":
		return typedValue{Kind: "words", Words: strings.Split(enum, ",")}
	case name == "pack" || name == "dir":
		return typedValue{Kind: "folder"}
	case hasSuffix:
		return typedValue{Kind: "file", Suffix: "." + suffix}
	case name == "file":
		return typedValue{Kind: "file"}
	case name == "tag":
		return typedValue{Kind: "words", Words: starter.Languages()}
	case name == "word":
		return typedValue{Kind: "help"}
	}
	return typedValue{Kind: "any"}
}

// firstSentence is enough of a help for a list; it has no example. Shells show one line, and cut what does not fit.
func firstSentence(s string) string {
	s, _, _ = strings.Cut(s, ": ")
	s, _, _ = strings.Cut(s, ". ")
	return strings.TrimSuffix(s, ".")
}
