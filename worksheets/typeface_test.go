package worksheets

// The typeface of paper: that it has what measuring needs, and a name that its licence allows.

import (
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"

	"trundle/generator/locale"
	"trundle/site/words"
)

func TestTheTypefaceHasWhatMeasuringNeeds(t *testing.T) {
	const signs = "“”‘’–—…·×÷−±≈≤≥≠=π√²³⁄½¼¾⅛⅜⅝⅞⅓⅔₀₁₂₃₄₅₆₇₈₉⁰¹⁴⁵⁶⁷⁸⁹⁻°″′%µΩ€✓○▽□‹›«»←→↑↓Δαβθλσρφ" +
		"ñáéíóúüÑ¿¡äöÄÖÜßẞàâçèêëîïôùûœŒæÆ"
	if r, lacks := Lacks(signs); lacks {
		t.Errorf("paper lacks %c (U+%04X)", r, r)
	}
	for name, data := range map[string][]byte{"regular": regularFile, "bold": boldFile} {
		f := parsed(t, data)
		var buf sfnt.Buffer
		for _, r := range signs {
			if i, err := f.GlyphIndex(&buf, r); err != nil || i == 0 {
				t.Errorf("%s lacks %c (U+%04X)", name, r, r)
			}
		}
		widths := map[string]bool{}
		for _, r := range "0123456789" {
			i, _ := f.GlyphIndex(&buf, r)
			w, err := f.GlyphAdvance(&buf, i, 2048<<6, 0)
			if err != nil {
				t.Fatal(err)
			}
			widths[w.String()] = true
		}
		if len(widths) != 1 {
			t.Errorf("%s has digits of several widths, which do not stand below each other: %v", name, widths)
		}
	}
}

// TestTheTypefaceHasEveryLetterOfEveryLanguage looks at all texts of the interface, and at quotation marks.
func TestTheTypefaceHasEveryLetterOfEveryLanguage(t *testing.T) {
	for _, tag := range locale.Tags() {
		w, err := words.Load(tag)
		if err != nil {
			t.Fatal(err)
		}
		for name, text := range w {
			if r, lacks := Lacks(text); lacks && !strings.HasPrefix(name, "class-") { // which no sheet says
				t.Errorf("paper lacks %c (U+%04X) of %s in %s", r, r, name, tag)
			}
		}
	}
}

// The licence reserves the names of the original for it.
func TestTheTypefaceHasANameOfItsOwn(t *testing.T) {
	for name, data := range map[string][]byte{"regular": regularFile, "bold": boldFile, "italic": italicFile} {
		f := parsed(t, data)
		for _, id := range []sfnt.NameID{sfnt.NameIDFamily, sfnt.NameIDFull, sfnt.NameIDPostScript} {
			is, err := f.Name(nil, id)
			if err != nil || !strings.HasPrefix(strings.ReplaceAll(is, " ", ""), "TrundleSheet") ||
				strings.Contains(is, "Andika") || strings.Contains(is, "SIL") {
				t.Errorf("%s is called %q (%v)", name, is, err)
			}
		}
		if says, err := f.Name(nil, sfnt.NameIDCopyright); err != nil || !strings.Contains(says, "SIL International") {
			t.Errorf("%s has the copyright %q (%v)", name, says, err)
		}
		if says, err := f.Name(nil, sfnt.NameIDLicense); err != nil || !strings.Contains(says, "Open Font License") {
			t.Errorf("%s has the licence %q (%v)", name, says, err)
		}
	}
}

func parsed(t *testing.T, data []byte) *sfnt.Font {
	t.Helper()
	f, err := sfnt.Parse(data)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// A part of a minute has less room on the tape than the gap beside its name.
func TestTextIsBrokenWhereThereIsNoRoom(t *testing.T) {
	doc := newDocument("", "", "en")
	if lines := wrap(doc, "ab c", -0.1); len(lines) != 3 {
		t.Errorf("%q", lines)
	}
}
