package check

// Steps that are for adults.

import (
	"trundle/generator/lesson"
	"trundle/generator/problem"
	"trundle/generator/prose"
)

// A task is what a card leaves to adults, by a word that it mentions.
type task struct {
	card, word string
	phrase     *prose.Phrase
}

// adultsSteps refuses a numbered step that tells students to do what a card leaves to adults.
// A step that names an adult who does it, or forbids it, is welcome.
func adultsSteps(p *lesson.Pack, l *lesson.Lesson, said *prose.Seeker, problems *problem.List) {
	tasks := tasksOf(p, said)
	if len(tasks) == 0 { // so it is with most lessons, and steps take time to find
		return
	}
	for _, step := range prose.Steps(l) {
		clauses := prose.Clauses(step)
		for _, t := range tasks {
			t.refuse(l, clauses, problems)
		}
	}
}

// tasksOf are those that a lesson mentions.
func tasksOf(p *lesson.Pack, said *prose.Seeker) []task {
	var tasks []task
	for _, c := range p.Cards {
		for _, m := range c.Mentions {
			if phrase := said.Phrase(m.Value); c.Adults && phrase != nil {
				tasks = append(tasks, task{c.Name, m.Value, phrase})
			}
		}
	}
	return tasks
}

// refuse reports the first clause of a step that gives a task to students.
func (t task) refuse(l *lesson.Lesson, clauses []prose.Run, problems *problem.List) {
	for _, c := range clauses {
		if part, found := t.phrase.In(c); found && !prose.LeavesAlone(c, part) {
			problems.Error(l.File, c.Span(part.Start, part.End), "adults-step",
				"a numbered step tells students about “"+t.word+"”, which the card "+t.card+" leaves to adults",
				"begin the sentence with who does it, as in  Your mentor …, or with  Never …; or move it to the "+
					"mentor notes")
			return
		}
	}
}
