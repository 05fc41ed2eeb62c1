// Command trundle turns a coach's lesson sources into a checked site. It reads flags,
// calls the generator, prints, and gives an exit code; there is no logic here.
package main

// This file has the commands, the way from what was typed to an exit code, and what several commands share.

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"

	"github.com/alecthomas/kong"

	"trundle/generator/problem"
	"trundle/generator/write"
)

// Exit codes. Scripts of coaches and of continuous integration build on them, so a number never changes its meaning.
const (
	fine        = 0
	hasProblems = 1 // in the pack
	misused     = 2 // the command
	failed      = 3 // the computer: disk full, no permission
)

// commandLine is all that can be typed, in the order in which it is listed everywhere. texts.go says what each is for.
type commandLine struct {
	Help    bool `short:"h" help:"Show this."`
	Version bool `help:"Print the version."`

	Start      startCommand      `cmd:""`
	Preview    previewCommand    `cmd:""`
	Prove      proveCommand      `cmd:""`
	Build      buildCommand      `cmd:""`
	Bundle     bundleCommand     `cmd:""`
	Tally      tallyCommand      `cmd:""`
	Work       workCommand       `cmd:""`
	Completion completionCommand `cmd:""`
	HelpOn     helpCommand       `cmd:"" name:"help"`
}

// newParser makes the parser of what is typed. It prints nothing by itself.
func newParser() (*kong.Kong, error) {
	parser, err := kong.New(&commandLine{}, kong.Name("trundle"), kong.NoDefaultHelp())
	if err != nil {
		return nil, err
	}
	// Not by tags: a tag of several lines of text would drown the fields. Nor as variables of the parser, which looks
	// through all of them once for each flag.
	texts := flagTexts()
	for _, c := range parser.Model.Children {
		c.Help = aboutOf(c.Name).purpose
		for _, f := range c.Flags {
			f.Help = cmp.Or(texts[f.Help], f.Help)
		}
		for _, a := range c.Positional {
			a.Help = cmp.Or(texts[a.Help], a.Help)
		}
	}
	return parser, nil
}

// A program is where a command reads and writes. Commands use nothing else of the process, so that tests can run many
// at the same time.
type program struct {
	ctx            context.Context
	stdin          io.Reader
	stdout, stderr io.Writer
	quiet          bool   // nothing is printed but problems
	cache          string // the folder for what is kept from run to run, "" if nothing is
	room           *room  // of the process
}

// main hands over to run, which needs neither a process nor a terminal and can be tested.
func main() {
	os.Exit(process(cacheOf(os.UserCacheDir())))
}

// process is the whole of a run in a process of its own, which keeps what it draws in the folder cache.
func process(cache string) int {
	room := takeRoom()
	ctx, stop := signal.NotifyContext(context.Background(), endings()...)
	defer stop()
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends the program at once
	p := program{ctx: ctx, stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr, cache: cache, room: room}
	return p.run(os.Args[1:])
}

// endings are the signals that end a command as Ctrl-C does, so that it tidies up: of a system that shuts down, and of
// a terminal that is closed. Whoever had us ignore the latter (nohup) wants us to go on.
func endings() []os.Signal {
	all := []os.Signal{os.Interrupt, syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) {
		all = append(all, syscall.SIGHUP)
	}
	return all
}

// run does what a line says. What was said to no avail is a failure, since a script that reads it would go on with
// half of it; and so is a mistake of ours, which must not look like one in what was typed.
func (p *program) run(args []string) (code int) {
	said := &watched{to: p.stdout}
	p.stdout = said
	defer func() {
		if wrong := recover(); wrong != nil {
			code = p.reportMistake(mistakeOf(wrong))
		} else if said.err != nil && code == fine {
			code = p.fail(failed, said.err)
		}
	}()
	return p.line(args)
}

// A watched writer keeps the first error, in plain words, so that not everybody who prints a line has to look for one.
type watched struct {
	to  io.Writer
	err error
}

func (w *watched) Write(data []byte) (int, error) {
	n, err := w.to.Write(data)
	if err != nil {
		err = fmt.Errorf("what it has to say cannot be written: %w", write.Reason(err))
	}
	w.err = cmp.Or(w.err, err)
	return n, err
}

// line reads a line, does what it says, and gives the exit code. Help is answered before the line is known to be
// right: who asks for help has not finished typing it.
func (p *program) line(args []string) int {
	args = negative(args)
	parser, err := newParser()
	if err != nil {
		return p.fail(failed, err)
	}
	top := parser.Model.Node
	line, wrong := readLine(top, args)
	switch {
	case wrong != nil:
		_ = p.misuse(wrong, wrong.hint)
		return misused
	case line.version:
		fmt.Fprintln(p.stdout, "trundle "+version())
		return fine
	case line.help && line.command == nil:
		printList(p.stdout, top)
		return fine
	case line.help:
		printCommand(p.stdout, top, line.command)
		return fine
	case line.command == nil: // on stderr, as a script that forgot the command must not take the list for its result
		printList(p.stderr, top)
		return misused
	}
	k, err := parser.Parse(args)
	if err != nil { // readLine finds all that coaches get wrong; this is for what nobody thought of
		_ = p.misuse(errors.New("this line cannot be read"), line.more())
		return misused
	}
	return p.ended(k.Run(p))
}

// ended gives the exit code of a command that has run.
func (p *program) ended(err error) int {
	var code codeError
	var mistake *mistakeError
	switch {
	case err == nil:
		return fine
	case errors.As(err, &code):
		return int(code)
	case errors.As(err, &mistake):
		return p.reportMistake(mistake)
	case p.ctx.Err() != nil: // Ctrl-C; what stopped is of no interest
		err = errors.New("stopped; what was there is as it was")
	}
	p.fail(failed, err)
	if errors.Is(err, write.ErrInUse) {
		fmt.Fprintln(p.stderr, "   close the windows and programs that have it open, and do it again; "+
			"if there are none, choose another place")
	}
	return failed
}

// negative keeps an expression such as -3 cm from being taken for a flag: a blank in front changes nothing for the
// expression. No flag begins with a digit, a point or a bracket.
func negative(args []string) []string {
	out := slices.Clone(args)
	for i, a := range out {
		if len(a) > 1 && a[0] == '-' && strings.ContainsRune("0123456789.(", rune(a[1])) {
			out[i] = " " + a
		}
	}
	return out
}

// codeError ends a command that has printed all it has to say: whoever gets it prints nothing more.
type codeError int

// Error is for tests; no user sees it.

func (c codeError) Error() string { return fmt.Sprintf("exit %d", int(c)) }

// fail prints an error as all of them are printed, and gives the code back. The name in front tells whose error it is
// where several programs write to one terminal.
func (p *program) fail(code int, err error) int {
	fmt.Fprintf(p.stderr, "trundle: %v\n", err)
	return code
}

// isFolder says what is wrong with the name of a pack's folder that was typed. What is in the folder is for the
// generator to judge.
func (p *program) isFolder(pack string) error {
	const hint = "name the folder with the pack's pack.yaml and lessons"
	info, err := os.Stat(pack)
	switch {
	case errors.Is(err, os.ErrNotExist), errors.Is(err, syscall.ENOTDIR): // the latter if a part of the way is a file
		return p.misuse(fmt.Errorf("there is no folder %s", plain(pack)), hint)
	case err != nil:
		return err
	case !info.IsDir():
		return p.misuse(fmt.Errorf("%s is a file", plain(pack)), hint)
	}
	return nil
}

// plain keeps what was typed, or what a file has in it, from steering the terminal: a name in a zip of unknown origin
// may have control characters in it.
func plain(s string) string { return problem.Printable(s) }
