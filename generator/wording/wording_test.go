package wording_test

import (
	"regexp"
	"sync"
	"testing"

	"trundle/generator/wording"
)

func TestAPatternAnswersAsARegularExpressionDoesToManyAtOnce(t *testing.T) {
	p, want := wording.New(`(\pL+) (\d+)`), regexp.MustCompile(`(\pL+) (\d+)`)
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			const text = "on 17 in 4"
			if p.MatchString(text) != want.MatchString(text) || p.MatchString("on") ||
				p.ReplaceAllString(text, "$2 $1") != "17 on 4 in" || p.FindStringSubmatch(text)[2] != "17" ||
				p.FindStringIndex(" " + text)[0] != 1 || p.Compiled().String() != want.String() {
				t.Error("it answers otherwise")
			}
		})
	}
	wait.Wait()
}

func TestAPatternIsNotCompiledBeforeItIsUsed(t *testing.T) {
	p := wording.New("(")
	defer func() {
		if recover() == nil {
			t.Error("a pattern that cannot be compiled is used without a word")
		}
	}()
	p.MatchString("")
}
