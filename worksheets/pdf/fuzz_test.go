package pdf

// Texts, numbers and bookmarks of any kind.

import (
	"encoding/hex"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"

	"trundle/testdata/pdfua"
)

// textOfString reads a string as ISO 32000-1, 7.3.4 and 7.9.2.2 have it.
func textOfString(t *testing.T, s string) string {
	t.Helper()
	if digits, ok := strings.CutPrefix(s, "<feff"); ok {
		data, err := hex.DecodeString(strings.TrimSuffix(digits, ">"))
		if err != nil || !strings.HasSuffix(s, ">") {
			t.Fatalf("%q: %v", s, err)
		}
		var units []uint16
		for i := 0; i+1 < len(data); i += 2 {
			units = append(units, uint16(data[i])<<8|uint16(data[i+1]))
		}
		return string(utf16.Decode(units))
	}
	var text strings.Builder
	for i := 1; i < len(s)-1; i++ {
		switch s[i] {
		case '(', ')':
			t.Fatalf("%q has a bracket of its own", s)
		case '\\':
			i++
		}
		text.WriteByte(s[i])
	}
	return text.String()
}

func FuzzTextString(f *testing.F) {
	for _, text := range []string{"", "plain", `(a\)`, `\`, "5 ⅛ − 2 ½", "\x00\n", "🛠", "a\xff"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s := textString(text)
		if strings.ContainsAny(s, "\r\n") {
			t.Errorf("%q has an end of a line", s)
		}
		if utf8.ValidString(text) && textOfString(t, s) != text {
			t.Errorf("%q becomes %s", text, s)
		}
	})
}

func FuzzAppendNumber(f *testing.F) {
	for _, x := range []float64{0, -0.0004, 0.0005, 1.005, -12.3456, 1e9, 1e300, math.NaN(), math.Inf(-1), 5e-324} {
		f.Add(x)
	}
	f.Fuzz(func(t *testing.T, x float64) {
		text := decimal(x)
		got, err := strconv.ParseFloat(text, 64)
		if err != nil || strings.ContainsAny(text, "eE+") || text == "-0" {
			t.Fatalf("%g becomes %q: %v", x, text, err)
		}
		want := x
		if !(math.Abs(x) <= largest) {
			want = 0
		}
		if math.Abs(got-want) > 0.0005000001 {
			t.Errorf("%g becomes %q", x, text)
		}
	})
}

func FuzzBookmarks(f *testing.F) {
	for _, levels := range []string{"", "\x01", "\x01\x02\x02\x01", "\x03\x01\x02\x04\x03", "\x00\xff\x00"} {
		f.Add([]byte(levels))
	}
	f.Fuzz(func(t *testing.T, levels []byte) {
		if len(levels) > 50 {
			return
		}
		d := New(Info{Title: "T", Language: "en"}, Typeface{})
		d.AddPage(100, 100)
		for i, level := range levels {
			d.Bookmark(int(level), "B"+strconv.Itoa(i), 10)
		}
		file, err := d.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		read, err := pdfua.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range read.Faults() {
			if fault.Rule == "outline" {
				t.Errorf("levels %v: %v", levels, fault)
			}
		}
		for _, top := range read.Find(func(d map[string]any) bool { return d["/Type"] == "/Outlines" }) {
			if top["/Count"] != float64(len(levels)) {
				t.Errorf("levels %v: the outline is %v", levels, top)
			}
		}
	})
}

// What is drawn at a place that is not a number would differ between processors, or be nowhere.
func TestAPlaceThatIsNotANumberIsReported(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), 1e12} {
		d := New(Info{Title: "T", Language: "en"}, Typeface{})
		d.AddPage(100, 100)
		d.Line(0, 0, x, 5)
		if _, err := d.Bytes(); err == nil || !strings.Contains(err.Error(), "page 1") {
			t.Errorf("a line to %g is reported as %v", x, err)
		}
	}
}

func TestATitleOfAnyCharactersKeepsTheMetadataXML(t *testing.T) {
	if got, want := xmlText("a<b>&\x01\"’"), "a&lt;b&gt;&amp;\ufffd&#34;’"; got != want {
		t.Errorf("the text is %q, not %q", got, want)
	}
}
