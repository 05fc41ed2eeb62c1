package lesson

// Parts: texts that several lessons have in common, each written once.

import "trundle/generator/source"

// PartsFolder is the folder of a pack that its parts are in.
const PartsFolder = "parts/"

// A Part is a file of that folder. A lesson puts it in with {{part NAME}}.
type Part struct {
	Name string // of its file, without folder and ending
	File *source.File
	Used bool // some lesson puts it in
}
