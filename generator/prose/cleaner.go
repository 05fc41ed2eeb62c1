package prose

// Words for what cleans, and where they mean something else.

import "regexp"

// A Cleaner is a word that calls for a care card whatever the pack's cards mention.
type Cleaner struct{ Word, Article string }

// Cleaners are the words for solvents, sprays and cleaners.
var Cleaners = []Cleaner{
	{"solvent", "a"}, {"spray", "a"}, {"cleaner", "a"}, {"aerosol", "an"}, {"degreaser", "a"}, {"alcohol", "an"},
	{"acetone", "the solvent"}, {"isopropanol", "the solvent"}, {"white spirit", "the solvent"}, {"methylated spirit",
		"the solvent"},
	{"bleach", "the cleaner"}, {"cleaning fluid", "a"},
}

// harmless are names and comparisons that a cleaner's word is part of.
var harmless = map[string]*regexp.Regexp{
	"cleaner": regexp.MustCompile(`(?:vacuum|pipe|street|window)[ \p{Pd}]+cleaners?|cleaner than|` +
		`(?:\b(?:is|are|was|were|be|gets?|got|looks?|becomes?|became|much|even|far)) cleaner`),
	"spray":   regexp.MustCompile(`spray bottles? of water`),
	"alcohol": regexp.MustCompile(`alcohol[ \p{Pd}]+free`),
}

// ForgetHarmless blanks out what has a cleaner's word in it and cleans nothing that needs a
// card.
func (s *Seeker) ForgetHarmless() {
	for word, pattern := range harmless {
		s.blank(pattern, []byte(word))
	}
}
