package pdfua

// Fonts: that each is embedded, with its Unicode and its widths.

import (
	"encoding/binary"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf16"
)

// font judges a font by the codes that are shown.
func (j *judge) font(name string) {
	dict := j.dict(name)
	below := j.array(dict["/DescendantFonts"])
	if j.name(dict["/Subtype"]) != "Type0" || j.name(dict["/Encoding"]) != "Identity-H" || len(below) != 1 {
		j.fault("font-kind", "%q", name)
		return
	}
	of := j.dict(below[0])
	if j.name(of["/Subtype"]) != "CIDFontType2" {
		j.fault("font-kind", "%s is drawn by a %s", name, j.name(of["/Subtype"]))
		return
	}
	if j.name(of["/CIDToGIDMap"]) != "Identity" {
		j.fault("31-005", "%s", name)
	}
	if dict["/ToUnicode"] == nil {
		j.fault("31-027", "%s", name)
	}
	file := j.Streams[reference(j.dict(of["/FontDescriptor"])["/FontFile2"])]
	p := programOf(file)
	if p == nil {
		j.fault("31-009", "%s", name)
	}
	widths := j.widths(of)
	for _, code := range slices.Sorted(keys(j.codes[name])) {
		text := j.text16(name, code)
		j.meaning(name, code, text)
		if p != nil && code != 0 {
			j.glyph(p, name, code, text, widths(code))
		}
	}
}

// meaning judges the Unicode of a code.
func (j *judge) meaning(name string, code int, text string) {
	rule := ""
	switch {
	case code == 0:
		rule = "31-030"
	case text == "":
		rule = "10-001"
	case strings.ContainsRune(text, 0):
		rule = "31-028"
	case strings.ContainsAny(text, "\ufeff\ufffe"):
		rule = "31-029"
	default:
		return
	}
	j.fault(rule, "%s, code %04x", name, code)
}

// glyph judges the glyph of a code: that it is there, and as wide as is said.
func (j *judge) glyph(p *program, name string, code int, text string, width float64) {
	drawn := strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsSpace(r) })
	if code >= p.glyphs || drawn && p.empty(code) {
		j.fault("31-011", "%s, code %04x (%q)", name, code, text)
		return
	}
	if is := p.width(code); math.Abs(is-width) > 1 {
		j.fault("widths", "%s, code %04x (%q): %g, and %g in the program", name, code, text, width, is)
	}
}

func keys(of map[int]bool) func(func(int) bool) {
	return func(yield func(int) bool) {
		for k := range of {
			if !yield(k) {
				return
			}
		}
	}
}

// widths gives how wide the glyphs of a font are said to be, in thousandths of its size.
func (j *judge) widths(font map[string]any) func(code int) float64 {
	all := map[int]float64{}
	said := j.array(font["/W"])
	for i := 0; i+1 < len(said); {
		first, _ := j.number(said[i])
		if list, ok := j.value(said[i+1]).([]any); ok {
			for n, w := range list {
				all[int(first)+n], _ = j.number(w)
			}
			i += 2
			continue
		}
		last, _ := j.number(said[i+1])
		for code := int(first); i+2 < len(said) && code <= int(last); code++ {
			all[code], _ = j.number(said[i+2])
		}
		i += 3
	}
	otherwise, ok := j.number(font["/DW"])
	if !ok {
		otherwise = 1000
	}
	return func(code int) float64 {
		if w, ok := all[code]; ok {
			return w
		}
		return otherwise
	}
}

// text16 is the Unicode of a code.
func (j *judge) text16(font string, code int) string {
	known := j.unicode[font]
	if known == nil {
		known = toUnicode(j.Streams[reference(j.dict(font)["/ToUnicode"])])
		j.unicode[font] = known
	}
	return known[code]
}

// shown is the text of an element itself.
func (j *judge) shown(e *element) string {
	var all strings.Builder
	for _, m := range e.marks {
		for _, l := range j.written[m] {
			all.WriteString(j.text16(l.font, l.code))
		}
	}
	return all.String()
}

// toUnicode reads the map of a font's codes (ISO 32000-1, 9.10.3).
func toUnicode(stream []byte) map[int]string {
	all := map[int]string{}
	for _, o := range operators(stream) {
		switch o.name {
		case "endbfchar":
			for i := 0; i+1 < len(o.operands); i += 2 {
				all[codeOf(o.operands[i])] = utf16Text(o.operands[i+1])
			}
		case "endbfrange":
			for i := 0; i+2 < len(o.operands); i += 3 {
				first, to := codeOf(o.operands[i]), []rune(utf16Text(o.operands[i+2]))
				for code := first; len(to) == 1 && code <= codeOf(o.operands[i+1]); code++ {
					all[code] = string(to[0] + rune(code-first))
				}
			}
		}
	}
	return all
}

func codeOf(v any) int {
	code := 0
	text, _ := v.([]byte)
	for _, b := range text {
		code = code<<8 | int(b)
	}
	return code
}

func utf16Text(v any) string {
	text, _ := v.([]byte)
	units := make([]uint16, len(text)/2)
	for i := range units {
		units[i] = binary.BigEndian.Uint16(text[2*i:])
	}
	return string(utf16.Decode(units))
}

// A program is a TrueType file, as far as widths and outlines go.
type program struct {
	hmtx, loca            []byte
	glyphs, long, unitsPM int
	far                   bool // places of outlines have four bytes
}

// programOf reads the tables that are needed; nil if it is none.
func programOf(file []byte) (p *program) {
	defer func() {
		if recover() != nil { // a table ends too early
			p = nil
		}
	}()
	tables := map[string][]byte{}
	for i := range int(binary.BigEndian.Uint16(file[4:])) {
		entry := file[12+16*i:]
		at := int(binary.BigEndian.Uint32(entry[8:]))
		tables[string(entry[:4])] = file[at : at+int(binary.BigEndian.Uint32(entry[12:]))]
	}
	at := func(table string, offset int) int { return int(binary.BigEndian.Uint16(tables[table][offset:])) }
	return &program{hmtx: tables["hmtx"], loca: tables["loca"], glyphs: at("maxp", 4), long: at("hhea", 34),
		unitsPM: at("head", 18), far: at("head", 50) == 1}
}

// width is that of a glyph in thousandths of the type's size.
func (p *program) width(glyph int) float64 {
	glyph = min(glyph, p.long-1)
	if 4*glyph+2 > len(p.hmtx) {
		return math.NaN()
	}
	return float64(binary.BigEndian.Uint16(p.hmtx[4*glyph:])) * 1000 / float64(p.unitsPM)
}

// empty tells a glyph without an outline.
func (p *program) empty(glyph int) bool {
	if p.far {
		from := p.loca[min(4*glyph, len(p.loca)-8):]
		return binary.BigEndian.Uint32(from) == binary.BigEndian.Uint32(from[4:])
	}
	from := p.loca[min(2*glyph, len(p.loca)-4):]
	return binary.BigEndian.Uint16(from) == binary.BigEndian.Uint16(from[2:])
}
