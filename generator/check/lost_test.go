package check_test

// Tests of what is shown otherwise than it was meant.

import (
	"testing"

	"trundle/generator/lesson"
)

func TestABlockOfAnyKindWithTooFewMarksIsReported(t *testing.T) {
	words := []string{"work", "gauge"}
	for _, kind := range lesson.BlockKinds {
		words = append(words, string(kind))
	}
	for _, word := range words {
		if got := slugs(checked(t, "``"+word+"\nline\n``\n")); got != "open-block" {
			t.Errorf("``%s: problems are %q", word, got)
		}
	}
}
