// Package worksheets is for paper: it lays a lesson out as a worksheet in PDF and draws
// gauges, measuring aids at true scale. The pages' print style takes its margin from here.
package worksheets

import "strconv"

// Margin is the strip along each edge, in millimetres, that is kept free: home
// printers cannot reach it. Common practice, no source.
const Margin = 12

// PageRule is the rule by which a browser leaves the margin free when it prints.
func PageRule() []byte {
	return []byte("@page{margin:" + strconv.Itoa(Margin) + "mm}\n")
}
