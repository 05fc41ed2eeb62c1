package read

// Files that a coach took for lessons and that are not read: with another ending, or in a folder of their own.

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"trundle/generator/source"
	"trundle/generator/wording"
)

// numbered is how a lesson's name begins, or nearly does.
var numbered = wording.New(`^[0-9]{1,3}[-_ .]*\pL`)

// textEndings are those of texts that are not called .md, in small letters; the list is from memory.
var textEndings = []string{".md", ".markdown", ".mdown", ".mkd", ".mkdn", ".mdx", ".txt", ".text", ".rst", ".rtf",
	".doc", ".docx", ".odt", ".pages", ".html", ".htm"}

// strayText tells whether a file beside pack.yaml has a lesson's number and is a text of another ending.
func strayText(name string) bool {
	ending := path.Ext(name)
	return numbered.MatchString(name) && ending != ".md" && slices.Contains(textEndings, strings.ToLower(ending)) &&
		!hidden(name)
}

// stray reports a file that is not read.
func (r *reader) stray(name, what, hint string) {
	r.problems.Caution(source.NewFile(name, nil), source.Span{}, "not-a-lesson", what, hint)
}

// strayFolder reports lessons in a folder, where none is read. A folder for drafts is left in peace, and so is
// another pack.
func (r *reader) strayFolder(dir string, isLesson func(name string) bool) {
	entries, err := fs.ReadDir(r.fs, dir)
	if err != nil || strings.EqualFold(dir, "drafts") || hidden(dir) || dir == "care" || dir == "parts" ||
		slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == "pack.yaml" }) {
		return
	}
	for _, e := range entries {
		if name := e.Name(); !e.IsDir() && (isLesson(name) ||
			isLesson(strings.TrimSuffix(name, path.Ext(name))+".md") && strings.EqualFold(path.Ext(name), ".md")) {
			r.stray(path.Join(dir, name), "this file is not read as a lesson, since it is in a folder",
				"put it beside pack.yaml; the folder drafts, and names that start with _, are for what is not ready")
		}
	}
}
