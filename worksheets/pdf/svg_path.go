package pdf

// Paths of drawings in SVG, written anew before the library reads them: with absolute places, and curves instead of
// arcs. The library's arcs have more pieces on one processor than on another where they end at a whole quarter.

import (
	"math"
	"strconv"
	"strings"
)

// A pathReader goes through the data of a path (SVG 1.1, 8.3).
type pathReader struct {
	text string

	x, y, startX, startY float64 // where the pen is, and where its line began
	bendX, bendY         float64 // the last control point
	bent                 byte    // C or Q if the last command was such a curve
	out                  strings.Builder
}

// arguments is how many numbers a command takes.
var arguments = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'C': 6, 'S': 4, 'Q': 4, 'T': 2, 'A': 7, 'Z': 0}

// rewritten gives a path as far as it can be read.
func rewritten(path string) string {
	r := &pathReader{text: path}
	for {
		r.skip()
		if r.text == "" {
			return r.out.String()
		}
		letter := r.text[0]
		count, known := arguments[letter&^0x20]
		if !known {
			return r.out.String()
		}
		r.text = r.text[1:]
		if !r.command(letter, count) {
			return r.out.String()
		}
	}
}

// command carries one out with all its rows of numbers; false if they are not what it takes.
func (r *pathReader) command(letter byte, count int) bool {
	for first := true; ; first = false {
		numbers := make([]float64, count)
		for i := range numbers {
			ok := false
			numbers[i], ok = r.number(letter&^0x20 == 'A' && (i == 3 || i == 4))
			if !ok {
				return i == 0 && !first // the next command, else what cannot be read
			}
		}
		if letter == 'M' && !first {
			letter = 'L'
		} else if letter == 'm' && !first {
			letter = 'l'
		}
		r.draw(letter, numbers)
		if count == 0 {
			return true
		}
	}
}

// skip leaves out what stands between numbers.
func (r *pathReader) skip() { r.text = strings.TrimLeft(r.text, " \t\r\n\f,") }

// number reads one, or a flag, which is one digit and may touch what follows.
func (r *pathReader) number(flag bool) (float64, bool) {
	r.skip()
	end, dot, exponent := 0, false, false
	for ; end < len(r.text); end++ {
		c := r.text[end]
		after := byte(0)
		if end > 0 {
			after = r.text[end-1]
		}
		digit := c >= '0' && c <= '9'
		sign := (c == '-' || c == '+') && (end == 0 || after == 'e' || after == 'E')
		point := c == '.' && !dot && !exponent
		power := (c == 'e' || c == 'E') && !exponent && end > 0
		if !(digit || sign || point || power) || flag && end == 1 {
			break
		}
		dot, exponent = dot || point, exponent || power
	}
	x, err := strconv.ParseFloat(r.text[:end], 64)
	if err != nil {
		return 0, false
	}
	r.text = r.text[end:]
	return x, true
}

// draw carries a command out once.
func (r *pathReader) draw(letter byte, n []float64) {
	kind := letter &^ 0x20
	if relative := letter != kind; relative {
		r.fromHere(kind, n)
	}
	bent := r.bent
	r.bent = 0
	switch kind {
	case 'M':
		r.startX, r.startY = n[0], n[1]
		r.to('M', n...)
	case 'L':
		r.to('L', n...)
	case 'H':
		r.to('L', n[0], r.y)
	case 'V':
		r.to('L', r.x, n[0])
	case 'C', 'Q':
		r.curve(kind, n...)
	case 'S', 'T': // goes on as the last curve of its kind ended
		of := byte('C')
		if kind == 'T' {
			of = 'Q'
		}
		x, y := r.x, r.y
		if bent == of {
			x, y = 2*r.x-r.bendX, 2*r.y-r.bendY
		}
		r.curve(of, append([]float64{x, y}, n...)...)
	case 'A':
		r.arc(n[0], n[1], n[2], n[3] != 0, n[4] != 0, n[5], n[6])
	case 'Z':
		r.out.WriteString("Z")
		r.x, r.y = r.startX, r.startY
	}
}

// fromHere makes the places of a command absolute.
func (r *pathReader) fromHere(kind byte, n []float64) {
	switch kind {
	case 'H':
		n[0] += r.x
	case 'V':
		n[0] += r.y
	case 'A':
		n[5], n[6] = n[5]+r.x, n[6]+r.y
	default:
		for i := range n {
			n[i] += [2]float64{r.x, r.y}[i%2]
		}
	}
}

// curve draws a curve and keeps its last control point.
func (r *pathReader) curve(kind byte, n ...float64) {
	r.bent, r.bendX, r.bendY = kind, n[len(n)-4], n[len(n)-3]
	r.to(kind, n...)
}

// to writes a command, which leads to its last two numbers.
func (r *pathReader) to(kind byte, n ...float64) {
	r.out.WriteByte(kind)
	for _, x := range n {
		r.out.WriteByte(' ')
		r.out.WriteString(strconv.FormatFloat(math.Round(x*1e5)/1e5+0, 'f', -1, 64)) // + 0: no zero has a sign
	}
	r.x, r.y = n[len(n)-2], n[len(n)-1]
}

// arc draws part of an ellipse in pieces of at most a quarter (SVG 1.1, F.6.5).
func (r *pathReader) arc(rx, ry, turn float64, large, sweep bool, x, y float64) {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if rx == 0 || ry == 0 || x == r.x && y == r.y {
		r.to('L', x, y)
		return
	}
	sin, cos := math.Sincos(turn * math.Pi / 180)
	// Half the way from end to start, as seen along the ellipse.
	hx, hy := (r.x-x)/2, (r.y-y)/2
	px, py := cos*hx+sin*hy, cos*hy-sin*hx
	// An ellipse that is too small to reach is made as large as it must be.
	reach := px*px/(rx*rx) + py*py/(ry*ry)
	away := 0.0
	if reach > 1 {
		rx, ry = rx*math.Sqrt(reach), ry*math.Sqrt(reach)
	} else {
		away = math.Sqrt(max(0, 1/reach-1))
	}
	if large == sweep {
		away = -away
	}
	cx, cy := away*rx*py/ry, -away*ry*px/rx
	mx, my := cos*cx-sin*cy+(r.x+x)/2, sin*cx+cos*cy+(r.y+y)/2
	from := math.Atan2((py-cy)/ry, (px-cx)/rx)
	over := math.Atan2((-py-cy)/ry, (-px-cx)/rx) - from
	const whole, bits = 2 * math.Pi, 1e-6 // what the last bits make of an angle
	if sweep && over < bits {
		over += whole
	} else if !sweep && over > -bits {
		over -= whole
	}
	pieces := math.Ceil(math.Abs(over)/(math.Pi/2) - bits)
	step := over / pieces
	handle := 4.0 / 3 * math.Tan(step/4)
	at := func(a, b float64) (float64, float64) { // from the ellipse's own measure
		return mx + cos*rx*a - sin*ry*b, my + sin*rx*a + cos*ry*b
	}
	for i := range int(pieces) {
		sa, ca := math.Sincos(from + step*float64(i))
		sb, cb := math.Sincos(from + step*float64(i+1))
		x1, y1 := at(ca-handle*sa, sa+handle*ca)
		x2, y2 := at(cb+handle*sb, sb-handle*cb)
		ex, ey := at(cb, sb)
		if i == int(pieces)-1 {
			ex, ey = x, y
		}
		r.to('C', x1, y1, x2, y2, ex, ey)
	}
}
