// Command trundle turns a coach's lesson sources into a checked site. It reads flags,
// calls the generator, prints, and gives an exit code; there is no logic here.
package main

// This file has the commands, the way from what was typed to an exit code, and what several commands share.

import (
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
)

// Exit codes.
const (
	fine     = 0
	problems = 1 // in the pack
	misused  = 2 // the command
	failed   = 3 // the computer: disk full, no permission
)

// command is all that can be typed, in the order in which it is listed everywhere. The parser reads the fields; the
// tags form and example are for help.go.
type command struct {
	Help    bool `short:"h" help:"Show this."`
	Version bool `help:"Print the version."`

	Start   startCommand   `cmd:"" form:"DIR" example:"trundle start mypack" help:"Make a new pack of two lessons that show how one is written."`
	Preview previewCommand `cmd:"" form:"PACK" example:"trundle preview lessons --open" help:"Show a pack's pages on this computer while you write. They follow every save."`
	Prove   proveCommand   `cmd:"" form:"PACK" example:"trundle prove lessons" help:"Work out everything in a pack and compare it with every key. Nothing is written."`
	Build   buildCommand   `cmd:"" form:"PACK -o DIR" example:"trundle build lessons -o out" help:"Write both editions of a pack: pages, worksheets and charts."`
	Bundle  bundleCommand  `cmd:"" form:"PACK" example:"trundle bundle lessons -o club" help:"Make zip files of both editions to hand out, or check one."`
	Tally   tallyCommand   `cmd:"" form:"FILE.csv ..." example:"trundle tally otters.csv herons.csv --target 's=120 cm' -o report" help:"Put the runs of several teams together and say which groups can be told apart."`
	Work    workCommand    `cmd:"" form:"'EXPRESSION'" example:"trundle work 'rotations(48 in, 65 mm)' --in rot --to 0.01" help:"Work out one expression, with its steps."`

	Completion completionCommand `cmd:"" form:"SHELL" example:"eval \"$(trundle completion bash)\"" help:"Print a script with which a shell completes commands, flags and files."`
	HelpOn     helpCommand       `cmd:"" name:"help" form:"[WORD ...]" example:"trundle help build" help:"Show this list, or help about a command, a topic or a problem."`
}

// A program is where a command reads and writes.
type program struct {
	ctx            context.Context
	stdout, stderr io.Writer
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends the program at once
	code := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	p := program{ctx, stdout, stderr}
	args = negative(args)
	parser, err := kong.New(&command{}, kong.Name("trundle"), kong.NoDefaultHelp(), kong.Writers(stdout, stderr))
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
		fmt.Fprintln(stdout, "trundle "+version())
		return fine
	case line.help && line.command == nil:
		printList(stdout, top)
		return fine
	case line.help:
		printCommand(stdout, top, line.command)
		return fine
	case line.command == nil:
		printList(stderr, top)
		return misused
	}
	k, err := parser.Parse(args)
	if err != nil { // readLine finds all that coaches get wrong; this is for what nobody thought of
		_ = p.misuse(errors.New("this line cannot be read"), line.more())
		return misused
	}
	return p.ended(k.Run(&p))
}

// ended gives the exit code of a command that has run.
func (p *program) ended(err error) int {
	var code codeError
	switch {
	case err == nil:
		return fine
	case errors.As(err, &code):
		return int(code)
	case p.ctx.Err() != nil:
		err = errors.New("stopped; what was there is as it was")
	}
	return p.fail(failed, err)
}

// negative keeps a sum such as -3 cm from being taken for a flag: a blank in front
// changes nothing for the sum.
func negative(args []string) []string {
	out := slices.Clone(args)
	for i, a := range out {
		if len(a) > 1 && a[0] == '-' && strings.ContainsRune("0123456789.(", rune(a[1])) {
			out[i] = " " + a
		}
	}
	return out
}

// codeError ends a command that has said all it has to say.
type codeError int

func (c codeError) Error() string { return fmt.Sprintf("exit %d", int(c)) }

func (p *program) fail(code int, err error) int {
	fmt.Fprintf(p.stderr, "trundle: %v\n", err)
	return code
}

// isFolder says what is wrong with the name of a pack's folder that was typed.
func (p *program) isFolder(pack string) error {
	const hint = "name the folder that holds the pack's pack.yaml and lessons"
	info, err := os.Stat(pack)
	switch {
	case errors.Is(err, os.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		return p.misuse(fmt.Errorf("there is no folder %s", plain(pack)), hint)
	case err != nil:
		return err
	case !info.IsDir():
		return p.misuse(fmt.Errorf("%s is a file", plain(pack)), hint)
	}
	return nil
}

// plain keeps what was typed, or what a file holds, from steering the terminal.
func plain(s string) string { return problem.Printable(s) }
