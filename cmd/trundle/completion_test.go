package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// scriptFor gives what trundle prints for a shell.
func scriptFor(t *testing.T, shell string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if code := run(t.Context(), []string{"completion", shell}, &out, &errs); code != fine || errs.Len() > 0 {
		t.Fatalf("exit code %d: %s", code, errs.String())
	}
	return out.String()
}

// completed asks a real bash what it offers for a line, whose last word is being typed.
func completed(t *testing.T, dir, script string, words ...string) []string {
	t.Helper()
	bash := exec.Command("bash", "--norc", "-euc",
		`eval "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _trundle; if ((${#COMPREPLY[@]})); then printf '%s\n' "${COMPREPLY[@]}"; fi`, "bash", script)
	bash.Args = append(bash.Args, words...)
	bash.Dir = dir
	var errs bytes.Buffer
	bash.Stderr = &errs
	out, err := bash.Output()
	if err != nil || errs.Len() > 0 {
		t.Fatalf("%q: %v: %s", words, err, errs.String())
	}
	all := strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
	slices.Sort(all)
	return all
}

func TestBashCompletesCommandsFlagsAndFiles(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"lessons", "my lessons", "build"} {
		if err := os.Mkdir(filepath.Join(dir, name), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(os.WriteFile(filepath.Join(dir, "lesson.csv"), nil, 0o644), os.WriteFile(filepath.Join(dir, "lesson.txt"), nil, 0o644)); err != nil {
		t.Fatal(err)
	}
	script := scriptFor(t, "bash")
	for line, want := range map[string]string{
		"trundle|pro":               "prove",
		"trundle|--v":               "--version",
		"trundle|nosuch|":           "",
		"trundle|build|":            "build|lessons|my lessons",
		"trundle|build|le":          "lessons",
		"trundle|build|my":          "my lessons",
		"trundle|build|lessons|--o": "--out",
		"trundle|build|-o|le":       "lessons",
		"trundle|build|--out|=":     "build|lessons|my lessons",
		"trundle|build|--out|=|le":  "lessons",
		"trundle|prove|--j":         "--json",
		"trundle|prove|--report|le": "lesson.csv|lesson.txt|lessons",
		"trundle|tally|le":          "lesson.csv|lessons",
		"trundle|work|":             "",
		"trundle|completion|":       "bash|fish|zsh",
		"trundle|help|bui":          "build",
		"trundle|help|--h":          "--help",
		"trundle|--version|st":      "start",
	} {
		got := strings.Join(completed(t, dir, script, strings.Split(line, "|")...), "|")
		if got != want {
			t.Errorf("%s: bash offers %q, want %q", line, got, want)
		}
	}
}

// TestEveryShellKnowsEveryCommandAndFlag holds the scripts against what --help shows.
func TestEveryShellKnowsEveryCommandAndFlag(t *testing.T) {
	bash := scriptFor(t, "bash")
	commands := completed(t, t.TempDir(), bash, "trundle", "")
	if len(commands) < 8 || !slices.Contains(commands, "--version") {
		t.Fatalf("commands are %v", commands)
	}
	zsh, fish := scriptFor(t, "zsh"), scriptFor(t, "fish")
	for _, name := range commands {
		if strings.HasPrefix(name, "-") {
			continue
		}
		if !strings.Contains(zsh, "\n    "+name+")\n") || !strings.Contains(fish, "__fish_use_subcommand -a "+name+" ") {
			t.Errorf("zsh or fish does not know %s", name)
		}
		var help bytes.Buffer
		if code := run(t.Context(), []string{name, "--help"}, &help, &help); code != fine || !strings.Contains(help.String(), "Example:") {
			t.Errorf("the help of %s has no example (exit code %d):\n%s", name, code, help.String())
		}
		for _, flag := range completed(t, t.TempDir(), bash, "trundle", name, "--") {
			if !strings.Contains(help.String(), flag) || !strings.Contains(zsh, "'"+flag) || !strings.Contains(fish, "from "+name+"'") {
				t.Errorf("%s %s is not in the help, in zsh or in fish", name, flag)
			}
		}
	}
}
