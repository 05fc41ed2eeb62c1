package site

import "strconv"

// longestPart is the most minutes that a part of a lesson is drawn for.
const longestPart = 240

// tapeWidths makes a class for each number of minutes, since the security policy of
// the pages allows no style in the HTML: a part is as wide as its minutes and has a
// tick for each.
func tapeWidths() []byte {
	var css []byte
	for m := 1; m <= longestPart; m++ {
		n := strconv.Itoa(m)
		css = append(css, ".m"+n+"{--m:"+n+"}\n"...)
	}
	return css
}
