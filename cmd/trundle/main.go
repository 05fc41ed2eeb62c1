// Command trundle turns a coach's lesson sources into a checked site. It reads flags,
// calls the generator, prints, and gives an exit code; there is no logic here.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	"github.com/alecthomas/kong"

	"trundle/generator"
	"trundle/generator/problem"
	"trundle/generator/write"
)

// Exit codes.
const (
	fine     = 0
	problems = 1 // in the pack
	misused  = 2 // the command
	failed   = 3 // the computer: disk full, no permission
)

type command struct {
	Version kong.VersionFlag `help:"Print the version."`

	Start      startCommand      `cmd:"" help:"Make a new pack of two lessons that show how one is written. Example: trundle start mypack"`
	Build      buildCommand      `cmd:"" help:"Write both editions of a pack. Example: trundle build lessons -o out"`
	Preview    previewCommand    `cmd:"" help:"Show a pack's pages on this computer while you write; they follow every save. Example: trundle preview lessons --open"`
	Bundle     bundleCommand     `cmd:"" help:"Make zip files of both editions to hand out, or look one over. Example: trundle bundle lessons -o club"`
	Prove      proveCommand      `cmd:"" help:"Work everything in a pack and hold every key against it; write nothing. Example: trundle prove lessons"`
	Tally      tallyCommand      `cmd:"" help:"Put the runs of several teams together and tell which groups can be told apart. Example: trundle tally otters.csv herons.csv --target 's=120 cm' -o report"`
	Work       workCommand       `cmd:"" help:"Work one sum, with its steps. Example: trundle work 'rotations(48 in, 65 mm)' --in rot --to 0.01"`
	Completion completionCommand `cmd:"" help:"Print what makes a shell complete commands, flags and files: bash, zsh or fish. Example: eval \"$(trundle completion bash)\""`
	Help       helpCommand       `cmd:"" help:"Show this, or the help of a command. Example: trundle help build"`
}

type buildCommand struct {
	reporting
	Pack string `arg:"" help:"The pack's folder."`
	Out  string `short:"o" required:"" placeholder:"DIR" help:"The folder to write; trundle replaces it as a whole, and only if it made it."`
}

type proveCommand struct {
	reporting
	Pack string `arg:"" help:"The pack's folder."`
	JSON bool   `name:"json" help:"Print one object a line for every find: lesson, line, name, value, unit, u, key, holds."`
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

// exit carries kong's wish to end the program, as after --help.
type exit int

func run(ctx context.Context, args []string, stdout, stderr io.Writer) (code int) {
	defer func() {
		if r := recover(); r != nil {
			wish, ok := r.(exit)
			if !ok {
				panic(r)
			}
			code = int(wish)
		}
	}()
	p := program{ctx, stdout, stderr}
	parser, err := kong.New(&command{}, kong.Name("trundle"),
		kong.Description("Turns a coach's lesson sources into a checked site for students and mentors."),
		kong.Writers(stdout, stderr), kong.Exit(func(c int) { panic(exit(c)) }), kong.UsageOnError(),
		kong.Vars{"version": "trundle " + version()})
	if err != nil {
		return p.fail(failed, err)
	}
	k, err := parser.Parse(negative(args))
	if err != nil {
		fmt.Fprintf(stderr, "trundle: %v\n   see trundle --help\n", err)
		return misused
	}
	if err := k.Run(&p); err != nil {
		var code codeError
		if errors.As(err, &code) {
			return int(code)
		}
		if ctx.Err() != nil {
			err = errors.New("stopped; what was there is as it was")
		}
		return p.fail(failed, err)
	}
	return fine
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

// misuse says what is wrong with what was typed, and what to do.
func (p *program) misuse(err error, hint string) error {
	p.fail(misused, err)
	fmt.Fprintf(p.stderr, "   %s\n", hint)
	return codeError(misused)
}

// prove works a pack, prints its problems and writes them into a report, if one is asked for.
func (p *program) prove(report reporting, pack string) (*generator.Proved, error) {
	if err := p.isFolder(pack); err != nil {
		return nil, err
	}
	if err := report.usable(p); err != nil {
		return nil, err
	}
	root, err := os.OpenRoot(pack)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	proved, err := generator.Prove(p.ctx, root.FS())
	if err != nil {
		return nil, err
	}
	if err := errors.Join(p.printProblems(pack, proved.Problems), report.write(pack, proved.Problems)); err != nil {
		return nil, err
	}
	if proved.HasErrors() {
		return proved, codeError(problems)
	}
	return proved, nil
}

// isFolder says what is wrong with the name of a pack's folder that was typed.
func (p *program) isFolder(pack string) error {
	info, err := os.Stat(pack)
	switch {
	case errors.Is(err, os.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		p.fail(misused, fmt.Errorf("there is no folder %s", pack))
		return codeError(misused)
	case err != nil:
		return err
	case !info.IsDir():
		p.fail(misused, fmt.Errorf("%s is a file; name the pack's folder", pack))
		return codeError(misused)
	}
	return nil
}

// printProblems prints a pack's problems, each with a path that can be opened from where
// the command was typed.
func (p *program) printProblems(pack string, problems []problem.Problem) error {
	if err := problem.Print(p.stderr, prefixOf(pack), problems); err != nil {
		return err
	}
	if len(problems) > 0 {
		fmt.Fprintf(p.stderr, "\n%s\n", problem.Summary(problems))
	}
	return nil
}

// prefixOf is what stands before the names of a pack's files when they are told.
func prefixOf(pack string) string {
	if prefix := path.Clean(filepath.ToSlash(pack)) + "/"; prefix != "./" {
		return prefix
	}
	return ""
}

func (c *buildCommand) Run(p *program) error {
	if err := write.Check(c.Out, c.Pack); errors.Is(err, write.ErrNotOurs) || errors.Is(err, write.ErrInside) {
		hint := "choose a new folder for -o, or an empty one"
		if errors.Is(err, write.ErrInside) {
			hint = "choose a folder beside the pack's folder"
		}
		return p.misuse(err, hint)
	}
	if err := c.outside(p, c.Out); err != nil {
		return err
	}
	told := newProgress(p.stderr) // from here on somebody waits
	proved, err := p.prove(c.reporting, c.Pack)
	if err != nil {
		if errors.As(err, new(codeError)) && proved != nil {
			fmt.Fprintf(p.stderr, "nothing was written; %s is as it was\n", c.Out)
		}
		return err
	}
	files, err := generator.DrawTelling(p.ctx, proved, told.tell)
	told.end()
	if err != nil {
		return err
	}
	if err := write.Folder(c.Out, c.Pack, files); err != nil {
		return err
	}
	p.summary(proved)
	for _, e := range []string{"students", "mentors"} {
		fmt.Fprintf(p.stdout, "%s\n", filepath.Join(c.Out, e, "index.html"))
	}
	return nil
}

// summary says in a line what was worked and held.
func (p *program) summary(proved *generator.Proved) {
	held, finds := keys(proved)
	fmt.Fprintf(p.stdout, "%s, %s, %s held\n", problem.Plural(len(proved.Lessons), "lesson"),
		problem.Plural(finds, "find"), problem.Plural(held, "key"))
}

func (c *proveCommand) Run(p *program) error {
	proved, err := p.prove(c.reporting, c.Pack)
	if proved == nil {
		return err
	}
	if c.JSON {
		return errors.Join(printFinds(p.stdout, proved), err)
	}
	if err == nil {
		p.summary(proved)
	}
	return err
}
