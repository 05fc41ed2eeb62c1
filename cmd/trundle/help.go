package main

import (
	"runtime/debug"

	"github.com/alecthomas/kong"
)

type helpCommand struct {
	Command string `arg:"" optional:"" help:"The command to tell about."`
}

func (c *helpCommand) Run(p *program, k *kong.Kong) error {
	args := []string{}
	if c.Command != "" {
		args = append(args, c.Command)
	}
	about, err := kong.Trace(k, args)
	if err == nil {
		err = about.Error
	}
	if err != nil {
		return p.misuse(err, "see trundle --help")
	}
	return about.PrintUsage(false)
}

// version is what the build knows of itself.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(devel)"
}
