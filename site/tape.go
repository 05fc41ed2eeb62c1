package site

// The widths of the parts on the tape strip, as classes of the style sheet.

import (
	"maps"
	"slices"
	"strconv"

	"trundle/generator/lesson"
)

// tapeWidths makes a class for each number of minutes that a part of the pack's lessons
// has, since the security policy of the pages allows no style in the HTML: a part is as
// wide as its minutes and has a tick for each.
func tapeWidths(p *lesson.Pack) []byte {
	seen := map[int]bool{}
	for _, l := range p.Lessons {
		for _, m := range tapeParts(l) {
			seen[m.Minutes] = true
		}
	}
	var css []byte
	for _, m := range slices.Sorted(maps.Keys(seen)) {
		n := strconv.Itoa(m)
		css = append(css, ".m"+n+"{--m:"+n+"}\n"...)
	}
	return css
}
