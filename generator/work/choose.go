package work

// What is answered in words, of one's own or by choosing: no calculation can use it.

import (
	"trundle/generator/lesson"
	"trundle/generator/quantity"
)

// inWords notes a say or choose that students see.
func (w *worker) inWords(s *lesson.Statement) {
	switch {
	case w.hidden:
	case s.Kind == lesson.Choose:
		w.out.Chooses = append(w.out.Chooses, s)
	default:
		w.out.Says = append(w.out.Says, s)
	}
}

// slipBelow works a slip out. Below a choose there is nothing to work out: its wrong answer is a text.
func (w *worker) slipBelow(s *lesson.Statement) {
	if s.Of.Kind != lesson.Choose {
		w.out.results[s] = w.slip(s)
	}
}

// isChoice says more about a name in a calculation if it is that of a choose.
func (w *worker) isChoice(err *quantity.Error) bool {
	s := w.defined[err.Name]
	if s == nil || s.Kind != lesson.Choose {
		return false
	}
	err.Slug, err.Instead = "words-as-number", ""
	err.What = "“" + err.Name + "” is an answer that students choose, and cannot be worked with"
	err.Hint = "use the name of a number"
	return true
}
