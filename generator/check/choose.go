package check

// Answers to choose from: what the page would have nothing of its own to say to.

import (
	"trundle/generator/problem"
	"trundle/generator/work"
)

// chooses cautions where a wrong answer has no hint, once for each choose: what to think of is the reason to ask.
func chooses(l *work.Lesson, problems *problem.List) {
	for _, s := range l.Chooses {
		for _, a := range s.Answers {
			if !a.Right && a.Hint == nil {
				problems.Caution(l.File, a.At, "choose-hint", "there is no hint for who chooses “"+a.Text+"”",
					"write one below the choose, as in  slip \""+a.Text+"\" \"What speaks against it?\"")
				break
			}
		}
	}
}
