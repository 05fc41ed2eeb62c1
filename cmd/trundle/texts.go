package main

// This file has the texts of the help screens: about each command, and about the flags that need a sentence or two.

import (
	"trundle/cmd/trundle/starter"
	"trundle/generator/locale"
)

// commandText is what help says about a command.
type commandText struct {
	form    string // what goes after its name in the list, with no word on flags that can be left out
	example string
	purpose string
}

// aboutOf gives the texts of a command. Each example is a whole line; it is also the hint for a line that is wrong.
func aboutOf(command string) commandText {
	return map[string]commandText{
		"start": {"DIR", "trundle start mypack", "Make a new pack of two lessons that show how one is written."},
		"preview": {"PACK", "trundle preview lessons --open",
			"Show a pack's pages on this computer while you write. They follow every save."},
		"prove": {"PACK", "trundle prove lessons",
			"Work out everything in a pack and compare it with every key. Nothing is written."},
		"build": {"PACK -o DIR", "trundle build lessons -o out",
			"Write both editions of a pack: pages, worksheets and charts."},
		"bundle": {"PACK", "trundle bundle lessons -o club",
			"Make zip files of both editions to hand out, or check some."},
		"tally": {"FILE.csv ...", "trundle tally otters.csv herons.csv --target 's=120 cm' -o report",
			"Put the runs of several teams together and say which groups can be told apart."},
		"work": {"'EXPRESSION'", "trundle work 'rotations(48 in, 65 mm)' --in rot --to 0.01",
			"Work out one expression, with its steps."},
		"completion": {"SHELL", `eval "$(trundle completion bash)"`,
			"Print a script with which a shell completes commands, flags and files."},
		"help": {"[WORD ...]", "trundle help build",
			"Show this list, or help about a command, a topic, a problem or a word of the language."},
	}[command]
}

// flagTexts are the longer texts about flags and words; the tags of the fields name them.
func flagTexts() map[string]string {
	return map[string]string{
		"start_dir":      "The folder to make; it must not exist yet, or be empty. With --lesson, a pack's folder.",
		"start_language": "The language of the new pack: " + locale.Either(starter.Languages()) + "; en, if nothing is said.",
		"start_lesson": "Make one more lesson in the pack, with all its parts, as a draft: --lesson 'Round the bend'. " +
			"It gets the next number and week.",
		"report": "Also write the problems into this file, in the form SARIF 2.1.0 for other programs. " +
			"trundle replaces it only if trundle wrote it.",
		"build_out": "The folder to write. trundle replaces all of it, and only if trundle made it.",
		"prove_json": "Print one JSON object a line for every find: lesson, line, name, value, unit, u, dof (degrees of " +
			"freedom, if readings go into it), key, holds.",
		"start_at": "When a lesson begins, such as 18:30: run sheets then say what time each part starts. " +
			"Without it they count minutes.",
		"afresh":     "Make everything anew, and keep none of it for the next time.",
		"bundle_out": "The folder for the zip files, else the one you are in. Other files in it are left alone.",
		"check": "Check bundles: compare every file in them with its checksum. Nothing is made. " +
			"More files may follow, as in --check club/*.zip.",
		"files": "Files of runs: one row per run, the unit of a measured column in its name. " +
			"With --pack also saved work and the class's file. A pattern such as *.csv is expanded; - is standard input.",
		"expression": "The expression, in quotes. With - it is read from standard input.",
		"quiet":      "Print nothing but problems. The exit code tells the rest.",
		"by":         "The column that says which group a run belongs to. Without it: base, else team.",
		"target": "What every run of a column should have come to, such as 's=120 cm'. " +
			"It may be given once for each column.",
		"tally_pack": "The pack that the runs are of: its lesson says what they are compared with. " +
			"With it, teams' saved work and the file of the page of the class are read too.",
		"tally_lesson": "The lesson of the pack, by its file's name or number, if several have such records.",
		"tally_json":   "Print one JSON object: files, by, columns with their groups and pairs.",
		"tally_out": "Write a page with charts into this folder. trundle replaces all of it, " +
			"and only if trundle made it.",
		"port": "The port to serve the pages at, or the next free one if it is taken. 0 takes any.",
		"lan":  "Also show the students' edition to everybody in this network, such as tablets.",
	}
}
