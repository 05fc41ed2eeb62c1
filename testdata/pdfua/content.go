package pdfua

// What is drawn on the pages: each piece of it is in one sequence of marked content, or in an artifact.

import (
	"slices"
	"strings"
)

// pages goes through all pages in their order.
func (j *judge) pages(tree map[string]any) {
	for _, kid := range j.array(tree["/Kids"]) {
		page := j.dict(kid)
		if j.name(page["/Type"]) == "Pages" {
			j.pages(page)
			continue
		}
		name := reference(kid)
		j.annotations(name, page)
		v := &visit{judge: j, page: name}
		for _, stream := range j.streams(page["/Contents"]) {
			v.draw(stream, j.dict(page["/Resources"]))
		}
		if len(v.open) > 0 {
			j.fault("balance", "page %s ends within %d sequences", name, len(v.open))
		}
	}
}

// streams are those of a page's contents as one.
func (j *judge) streams(contents any) [][]byte {
	if name := reference(contents); j.Streams[name] != nil {
		return [][]byte{j.Streams[name]}
	}
	var whole []byte
	for _, part := range j.array(contents) {
		whole = append(append(whole, j.Streams[reference(part)]...), '\n')
	}
	return [][]byte{whole}
}

// A visit draws a page.
type visit struct {
	*judge
	page  string
	open  []sequence
	font  string
	fonts []string // that were set when the state was saved
	forms int      // that this is in
}

// A sequence of marked content.
type sequence struct {
	artifact, tagged bool
	mark             mark // if it is tagged
}

func (v *visit) within(is func(sequence) bool) bool { return slices.ContainsFunc(v.open, is) }

func isArtifact(s sequence) bool { return s.artifact }
func isTagged(s sequence) bool   { return s.tagged }

const (
	painting = " S s f F f* B B* b b* sh "
	showing  = " Tj TJ ' \" "
	harmless = " q Q cm w J j M d ri i gs m l c v y h re W W* n BT ET Tc Tw Tz TL Tr Ts Td TD Tm T* " +
		"CS cs SC SCN sc scn G g RG rg K k MP DP "
)

func (v *visit) draw(stream []byte, resources map[string]any) {
	for _, o := range operators(stream) {
		in := func(names string) bool { return strings.Contains(names, " "+o.name+" ") }
		switch {
		case o.name == "BMC" || o.name == "BDC":
			v.begin(o, resources)
		case o.name == "EMC":
			if len(v.open) == 0 {
				v.fault("balance", "page %s ends a sequence that did not begin", v.page)
				continue
			}
			v.open = v.open[:len(v.open)-1]
		case in(painting):
			v.seen(o.name)
		case in(showing):
			v.seen(o.name)
			v.show(o)
		case o.name == "Do" && len(o.operands) == 1:
			v.object(reference(o.operands[0]), resources)
		case o.name == "Tf" && len(o.operands) == 2:
			v.font = reference(v.dict(resources["/Font"])[reference(o.operands[0])])
		case in(harmless):
			v.state(o.name)
		default:
			v.fault("operators", "page %s: %q with %d operands", v.page, o.name, len(o.operands))
		}
	}
}

// state keeps the font that is set.
func (v *visit) state(operator string) {
	switch n := len(v.fonts); {
	case operator == "q":
		v.fonts = append(v.fonts, v.font)
	case operator == "Q" && n > 0:
		v.font, v.fonts = v.fonts[n-1], v.fonts[:n-1]
	}
}

// begin opens a sequence of marked content.
func (v *visit) begin(o operator, resources map[string]any) {
	s := sequence{}
	var properties map[string]any
	if len(o.operands) > 0 {
		s.artifact = o.operands[0] == "/Artifact"
		properties, _ = o.operands[len(o.operands)-1].(map[string]any)
		if name, ok := o.operands[len(o.operands)-1].(string); ok && o.name == "BDC" {
			properties = v.dict(v.dict(resources["/Properties"])[name])
		}
	}
	id, numbered := properties["/MCID"].(float64)
	s.tagged = numbered && !s.artifact
	switch m := (mark{v.page, int(id)}); {
	case s.artifact && numbered:
		v.fault("artifact-id", "page %s has an artifact with number %d", v.page, m.id)
	case s.artifact && v.within(isTagged):
		v.fault("01-003", "page %s", v.page)
	case numbered && v.within(isArtifact):
		v.fault("01-004", "page %s, number %d", v.page, m.id)
	case numbered && v.within(isTagged):
		v.fault("nested", "page %s, number %d", v.page, m.id)
	case numbered && (v.onPage[m] || v.forms > 0):
		v.fault("twice", "page %s, number %d", v.page, m.id)
	}
	if s.tagged {
		s.mark = mark{v.page, int(id)}
		v.onPage[s.mark] = true
	}
	v.open = append(v.open, s)
}

// seen is something that can be seen on the page.
func (v *visit) seen(operator string) {
	if !v.within(isTagged) && !v.within(isArtifact) {
		v.fault("01-005", "page %s: %s", v.page, operator)
	}
}

// object draws a picture, or what is drawn with operators of its own.
func (v *visit) object(name string, resources map[string]any) {
	v.seen("Do")
	object := v.dict(resources["/XObject"])[name]
	dict := v.dict(object)
	if v.forms > 9 || v.name(dict["/Subtype"]) != "Form" {
		return
	}
	font := v.font
	v.forms++
	if own := v.dict(dict["/Resources"]); own != nil {
		resources = own
	}
	v.draw(v.Streams[reference(object)], resources)
	v.forms--
	v.font = font
}

// show notes which codes of a font are shown, and within which sequence.
func (v *visit) show(o operator) {
	if len(o.operands) == 0 {
		return
	}
	texts, ok := o.operands[len(o.operands)-1].([]any)
	if !ok {
		texts = o.operands[len(o.operands)-1:]
	}
	in := mark{}
	if i := slices.IndexFunc(v.open, isTagged); i >= 0 {
		in = v.open[i].mark
	}
	if v.codes[v.font] == nil {
		v.codes[v.font] = map[int]bool{}
	}
	for _, t := range texts {
		text, _ := t.([]byte)
		for i := 0; i+1 < len(text); i += 2 {
			code := int(text[i])<<8 | int(text[i+1])
			v.codes[v.font][code] = true
			v.written[in] = append(v.written[in], letter{v.font, code})
		}
	}
}

// A letter is a code of a font.
type letter struct {
	font string
	code int
}
