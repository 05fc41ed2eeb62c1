package hostile

// Files of fields: the pack's, its kits, headers, formulas, names of before; and words and care cards.

import (
	"fmt"
	"strings"
)

const (
	soundFields = "title: T\nid: t\nversion: 1.0.0\nkit: heron\n"
	soundKits   = "heron: {title: Heron, wheel: 65 mm within 0.5 mm, track: 112 mm, gear: 1}\n"
	soundHeader = "title: A\nid: a\nweek: 1\nminutes: 10\ncare: [cloth]\n"
)

// deep adds fields that are deep, doubled or too long, in a file whose own text is around.
func deep(l *list, group, file, before, after string) {
	for _, mark := range []string{"- ", "? ", "[", "{", "a: - "} {
		l.add(group, fmt.Sprintf("25,000 of %q", mark), file, before+"x: \n"+strings.Repeat(mark, 12500)+"x\n"+after)
	}
	l.add(group, "aliases of aliases", file, before+"x: &a [1, 2]\ny: &b [*a, *a, *a, *a]\nz: [*b, *b, *b, *b]\n"+after)
	l.add(group, "70 kB", file, before+strings.Repeat("# a\n", 18000)+after)
	l.add(group, "many unknown fields", file, before+numbered(3000, "x#: 1\n")+after)
	l.add(group, "a field twice", file, before+"title: B\ntitle: C\n"+after)
	l.add(group, "a tab", file, before+"\tx: 1\n"+after)
	l.add(group, "no fields but a list", file, "- a\n- b\n")
}

func packFile(l *list) {
	deep(l, "pack.yaml", "pack.yaml", soundFields, "")
	for name, field := range map[string]string{
		"a closing fence": "---\n", "a closing fence and a note": "---\n# end\n", "two closing fences": "---\n---\n",
		"two sets":                    "---\n" + soundFields,
		"an address of 5,000 letters": "address: https://example.org/" + strings.Repeat("a", 5000) + "\n",
		"an address of a script":      "address: javascript:alert(1)\n", "a unit of itself": "units:\n  span: 2 span\n",
		"many units": "units:\n" + numbered(2000, "  u#: 1# mm\n"), "a unit of no length": "units:\n  span: 0 cm\n",
		"a language that leads out": "language: ../../etc/passwd\n",
		"a logo that leads out":     "logo: ../../etc/passwd\n",
		"a start that is no day":    "start: 2026-02-30\n",
		"a club of 150 letters":     "club: " + strings.Repeat("a", 150) + "\n",
		"a club of 151 letters":     "club: " + strings.Repeat("a", 151) + "\n",
	} {
		l.add("pack.yaml", name, "pack.yaml", soundFields+field)
	}
	l.add("pack.yaml", "nothing", "pack.yaml", "")
	l.add("pack.yaml", "a title of 60 kB", "pack.yaml", "title: "+strings.Repeat("a",
		60_000)+"\nid: t\nversion: 1.0.0\nkit: heron\n")
	l.add("pack.yaml", "an id that leads out", "pack.yaml", "title: T\nid: ../t\nversion: 1.0.0\nkit: heron\n")
	l.add("pack.yaml", "a version that leads out", "pack.yaml", "title: T\nid: t\nversion: ../1\nkit: heron\n")
	l.add("pack.yaml", "a kit that is not there", "pack.yaml", "title: T\nid: t\nversion: 1.0.0\nkit: nope\n")
}

func kits(l *list) {
	deep(l, "kits.yaml", "kits.yaml", soundKits, "")
	for name, text := range map[string]string{
		"a closing fence":          soundKits + "---\n",
		"an empty name":            soundKits + "\"\": {title: A}\n",
		"no name":                  soundKits + "~: {title: A}\n",
		"nothing of a kit":         "heron: ~\n",
		"a name of a list":         "? [a]\n: {}\n",
		"a name of 61 letters":     soundKits + strings.Repeat("a", 61) + ": {title: A, wheel: 65 mm}\n",
		"a fact of 60 letters":     soundKits[:len(soundKits)-2] + ", " + strings.Repeat("a", 60) + ": 1 mm}\n",
		"a fact of 61 letters":     soundKits[:len(soundKits)-2] + ", " + strings.Repeat("a", 61) + ": 1 mm}\n",
		"a wheel of nothing":       "heron: {title: H, wheel: 0 mm}\n",
		"a wheel of seconds":       "heron: {title: H, wheel: 65 s}\n",
		"a wheel that is vast":     "heron: {title: H, wheel: 1e400 mm}\n",
		"a name that scripts know": soundKits + "__proto__: {title: P, wheel: 1 mm}\nconstructor: {title: C, wheel: 1 mm}\n",
		"1,000 kits":               soundKits + numbered(1000, "k#: {title: K#, wheel: 1# mm, track: 112 mm, gear: 1}\n"),
		"1,000 facts":              "heron:\n  title: H\n  wheel: 65 mm\n" + numbered(1000, "  f#: 1# mm\n"),
	} {
		l.add("kits.yaml", name, "kits.yaml", text)
	}
}

func headers(l *list) {
	end := "---\n\n## Roll (10 min)\n\n{kit.wheel}\n"
	deep(l, "headers", "01-a.md", "---\n"+soundHeader, end)
	for name, field := range map[string]string{
		"weeks below none":  "week: -1\n",
		"a week of words":   "week: one\n",
		"minutes of 10^30":  "minutes: 1" + strings.Repeat("0", 30) + "\n",
		"no care":           "care: nope\n",
		"care of 500":       "care: [" + strings.Repeat("cloth, ", 500) + "cloth]\n",
		"a title of a list": "title: [a, b]\n",
		"goals of 1,000":    "goals:\n" + strings.Repeat("  - Roll.\n", 1000), "goals of fields": "goals: {a: b}\n",
		"materials of nothing": "materials:\n  - ~\n  - \"\"\n",
		"a tag of bytes":       "title: !!binary aGk=\n",
		"merged":               "<<: {title: A}\n",
		"standards of 60 kB":   "standards: [" + strings.Repeat("a", 50_000) + "]\n",
	} {
		l.add("headers", name, "01-a.md", "---\n"+field+end)
	}
	l.add("headers", "without an end", "01-a.md", "---\ntitle: A\n")
	l.add("headers", "nothing", "01-a.md", "")
	l.add("headers", "only a fence", "01-a.md", "---")
}

func formulas(l *list) {
	deep(l, "formulas.yaml", "formulas.yaml", "", "")
	for name, text := range map[string]string{
		"of itself": "roll(d): {is: roll(d), what: x}\n", "of each other": "a1(d): {is: b1(d)}\nb1(d): {is: a1(d)}\n",
		"nothing": "roll(d):\n", "a number": "roll: 1\n", "500 formulas": numbered(500, "roll#(d): {is: d * #}\n"),
		"a name that is taken": "circumference(d): {is: d}\n",
		"brackets 200 deep":    "roll(d): {is: \"" + strings.Repeat("(", 200) + "d\"}\n",
	} {
		l.add("formulas.yaml", name, "formulas.yaml", text)
	}
}

func renamed(l *list) {
	deep(l, "renamed.yaml", "renamed.yaml", "", "")
	for name, text := range map[string]string{
		"in a circle":                 "lessons:\n  b: a\n  a: b\n",
		"to itself":                   "lessons:\n  a: a\n",
		"out of the pack":             "lessons:\n  ../../b: a\n",
		"to nothing":                  "lessons:\n  b: nope\n",
		"a chain of 500":              "lessons:\n" + numbered(500, "  n#: m#\n"),
		"nothing":                     "",
		"to a name that scripts know": "lessons:\n  __proto__: a\n",
	} {
		l.add("renamed.yaml", name, "renamed.yaml", text)
	}
}

func words(l *list) {
	for name, text := range map[string]string{
		"nothing":                "",
		"prose alone":            lines("It is a good day. ", 100, l.size),
		"a word twice":           "## turn\n\nOne.\n\n## turn\n\nTwo.\n",
		"a thousand words":       numbered(1000, "## w#\n\nOne time round.\n\n"),
		"a word of itself":       "## turn\n\nA turn is a turn.\n",
		"a word of 10 kB":        "## " + strings.Repeat("a", 10_000) + "\n\nLong.\n",
		"a word of a script":     "## <script>\n\nIt is <script>alert(1)</script>.\n",
		"deep":                   strings.Repeat("> ", 3000) + "x\n",
		"without a meaning":      "## turn\n\n## stop\n",
		"values":                 "## turn\n\nIt is {C}.\n",
		"a thousand other names": "## turn\n\nOne time round.\n\nAlso: " + numbered(1000, "w#, ") + "x\n",
	} {
		l.add("words.md", name, "words.md", text)
	}
}

const soundCard = "---\ntitle: Cloth\nwho: both\nstudents: \"Wipe wheels with a cloth.\"\nadults: \"Sharp tools.\"\n" +
	"hazards: []\nwear: []\nmentions: [damp cloth]\n"

const cardBody = "---\n\n## Before\n\n- Switch the robot off.\n\n## During\n\n1. Wipe.\n\n## After\n\n- Wash your " +
	"hands.\n\n## If something goes wrong\n\n- Call an adult. Your local emergency number: 112\n"

func cards(l *list) {
	deep(l, "care cards", "care/cloth.md", soundCard, cardBody)
	for name, text := range map[string]string{
		"nothing":               "",
		"no steps":              soundCard + "---\n",
		"prose of 250 kB":       soundCard + cardBody + lines("Take a damp cloth and acetone. ", 100, l.size),
		"hazards that are none": strings.Replace(soundCard, "hazards: []", "hazards: [H2, X999, \"\"]", 1) + cardBody,
		"for nobody":            strings.Replace(soundCard, "both", "nobody", 1) + cardBody,
		"mentions of 2,000": strings.Replace(soundCard, "[damp cloth]", "["+strings.Repeat("cloth, ", 2000)+"x]", 1) +
			cardBody,
		"mentions of nothing": strings.Replace(soundCard, "[damp cloth]", "[\"\"]", 1) + cardBody,
		"a work block":        soundCard + cardBody + "\n```work\ngiven z = 1\n```\n",
		"values":              soundCard + cardBody + "\n{C}\n",
		"steps of 5,000":      soundCard + cardBody + strings.Repeat("- Call an adult.\n", 5000),
	} {
		l.add("care cards", name, "care/cloth.md", text)
	}
}
