package answers_test

// What a pack names itself, as a team uses it: units, money, facts of a kit, formulas.

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"trundle/testdata/browser"
)

// ownPack names all that a pack can.
func ownPack() fstest.MapFS {
	pack := browser.PackOf("```work\nmeasure d = kit.wheel \"Wheel\"\ngiven L = 5 tiles \"Five tiles\"\n" +
		"find n in ticks to 1 = rotations(L, d) \"Ticks\"\nkey n = 2644 ticks\nslip rotations(d, L) \"Turn it round.\"\n" +
		"find t in s to 0.1 = travel_time(L, kit.top_speed) \"Time\"\nkey t = 5.0 s\n" +
		"measure D = 142 cm \"How far it went\"\nfind e in % to 0.1 = lost_way(L, D) \"Lost way\"\nkey e = 5.3 %\n" +
		"slip lost_way(D, L) \"Start from what was ordered.\"\n" +
		"given each = 2.50 EUR \"A wheel\"\nfind c in EUR to 0.01 = 4 * each \"Four wheels\"\nkey c = 10.00 EUR\n" +
		"find one in ticks to 1 = n / n * (1 tick) \"One\"\n```\n\nIt takes {n}, and one is {one}. " +
		"Each robot weighs {kit.weight}.\n")
	for name, text := range map[string]string{
		"pack.yaml": "title: P\nversion: 1\nkit: heron\nmoney: EUR\nunits: {ticks: 360 a rotation, tiles: 30 cm}\n",
		"kits.yaml": "heron: {title: Heron, wheel: 65 mm, track: 112 mm, gear: 3, top_speed: 30 cm/s, weight: 1 kg}\n" +
			"coot: {title: Coot, wheel: 48 mm, track: 96 mm, gear: 1, top_speed: 0.5 m/s, weight: 850 g}\n",
		"formulas.yaml": "lost_way:\n  values: {commanded: length, driven: length}\n" +
			"  is: (commanded - driven) / commanded\n  in: \"%\"\n  says: the part of the way that was lost\n  source: none\n",
	} {
		pack[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return pack
}

func TestAPacksOwnUnitsFormulasAndFactsAreAnswered(t *testing.T) {
	t.Parallel()
	built, tab := browser.Build(t, ownPack()), browser.Open(t)
	browser.StartOver(t, tab, built.Root(), "students/01-t.html")
	choose := func(id, text string) {
		t.Helper()
		enter(t, tab, id, text)
		browser.Wait(t, tab, fmt.Sprintf(`document.getElementById(%q).dataset.kept === %q`, id, text))
	}
	said := browser.Fill(t, tab, [][2]string{{"d", "65"}, {"n", "7.35 rotations"}, {"n", "2644 Ticks"}, {"t", "5"},
		{"D", "142"}, {"e", "-5.6"}, {"e", "5.3"}, {"c", "10 €"}, {"c", "10,00 eur"}, {"c", "10 cm"}, {"one", "1 tick"}})
	wanted := []string{"", "", "Right", "Right", "", "ordered", "Right", "Right", "Right", "money|EUR", "Right"}
	for i, want := range wanted {
		if !slices.ContainsFunc(strings.Split(want, "|"), func(w string) bool { return strings.Contains(said[i].Text, w) }) {
			t.Errorf("answer %d is told %q, and something about %q was expected", i, said[i].Text, want)
		}
	}
	text := browser.Ask[string](t, tab, `document.querySelector("article").innerText.replace(/\s+/g, " ")`)
	for _, want := range []string{"It takes 2644 ticks, and one is 1 tick.", "5 tiles", "2.50 EUR"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q in %q", want, text)
		}
	}
	facts := func(want string) {
		t.Helper()
		const said = `document.getElementById("_facts").textContent.replaceAll("\u00a0", " ")`
		browser.Wait(t, tab, fmt.Sprintf(said+` === %q`, want))
	}
	choose("_kit", "coot")
	facts("Coot · wheel 48 mm · top speed 50 cm/s · weight 0.85 kg")
	browser.Wait(t, tab, `document.querySelector("article").innerText.includes("Each robot weighs 0.85")`)
	if got := browser.Fill(t, tab, [][2]string{{"t", "3"}})[0]; !strings.Contains(got.Text, "Right") {
		t.Errorf("with the other kit's speed 3 s are told %q", got.Text)
	}
	choose("_kit", "ours")
	if got := browser.Ask[string](t, tab, `document.getElementById("kit_top_speed").closest("label").innerText`); !strings.
		HasPrefix(got, "Top speed") {
		t.Errorf("the box for a fact of the pack's own is called %q", got)
	}
	choose("kit_top_speed", "75 cm/s")
	if got := browser.Fill(t, tab, [][2]string{{"t", "2"}})[0]; !strings.Contains(got.Text, "Right") {
		t.Errorf("with a speed of their own 2 s are told %q", got.Text)
	}
	tab.Report(t)
}
