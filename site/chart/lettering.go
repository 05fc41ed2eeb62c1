package chart

// Text: how wide it is in the pages' typeface, and how it is cut or wrapped to the room that it has.

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
)

// textSize is that of all text, in units of the viewBox.
const textSize vg.Length = 15

// slack is how much wider a text may be in a face of the device, which stands in until the typeface is there.
const slack = 1.08

// face is the font that gonum takes heights from; widths are those of the pages' typeface.
var face = font.Font{Typeface: "Liberation", Variant: "Sans", Size: textSize}

// A lettering is gonum's handler of plain text, but it lets the browser hold a text by its middle or end, where
// gonum would go back from there by a width that the page's font does not have.
type lettering struct {
	text.Plain
	to   *canvas
	seen map[string]vg.Length // widths that were measured; a lettering has one face
}

func newLettering(to *canvas) lettering {
	return lettering{text.Plain{Fonts: font.DefaultCache}, to, map[string]vg.Length{}}
}

// metrics are those of the face; to look them up in the font takes long, and gonum does it for each label.
var metrics = sync.OnceValue(func() font.Extents { return text.Plain{Fonts: font.DefaultCache}.Extents(face) })

// letterWidth finds how wide a letter is, by the letter.
var letterWidth = sync.OnceValue(func() map[rune]vg.Length {
	all := map[rune]vg.Length{' ': 0.269}
	for thousandths, letters := range letterWidths {
		for _, r := range letters {
			all[r] = vg.Length(thousandths) / 1000
		}
	}
	return all
})

// widthOf is how wide a text is as a multiple of the type's size. Of emoji and letters of other scripts nothing is
// known, and the widest are as wide as high.
func widthOf(txt string) vg.Length {
	var width vg.Length
	for _, r := range txt {
		w, known := letterWidth()[r]
		switch {
		case known:
			width += w
		case r >= 0x2e80:
			width += 1.15
		default:
			width += 0.65
		}
	}
	return width
}

// Extents are the font's.
func (l lettering) Extents(font.Font) font.Extents { return metrics() }

// Box is the room a text takes, with some slack.
func (l lettering) Box(txt string, f font.Font) (width, height, depth vg.Length) {
	width, ok := l.seen[txt]
	if !ok {
		width = widthOf(txt) * f.Size * slack
		l.seen[txt] = width
	}
	return width, metrics().Ascent, metrics().Descent
}

// Draw writes the text so that pt is its start, middle or end.
func (l lettering) Draw(c vg.Canvas, txt string, sty text.Style, pt vg.Point) {
	switch sty.XAlign {
	case text.XCenter:
		l.to.anchor = "middle"
	case text.XRight:
		l.to.anchor = "end"
	default:
		l.to.anchor = "start"
	}
	if sty.YAlign == text.YCenter {
		pt.Y -= sty.Font.Size * 0.09 // Digits, whose middle is lower than that of letters with ascenders.
	}
	sty.XAlign, sty.Handler = text.XLeft, l
	l.Plain.Draw(c, txt, sty, pt)
}

// style is that of text held at x.
func (l lettering) style(x text.XAlignment, y text.YAlignment) text.Style {
	return text.Style{Color: ink, Font: face, XAlign: x, YAlign: y, Handler: l}
}

func (l lettering) width(s string) vg.Length {
	w, _, _ := l.Box(s, face)
	return w
}

// longest is how many characters of a name or title are looked at.
const longest = 120

// fit cuts a text that is wider than limit, with … for what is gone. A unit at its end, in brackets, stays.
func (l lettering) fit(s string, limit vg.Length) string {
	if utf8.RuneCountInString(s) <= longest && l.width(s) <= limit {
		return s
	}
	tail := "…"
	if i := strings.LastIndex(s, " ("); i > 0 && strings.HasSuffix(s, ")") && l.width(s[i:]) < limit/2 {
		s, tail = s[:i], "…"+s[i:]
	}
	runes := []rune(s)
	runes = runes[:min(len(runes), longest)]
	for len(runes) > 0 && (l.width(string(runes)+tail) > limit || joins(runes[len(runes)-1])) {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + tail
}

// joins tells a character that may not end a text that was cut.
func joins(r rune) bool { return r == ' ' || r == '\u200d' || unicode.Is(unicode.Mn, r) }

// wrap fits a text into two lines.
func (l lettering) wrap(s string, limit vg.Length) string {
	if utf8.RuneCountInString(s) <= longest && l.width(s) <= limit {
		return s
	}
	best := -1
	for i, r := range cut(s, longest) {
		if r == ' ' && l.width(s[:i]) <= limit {
			best = i
		}
	}
	if best <= 0 {
		return l.fit(s, limit)
	}
	return s[:best] + "\n" + l.fit(s[best+1:], limit)
}

// tidy makes a text one line of characters that XML allows. Marks that turn the direction of writing go: a name may be
// written from the right, but not turn what stands beside it.
func tidy(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r) || unicode.IsSpace(r):
			return ' '
		case unicode.Is(unicode.Cf, r) && r != '\u200d' && r != '\u200c' || r == '\ufffe' || r == '\uffff':
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\ufffd"))
	return strings.Join(strings.Fields(s), " ")
}

// cut shortens a text to a number of characters.
func cut(s string, limit int) string {
	n := 0
	for i := range s {
		if n++; n > limit {
			return s[:i] + "…"
		}
	}
	return s
}
