package chart

// How a path is written short: relative commands, tenths of a unit, no point that does not show.

import (
	"math"
	"strconv"

	"gonum.org/v1/plot/vg"
)

// A pen writes the d of a path (SVG 2, chapter Paths): each part starts at an absolute point, all that follows is
// relative, in tenths of a unit. What is rounded is the place, not the step, so that errors do not add up.
type pen struct {
	d              []byte
	last           byte // the command that the next numbers would go on with
	x, y           int  // where it is
	startX, startY int  // where the part began
}

// put writes a command and its numbers, as short as the grammar of paths allows.
func (p *pen) put(command byte, tenths ...int) {
	fresh := command != p.last || command == 'M' || command == 'm' || command == 'z'
	if fresh {
		p.d = append(p.d, command)
	}
	p.last = command
	for i, n := range tenths {
		if n >= 0 && (i > 0 || !fresh) {
			p.d = append(p.d, ' ')
		}
		p.d = appendTenths(p.d, n)
	}
}

// appendTenths writes n tenths without a zero that could be left out: .5, 12, 3.1.
func appendTenths(b []byte, n int) []byte {
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	if n >= 10 || n == 0 {
		b = strconv.AppendInt(b, int64(n/10), 10)
	}
	if n%10 != 0 {
		b = append(b, '.', byte('0'+n%10))
	}
	return b
}

// moveTo begins a part; joined parts begin relative to the point before.
func (p *pen) moveTo(x, y int, joined bool) {
	if joined {
		p.put('m', x-p.x, y-p.y)
	} else {
		p.put('M', x, y)
	}
	p.x, p.y, p.startX, p.startY = x, y, x, y
}

// lineTo draws a straight line, by the shortest command for its direction.
func (p *pen) lineTo(x, y int) {
	switch dx, dy := x-p.x, y-p.y; {
	case dy == 0:
		p.put('h', dx)
	case dx == 0:
		p.put('v', dy)
	default:
		p.put('l', dx, dy)
	}
	p.x, p.y = x, y
}

// arcTo draws a part of a circle, at most half of one.
func (p *pen) arcTo(x, y, radius int, sweep bool) {
	turn := 0
	if sweep {
		turn = 10
	}
	p.put('a', radius, radius, 0, 0, turn, x-p.x, y-p.y)
	p.x, p.y = x, y
}

// curveTo draws a Bézier curve; the last two numbers are its end.
func (p *pen) curveTo(command byte, points ...int) {
	relative := make([]int, len(points))
	for i := 0; i+1 < len(points); i += 2 {
		relative[i], relative[i+1] = points[i]-p.x, points[i+1]-p.y
	}
	p.put(command, relative...)
	p.x, p.y = points[len(points)-2], points[len(points)-1]
}

// close draws back to where the part began.
func (p *pen) close() {
	p.put('z')
	p.x, p.y = p.startX, p.startY
}

// finest is how far a line may leave the points it was made from; nobody sees it.
const finest = 0.07

// thin leaves out points of a line that lie on it anyway (Douglas and Peucker 1973, with a stack of its own, since a
// line may have many points).
func thin(points []vg.Point) []vg.Point {
	if len(points) < 3 {
		return points
	}
	keep := make([]bool, len(points))
	keep[0], keep[len(points)-1] = true, true
	parts := [][2]int{{0, len(points) - 1}}
	for len(parts) > 0 {
		from, to := parts[len(parts)-1][0], parts[len(parts)-1][1]
		parts = parts[:len(parts)-1]
		worst, at := finest, 0
		for i := from + 1; i < to; i++ {
			// A bow that is the same on both sides has two points that are farthest; the first is taken on all processors.
			if d := sixPlaces(distance(points[i], points[from], points[to])); d > worst {
				worst, at = d, i
			}
		}
		if at > 0 {
			keep[at] = true
			parts = append(parts, [2]int{from, at}, [2]int{at, to})
		}
	}
	kept := points[:0:0]
	for i, p := range points {
		if keep[i] {
			kept = append(kept, p)
		}
	}
	return kept
}

// distance is that of p from the stretch between a and b.
func distance(p, a, b vg.Point) float64 {
	along := b.Sub(a)
	t := 0.0
	if square := along.Dot(along); square > 0 {
		t = min(1, max(0, float64(p.Sub(a).Dot(along)/square)))
	}
	off := p.Sub(a.Add(along.Scale(vg.Length(t))))
	return math.Hypot(float64(off.X), float64(off.Y))
}
