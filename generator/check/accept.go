package check

// Cautions that a coach has read and accepts, each with its reason, where it is: <!-- trundle: accept SLUG, REASON -->
// in Markdown, and # trundle: accept SLUG, REASON in YAML and in blocks of trundle.

import (
	"bytes"
	"cmp"
	"path"
	"slices"
	"strings"

	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/quantity"
	"trundle/generator/source"
	"trundle/generator/wording"
)

// An acceptance is one such remark, with the lines for which it holds.
type acceptance struct {
	file     *source.File
	at       source.Span
	slug     string
	from, to int    // the first and the last line
	text     string // of these lines and of the reason; a caution of a file that has no remarks is accepted by its name
	used     bool
	ofError  bool // an error has its slug, and is where it holds
}

// Remarks are what a file accepts, and what is wrong with its remarks.
type Remarks struct {
	file     *source.File
	all      []acceptance
	problems problem.List
}

// RemarksIn reads those of a file.
func RemarksIn(f *source.File) Remarks {
	r := Remarks{file: f}
	r.all = acceptances(f, &r.problems)
	return r
}

// Accept leaves out the cautions that the sources accept. A remark that accepts nothing, or cannot, is a problem.
func Accept(sources []Remarks, found []problem.Problem) []problem.Problem {
	var problems problem.List
	var all []*acceptance
	remarked := map[string]bool{}
	for _, r := range sources {
		remarked[r.file.Name] = true
		problems.Join(r.problems)
		for _, a := range r.all {
			all = append(all, &a) // which is this time's: what was read may be asked again
		}
	}
	if len(all) == 0 && problems.Count() == 0 {
		return found
	}
	bySlug := map[string][]*acceptance{}
	for _, a := range all {
		bySlug[a.slug] = append(bySlug[a.slug], a)
	}
	errors := problems.HasErrors()
	for _, p := range found {
		if !accepted(p, bySlug[p.Slug], remarked) {
			problems.Add(p)
			errors = errors || p.Severity == problem.Error
		}
	}
	for _, a := range all {
		a.report(!errors, &problems) // while something is an error, not all cautions are known
	}
	return problems.Sorted()
}

// accepted tells whether one of the remarks accepts a problem, and notes which have found theirs.
func accepted(p problem.Problem, remarks []*acceptance, remarked map[string]bool) bool {
	caution := false
	for _, a := range remarks {
		switch {
		case !a.covers(p, remarked):
		case p.Severity == problem.Caution:
			a.used, caution = true, true
		default:
			a.ofError = true
		}
	}
	return caution
}

// report says what is wrong with a remark itself; complete tells whether all cautions are known.
func (a *acceptance) report(complete bool, problems *problem.List) {
	switch {
	case a.ofError:
		problems.Error(a.file, a.at, "accept-error", "this is an error, and only a caution can be accepted",
			"do what the error says, and leave the remark out")
	case !a.used && complete:
		problems.Caution(a.file, a.at, "accept-idle", "there is no caution "+a.slug+" here to be accepted",
			"leave the remark out, or put it right before the line, paragraph or block that the caution is about")
	}
}

// covers tells whether a problem is where the remark holds. What is wrong with a file as a whole is accepted
// anywhere in it, and what is wrong with runs where their block is.
func (a *acceptance) covers(p problem.Problem, remarked map[string]bool) bool {
	if !remarked[p.File.Name] {
		return strings.Contains(a.text, p.File.Name)
	}
	if a.file.Name != p.File.Name { // first, as there may be thousands, and a line has to be counted
		return false
	}
	line := p.File.Position(p.Span.Start).Line
	return p.Span == source.Span{} || a.from <= line && line <= a.to
}

var (
	remarkForm = wording.New(`<!--\s*trundle:\s*(.*?)\s*-->`)
	noteForm   = wording.New(`(?:^|\s)#\s*trundle:\s*(.*?)\s*$`)
	acceptForm = wording.New(`^accept\s+([a-z0-9-]+)\s*(?:[,:]|\s[-–—]\s)\s*(\S.*)$`)
	acceptWord = wording.New(`^accept\s+([a-z0-9-]+)`)
	blockFence = wording.New("^(`{3,}|~{3,})\\s*([a-z]*)")
)

// remarks goes through the lines of a file and knows where which form of a remark is one.
type remarks struct {
	file  *source.File
	lines []string // without the marks of quotes before them
	forms []*wording.Pattern
}

// readRemarks tells of each line which form it may have: in the header and in blocks of trundle # begins a comment,
// in other code nothing does.
func readRemarks(f *source.File) remarks {
	r := remarks{file: f}
	yaml := path.Ext(f.Name) == ".yaml"
	form, fence := remarkForm, ""
	if yaml {
		form = noteForm
	}
	for n := 1; f.LineStart(n) < len(f.Text()) || n == 1; n++ {
		text := strings.TrimLeft(f.Line(n), " \t>")
		here := form
		switch m := blockFence.FindStringSubmatch(text); {
		case yaml:
		case n == 1 && strings.TrimRight(text, " \t") == "---":
			form, fence, here = noteForm, "---", nil
		case fence != "" && strings.HasPrefix(text, fence):
			form, fence, here = remarkForm, "", nil
		case fence == "" && m != nil:
			if form, fence = nil, m[1]; slices.Contains(blockWords, m[2]) {
				form = noteForm
			}
			here = nil
		}
		r.lines, r.forms = append(r.lines, text), append(r.forms, here)
	}
	return r
}

// blockWords are the first words of the blocks of trundle.
var blockWords = func() []string {
	all := []string{"work", "gauge"}
	for _, kind := range lesson.BlockKinds {
		all = append(all, string(kind))
	}
	return all
}()

// acceptances reads the remarks of a file.
func acceptances(f *source.File, problems *problem.List) []acceptance {
	if !bytes.Contains(f.Text(), []byte("trundle:")) {
		return nil
	}
	var all []acceptance
	r := readRemarks(f)
	for i, form := range r.forms {
		if form == nil {
			continue
		}
		line, start := f.Line(i+1), f.LineStart(i+1)
		for _, m := range form.Compiled().FindAllStringSubmatchIndex(line, -1) {
			a := acceptance{file: f, at: source.Span{Start: start + m[2], End: start + m[3]}}
			if m[2] == m[3] { // nothing is said
				a.at = source.Span{Start: start + m[0], End: start + m[1]}
			}
			if a.read(line[m[2]:m[3]], problems) {
				alone := strings.Trim(line[:m[0]]+line[m[1]:], " \t>") == ""
				a.from, a.to = r.reach(i, alone)
				a.text += "\n" + strings.Join(r.lines[a.from-1:a.to], "\n")
				all = append(all, a)
			}
		}
	}
	return all
}

// read takes a remark apart.
func (a *acceptance) read(text string, problems *problem.List) bool {
	var slugs []string
	for _, k := range problem.Kinds() {
		slugs = append(slugs, k.Slug)
	}
	m, word := acceptForm.FindStringSubmatch(text), acceptWord.FindStringSubmatch(text)
	switch {
	case word == nil:
		problems.Error(a.file, a.at, "accept-unclear", "trundle does not know what is meant here",
			"write the name of the caution and why it is accepted, as in  accept given-away, it is the example")
		return false
	case !slices.Contains(slugs, word[1]):
		problems.Error(a.file, a.at, "accept-unclear", "there is no caution "+word[1],
			cmp.Or(quantity.DidYouMean(word[1], slugs), "write the name that is in brackets after the caution"))
		return false
	case m == nil:
		problems.Error(a.file, a.at, "accept-unclear", "this does not say why the caution is accepted",
			"write the reason after a comma, as in  accept "+word[1]+", it is the example")
		return false
	}
	a.slug, a.text = m[1], m[2]
	return true
}

// reach gives the lines for which a remark holds: its own, if something else is on it, else the line below, or in
// running text all of the paragraph or block below.
func (r remarks) reach(i int, alone bool) (from, to int) {
	if !alone {
		return i + 1, i + 1
	}
	note := r.forms[i] == noteForm
	next := i + 1
	for next < len(r.lines)-1 && (strings.TrimSpace(r.lines[next]) == "" || r.aloneAt(next)) {
		next++
	}
	if next >= len(r.lines) {
		return i + 1, i + 1
	}
	last := next
	fence := blockFence.FindString(r.lines[next])
	for !note && last+1 < len(r.lines) {
		text := strings.TrimSpace(r.lines[last+1])
		if fence == "" && text == "" {
			break
		}
		last++
		if fence != "" && strings.HasPrefix(text, strings.TrimRight(fence, "abcdefghijklmnopqrstuvwxyz \t")) {
			break
		}
	}
	return next + 1, last + 1
}

// aloneAt tells whether there is nothing but a remark in a line.
func (r remarks) aloneAt(i int) bool {
	form := r.forms[i]
	return form != nil && form.MatchString(r.lines[i]) && strings.TrimSpace(form.ReplaceAllString(r.lines[i], "")) == ""
}
