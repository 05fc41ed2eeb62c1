package chart

import (
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// An element is what a test reads of an SVG.
type element struct {
	name, text string
	attrs      map[string]string
	anchor     string // of the group it stands in
}

func (e element) number(t failer, attr string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(e.attrs[attr], 64)
	if err != nil {
		t.Fatalf("%s of %v: %v", attr, e, err)
	}
	return v
}

// failer is what testing.T and rapid.T share.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
	Errorf(format string, args ...any)
}

// read gives all elements of a well-formed SVG.
func read(t failer, svg string) []element {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
	var all []element
	var open []int
	anchor := ""
	for {
		token, err := d.Token()
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%.2000s", err, svg)
		}
		switch tok := token.(type) {
		case xml.StartElement:
			e := element{name: tok.Name.Local, attrs: map[string]string{}, anchor: anchor}
			for _, a := range tok.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			if e.name == "g" {
				anchor = e.attrs["text-anchor"]
			}
			open = append(open, len(all))
			all = append(all, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			all[open[len(open)-1]].text += string(tok)
		}
	}
}

func named(all []element, name string) []element {
	return slices.DeleteFunc(slices.Clone(all), func(e element) bool { return e.name != name })
}

func paths(all []element, class string) []element {
	return slices.DeleteFunc(named(all, "path"), func(e element) bool { return e.attrs["class"] != class })
}

type point struct{ x, y float64 }

var commands = regexp.MustCompile(`[MmLlHhVvAaZzQqCc]|-?(?:\d+\.?\d*|\.\d+)`)

// parts reads a path: each part with all its points. A part that another follows by a relative
// move is one point: what a marker marks.
func parts(t failer, d string) [][]point {
	t.Helper()
	words := commands.FindAllString(d, -1)
	if strings.ReplaceAll(strings.Join(words, ""), " ", "") != strings.ReplaceAll(d, " ", "") {
		t.Fatalf("a path that is no path: %s", d)
	}
	var all [][]point
	var at point
	var command string
	for len(words) > 0 {
		if words[0][0] >= 'A' && words[0][0] != '.' {
			command, words = words[0], words[1:]
		}
		n := map[string]int{"M": 2, "m": 2, "l": 2, "h": 1, "v": 1, "a": 7, "z": 0}[command]
		args := make([]float64, n)
		for i := range args {
			v, err := strconv.ParseFloat(words[i], 64)
			if err != nil {
				t.Fatalf("%s: %v", d, err)
			}
			args[i] = v
		}
		words = words[n:]
		switch command {
		case "M":
			at = point{args[0], args[1]}
			all = append(all, []point{at})
			continue
		case "m":
			at = point{at.x + args[0], at.y + args[1]}
			all = append(all, []point{at})
			continue
		case "l":
			at = point{at.x + args[0], at.y + args[1]}
		case "h":
			at.x += args[0]
		case "v":
			at.y += args[0]
		case "a":
			at = point{at.x + args[5], at.y + args[6]}
		case "z":
			at = all[len(all)-1][0]
		default:
			t.Fatalf("command %q in %s", command, d)
		}
		all[len(all)-1] = append(all[len(all)-1], at)
	}
	return all
}

// marked are the points that markers or dots mark.
func marked(t failer, es []element) []point {
	t.Helper()
	var all []point
	for _, e := range es {
		ps := parts(t, e.attrs["d"])
		for i, p := range ps {
			alone := len(p) == 1 && i+1 < len(ps)
			if alone && i > 0 && len(ps[i-1]) == 1 {
				alone = false
			}
			if alone || len(p) == 2 && p[0] == p[1] {
				all = append(all, p[0])
			}
		}
	}
	return all
}

// A scale maps values to the drawing, as the marks of an axis tell.
type scale struct{ zero, unit float64 }

func (s scale) at(v float64) float64 { return s.zero + s.unit*v }

// scales reads both axes: the numbers of their labels and the places of the grid's lines.
func scales(t *testing.T, all []element) (x, y scale) {
	t.Helper()
	var upright, level []float64
	for _, e := range paths(all, "grid") {
		for _, p := range parts(t, e.attrs["d"]) {
			if p[0].x == p[1].x {
				upright = append(upright, p[0].x)
			} else {
				level = append(level, p[0].y)
			}
		}
	}
	var across, up []float64
	for _, e := range named(all, "text") {
		v, err := strconv.ParseFloat(strings.Replace(e.text, "\u2212", "-", 1), 64)
		if err == nil && e.anchor == "middle" {
			across = append(across, v)
		} else if err == nil && e.anchor == "end" {
			up = append(up, v)
		}
	}
	return line(t, across, upright), line(t, up, level)
}

// line is the scale through the first and last mark; the others must lie on it.
func line(t *testing.T, values, places []float64) scale {
	t.Helper()
	if len(values) != len(places) {
		t.Fatalf("labels %v at lines %v", values, places)
	}
	n := len(values)
	if n < 2 {
		return scale{}
	}
	unit := (places[n-1] - places[0]) / (values[n-1] - values[0])
	s := scale{places[0] - unit*values[0], unit}
	for i := range values {
		if math.Abs(s.at(values[i])-places[i]) > 0.1 {
			t.Errorf("mark %v at %v, not at %v", values[i], places[i], s.at(values[i]))
		}
	}
	return s
}
