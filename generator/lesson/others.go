package lesson

// What one lesson's pages and sheets may know of all other lessons.

// Outlined is the pack with no more of its lessons than that. What is drawn of one lesson is drawn from this, and so it
// cannot depend on anything else in the others: that is why it can be kept while they change.
func (p *Pack) Outlined() *Pack {
	outlined := *p
	outlined.Lessons = make([]*Lesson, len(p.Lessons))
	all := make([]Lesson, len(p.Lessons)) // in one piece
	for i, l := range p.Lessons {
		all[i] = Lesson{Slug: l.Slug, ID: Text{Value: l.ID.Value}, Title: l.Title, Week: l.Week, Draft: l.Draft}
		outlined.Lessons[i] = &all[i]
	}
	return &outlined
}
