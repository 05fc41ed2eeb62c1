package picture

// Here: SVG files, which are documents that can act. A file is read as XML and written anew from what was understood:
// what only describes is dropped, and what could run, fetch or lead elsewhere refuses the picture at its place.

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"trundle/generator/source"
)

const (
	svgSpace   = "http://www.w3.org/2000/svg"
	xlinkSpace = "http://www.w3.org/1999/xlink"
	xmlSpace   = "http://www.w3.org/XML/1998/namespace"

	mostFaults = 20 // after so many the rest tells nothing new
)

// isSVG tells whether a file is XML with an SVG in it; that it begins with one is seen when it is read.
func isSVG(data []byte) bool {
	text := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\uFEFF")), " \t\r\n")
	return bytes.HasPrefix(text,
		[]byte("<")) && (bytes.Contains(text, []byte("<svg")) || bytes.Contains(text, []byte(":svg")))
}

func lookSVG(p *Picture, data []byte) {
	if len(data) > MaxDrawing {
		p.refuse("picture-too-much",
			fmt.Sprintf("is an SVG of %d MB, which is more than trundle reads", (len(data)+1<<20-1)>>20),
			fmt.Sprintf("make it simpler, %d MB at most, or save it as PNG", MaxDrawing>>20))
		return
	}
	r := &svgReader{picture: p, data: data, refs: references{sizes: map[string]int{}, uses: map[string][]string{}}}
	r.read()
	if !p.Refused() {
		r.refs.check(r)
	}
	r.out.WriteByte('\n')
	p.Data = r.out.Bytes()
}

// svgReader goes through a file from front to back.
type svgReader struct {
	picture *Picture
	data    []byte
	tokens  *xml.Decoder
	start   int // of the token that is looked at
	open    []svgElement
	skipped int // how many elements deep it is within one that is left out
	styled  int // where the latest style element starts
	drawn   int
	ended   bool // the first element is closed
	pending bool // the last start tag is not closed yet, so that it can become an empty one
	out     bytes.Buffer
	style   strings.Builder // text of a style element so far
	refs    references
}

type svgElement struct{ name, id string }

// errStop ends the reading.
var errStop = errors.New("the rest need not be read")

func (r *svgReader) read() {
	r.tokens = xml.NewDecoder(bytes.NewReader(r.data))
	foreign := ""
	r.tokens.CharsetReader = func(label string, input io.Reader) (io.Reader, error) {
		if strings.EqualFold(label, "us-ascii") {
			return input, nil
		}
		foreign = label
		return nil, errStop
	}
	for {
		r.start = int(r.tokens.InputOffset())
		token, err := r.tokens.Token()
		switch {
		case err == io.EOF:
			if r.drawn == 0 && len(r.picture.Faults) == 0 {
				r.refuseFrom("picture-svg", 0, "this SVG draws nothing", "save it anew, or as PNG")
			}
			return
		case foreign != "":
			r.refuseFrom("picture-svg", r.start, "this SVG is not in UTF-8", "save it in the encoding UTF-8")
			return
		case err != nil:
			r.refuseFrom("picture-svg", r.start, "this SVG is broken here, or was cut off: "+brokenXML(err),
				"copy it again from where it came, or save it anew")
			return
		}
		if r.token(token) != nil || len(r.picture.Faults) > mostFaults {
			return
		}
	}
}

// brokenXML says why XML cannot be read, without the line, which is told otherwise.
func brokenXML(err error) string {
	var syntax *xml.SyntaxError
	if errors.As(err, &syntax) {
		return syntax.Msg
	}
	return err.Error()
}

func (r *svgReader) token(token xml.Token) error {
	switch token := token.(type) {
	case xml.StartElement:
		return r.startElement(token)
	case xml.EndElement:
		r.endElement()
	case xml.CharData:
		return r.text(string(token))
	case xml.Directive:
		// A plain DOCTYPE says nothing that is not known; one with declarations can define what is written later.
		if bytes.ContainsAny(token, "[<") {
			r.refuse("picture-acts", "a picture must not declare entities of its own",
				"take out what stands in [ ] after DOCTYPE, or save the picture anew")
		}
	case xml.ProcInst:
		if strings.EqualFold(token.Target, "xml-stylesheet") {
			r.refuse("picture-outside", "a picture must not fetch a style sheet",
				"put the styles into the picture itself, or save it as PNG")
		}
	}
	return nil
}

// refuse refuses the picture because of the token that is looked at.
func (r *svgReader) refuse(slug, what, hint string) { r.refuseFrom(slug, r.start, what, hint) }

func (r *svgReader) refuseFrom(slug string, at int, what, hint string) {
	at = min(at, len(r.data))
	end := min(at+1, len(r.data))
	if at < len(r.data) && r.data[at] == '<' {
		for end++; end < len(r.data) && !strings.ContainsRune(" \t\r\n/<>", rune(r.data[end])); {
			end++
		}
		end = min(end, len(r.data))
	}
	r.refuseAt(slug, source.Span{Start: at, End: end}, what, hint)
}

func (r *svgReader) refuseAt(slug string, at source.Span, what, hint string) {
	r.picture.Faults = append(r.picture.Faults, Fault{Slug: slug, What: what, Hint: hint, Inside: true, At: at})
}

func (r *svgReader) startElement(e xml.StartElement) error {
	if r.skipped > 0 {
		r.skipped++
		return nil
	}
	name := e.Name.Local
	// First what makes the rest meaningless, then what is dropped, so that nothing in it is looked at.
	switch {
	case r.ended:
		r.refuse("picture-svg", "this SVG goes on after its end", "save it anew")
		return errStop
	case len(r.open) == 0 && (e.Name.Space != svgSpace || name != "svg"):
		r.refuse("picture-svg", "this file does not begin with an SVG element, so no browser shows it as a picture",
			`an SVG begins with <svg xmlns="`+svgSpace+`">; save it anew as SVG, or as PNG`)
		return errStop
	case len(r.open) >= MaxDepth:
		r.refuse("picture-too-much", fmt.Sprintf("elements of a picture lie at most %d deep in each other", MaxDepth),
			"make the picture simpler, or save it as PNG")
		return errStop
	case r.refs.all >= MaxElements:
		r.refuse("picture-too-much", fmt.Sprintf("a picture has at most %d elements", MaxElements),
			"make the picture simpler, or save it as PNG")
		return errStop
	case len(r.open) > 0 && r.open[len(r.open)-1].name == "style":
		r.refuse("picture-svg", "there must be nothing but text in a style element", "save the picture anew, or as PNG")
		return errStop
	case e.Name.Space != svgSpace, slices.Contains(describing, name):
		r.skipped = 1
		return nil
	}
	if what := refusedElement(name); what != "" {
		r.refuse("picture-acts", what, "take it out, or save the picture as PNG")
		r.skipped = 1
		return nil
	}
	if slices.Contains(drawing, name) {
		r.drawn++
	}
	r.openElement(e)
	return nil
}

// openElement writes a start tag.
func (r *svgReader) openElement(e xml.StartElement) {
	r.closeTag()
	name := e.Name.Local
	// Names are written without a prefix, whatever prefix the file had for them, and only two namespaces are declared.
	kept, ids := r.attributes(name, e.Attr)
	r.out.WriteString("<" + name)
	if len(r.open) == 0 {
		r.out.WriteString(` xmlns="` + svgSpace + `"`)
		if bytes.Contains(r.data, []byte(xlinkSpace)) {
			r.out.WriteString(` xmlns:xlink="` + xlinkSpace + `"`)
		}
	}
	for _, a := range kept {
		r.out.WriteString(" " + a.Name.Local + `="` + inAttribute.Replace(a.Value) + `"`)
	}
	r.pending = true
	r.open = append(r.open, svgElement{name, ids})
	var to []string
	for _, a := range kept {
		if !slices.Contains(animating, name) { // what is animated is not drawn once more
			to = append(to, referred(a)...)
		}
	}
	r.refs.count(r.open, to)
	if name == "style" {
		r.styled = r.start
		r.style.Reset()
	}
}

// closeTag ends a start tag that has something in it.
func (r *svgReader) closeTag() {
	if r.pending {
		r.out.WriteByte('>')
		r.pending = false
	}
}

func (r *svgReader) endElement() {
	if r.skipped > 0 {
		r.skipped--
		return
	}
	name := r.open[len(r.open)-1].name
	if name == "style" {
		r.closeStyle()
	}
	if r.pending { // nothing came between
		r.out.WriteString("/>")
		r.pending = false
	} else {
		r.out.WriteString("</" + name + ">")
	}
	r.open = r.open[:len(r.open)-1]
	r.ended = len(r.open) == 0
}

// text writes text. That of a style element is gathered first, since a comment in it may cut a word in two.
func (r *svgReader) text(text string) error {
	switch {
	case r.skipped > 0 || text == "": // an empty CDATA section is nothing
	case len(r.open) == 0:
		if strings.Trim(text, " \t\r\n\uFEFF") != "" {
			r.refuse("picture-svg", "there is text outside the picture", "save it anew")
			return errStop
		}
	case r.open[len(r.open)-1].name == "style":
		r.style.WriteString(text)
	default:
		r.closeTag()
		r.out.WriteString(inText.Replace(text))
	}
	return nil
}

func (r *svgReader) closeStyle() {
	css := withoutComments(r.style.String())
	if why := outsideCSS(css); why != "" {
		r.refuseFrom("picture-outside", r.styled, why, "put into the picture what it needs, or save it as PNG")
	}
	r.closeTag()
	r.out.WriteString(inText.Replace(css))
}

var (
	inText      = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", "\r", "&#xD;")
	inAttribute = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "\t", "&#x9;", "\n",
		"&#xA;", "\r", "&#xD;")
)
