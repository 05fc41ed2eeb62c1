// Package picture looks into the pictures of a pack before they are handed out: what they are, whether they
// can be shown, and what they say that nobody meant to say, such as where a photo was taken. Bytes go in;
// bytes that may be handed out come out, or why there are none.
package picture

// This file: the order in which a picture is looked into, and the limits. What a format needs is in a file of its own.

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"path"
	"slices"
	"strings"

	"trundle/generator/source"
)

// Limits. A small file can unpack to more than a computer holds, so sizes are read before pixels are.
const (
	// MaxSide is how many pixels the longer side of a picture has at most. A lesson's column is about 700 CSS pixels
	// wide; on a screen with two device pixels for each, 1600 leave a little to spare.
	MaxSide = 1600

	MaxPixels   = 52_000_000 // a telephone's largest usual photos have 50 million
	MaxFrames   = 500        // of an animated GIF: at ten a second, nearly a minute
	MaxScans    = 100        // over the whole of a JPEG: a few bytes can ask for one, and each takes its time
	MaxDrawing  = 4 << 20    // bytes of an SVG
	MaxDepth    = 100        // of elements in an SVG
	MaxElements = 100_000    // of an SVG, each counted as often as it is drawn

	jpegQuality = 85
)

// Picture is what a file in the pack's folder of pictures came to.
type Picture struct {
	File   *source.File // as its author saved it
	Data   []byte       // as it may be handed out; nil if it must not be, or was let go
	Size   int          // of Data
	Faults []Fault

	again *source.File      // gives Data once more; nil if it was not let go
	sum   [sha256.Size]byte // of Data that was let go
}

// Handed is the picture as it may be handed out, nil if it must not be. One that was let go is looked into again.
func (p *Picture) Handed() []byte {
	if p.again != nil {
		return p.again.Text()
	}
	return p.Data
}

// Sum tells what is handed out from anything else.
func (p *Picture) Sum() [sha256.Size]byte {
	if p.again != nil {
		return p.sum
	}
	return sha256.Sum256(p.Data)
}

// LetGo no longer keeps the file as it was saved, which saved gives again, nor, if it is much, what is handed out,
// which again makes of it. A drawing is kept, since problems show its text.
func (p *Picture) LetGo(saved *source.File, isMuch bool, again func(saved *source.File) []byte) {
	if isSVG(p.File.Text()) {
		return
	}
	p.File = saved
	if isMuch && p.Data != nil {
		p.sum = sha256.Sum256(p.Data)
		p.again = source.NewReadAgain(saved.Name, p.Data, func() []byte { return again(saved) })
		p.Data = nil
	}
}

// A Fault is what is wrong with a picture, or what its author should know of.
type Fault struct {
	Slug    string
	What    string // goes on from “the picture …”, or is whole if the fault is inside
	Hint    string
	Caution bool        // the picture can be handed out all the same
	Inside  bool        // the place is At in the picture's own text, not where a lesson shows it
	At      source.Span // of what is inside
}

func (p *Picture) refuse(slug, what, hint string) {
	p.Faults = append(p.Faults, Fault{Slug: slug, What: what, Hint: hint})
}

func (p *Picture) caution(slug, what, hint string) {
	p.Faults = append(p.Faults, Fault{Slug: slug, What: what, Hint: hint, Caution: true})
}

// Refused tells whether the picture must not be handed out.
func (p *Picture) Refused() bool {
	return slices.ContainsFunc(p.Faults, func(f Fault) bool { return !f.Caution })
}

// A format is one that every browser shows and that can be cleaned.
type format struct {
	name    string
	endings []string // of file names, the usual one first
	is      func(data []byte) bool
	look    func(p *Picture, data []byte)
}

func formats() []format {
	begins := func(with string) func([]byte) bool {
		return func(data []byte) bool { return bytes.HasPrefix(data, []byte(with)) }
	}
	return []format{
		{"PNG", []string{".png"}, begins("\x89PNG\r\n\x1a\n"), lookPNG},
		{"JPEG", []string{".jpg", ".jpeg"}, begins("\xff\xd8\xff"), lookJPEG},
		{"GIF", []string{".gif"}, func(data []byte) bool { return begins("GIF87a")(data) || begins("GIF89a")(data) },
			lookGIF},
		{"WebP", []string{".webp"},
			func(data []byte) bool {
				return len(data) >= 12 && begins("RIFF")(data) &&
					string(data[8:12]) == "WEBP"
			}, lookWebP},
		{"SVG", []string{".svg"}, isSVG, lookSVG},
	}
}

// Look looks into a picture. Its format is decided by what is in the file; the name must agree, since servers and
// browsers go by the name.
func Look(f *source.File) *Picture {
	p, name, data := &Picture{File: f}, f.Name, f.Text()
	all := formats()
	i := slices.IndexFunc(all, func(f format) bool { return f.is(data) })
	if i < 0 {
		p.unknown(data)
		return p
	}
	base := path.Base(name)
	if ending := path.Ext(base); !slices.Contains(all[i].endings, strings.ToLower(ending)) {
		what := "is a " + all[i].name + " file, but its name ends in " + ending
		if ending == "" {
			what = "is a " + all[i].name + " file, but its name has no ending"
		}
		p.refuse("picture-ending", what,
			"rename the file to "+strings.TrimSuffix(base, ending)+all[i].endings[0]+", and write its new name here")
	}
	all[i].look(p, data) // even under a wrong name, so that all its faults are told together
	if p.Refused() {
		p.Data = nil
	}
	p.Size = len(p.Data)
	return p
}

// unknown says what a file is, as far as its first bytes tell.
func (p *Picture) unknown(data []byte) {
	what := "is not a picture that every browser shows"
	for _, k := range []struct{ at, with, name string }{
		{"    ftyp", "heic heix heim heis hevc hevx mif1 msf1", "is a HEIC photo"},
		{"    ftyp", "avif avis", "is an AVIF picture"},
		{"II*\x00", "", "is a TIFF picture"},
		{"MM\x00*", "", "is a TIFF picture"},
		{"BM", "", "is a BMP picture"},
		{"%PDF", "", "is a PDF document"},
		{"\x1f\x8b", "", "is a compressed file"},
		{"\x00\x00\x01\x00", "", "is an icon file"},
	} {
		if matches(data, k.at) && (k.with == "" || len(data) >= 12 && slices.Contains(strings.Fields(k.with),
			string(data[8:12]))) {
			what = k.name + ", which not every browser shows"
			break
		}
	}
	if len(data) == 0 {
		what = "is an empty file"
	}
	p.refuse("picture-kind", what, "save it as JPEG or PNG, and show that file; GIF, WebP and SVG do too")
}

// matches tells whether data begins with a pattern, in which a blank stands for any byte.
func matches(data []byte, pattern string) bool {
	if len(data) < len(pattern) {
		return false
	}
	for i := range len(pattern) {
		if pattern[i] != ' ' && pattern[i] != data[i] {
			return false
		}
	}
	return true
}

func (p *Picture) broken(format string) {
	p.refuse("picture-broken", "is a broken "+format+" file, or one that was cut off",
		"copy it again from where it came, or save it anew as JPEG or PNG")
}

// fits refuses what is too much to unpack.
func (p *Picture) fits(width, height int) bool {
	if width > 0 && height > 0 && width <= MaxPixels/height {
		return true
	}
	p.refuse("picture-too-much", fmt.Sprintf("is %s pixels, which is more than trundle unpacks", sides(width, height)),
		fmt.Sprintf("make it smaller; %d pixels along the longer side are enough", MaxSide))
	return false
}

// tooLarge says of a large picture that it stays as large as it is, since its format is only read here, not written.
func (p *Picture) tooLarge(width, height int, format, hint string) {
	if max(width, height) > MaxSide {
		p.caution("picture-large",
			fmt.Sprintf("is %s pixels, and trundle does not make a %s smaller", sides(width, height), format), hint)
	}
}

func sides(width, height int) string { return fmt.Sprintf("%d × %d", width, height) }
