package site_test

// The figures of show blocks are drawn twice: still in Go, and by the page's script. Both must come to the same
// picture.

import (
	_ "embed"
	"encoding/json"
	"html"
	"os"
	"regexp"
	"strings"
	"testing"

	"trundle/generator/lesson"
	"trundle/generator/quantity"
	"trundle/generator/runs"
	"trundle/generator/work"
	"trundle/site/drawn"
	"trundle/site/words"
)

// drawFigures has node draw figures; each answer is the picture and the sentence.
const drawFigures = `
globalThis.document = { querySelectorAll: () => [] };
globalThis.addEventListener = () => {};
let text = "";
process.stdin.on("data", (d) => (text += d)).on("end", () => {
	const { scripts, words, figures } = JSON.parse(text);
	globalThis.trundle = {};
	for (const script of scripts) (0, eval)(script);
	const { say } = Object.assign(trundle, { words });
	const out = figures.map(({ draw, to, unit, texts, ...s }) => {
		const amount = (x) => trundle.plain(x) + " " + unit;
		const near = (x) => trundle.step(x, s.parts === 16 ? "0.01" : "0.1") + " " + unit;
		const state = { ...s, unit, say, amount, near, shown: (i) => texts[i] };
		const { svg, says } = trundle.drawn[draw](state);
		return [svg, says ?? ""];
	});
	process.stdout.write(JSON.stringify(out));
});`

// A drawing is a figure with its numbers, and as the script takes it.
type drawing struct {
	name   string
	figure work.Figure
	script map[string]any
}

// value is one of a figure's, as the lesson writes it.
func value(text string, numbers ...float64) work.FigureValue {
	return work.FigureValue{Numbers: numbers, Text: text}
}

func drawings(t *testing.T) []drawing {
	unit := func(name string) quantity.Unit {
		u, ok := quantity.LookupUnit(name)
		if !ok {
			t.Fatal(name)
		}
		return u
	}
	cm, in := unit("cm"), unit("in")
	line := func(l lesson.DataLine) *lesson.DataLine { return &l }
	a, b := []float64{120, 118.9, 119.4, 119.4, 118.1}, []float64{123.3, 124.8, 122.5, 123.5}
	sixteenth, err := quantity.ParseExpr("1/16")
	if err != nil {
		t.Fatal(err)
	}
	step := sixteenth.(*quantity.Literal).Number.Step()
	return []drawing{
		{"a wheel in cm", work.Figure{DataLine: line(lesson.DataLine{}), Kind: lesson.UnrollFigure, Unit: cm,
			Values: []work.FigureValue{value("65 mm", 6.5)}},
			map[string]any{"draw": "unroll", "v": []any{6.5}, "roll": 1}},
		{"a wheel in inches", work.Figure{DataLine: line(lesson.DataLine{}), Kind: lesson.UnrollFigure, Unit: in,
			Inches: true, Values: []work.FigureValue{value("2 1/2 in", 2.5)}},
			map[string]any{"draw": "unroll", "v": []any{2.5}, "roll": 1}},
		{"rotations in a distance", work.Figure{DataLine: line(lesson.DataLine{}), Kind: lesson.LapsFigure, Unit: cm,
			Values: []work.FigureValue{value("48 in", 121.92), value("20.4 cm", 20.42)}},
			map[string]any{"draw": "laps", "v": []any{121.92, 20.42}}},
		{"many rotations", work.Figure{DataLine: line(lesson.DataLine{}), Kind: lesson.LapsFigure, Unit: in, Inches: true,
			Values: []work.FigureValue{value("20 ft", 240), value("6 in", 6)}},
			map[string]any{"draw": "laps", "v": []any{240, 6}}},
		{"stops", work.Figure{DataLine: line(lesson.DataLine{}), Kind: lesson.TapeFigure, Unit: cm,
			Values: []work.FigureValue{value("", 120.3, 121.4, 120.9, 120.9, 119.8), value("48 in", 121.92)}},
			map[string]any{"draw": "stops", "v": []any{[]float64{120.3, 121.4, 120.9, 120.9, 119.8}, 121.92}}},
		{"stops in inches", work.Figure{DataLine: line(lesson.DataLine{}), Kind: lesson.TapeFigure, Unit: in, Inches: true,
			Values: []work.FigureValue{value("", 37.25, 37, 37.4375), value("36 1/2 in", 36.5)}},
			map[string]any{"draw": "stops", "v": []any{[]float64{37.25, 37, 37.4375}, 36.5}}},
		{"runs from above", work.Figure{DataLine: line(lesson.DataLine{Times: 5}), Kind: lesson.PathFigure, Unit: cm,
			Values: []work.FigureValue{value("", 2.5, -1.4, 2), value("100 cm", 100)}},
			map[string]any{"draw": "above", "v": []any{[]float64{2.5, -1.4, 2}, 100}}},
		{"a tape to read", work.Figure{DataLine: line(lesson.DataLine{Target: quantity.Target{Step: step}}),
			Kind: lesson.ReadFigure, Unit: in, Inches: true, Values: []work.FigureValue{value("48 in", 48)}},
			map[string]any{"draw": "read", "v": []any{48}, "place": 476.0 / 16, "part": 0.4}},
		{"a part", work.Figure{DataLine: line(lesson.DataLine{}), Kind: lesson.PartFigure, Unit: cm,
			Values: []work.FigureValue{value("−1.5 cm", -1.5), value("20 cm", 20)}},
			map[string]any{"draw": "part", "v": []any{-1.5, 20}}},
		{"cards", work.Figure{DataLine: line(lesson.DataLine{}), Kind: lesson.ShuffleFigure, Unit: cm, Gap: 4.365,
			Heaps: []runs.Series{{Name: "Heron", Numbers: a}, {Name: "Coot", Numbers: b}}},
			map[string]any{"draw": "shuffle", "v": []any{}, "heaps": []any{a, b}, "names": []string{"Heron", "Coot"},
				"deals": []float64{}}},
	}
}

var tag = regexp.MustCompile(`^<svg[^>]*>|</svg>$`)

func TestTheScriptDrawsFiguresAsStillPicturesDo(t *testing.T) {
	en, err := words.Load(lesson.DefaultLanguage)
	if err != nil {
		t.Fatal(err)
	}
	scripts := []string{showScript}
	for _, name := range []string{"say", "drawn/pen", "drawn/unroll", "drawn/laps", "drawn/stops", "drawn/path",
		"drawn/read", "drawn/part", "drawn/shuffle"} {
		text, err := os.ReadFile("scripts/" + name + ".js")
		if err != nil {
			t.Fatal(err)
		}
		scripts = append(scripts, string(text))
	}
	for _, waits := range []string{"", "C"} { // with numbers, and while they are kept away
		all := drawings(t)
		var figures []map[string]any
		for i := range all {
			d := &all[i]
			d.figure.Until.Value = waits
			var texts []string
			for _, v := range d.figure.Values {
				texts = append(texts, v.Text)
			}
			parts := 10
			if d.figure.Inches {
				parts = 16
			}
			for name, x := range map[string]any{"width": drawn.Width, "parts": parts, "unit": d.figure.Unit.Symbol(),
				"texts": texts, "open": waits == "", "mean": false, "spread": false, "times": d.figure.Times} {
				d.script[name] = x
			}
			figures = append(figures, d.script)
		}
		got := nodeReads[[][2]string](t, drawFigures, map[string]any{"scripts": scripts,
			"words": en.StartingWith("drawn-"), "figures": figures})
		for i, d := range all {
			svg, says := drawn.Picture(en, &d.figure, false)
			if want := tag.ReplaceAllString(svg, ""); html.UnescapeString(got[i][0]) != html.UnescapeString(want) {
				t.Errorf("%s: the script draws\n%s\nand the still picture is\n%s", d.name, got[i][0], want)
			}
			if want := strings.TrimSuffix(says, " The numbers come when C is right."); got[i][1] != want {
				t.Errorf("%s: the script says %q, the still picture %q", d.name, got[i][1], want)
			}
		}
	}
}

// TestFiguresOfAnyNumberEndAndHaveFewMarks draws what somebody may type by mistake. A tape has a mark each 3.2 pixels
// at most, so that its picture is bounded; a loop over all of its parts would never end.
func TestFiguresOfAnyNumberEndAndHaveFewMarks(t *testing.T) {
	en, err := words.Load(lesson.DefaultLanguage)
	if err != nil {
		t.Fatal(err)
	}
	scripts := []string{showScript}
	for _, name := range []string{"say", "drawn/pen", "drawn/unroll", "drawn/laps", "drawn/stops", "drawn/path",
		"drawn/part"} {
		text, err := os.ReadFile("scripts/" + name + ".js")
		if err != nil {
			t.Fatal(err)
		}
		scripts = append(scripts, string(text))
	}
	const large, huge = 1e12, 1e300
	var figures []map[string]any
	for draw, values := range map[string][]any{
		"unroll": {huge}, "laps": {large, 1}, "part": {huge, 1 / huge}, "above": {[]float64{huge}, 1 / huge},
	} {
		figures = append(figures, map[string]any{"draw": draw, "v": values, "roll": 1})
	}
	// The last two are so far out that they have no neighbours a part away.
	for _, runs := range [][]float64{{1, large}, {1, huge}, {1e20, 1e20 + 16384}, {-1e20, -1e20 + 16384}} {
		figures = append(figures, map[string]any{"draw": "stops", "v": []any{runs, nil}, "spread": true, "mean": true})
		cm, _ := quantity.LookupUnit("cm")
		still := work.Figure{DataLine: &lesson.DataLine{}, Kind: lesson.TapeFigure, Unit: cm,
			Values: []work.FigureValue{value("", runs...)}}
		if svg, _ := drawn.Picture(en, &still, true); len(svg) > 5000 {
			t.Errorf("the still picture of %g takes %d bytes", runs, len(svg))
		}
	}
	for _, f := range figures {
		for name, x := range map[string]any{"width": drawn.Width, "parts": 10, "unit": "cm", "texts": []string{"", ""},
			"open": true, "times": 50} {
			f[name] = x
		}
	}
	got := nodeReads[[][2]string](t, drawFigures, map[string]any{"scripts": scripts,
		"words": en.StartingWith("drawn-"), "figures": figures})
	for i, figure := range got {
		const most = 30_000 // the 200 laps that are drawn at most
		if len(figure[0]) > most || len(figure[0]) == 0 {
			t.Errorf("%v: the script's picture takes %d bytes", figures[i], len(figure[0]))
		}
	}
}

// TestAWheelLaysItsCircumferenceDown measures the picture: its laid part against the tape's own numbers.
func TestAWheelLaysItsCircumferenceDown(t *testing.T) {
	en, err := words.Load(lesson.DefaultLanguage)
	if err != nil {
		t.Fatal(err)
	}
	svg, says := drawn.Picture(en, &drawings(t)[0].figure, true)
	var places [2]float64 // of the numbers 5 and 20
	for i, number := range []string{"5", "20"} {
		m := regexp.MustCompile(`<text class="n" x="([\d.]+)" y="[\d.]+">` + number + `<`).FindStringSubmatch(svg)
		if m == nil {
			t.Fatalf("the tape has no %s:\n%s", number, svg)
		}
		_ = json.Unmarshal([]byte(m[1]), &places[i])
	}
	m := regexp.MustCompile(`class="o" d="M([\d.]+) [\d.]+H([\d.]+)"`).FindStringSubmatch(svg)
	var from, to float64
	_ = json.Unmarshal([]byte(m[1]), &from)
	_ = json.Unmarshal([]byte(m[2]), &to)
	// 65 mm × π = 20.42 cm
	if long := (to - from) / (places[1] - places[0]) * 15; long < 20.40 || long > 20.44 {
		t.Errorf("a wheel of 65 mm lays %.2f cm down", long)
	}
	if want := "65 mm across. One rotation lays 20.4 cm on the tape: three wheels and 0.9 cm more."; says != want {
		t.Errorf("it says %q", says)
	}
}

// TestDealsScatterAsChanceDoes deals cards 4000 times: the difference of two means then has the variance
// S²·(1/n + 1/m), S² being that of all cards (sampling without replacement).
func TestDealsScatterAsChanceDoes(t *testing.T) {
	const deals = `
globalThis.trundle = {};
let text = "";
process.stdin.on("data", (d) => (text += d)).on("end", () => {
	const { scripts, heaps } = JSON.parse(text);
	for (const script of scripts) (0, eval)(script);
	process.stdout.write(JSON.stringify(Array.from({ length: 4000 }, () => trundle.drawn.deal(heaps))));
});`
	var scripts []string
	for _, name := range []string{"say", "drawn/pen", "drawn/shuffle"} {
		text, err := os.ReadFile("scripts/" + name + ".js")
		if err != nil {
			t.Fatal(err)
		}
		scripts = append(scripts, string(text))
	}
	heaps := [][]float64{{1, 2, 3, 4, 10}, {2, 8, 6}}
	got := nodeReads[[]float64](t, deals, map[string]any{"scripts": scripts, "heaps": heaps})
	squares := 0.0
	for _, x := range got {
		squares += x * x / float64(len(got))
	}
	// Eight cards with the mean 4.5 and Σ(x − 4.5)² = 72: S² = 72/7, times 1/5 + 1/3.
	if want := 72.0 / 7 * (1.0/5 + 1.0/3); squares < want*0.85 || squares > want*1.15 {
		t.Errorf("the deals scatter by %.3f, chance by %.3f", squares, want)
	}
}
