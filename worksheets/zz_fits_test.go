package worksheets

import (
	"fmt"

	"trundle/generator/work"
)

// Fits tells pages and fill of each fit.
func Fits(p Paper, about About, l *work.Lesson, cards []Card) {
	fmt.Printf("%-34s %s ", l.Slug, p.Name)
	for _, f := range fits {
		s, _ := laidOut(p, about, l, cards, false, f)
		fmt.Printf(" %d@%.2f(text %.2f)", s.doc.PageCount(), (s.y-Margin)/(s.foot()-Margin), s.textEnd)
	}
	fmt.Println()
}
