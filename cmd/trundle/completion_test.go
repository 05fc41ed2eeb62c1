package main

// Tests of completion in the shells themselves.

import (
	"bytes"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
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
		`eval "$1"; shift; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _trundle; `+
			`if ((${#COMPREPLY[@]})); then printf '%s\n' "${COMPREPLY[@]}"; fi`, "bash", script)
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
	if err := errors.Join(os.WriteFile(filepath.Join(dir, "lesson.csv"), nil, 0o644),
		os.WriteFile(filepath.Join(dir, "lesson.zip"), nil, 0o644),
		os.WriteFile(filepath.Join(dir, "lesson.txt"), nil, 0o644)); err != nil {
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
		"trundle|prove|--report|le": "lesson.csv|lesson.txt|lesson.zip|lessons",
		"trundle|tally|le":          "lesson.csv|lessons",
		"trundle|bundle|le":         "lesson.zip|lessons",
		"trundle|work|":             "",
		"trundle|completion|":       "bash|fish|powershell|zsh",
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

// zshTypes has a zsh of its own in a terminal of its own. Each line is typed, completed with the
// tab key, and shown as it then stands.
const zshTypes = `
zmodload zsh/zpty
zpty z zsh -f -i
zpty -w z "autoload -Uz compinit; compinit -D -u; source $1
show() { print -r -- \"GOT[\$BUFFER]\"; zle send-break }; zle -N show; bindkey '^X' show; print -r rea''dy"
zpty -r -m z out '*ready*'
shift
for line; do
  zpty -w -n z "$line"$'\t\C-x'
  zpty -r -m z out '*GOT\[*\]*'
  print -r -- "${${out##*GOT\[}%%\]*}"
done
`

func TestZshCompletesCommandsFlagsAndFiles(t *testing.T) {
	dir := t.TempDir()
	script := filepath.Join(dir, "script.zsh")
	if err := errors.Join(os.Mkdir(filepath.Join(dir, "lessons"), 0o755),
		os.WriteFile(script, []byte(scriptFor(t, "zsh")), 0o644)); err != nil {
		t.Fatal(err)
	}
	lines := [][2]string{
		{"trundle bui", "trundle build "},
		{"trundle bundle --ch", "trundle bundle --check="},
		{"trundle build le", "trundle build lessons/"},
		{"trundle completion f", "trundle completion fish "},
		{"trundle help tal", "trundle help tally "},
		{"trundle nosuch le", "trundle nosuch le"},
	}
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	zsh := exec.CommandContext(ctx, "zsh", "-f", "-c", zshTypes, "zsh", script)
	for _, line := range lines {
		zsh.Args = append(zsh.Args, line[0])
	}
	zsh.Dir = dir
	out, err := zsh.Output()
	if err != nil {
		t.Fatalf("this test needs zsh: %v\n%s", err, out)
	}
	got := strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
	if len(got) != len(lines) {
		t.Fatalf("zsh shows %q", got)
	}
	for i, line := range lines {
		if got[i] != line[1] {
			t.Errorf("%s: zsh makes %q of it, want %q", line[0], got[i], line[1])
		}
	}
}

func TestFishCompletesCommandsFlagsAndFiles(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "lessons"), 0o755); err != nil {
		t.Fatal(err)
	}
	script := scriptFor(t, "fish")
	for line, want := range map[string]string{
		"trundle bui":           "build",
		"trundle bundle --ch":   "--check",
		"trundle build le":      "lessons/",
		"trundle completion ":   "bash|fish|powershell|zsh",
		"trundle help bun":      "bundle",
		"trundle prove --json ": "lessons/",
	} {
		fish := exec.Command("fish", "--no-config", "-c", `echo $argv[1] | source; complete -C $argv[2]`, script, line)
		fish.Dir = dir
		fish.Env = append(os.Environ(), "HOME="+dir)
		out, err := fish.Output()
		if err != nil {
			t.Fatalf("this test needs fish: %v", err)
		}
		var got []string
		for _, offered := range strings.Split(strings.TrimSuffix(string(out), "\n"), "\n") {
			word, _, _ := strings.Cut(offered, "\t")
			got = append(got, word)
		}
		slices.Sort(got)
		if offers := strings.Join(got, "|"); offers != want {
			t.Errorf("%s: fish offers %q, want %q", line, offers, want)
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
	zsh, fish, powershell := scriptFor(t, "zsh"), scriptFor(t, "fish"), scriptFor(t, "powershell")
	for _, name := range commands {
		if strings.HasPrefix(name, "-") {
			continue
		}
		if !strings.Contains(zsh, "\n    "+name+")\n") ||
			!strings.Contains(fish, "__fish_use_subcommand -a "+name+" ") ||
			!strings.Contains(powershell, "\n      '"+name+"' = '") {
			t.Errorf("zsh, fish or PowerShell does not know %s", name)
		}
		_, block, _ := strings.Cut(powershell, "\n    '"+name+"' {\n")
		block, _, _ = strings.Cut(block, "\n    }\n")
		var help bytes.Buffer
		if code := run(t.Context(), []string{name, "--help"}, &help, &help); code != fine ||
			!strings.Contains(help.String(), "\n   ") {
			t.Errorf("the help of %s cannot be read (exit code %d):\n%s", name, code, help.String())
		}
		for _, flag := range completed(t, t.TempDir(), bash, "trundle", name, "--") {
			if !strings.Contains(help.String(), flag) || !strings.Contains(zsh, "'"+flag) ||
				!strings.Contains(fish, "from "+name+"'") || !strings.Contains(block, "'"+flag+"' = '") {
				t.Errorf("%s %s is not in the help, in zsh, in fish or in PowerShell", name, flag)
			}
		}
	}
}

// TestThePowerShellScriptIsWhole reads the script as far as one can without that shell: every bracket and quote is
// closed, and a value is completed with what it is. Windows' older PowerShell reads what a program prints in the
// computer's own code page, so the script has letters of ASCII alone.
func TestThePowerShellScriptIsWhole(t *testing.T) {
	script := scriptFor(t, "powershell")
	for _, want := range []string{
		"Register-ArgumentCompleter -Native -CommandName 'trundle', 'trundle.exe' -ScriptBlock {\n",
		"\n      if ($before -cin @('--out', '-o')) { return & $folders }\n",
		"\n      if ($before -cin @('--report')) { return & $files '' }\n",
		"\n      if ($before -cin @('--check')) { return & $files '.zip' }\n",
		"\n      return & $files '.csv'\n",
		"\n      return & $words @('bash', 'zsh', 'fish', 'powershell')\n",
	} {
		if !strings.Contains(script, want) {
			t.Errorf("the script lacks %q", want)
		}
	}
	if left := unclosed(script); left != "" {
		t.Errorf("the script leaves %q open", left)
	}
	if i := strings.IndexFunc(script, func(r rune) bool { return r > '~' }); i >= 0 {
		t.Errorf("the script has %q", []rune(script[i:])[0])
	}
	for text, want := range map[string]string{"{('')}": "", "{(": "{(", "{(}": "{(}", "'a": "'", "# it's\n{": "{"} {
		if got := unclosed(text); got != want {
			t.Errorf("unclosed(%q) is %q, want %q", text, got, want)
		}
	}
}

// unclosed gives the brackets and quotes of a script that have no partner; comments and quoted texts are passed over.
func unclosed(script string) string {
	var open []byte
	for line := range strings.Lines(script) {
		if strings.HasPrefix(strings.TrimSpace(line), "#") {
			continue
		}
		for i, part := range strings.Split(strings.TrimSuffix(line, "\n"), "'") {
			if i%2 == 1 { // between two quotes
				continue
			}
			for _, c := range []byte(part) {
				last := len(open) - 1
				switch {
				case strings.IndexByte("{([", c) >= 0:
					open = append(open, c)
				case strings.IndexByte("})]", c) < 0:
				case last >= 0 && strings.Contains("{}()[]", string([]byte{open[last], c})):
					open = open[:last]
				default:
					open = append(open, c)
				}
			}
		}
		if strings.Count(line, "'")%2 == 1 {
			open = append(open, '\'')
		}
	}
	return string(open)
}
