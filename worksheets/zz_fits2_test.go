package worksheets_test

import (
	"testing"

	"trundle/generator/lesson"
	"trundle/site"
	"trundle/site/words"
	"trundle/worksheets"
)

func TestFits(t *testing.T) {
	proved, _ := builtDemo(t)
	w, err := words.Load("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range proved.Lessons {
		var cards []worksheets.Card
		for _, c := range site.CardsOf(proved.Pack, l.Lesson, site.Students) {
			cards = append(cards, worksheets.Card{Title: c.Title, Own: !c.Adults, Adults: c.Adults, Both: c.Both, StudentsMay: c.StudentsMay, AdultsMay: c.AdultsMay, TakeCare: c.TakeCare(), Wear: c.Wear})
		}
		pictures := map[string][]byte{}
		for name, picture := range proved.Pack.Pictures {
			if picture != nil {
				pictures[name] = picture.Data
			}
		}
		s, _ := site.New("en")
		about := worksheets.About{Pack: "Canal Day", Version: "1", Language: "en", Club: "Lockside", Words: w.Say, Shown: worksheets.NewIllustrations(pictures, s.Figure)}
		for _, p := range worksheets.Papers {
			worksheets.Fits(p, about, l, cards)
		}
	}
	_ = lesson.OnPaper
}
