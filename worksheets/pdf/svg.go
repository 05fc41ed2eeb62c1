package pdf

// Drawings in SVG: shapes and paths by the library, text in the document's own typeface.

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	operators "github.com/carlos7ags/folio/content"
	"github.com/carlos7ags/folio/svg"
)

// thinnest is the least width of a drawing's lines in millimetres: copiers lose thinner ones.
const thinnest = 0.25

// A Drawing is an SVG that documents share. It is made once, and only read.
type Drawing struct {
	box    svg.ViewBox
	pieces []stretch
	labels []label
}

// A stretch is operators with thousandths at most, and the width of lines that is set before them; 0 for none.
type stretch struct {
	width float64
	bytes []byte
}

// Looks are presentation attributes by class: style sheets inside a drawing are not read.
type Looks map[string]map[string]string

// NewDrawing reads an SVG. Classes look as looks says.
func NewDrawing(file []byte, looks Looks) (*Drawing, error) {
	parsed, err := svg.ParseBytes(file)
	if err != nil {
		return nil, fmt.Errorf("the drawing cannot be read: %w", err)
	}
	d := &Drawing{box: parsed.ViewBox()}
	if !d.box.Valid {
		d.box.Width, d.box.Height = parsed.Width(), parsed.Height()
	}
	if !(d.box.Width > 0 && d.box.Height > 0) {
		return nil, errors.New("the drawing has no size")
	}
	root := parsed.Root()
	d.resolve(root, painted{"fill": "#000", "stroke": "none", "font-size": "16", "text-anchor": "start", "opacity": "1"},
		looks, svg.Matrix{A: 1, D: 1})
	stream := operators.NewStream()
	parsed.Draw(stream, 0, 0, d.box.Width, d.box.Height)
	d.cut(stream.Bytes())
	return d, nil
}

// Size is that of the drawing in units of its own.
func (d *Drawing) Size() (width, height float64) { return d.box.Width, d.box.Height }

// painted is what a node takes from those around it.
type painted map[string]string

// inherited are the attributes that count for what is inside, too. The library forgets those of the outermost node.
var inherited = []string{"fill", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin", "fill-rule",
	"color", "font-size", "font-weight", "font-style", "text-anchor", "visibility"}

// resolve writes into each shape what it inherits, and keeps the texts.
func (d *Drawing) resolve(n *svg.Node, around painted, looks Looks, to svg.Matrix) {
	own := attributes(n, looks)
	if own["display"] == "none" || own["visibility"] == "hidden" || n.Tag == "defs" {
		return
	}
	here := painted{}
	for _, name := range inherited {
		if here[name] = around[name]; own[name] != "" && own[name] != "inherit" {
			here[name] = own[name]
		}
	}
	here["opacity"] = around["opacity"]
	if own["opacity"] != "" {
		here["opacity"] = strconv.FormatFloat(measured(around["opacity"])*measured(own["opacity"]), 'f', 4, 64)
	}
	to = to.Multiply(n.Transform)
	if n.Tag == "text" {
		d.text(n, here, looks, to)
		return
	}
	for _, c := range n.Children {
		d.resolve(c, here, looks, to)
	}
	if len(n.Children) == 0 {
		d.settle(n, own, here)
	}
}

// attributes are a node's own: those of its style before those of its classes before plain ones.
func attributes(n *svg.Node, looks Looks) painted {
	own := painted{}
	for name, value := range n.Attrs {
		own[name] = strings.TrimSpace(value)
	}
	for _, class := range strings.Fields(n.Attrs["class"]) {
		for name, value := range looks[class] {
			own[name] = value
		}
	}
	for part := range strings.SplitSeq(n.Attrs["style"], ";") {
		if name, value, ok := strings.Cut(part, ":"); ok {
			own[strings.TrimSpace(name)] = strings.TrimSpace(value)
		}
	}
	return own
}

// settle gives a shape the attributes that count. What is transparent is drawn as it looks on paper, which is white.
// The library lets dashes and ends of lines run on into the next shape; one that is a little transparent, which it does
// not draw here, keeps them to itself.
func (d *Drawing) settle(n *svg.Node, own, here painted) {
	delete(n.Attrs, "style")
	for _, name := range inherited {
		if value := here[name]; value != "" {
			n.Attrs[name] = value
		}
	}
	for _, name := range []string{"fill", "stroke"} {
		colour := n.Attrs[name]
		if colour == "currentColor" {
			colour = here["color"]
		}
		through := measured(here["opacity"])
		if part := own[name+"-opacity"]; part != "" {
			through *= measured(part)
		}
		n.Attrs[name] = faded(colour, through)
	}
	if d.isGround(n) {
		n.Attrs["fill"] = "none"
	}
	if dashes := own["stroke-dasharray"]; dashes != "" {
		n.Attrs["stroke-dasharray"] = dashes
	}
	if path := n.Attrs["d"]; path != "" {
		n.Attrs["d"] = rewritten(path)
	}
	n.Attrs["opacity"] = "0.99"
}

// isGround tells whether a shape only tints the whole drawing: paper is white.
func (d *Drawing) isGround(n *svg.Node) bool {
	return n.Tag == "rect" && n.Attrs["stroke"] == "none" && n.Attrs["transform"] == "" &&
		measured(n.Attrs["x"]) <= d.box.MinX && measured(n.Attrs["y"]) <= d.box.MinY &&
		measured(n.Attrs["width"]) >= d.box.Width && measured(n.Attrs["height"]) >= d.box.Height
}

// faded is a colour as it looks on white when it lets some of that through.
func faded(colour string, part float64) string {
	rgb, ok := hexadecimal(colour)
	if !ok || part >= 1 {
		return colour
	}
	for i, c := range rgb {
		rgb[i] = 255 - int(math.Round(float64(255-c)*max(part, 0)))
	}
	return fmt.Sprintf("#%02x%02x%02x", rgb[0], rgb[1], rgb[2])
}

// cut parts what the library has drawn at each width of line, and rounds its numbers.
func (d *Drawing) cut(drawn []byte) {
	current := stretch{}
	for line := range bytes.Lines(drawn) {
		fields := bytes.Fields(line)
		if len(fields) == 2 && string(fields[1]) == "w" {
			d.pieces = append(d.pieces, current)
			width, _ := strconv.ParseFloat(string(fields[0]), 64)
			current = stretch{width: width}
			continue
		}
		current.bytes = appendRounded(current.bytes, fields)
	}
	d.pieces = append(d.pieces, current)
}

// appendRounded writes an operator to thousandths, so that the last bits, in which processors differ, do not show. The
// factors of a turn keep theirs, but for a zero with a sign.
func appendRounded(to []byte, fields [][]byte) []byte {
	matrix := len(fields) == 7 && string(fields[6]) == "cm"
	for i, f := range fields {
		if i > 0 {
			to = append(to, ' ')
		}
		x, err := strconv.ParseFloat(string(f), 64)
		switch {
		case err != nil || matrix && x != 0:
			to = append(to, f...)
		default:
			to = appendNumber(to, x)
		}
	}
	return append(to, '\n')
}

// Drawing draws one into a rectangle from its top left corner, as large as its shape allows, in the middle.
func (d *Document) Drawing(g *Drawing, x, y, w, h float64) {
	mm := min(w/g.box.Width, h/g.box.Height) // a unit of the drawing in millimetres
	x, y = x+(w-mm*g.box.Width)/2, y+(h-mm*g.box.Height)/2
	scale := math.Round(mm*72/25.4*1e5) / 1e5
	c := d.draw()
	c.raw("q " + strconv.FormatFloat(scale, 'f', -1, 64) + " 0 0 " + strconv.FormatFloat(scale, 'f', -1, 64))
	c.op("", d.across(x), d.up(y+mm*g.box.Height))
	c.raw("cm\n")
	for _, p := range g.pieces {
		if p.width > 0 {
			c.op("w", max(p.width, thinnest/mm))
		}
		c.bytes = append(c.bytes, p.bytes...)
	}
	c.raw("Q\n")
	for _, l := range g.labels {
		d.label(l, x-mm*g.box.MinX, y-mm*g.box.MinY, mm)
	}
	d.Shade(0)
}
