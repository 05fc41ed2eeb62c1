package hostile

// Files of runs, parts, pictures, and where links lead.

import (
	"fmt"
	"strings"
)

func runsFiles(l *list) {
	const shown = "```runs data/a.csv\ngroup base\nalong stop in cm to 0.1 = 120 cm \"How far\"\n```\n\n" +
		"```chart data/a.csv\ntitle \"Stops\"\ngroup base\ndots stop in cm = 120 cm \"Stopping place\"\n```\n"
	head := "base,run,stop (cm),drift (mm)\n"
	for name, text := range map[string]string{
		"nothing":                   "",
		"a head alone":              head,
		"20,000 rows":               head + numbered(20_000, "A,#,1,2\n"),
		"a million commas":          strings.Repeat(",", 200_000) + "\n",
		"40,000 rows":               head + strings.Repeat("A,1,1,2\n", 40_000),
		"2,000 columns":             numbered(2000, "c#,") + "x\n",
		"no end of a quotation":     head + "\"A,1,1,2\n",
		"5,000 bases":               head + numbered(5000, "B#,1,1,2\n"),
		"vast numbers":              head + "A,1,1e308,1e308\nA,2,-1e308,1\nB,1,1e400,1\n",
		"no numbers":                head + "A,x,y,z\n",
		"rows of other lengths":     head + "A\nA,1\nA,1,2,3,4,5\n",
		"zero bytes":                head + "A,1,\x00,2\n",
		"a cell of 50 kB":           head + "A,1,1," + strings.Repeat("1", 50_000) + "\n",
		"a name of 50 kB":           head + strings.Repeat("A", 50_000) + ",1,1,2\n",
		"formulas for spreadsheets": head + "=cmd|' /C calc'!A0,1,1,2\n@x,2,1,2\n",
		"a column twice":            "base,base,stop (cm),stop (cm)\nA,1,1,2\n",
		"a unit that is not":        "base,run,stop (blips)\nA,1,1\n",
		"columns without names":     ",,,\n1,2,3,4\n",
		"quotation marks":           strings.Repeat("\"", 20_001),
		"an order of bytes":         "\xfe\xffb\x00a\x00", "semicolons and commas": "base;stop (cm)\nA;1,5\nB;1.5\n",
		"a name that scripts know": head + "__proto__,1,1,2\nconstructor,1,1,2\n",
		"5,000 wrong cells":        head + strings.Repeat("A,1,x,y\n", 5000),
	} {
		l.cases = append(l.cases, Case{Group: "files of runs", Name: name, File: "data/a.csv", Text: text, Shows: shown})
	}
}

func parts(l *list) {
	for name, text := range map[string]string{
		"of itself":     "{{part a}}\n",
		"with a header": "---\ntitle: A\n---\n\nText\n",
		"nothing":       "",
		"250 kB":        lines("It is a good day. ", 100, l.size),
		"deep":          strings.Repeat("> ", 500) + "x\n",
	} {
		l.cases = append(l.cases, Case{Group: "parts", Name: name, File: "parts/a.md", Text: text, Shows: "{{part a}}\n"})
	}
	for name, text := range map[string]string{
		"that is not there": "{{part nope}}\n",
		"that leads out":    "{{part ../pack.yaml}}\n",
		"without a name":    "{{part}}\n",
		"1,000 times":       strings.Repeat("{{part nope}}\n\n", 1000),
	} {
		l.body("parts", name, text)
	}
}

func pictures(l *list) {
	for name, data := range map[string]string{
		"p.html": "<script>alert(1)</script>",
		"p.js":   "alert(1)",
		"p.png":  "",
		"q.png":  "\x89PNG\r\n\x1a\n\x00\x00",
		"r.png":  "GIF89a",
		"t.png":  pngOf(100_000, 100_000),
		"u.jpg":  "\xff\xd8\xff\xe0\x00\x10JFIF",
		"v.svg":  "<svg xmlns=\"http://www.w3.org/2000/svg\"><script>1</script></svg>",
		"w.svg":  strings.Repeat("<g>", 20_000),
		"x.svg": "<!DOCTYPE a [<!ENTITY b \"" + strings.Repeat("c", 1000) + "\">]><svg>" + strings.Repeat("&b;",
			1000) + "</svg>",
		"y.svg": "<svg xmlns=\"http://www.w3.org/2000/svg\" onload=\"alert(1)\">" +
			"<image href=\"https://example.org/a.png\"/></svg>",
		"z.svg":    "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"1e300\" height=\"-1\"/>",
		"a#b.png":  "x",
		"a%41.gif": "GIF89a\xff\xff\xff\xff\x00\x00\x00",
	} {
		l.cases = append(l.cases, Case{Group: "pictures", Name: name, File: "pictures/" + name, Text: data,
			Shows: "![A picture](<pictures/" + name + ">)\n"})
	}
}

// pngOf is the beginning of a picture that claims a size.
func pngOf(width, height uint32) string {
	b := []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR")
	for _, n := range []uint32{width, height} {
		b = append(b, byte(n>>24), byte(n>>16), byte(n>>8), byte(n))
	}
	return string(append(b, 8, 6, 0, 0, 0, 0, 0, 0, 0))
}

func links(l *list) {
	for _, to := range []string{"../../etc/passwd", "/etc/passwd", "file:///etc/passwd", "javascript:alert(1)",
		"JaVaScRiPt:alert(1)",
		"java\tscript:alert(1)", "data:text/html,<script>", "//example.org/x", "\\\\host\\share", "01-a.md#nope",
		"01-a.md", "nope.md", "pictures/../pack.yaml",
		"data/a.csv", "http://[::1", "%2e%2e/%2e%2e/x", "a\x00b", "mailto:a@b", "care/cloth.md", "#", "vbscript:x",
		"blob:x"} {
		l.body("links", fmt.Sprintf("%.30q", to), "[A place](<"+to+">)\n")
	}
	for _, to := range []string{"../../etc/passwd", "https://example.org/a.png", "data:image/png;base64,AAAA",
		"pictures/nope.png", "01-a.md",
		"pictures/", "PICTURES/A.PNG"} {
		l.body("links", fmt.Sprintf("a picture at %.30q", to), "![A picture](<"+to+">)\n")
	}
	l.body("links", "an address of 14 kB", "[A place](https://example.org/"+strings.Repeat("a", 14_000)+")\n")
}

// savedNames are names under which entries are kept.
func savedNames(l *list) {
	for _, id := range []string{"__proto__", "constructor", "#state", "a/b", "", "a b", "\\u0000", strings.Repeat("a",
		5000), "ä", "../a"} {
		l.add("saved names", fmt.Sprintf("a pack's id %.20q", id), "pack.yaml",
			fmt.Sprintf("title: T\nid: %q\nversion: 1.0.0\nkit: heron\n", id))
		l.add("saved names", fmt.Sprintf("a lesson's id %.20q", id), "01-a.md",
			fmt.Sprintf("---\ntitle: A\nid: %q\nweek: 1\nminutes: 10\ngoals: [Roll.]\n---\n\n"+
				"## Roll (10 min)\n\n{kit.wheel}\n", id))
	}
}
