package picture

// Here: which elements and attributes of an SVG (SVG 2) are kept, dropped or refused.

import (
	"encoding/base64"
	"encoding/xml"
	"slices"
	"strings"

	"trundle/generator/source"
)

var (
	// drawing are the elements that put something on the page.
	drawing = strings.Fields("path rect circle ellipse line polyline polygon text image use")

	// animating are those that change another element over time.
	animating = strings.Fields("animate animateTransform animateMotion set mpath")

	// passive are all others that can be kept, since they only lay out, colour or explain.
	passive = strings.Fields(`svg g defs symbol switch title desc style tspan textPath marker view
		linearGradient radialGradient stop pattern clipPath mask filter
		feBlend feColorMatrix feComponentTransfer feComposite feConvolveMatrix feDiffuseLighting feDisplacementMap
		feDistantLight feDropShadow feFlood feFuncA feFuncB feFuncG feFuncR feGaussianBlur feImage feMerge
		feMergeNode feMorphology feOffset fePointLight feSpecularLighting feSpotLight feTile feTurbulence`)

	// describing are dropped with all that is in them: nobody sees them. The fonts are a kind that no browser draws.
	describing = strings.Fields("metadata font font-face color-profile")
)

// refusedElement says why an element must not be in a picture, "" if it may.
func refusedElement(name string) string {
	switch {
	case slices.Contains(drawing, name), slices.Contains(animating, name), slices.Contains(passive, name):
		return ""
	case name == "script":
		return "a picture must not hold a script"
	case name == "foreignObject":
		return "a picture must not hold a piece of a web page"
	case name == "a":
		return "a picture must not hold a link"
	}
	return "trundle does not know the element " + name + " of a picture"
}

// attributes gives those of an element that are kept, under the names that they are written with, and its id.
func (r *svgReader) attributes(element string, all []xml.Attr) (kept []xml.Attr, id string) {
	for _, a := range all {
		// Prefixes are the file's own choice; here attributes are known by their namespace, and get the usual prefix.
		name, own := a.Name.Local, false
		switch {
		case a.Name.Space == "" && name != "xmlns" && !strings.HasPrefix(name, "data-") && !strings.Contains(name, ":"):
			own = true
		case a.Name.Space == xlinkSpace && name == "href":
			a.Name.Local, own = "xlink:href", true
		case (a.Name.Space == xmlSpace || a.Name.Space == "xml") && (name == "space" || name == "lang"):
			a.Name.Local = "xml:" + name
			kept = append(kept, a)
		}
		if !own { // an editor's own notes, such as the name of the file on its computer
			continue
		}
		if slices.ContainsFunc(kept, func(k xml.Attr) bool { return k.Name.Local == a.Name.Local }) {
			r.refuseAttribute(a, "picture-svg", "the attribute "+name+" is there twice", "save the picture anew")
		}
		if a.Value, own = r.attribute(element, name, a); own {
			kept = append(kept, a)
		}
		if name == "id" {
			id = a.Value
		}
	}
	return kept, id
}

// attribute looks at one attribute and gives its value as it is kept.
func (r *svgReader) attribute(element, name string, a xml.Attr) (value string, ok bool) {
	lower := strings.ToLower(name)
	switch {
	case strings.HasPrefix(lower, "on"):
		r.refuseAttribute(a, "picture-acts", "a picture must not hold a script, and "+name+" is one",
			"take it out, or save the picture as PNG")
	case lower == "href" || lower == "src":
		return r.href(element, a)
	// What an animation sets is not looked at by anybody again.
	case lower == "attributename" && acting(a.Value):
		r.refuseAttribute(a, "picture-acts", "an animation must not change "+strings.TrimSpace(a.Value),
			"take it out, or save the picture as PNG")
	default:
		value = a.Value
		if lower == "style" {
			value = withoutComments(value)
		}
		if why := outsideCSS(value); why != "" {
			r.refuseAttribute(a, "picture-outside", why, "put into the picture what it needs, or save it as PNG")
		}
		return value, true
	}
	return "", false
}

// acting tells whether an attribute that is animated could then lead outside or run.
func acting(name string) bool {
	name = strings.ToLower(strings.TrimSpace(name))
	if i := strings.LastIndexByte(name, ':'); i >= 0 {
		name = name[i+1:]
	}
	return name == "href" || name == "src" || name == "style" || strings.HasPrefix(name, "on")
}

// href looks at where an element refers to: into the same file, or to a picture that is written out in it.
func (r *svgReader) href(element string, a xml.Attr) (string, bool) {
	value := strings.TrimSpace(a.Value)
	if strings.HasPrefix(value, "#") || value == "" {
		return value, true
	}
	if element == "image" || element == "feImage" {
		if cleaned, ok := r.inner(value, a); ok {
			return cleaned, true
		}
		if strings.HasPrefix(value, "data:") {
			return "", false
		}
	}
	r.refuseAttribute(a, "picture-outside", "a picture must not fetch anything from outside its own file",
		"embed what it needs, or save the picture as PNG")
	return "", false
}

// inner cleans a picture that is written out in an SVG.
func (r *svgReader) inner(value string, a xml.Attr) (string, bool) {
	for _, kind := range []struct {
		start string
		is    func([]byte) bool
		clean func(*Picture, []byte, bool)
	}{
		{"data:image/png;base64,", formats()[0].is, cleanPNG},
		{"data:image/jpeg;base64,", formats()[1].is, cleanJPEG},
		{"data:image/jpg;base64,", formats()[1].is, cleanJPEG},
	} {
		coded, ok := strings.CutPrefix(value, kind.start)
		if !ok {
			continue
		}
		data, err := base64.StdEncoding.DecodeString(strings.NewReplacer(" ", "", "\t", "", "\n", "", "\r",
			"").Replace(coded))
		if err != nil || !kind.is(data) {
			r.refuseAttribute(a, "picture-broken", "the picture that is embedded here is broken",
				"embed it anew, or save the whole as PNG")
			return "", false
		}
		// It is cleaned as any other, but keeps its size: how large it is drawn is the drawing's business.
		inside := new(Picture)
		kind.clean(inside, data, false)
		if inside.Refused() {
			r.refuseAttribute(a, inside.Faults[0].Slug, "the picture that is embedded here "+inside.Faults[0].What,
				inside.Faults[0].Hint)
			return "", false
		}
		return kind.start + base64.StdEncoding.EncodeToString(inside.Data), true
	}
	if strings.HasPrefix(value, "data:") {
		r.refuseAttribute(a, "picture-kind", "what is embedded here is neither PNG nor JPEG",
			"embed it as one of these, or save the whole as PNG")
	}
	return "", false
}

// refuseAttribute refuses the picture because of an attribute of the token that is looked at. The XML reader does not
// say where an attribute is, so its name is looked for in the tag: before a = and after a blank, or after its prefix.
func (r *svgReader) refuseAttribute(a xml.Attr, slug, what, hint string) {
	end := int(r.tokens.InputOffset())
	text := string(r.data[r.start:end])
	local := a.Name.Local[strings.LastIndexByte(a.Name.Local, ':')+1:]
	for from := 0; ; {
		i := strings.Index(text[from:], local)
		if i < 0 {
			r.refuse(slug, what, hint)
			return
		}
		i += from
		after := strings.TrimLeft(text[i+len(local):], " \t\r\n")
		if strings.HasPrefix(after, "=") && strings.ContainsRune(" \t\r\n:", rune(text[i-1])) {
			r.refuseAt(slug, source.Span{Start: r.start + i, End: r.start + i + len(local)}, what, hint)
			return
		}
		from = i + len(local)
	}
}
