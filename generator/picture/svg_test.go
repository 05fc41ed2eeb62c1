package picture

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"io"
	"strings"
	"testing"
)

// drawn is a drawing as an editor saves it.
const drawn = `<?xml version="1.0" encoding="UTF-8" standalone="no"?>
<!-- Heronware, saved by coach's comment -->
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
<?editor Heronware?>
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" xmlns:e="urn:heronware:editor"
  width="40" height="30" viewBox="0 0 40 30" e:docname="/home/Heronware/plan.svg" data-name="Heronware"
  xml:space="preserve">
<title>Plan &amp; "path"</title>
<metadata><rdf xmlns="urn:rdf"><a href="https://example.org">Heronware</a></rdf></metadata>
<e:view e:zoom="2"><e:guide onload="1"/></e:view>
<defs><linearGradient id="g"><stop offset="0" stop-color="#fff"/><stop offset="1"/></linearGradient>
<linearGradient id="h" xlink:href="#g"/></defs>
<style>/* Heronware */ .a { fill: url(#g); content: "/*" } <!-- Heronware --> .b { stroke: red }</style>
<g id="robot" e:label="Heronware"><rect class="a" width="10" style="fill:#123;/* Heronware */stroke:none"/></g>
<use href="#robot" x="4"/><use xlink:href="#robot" y="&#9;4"/>
<text x="1" y="2">2 &lt; 3<tspan dy="1">a<![CDATA[ & b]]></tspan></text>
<circle r="2" fill='url("#h")'><animate attributeName="r" from="1" to="2" dur="1s" href="#robot"/></circle>
</svg>
`

const drawnCleaned = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"` +
	` width="40" height="30" viewBox="0 0 40 30" xml:space="preserve">
<title>Plan &amp; "path"</title>


<defs><linearGradient id="g"><stop offset="0" stop-color="#fff"/><stop offset="1"/></linearGradient>
<linearGradient id="h" xlink:href="#g"/></defs>
<style>  .a { fill: url(#g); content: "/*" }  .b { stroke: red }</style>
<g id="robot"><rect class="a" width="10" style="fill:#123; stroke:none"/></g>
<use href="#robot" x="4"/><use xlink:href="#robot" y="&#x9;4"/>
<text x="1" y="2">2 &lt; 3<tspan dy="1">a &amp; b</tspan></text>
<circle r="2" fill="url(&quot;#h&quot;)"><animate attributeName="r" from="1" to="2" dur="1s" href="#robot"/></circle>
</svg>
`

func TestADrawingKeepsWhatIsSeenAlone(t *testing.T) {
	p := look("a.svg", []byte(drawn))
	if len(p.Faults) > 0 || string(p.Data) != drawnCleaned {
		t.Errorf("%s%s", told(p), p.Data)
	}
	if again := look("a.svg", p.Data); !bytes.Equal(again.Data, p.Data) {
		t.Errorf("once more:\n%s%s", told(again), again.Data)
	}
}

func TestADrawingWithAPrefixIsWrittenWithoutOne(t *testing.T) {
	p := look("a.svg", []byte("\uFEFF"+
		`<s:svg xmlns:s="http://www.w3.org/2000/svg" xmlns:l="http://www.w3.org/1999/xlink">`+
		`<s:path id="p" d="M0 0"/><s:use l:href="#p"/></s:svg>`))
	const want = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">` +
		`<path id="p" d="M0 0"/><use xlink:href="#p"/></svg>` + "\n"
	if string(p.Data) != want {
		t.Errorf("%s%s", told(p), p.Data)
	}
}

// in puts a piece on the second line of a drawing.
func in(piece string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">` +
		`<rect width="4" height="4"/>` + "\n" + piece + "</svg>"
}

// hostile are drawings that must not be handed out, with what is told and where.
var hostile = []struct{ svg, want string }{
	{in(`<script>alert(1)</script>`), "picture-acts 2:<script: a picture must not hold a script"},
	{in(`<script href="https://example.org/a.js"/>`), "picture-acts 2:<script: a picture must not hold a script"},
	{in(`<s:script xmlns:s="http://www.w3.org/2000/svg">1</s:script>`),
		"picture-acts 2:<s:script: a picture must not hold a script"},
	{in(`<rect onload="alert(1)"/>`), "picture-acts 2:onload: a picture must not hold a script, and onload is one"},
	{in(`<rect ONCLICK="alert(1)"/>`), "picture-acts 2:ONCLICK: a picture must not hold a script, and ONCLICK is one"},
	{in("<rect\n onmouseover = 'x'/>"),
		"picture-acts 3:onmouseover: a picture must not hold a script, and onmouseover is one"},
	{in(`<foreignObject><p xmlns="http://www.w3.org/1999/xhtml">x</p></foreignObject>`),
		"picture-acts 2:<foreignObject: a picture must not hold a piece of a web page"},
	{in(`<a href="https://example.org"><rect/></a>`), "picture-acts 2:<a: a picture must not hold a link"},
	{in(`<iframe src="x"/>`), "picture-acts 2:<iframe: trundle does not know the element iframe of a picture"},
	{in(`<handler type="x">1</handler>`),
		"picture-acts 2:<handler: trundle does not know the element handler of a picture"},
	{in(`<use href="other.svg#a"/>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<use xlink:href="https://example.org/a.svg#a"/>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<use href="data:image/svg+xml;base64,AAAA#a"/>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<image href="https://example.org/p.png"/>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<image href="//example.org/p.png"/>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<image xlink:href="file:///home/coach/p.png"/>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<image href="photo.jpg"/>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<image href="  javascript:alert(1)"/>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<filter><feImage href="https://example.org/p.png"/></filter>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<linearGradient href="g.svg#a"/>`),
		"picture-outside 2:href: a picture must not fetch anything from outside its own file"},
	{in(`<image href="data:image/svg+xml;base64,AAAA"/>`),
		"picture-kind 2:href: what is embedded here is neither PNG nor JPEG"},
	{in(`<image href="data:text/html,x"/>`), "picture-kind 2:href: what is embedded here is neither PNG nor JPEG"},
	{in(`<image href="data:image/png;base64,AAAA"/>`),
		"picture-broken 2:href: the picture that is embedded here is broken"},
	{in(`<image src="https://example.org/p.png"/>`),
		"picture-outside 2:src: a picture must not fetch anything from outside its own file"},
	{in(`<rect fill="url(https://example.org/p.svg#a)"/>`),
		"picture-outside 2:fill: a picture's style must not fetch anything from outside its own file"},
	{in(`<rect style="fill:URL( 'p.svg#a' )"/>`),
		"picture-outside 2:style: a picture's style must not fetch anything from outside its own file"},
	{in(`<rect style="fill:u\72l(p.svg#a)"/>`),
		"picture-outside 2:style: a picture's style must not fetch anything from outside its own file"},
	{in(`<rect style="fill:url(#a);mask:\000075 rl(p.svg)"/>`),
		"picture-outside 2:style: a picture's style must not fetch anything from outside its own file"},
	{in(`<rect mask="url(#a/*) url(p.svg)"/>`),
		"picture-outside 2:mask: a picture's style must not fetch anything from outside its own file"},
	{in(`<rect style="fill:image-set('p.png' 1x)"/>`),
		"picture-outside 2:style: a picture's style must not hold image-set("},
	{in(`<style>@import "https://example.org/a.css";</style>`),
		"picture-outside 2:<style: a picture's style must not hold @import"},
	{in(`<style>@\69mport "a.css";</style>`), "picture-outside 2:<style: a picture's style must not hold @import"},
	{in(`<style>rect{fill:u<!-- -->rl(p.svg)}</style>`),
		"picture-outside 2:<style: a picture's style must not fetch anything from outside its own file"},
	{in(`<style>"/*" rect{fill:url(p.svg)} "*/"</style>`),
		"picture-outside 2:<style: a picture's style must not fetch anything from outside its own file"},
	{in(`<style>@font-face{src:url(data:font/woff2;base64,AAAA)}</style>`),
		"picture-outside 2:<style: a picture's style must not fetch anything from outside its own file"},
	{in(`<style><![CDATA[rect{fill:url(p.svg)}]]></style>`),
		"picture-outside 2:<style: a picture's style must not fetch anything from outside its own file"},
	{in(`<style>a<title>b</title></style>`), "picture-svg 2:<title: there must be nothing but text in a style element"},
	{in(`<set attributeName="href" to="https://example.org"/>`),
		"picture-acts 2:attributeName: an animation must not change href"},
	{in(`<animate attributeName=" xlink:href" values="a;b"/>`),
		"picture-acts 2:attributeName: an animation must not change xlink:href"},
	{in(`<set attributeName="onclick" to="alert(1)"/>`),
		"picture-acts 2:attributeName: an animation must not change onclick"},
	{in(`<set attributeName="fill" to="url(p.svg#a)"/>`),
		"picture-outside 2:to: a picture's style must not fetch anything from outside its own file"},
	{`<!DOCTYPE svg [<!ENTITY a "x">]>` + in(`<text>x</text>`),
		"picture-acts 1:<!DOCTYPE: a picture must not declare entities of its own"},
	{in(`<text>&a;</text>`), "picture-svg 2:&: this SVG is broken here, or was cut off: invalid character entity &a;"},
	{`<?xml-stylesheet href="https://example.org/a.css"?>` + in(""),
		"picture-outside 1:<?xml-stylesheet: a picture must not fetch a style sheet"},
	{`<?xml version="1.0" encoding="latin1"?>` + in(""), "picture-svg 1:<?xml: this SVG is not in UTF-8"},
	{in(`<rect`), "picture-svg 2:<rect: this SVG is broken here, or was cut off: expected attribute name in element"},
	{in(`<g><rect width="4"/>`),
		"picture-svg 2:</svg: this SVG is broken here, or was cut off: element <g> closed by </svg>"},
	{in(`<rect width="4" width="5"/>`), "picture-svg 2:width: the attribute width is there twice"},
	{in(``) + "<svg xmlns='http://www.w3.org/2000/svg'/>", "picture-svg 2:<svg: this SVG goes on after its end"},
	{in(``) + "text", "picture-svg 2:t: there is text outside the picture"},
	{`<svg><rect width="4" height="4"/></svg>`,
		"picture-svg 1:<svg: this file does not begin with an SVG element, so no browser shows it as a picture"},
	{`<html><svg xmlns="http://www.w3.org/2000/svg"/></html>`,
		"picture-svg 1:<html: this file does not begin with an SVG element, so no browser shows it as a picture"},
	{`<svg xmlns="http://www.w3.org/2000/svg"><g/></svg>`, "picture-svg 1:<svg: this SVG draws nothing"},
	{in(`<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>`),
		"picture-too-much 1:<svg: something in this picture refers to itself, round in a circle"},
	{in(doubling(30)), "picture-too-much 1:<svg: this picture draws more elements than trundle lets a browser draw"},
	{in(strings.Repeat("<g>", 200) + strings.Repeat("</g>", 200)),
		"picture-too-much 2:<g: elements of a picture lie at most 100 deep in each other"},
	{in(strings.Repeat("<g/>", MaxElements)), "picture-too-much 2:<g: a picture has at most 100000 elements"},
}

// doubling draws each element twice in the next.
func doubling(n int) string {
	var b strings.Builder
	b.WriteString(`<path id="a" d="M0 0"/>`)
	for i := range n {
		from, to := strings.Repeat("a", i+1), strings.Repeat("a", i+2)
		b.WriteString(`<g id="` + to + `"><use href="#` + from + `"/><use href="#` + from + `"/></g>`)
	}
	return b.String()
}

func TestADrawingThatActsIsRefusedAtItsPlace(t *testing.T) {
	for _, c := range hostile {
		p := look("a.svg", []byte(c.svg))
		if got := strings.TrimSuffix(told(p), "\n"); got != c.want || p.Data != nil {
			t.Errorf("%.200s\n%s\nwant\n%s", c.svg, got, c.want)
		}
		for _, f := range p.Faults {
			if f.Hint == "" {
				t.Errorf("nothing says what to do about %s", f.What)
			}
		}
	}
}

func TestADrawingTellsAllThatIsWrongWithIt(t *testing.T) {
	p := look("a.svg", []byte(in(`<script/><rect onload="1"/>`+"\n"+`<image href="a.png"/>`)))
	if len(p.Faults) != 3 {
		t.Error(told(p))
	}
	if p := look("a.svg", []byte(in(strings.Repeat("<script/>", 1000)))); len(p.Faults) > mostFaults+1 {
		t.Errorf("%d faults are told", len(p.Faults))
	}
	if p := look("a.svg",
		append([]byte(in("")),
			bytes.Repeat([]byte(" "),
				MaxDrawing)...)); told(p) != "picture-too-much: is an SVG of 5 MB, which is more than trundle reads\n" {
		t.Error(told(p))
	}
}

func TestAPictureInADrawingIsCleanedToo(t *testing.T) {
	for kind, data := range map[string][]byte{"jpeg": photo(t, corners(1700, 30), 6),
		"png": notedPNG(t, corners(40, 30))} {
		coded := base64.StdEncoding.EncodeToString(data)
		start := "data:image/" + kind + ";base64,"
		broken := coded[:60] + "\n" + coded[60:]
		p := look("a.svg", []byte(in(`<image width="40" height="30" xlink:href="`+start+broken+`"/>`)))
		if len(p.Faults) > 0 {
			t.Fatal(told(p))
		}
		_, rest, ok := strings.Cut(string(p.Data), start)
		rest, _, _ = strings.Cut(rest, `"`)
		inside, err := base64.StdEncoding.DecodeString(rest)
		if !ok || err != nil {
			t.Fatalf("%v %.300q", err, p.Data)
		}
		for _, word := range planted {
			if bytes.Contains(inside, []byte(word)) {
				t.Errorf("the %s still holds %q", kind, word)
			}
		}
		if m := decoded(t, inside); kind == "jpeg" && m.Bounds().Dy() != 1700 {
			t.Errorf("the photo is %v: it must be turned, and as large as it was", m.Bounds())
		}
	}
}

// TestWhatComesOutIsXMLOfKnownNames reads each cleaned drawing anew, in the way of a browser: by namespaces.
func TestWhatComesOutIsXMLOfKnownNames(t *testing.T) {
	d := xml.NewDecoder(bytes.NewReader(look("a.svg", []byte(drawn)).Data))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if token.Name.Space != svgSpace || refusedElement(token.Name.Local) != "" {
				t.Errorf("an element %v", token.Name)
			}
		case xml.Comment, xml.ProcInst, xml.Directive:
			t.Errorf("%#v", token)
		}
	}
}
