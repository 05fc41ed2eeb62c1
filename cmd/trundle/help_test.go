package main

// Tests of what the command prints about itself.

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/alecthomas/kong"
)

// stock are phrases that the parser's library prints when it is left to print by itself.
var stock = []string{
	"Show context-sensitive help", "for more information on a command", `Run "`, "Usage:", "Flags:", "Arguments:",
	"Commands:",
	"expected one of", "expected \"", "expected <", "expected string value", "unexpected argument", "unknown flag",
	"missing flags",
	"missing positional", "must be one of", "unexpected token", "but got", "expected a valid", "invalid value",
	"did you mean \"",
	"[flags]", "<command>", "<pack>", "<dir>", "<file", "kong",
}

// outputs runs trundle and gives both of its outputs.
func outputs(t *testing.T, args ...string) string {
	t.Helper()
	var out bytes.Buffer
	run(t.Context(), args, &out, &out)
	return out.String()
}

func TestNothingThatIsPrintedComesFromTheParsersLibrary(t *testing.T) {
	lines := [][]string{
		nil, {"--help"}, {"help"}, {"help", "nosuch"}, {"help", "problems"}, {"nosuch"}, {"--nosuch"}, {"-x"},
		{"--version=2"}, {"--help=2"},
		{"build", "a", "b", "-o", "c"}, {"build", "a", "-o"}, {"build", "a", "-o", "-o"},
		{"build", "a", "--out=", "--out"},
		{"completion", "ksh"}, {"preview", "a", "--port", "x"}, {"preview", "a", "--port="},
		{"prove", "a", "--json=maybe"},
		{"tally", "--target"}, {"work"}, {"work", "1", "2"}, {"work", ""}, {"start", ""}, {"prove", ""}, {"", ""},
	}
	for _, c := range model(t).Children {
		lines = append(lines, []string{c.Name, "--help"}, []string{"help", c.Name}, []string{c.Name, "--nosuch"},
			[]string{c.Name, "--", "-a", "-b"})
		if c.Name != "help" {
			lines = append(lines, []string{c.Name})
		}
	}
	for _, line := range lines {
		got := outputs(t, line...)
		if got == "" {
			t.Errorf("trundle %q prints nothing", line)
		}
		for _, phrase := range stock {
			if strings.Contains(got, phrase) {
				t.Errorf("trundle %q prints %q:\n%s", line, phrase, got)
			}
		}
	}
}

func model(t *testing.T) *kong.Node {
	t.Helper()
	parser, err := newParser()
	if err != nil {
		t.Fatal(err)
	}
	return parser.Model.Node
}

func TestEveryHelpScreenFitsEightyColumnsAndHasAnExample(t *testing.T) {
	for _, c := range model(t).Children {
		got := outputs(t, "help", c.Name)
		if example := aboutOf(c.Name).example; example == "" || !strings.Contains(got, "\n   "+example+"\n") {
			t.Errorf("the help of %s has no example:\n%s", c.Name, got)
		}
		for line := range strings.Lines(got + outputs(t, "help") + outputs(t, "help", "problems") +
			outputs(t, "help", "language")) {
			if n := utf8.RuneCountInString(strings.TrimSuffix(line, "\n")); n > helpWidth {
				t.Errorf("%s: %d columns: %s", c.Name, n, line)
			}
		}
	}
}

func TestEveryFlagHasASentenceAndSaysWhichValueItTakes(t *testing.T) {
	for _, c := range model(t).Children {
		for _, a := range c.Positional {
			if !strings.HasSuffix(a.Help, ".") { // the name of a text that there is not
				t.Errorf("%s %s is for %q", c.Name, a.Name, a.Help)
			}
		}
		for _, f := range c.Flags {
			if !strings.HasSuffix(f.Help, ".") {
				t.Errorf("%s --%s is for %q", c.Name, f.Name, f.Help)
			}
			if !f.IsBool() && valueInWords(f.PlaceHolder) == "a value" {
				t.Errorf("%s --%s takes %s, which has no words in valueInWords", c.Name, f.Name, f.PlaceHolder)
			}
		}
	}
}
