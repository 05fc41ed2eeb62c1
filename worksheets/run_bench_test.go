package worksheets_test

import (
	"context"
	"testing"

	"trundle/generator"
	"trundle/site/words"
	"trundle/worksheets"
)

func benchmarkLessons(b *testing.B) (worksheets.About, []worksheets.SeasonLesson) {
	proved, err := generator.Prove(context.Background(), demo())
	if err != nil {
		b.Fatal(err)
	}
	en, err := words.Load("en")
	if err != nil {
		b.Fatal(err)
	}
	var all []worksheets.SeasonLesson
	for _, l := range proved.Lessons {
		all = append(all, worksheets.SeasonLesson{Lesson: l})
	}
	return worksheets.About{Pack: "P", Version: "1", Language: "en", Words: en.Say}, all
}

// BenchmarkRunSheets makes the run sheets of the demo pack on one size of paper.
func BenchmarkRunSheets(b *testing.B) {
	about, lessons := benchmarkLessons(b)
	for b.Loop() {
		for _, l := range lessons {
			if _, err := worksheets.RunSheet(worksheets.Papers[0], about, l.Lesson, l.Cards); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkSeason makes the students' sheets of the demo pack in one file.
func BenchmarkSeason(b *testing.B) {
	about, lessons := benchmarkLessons(b)
	for b.Loop() {
		if _, err := worksheets.Season(worksheets.Papers[0], about, lessons, false); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSheets makes the same sheets one by one.
func BenchmarkSheets(b *testing.B) {
	about, lessons := benchmarkLessons(b)
	for b.Loop() {
		for _, l := range lessons {
			if _, err := worksheets.Make(worksheets.Papers[0], about, l.Lesson, l.Cards, false); err != nil {
				b.Fatal(err)
			}
		}
	}
}
