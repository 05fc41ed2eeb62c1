package main

// This file goes through what was typed before the parser does, so that whatever is wrong with it is said in
// plain words, with what to do.

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"github.com/alecthomas/kong"
)

// A typedLine is what was typed, as far as it has been gone through. The parser would find the same mistakes, but
// reports them in a programmer's words, and without an example of what to write.
type typedLine struct {
	top, command  *kong.Node // command is nil as long as none was named
	words         []string
	flags         map[string]bool // that were given, by their long names
	help, version bool
}

// A misuseError is something wrong with what was typed.
type misuseError struct{ what, hint string }

// Error leaves the hint out, which is printed on a line of its own.

func (e *misuseError) Error() string { return e.what }

// readLine goes through the arguments. Whoever asks for help gets it, whatever else is wrong further on.
func readLine(top *kong.Node, args []string) (*typedLine, *misuseError) {
	l := &typedLine{top: top, flags: map[string]bool{}}
	onlyWords := false
	for len(args) > 0 {
		first := args[0]
		args = args[1:]
		var err *misuseError
		switch {
		case onlyWords || len(first) < 2 || first[0] != '-':
			err = l.word(first)
		case first == "--":
			onlyWords = true
		case strings.HasPrefix(first, "--"):
			args, err = l.long(first, args)
		default:
			args, err = l.short(first, args)
		}
		if err != nil {
			// A half-remembered line with --help at its end deserves the help, not a reprimand.
			if l.command != nil && (l.help || slices.ContainsFunc(args, isHelp)) {
				l.help = true
				return l, nil
			}
			return nil, err
		}
	}
	if l.help || l.version || l.command == nil {
		return l, nil
	}
	return l, l.complete()
}

// isHelp is true for the two ways to ask for help with a flag.
func isHelp(arg string) bool { return arg == "--help" || arg == "-h" }

// commandOf gives the command of a name, nil if there is none. Names are not cut short: what is a command's first
// letters today may be two commands' tomorrow.
func commandOf(top *kong.Node, name string) *kong.Node {
	for _, c := range top.Children {
		if c.Name == name {
			return c
		}
	}
	return nil
}

// word takes the name of the command, or one of its words.
func (l *typedLine) word(text string) *misuseError {
	if l.command != nil {
		l.words = append(l.words, text)
		return nil
	}
	if l.command = commandOf(l.top, text); l.command != nil {
		return nil
	}
	var names []string
	for _, c := range l.top.Children {
		names = append(names, c.Name)
	}
	return &misuseError{"there is no command " + plain(text),
		didYouMean(text, names, "") + "trundle help lists the commands"}
}

// known are the flags that can be given here.
func (l *typedLine) known() []*kong.Flag {
	if l.command == nil {
		return l.top.Flags
	}
	return slices.Concat(l.command.Flags, l.top.Flags)
}

// long takes --flag, --flag VALUE or --flag=VALUE.
func (l *typedLine) long(text string, rest []string) ([]string, *misuseError) {
	name, value, given := strings.Cut(text[2:], "=")
	var names []string
	for _, f := range l.known() {
		if f.Name == name {
			return l.flag(f, "--"+name, value, given, rest)
		}
		names = append(names, f.Name)
	}
	return rest, l.noFlag("--"+name, didYouMean(name, names, "--"))
}

// short takes -f, -f VALUE or -fVALUE, and several flags without values after one hyphen.
func (l *typedLine) short(text string, rest []string) ([]string, *misuseError) {
	for i, letter := range text[1:] {
		at := slices.IndexFunc(l.known(), func(f *kong.Flag) bool { return f.Short == letter })
		if at < 0 {
			return rest, l.noFlag("-"+string(letter), "")
		}
		f := l.known()[at]
		after := text[1+i+len(string(letter)):]
		if !f.IsBool() {
			return l.flag(f, "-"+string(letter), after, after != "", rest)
		}
		if _, err := l.flag(f, "-"+string(letter), "", false, nil); err != nil {
			return rest, err
		}
	}
	return rest, nil
}

// noFlag says that there is no such flag, or not here. A flag before its command is the commonest slip of those who
// know other programs; they get the example of the first command that has it.
func (l *typedLine) noFlag(flag, meant string) *misuseError {
	if l.command != nil {
		return &misuseError{l.command.Name + " has no flag " + plain(flag), meant + l.more()}
	}
	what := "there is no flag " + plain(flag) + " before a command"
	for _, c := range l.top.Children {
		for _, f := range c.Flags {
			if "--"+f.Name == flag || f.Short != 0 && "-"+string(f.Short) == flag {
				return &misuseError{what, "put it after its command, as in: " + aboutOf(c.Name).example}
			}
		}
	}
	return &misuseError{what, meant + "trundle help lists what there is"}
}

// flag takes a flag with its value, which is the next argument if it was not given with it.
func (l *typedLine) flag(f *kong.Flag, typed, value string, given bool, rest []string) ([]string, *misuseError) {
	l.flags[f.Name] = true
	l.help, l.version = l.help || f.Name == "help", l.version || f.Name == "version"
	if f.IsBool() {
		if given {
			return rest, &misuseError{typed + " takes no value; it was given " + plain(value),
				"write " + typed + " alone, or leave it out"}
		}
		return rest, nil
	}
	if !given {
		// -o --json is a forgotten folder, and not a folder called --json. A single hyphen may be a name.
		if len(rest) == 0 || len(rest[0]) > 1 && rest[0][0] == '-' {
			return rest, &misuseError{typed + " needs " + valueInWords(f.PlaceHolder) + " after it", l.example()}
		}
		value, rest = rest[0], rest[1:]
	}
	if f.Target.Kind() == reflect.Uint16 { // a port, the only number among the flags
		if _, err := strconv.ParseUint(value, 10, 16); err != nil {
			return rest, &misuseError{typed + " takes a whole number from 0 to 65535; " +
				plain(strings.TrimSpace(value)) + " is not one",
				"write it as in " + typed + " 4870"}
		}
	}
	return rest, nil
}

// valueInWords says what stands for a flag's value in a help screen.
func valueInWords(placeHolder string) string {
	switch placeHolder {
	case "DIR":
		return "a folder"
	case "FILE", "FILE.zip":
		return "the name of a file"
	case "PACK":
		return "the folder of a pack"
	case "NAME", "LESSON":
		return "the name of a lesson"
	case "HH:MM":
		return "a time such as 18:30"
	case "TAG":
		return "the tag of a language"
	case "UNIT":
		return "a unit"
	case "STEP":
		return "a step such as 0.01"
	case "NUMBER":
		return "a number"
	case "COLUMN":
		return "the name of a column"
	case "COLUMN=SIZE":
		return "a column and its size"
	}
	return "a value"
}

// complete says what is missing from a command, or too much. Words come before flags, as they do in the examples, so
// that somebody who types the command alone is asked for the pack first.
func (l *typedLine) complete() *misuseError {
	name, places := l.command.Name, l.command.Positional
	for i, a := range places {
		if i >= len(l.words) && a.Required {
			what := firstSentence(a.Help)
			return &misuseError{name + " needs " + strings.ToLower(what[:1]) + what[1:], l.example()}
		}
		if i < len(l.words) && a.Enum != "" && !slices.Contains(a.EnumSlice(), l.words[i]) {
			return &misuseError{name + " does not know " + plain(l.words[i]),
				didYouMean(l.words[i], a.EnumSlice(), "") + "it knows " + strings.Join(a.EnumSlice(), ", ")}
		}
	}
	if n := len(places); len(l.words) > n && (n == 0 || !places[n-1].IsCumulative()) {
		return wordTooMany(l.words[n], name)
	}
	for _, f := range l.command.Flags {
		if f.Required && !l.flags[f.Name] {
			typed := "--" + f.Name
			if f.Short != 0 {
				typed = "-" + string(f.Short)
			}
			return &misuseError{name + " needs " + typed + " with " + valueInWords(f.PlaceHolder), l.example()}
		}
	}
	return nil
}

// wordTooMany says that a command takes no more words.
func wordTooMany(word, command string) *misuseError {
	return &misuseError{plain(word) + " is one word too many for " + command,
		"leave it out; a name with blanks in it needs quotes around it"}
}

// example is a hint that shows a whole line that works.
func (l *typedLine) example() string {
	if l.command == nil {
		return "trundle help lists what there is"
	}
	return "write it as in: " + aboutOf(l.command.Name).example
}

// more is a hint that leads to the help screen of the command.
func (l *typedLine) more() string { return "trundle help " + l.command.Name + " shows its flags" }

// misuse says what is wrong with what was typed, and what to do. Every mistake in typing ends here, so that all look
// alike: what is wrong on the first line, what to do on the next.
func (p *program) misuse(err error, hint string) error {
	p.fail(misused, err)
	fmt.Fprintf(p.stderr, "   %s\n", hint)
	return codeError(misused)
}
