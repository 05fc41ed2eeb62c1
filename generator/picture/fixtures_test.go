package picture

// Here: pictures made for the tests, with all that cameras and editors leave in them.

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"slices"
	"strings"
	"testing"

	"trundle/generator/source"
)

// planted are the words that must never come out.
var planted = []string{"Exif", "Heronware", "52/1 9/1", "xmpmeta", "8BIM", "ICC_PROFILE", "iCCP", "tEXt",
	"iTXt", "zTXt", "eXIf", "tIME", "EXIF", "XMP ", "coach's comment", "note", "after the end"}

// corners is a picture with another colour in each quarter.
func corners(w, h int) *image.NRGBA {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetNRGBA(x, y, colourOf(2*x >= w, 2*y >= h))
		}
	}
	return m
}

func colourOf(right, bottom bool) color.NRGBA {
	c := color.NRGBA{R: 0x20, G: 0x20, B: 0x20, A: 0xff}
	if right {
		c.R = 0xe0
	}
	if bottom {
		c.G = 0xe0
	}
	return c
}

// exif is a block with a camera's name, an orientation and a place.
func exif(turn int, order binary.AppendByteOrder) []byte {
	b := []byte("MM\x00*")
	if order == binary.AppendByteOrder(binary.LittleEndian) {
		b = []byte("II*\x00")
	}
	entry := func(tag, kind uint16, count, value uint32) {
		b = order.AppendUint32(order.AppendUint16(order.AppendUint16(b, tag), kind), count)
		if kind == 3 { // a short stands at the left
			b = order.AppendUint16(order.AppendUint16(b, uint16(value)), 0)
			return
		}
		b = order.AppendUint32(b, value)
	}
	b = order.AppendUint16(order.AppendUint32(b, 8), 3)
	entry(0x010f, 2, 10, 50) // maker
	entry(0x0112, 3, 1, uint32(turn))
	entry(0x8825, 4, 1, 60) // place
	b = order.AppendUint32(b, 0)
	return append(b, "Heronware\x0052/1 9/1"...)
}

func segment(marker byte, body string) []byte {
	b := binary.BigEndian.AppendUint16([]byte{0xff, marker}, uint16(len(body)+2))
	return append(b, body...)
}

func asJPEG(t testing.TB, m image.Image, segments ...[]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	plain := b.Bytes()
	return slices.Concat(plain[:2], bytes.Join(segments, nil), plain[2:])
}

// photo is a JPEG with everything in it.
func photo(t testing.TB, m image.Image, turn int) []byte {
	t.Helper()
	return append(asJPEG(t, m,
		segment(0xe0, "JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x01\x01Heronware"), // a thumbnail of one pixel, and more
		segment(0xe1, "Exif\x00\x00"+string(exif(turn, binary.BigEndian))),
		segment(0xe1, "xap/1.0\x00<x:xmpmeta>Heronware</x:xmpmeta>"),
		segment(0xe2, "ICC_PROFILE\x00\x01\x01Heronware"),
		segment(0xed, "8BIM\x04\x04 Heronware"),
		segment(0xee, "Adobe\x00\x64\x00\x00\x00\x00\x01Heronware"), // the usual colours, and more
		segment(0xfe, "coach's comment"),
	), "after the end"...)
}

func asPNG(t testing.TB, m image.Image, chunks ...[]byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	const head = 8 + 12 + 13
	plain := b.Bytes()
	return slices.Concat(plain[:head], bytes.Join(chunks, nil), plain[head:])
}

func chunk(kind, body string) []byte { return appendChunk(nil, kind, []byte(body)) }

// notedPNG is a PNG with everything in it.
func notedPNG(t testing.TB, m image.Image) []byte {
	t.Helper()
	return append(asPNG(t, m,
		chunk("gAMA", "\x00\x00\xb1\x8f"),
		chunk("iCCP", "Heronware\x00\x00x"),
		chunk("tEXt", "Author\x00Heronware"),
		chunk("iTXt", "XML\x00\x00\x00\x00\x00<x:xmpmeta>"),
		chunk("zTXt", "Comment\x00\x00x"),
		chunk("eXIf", string(exif(1, binary.LittleEndian))),
		chunk("tIME", "\x07\xea\x01\x02\x03\x04\x05"),
		chunk("prVt", "Heronware"),
	), "after the end"...)
}

func asGIF(t testing.TB, frames int, w, h int) []byte {
	t.Helper()
	g := &gif.GIF{}
	for i := range frames {
		m := image.NewPaletted(image.Rect(0, 0, w, h),
			color.Palette{color.Black, color.White, color.NRGBA{R: 0xff, A: 0xff}})
		for y := range h {
			m.SetColorIndex((i+y)%w, y, uint8(1+i%2))
		}
		g.Image, g.Delay = append(g.Image, m), append(g.Delay, 7)
	}
	var b bytes.Buffer
	if err := gif.EncodeAll(&b, g); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// notedGIF is a GIF of two frames with everything in it.
func notedGIF(t testing.TB) []byte {
	t.Helper()
	plain := asGIF(t, 2, 4, 3)
	cut := 13 + colours(plain[10])
	notes := "\x21\xfe\x0fcoach's comment\x00\x21\xfe\x04note\x00" +
		"\x21\xff\x0bXMP DataXMP\x09Heronware\x00" +
		"\x21\x01\x0c123456789012\x09Heronware\x00"
	return slices.Concat(plain[:cut], []byte(notes), plain[cut:], []byte("after the end"))
}

// webpPixels is a lossless picture of one colour: each of its five prefix codes has one symbol, so that pixels take
// no bits.
func webpPixels(w, h int, c color.NRGBA) []byte {
	var bits []byte
	n := 0
	put := func(value, count int) {
		for i := range count {
			if n%8 == 0 {
				bits = append(bits, 0)
			}
			bits[n/8] |= byte(value>>i&1) << (n % 8)
			n++
		}
	}
	put(0x2f, 8)
	put(w-1, 14)
	put(h-1, 14)
	put(0, 1+3) // alpha is not used; version
	put(0, 1+1+1)
	for _, symbol := range []uint8{c.G, c.R, c.B, c.A, 0} {
		put(1, 1) // a simple code
		put(0, 1) // of one symbol
		put(1, 1) // that has eight bits
		put(int(symbol), 8)
	}
	return bits
}

func riffChunk(kind string, body []byte) []byte {
	b := binary.LittleEndian.AppendUint32([]byte(kind), uint32(len(body)))
	if b = append(b, body...); len(body)%2 == 1 {
		b = append(b, 0)
	}
	return b
}

func asWebP(w, h int, flags byte, notes ...[]byte) []byte {
	head := []byte{flags, 0, 0, 0, byte(w - 1), byte((w - 1) >> 8), 0, byte(h - 1), byte((h - 1) >> 8), 0}
	body := slices.Concat([]byte("WEBP"), riffChunk("VP8X", head),
		riffChunk("VP8L", webpPixels(w, h, color.NRGBA{R: 10, G: 200, B: 30, A: 255})), bytes.Join(notes, nil))
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

func notedWebP(w, h, turn int) []byte {
	return append(asWebP(w, h, 1<<5|1<<3|1<<2,
		riffChunk("ICCP", []byte("Heronware")), riffChunk("EXIF", exif(turn, binary.LittleEndian)),
		riffChunk("XMP ", []byte("<x:xmpmeta>")), riffChunk("NOTE", []byte("coach's comment"))), "after the end"...)
}

func look(name string, data []byte) *Picture { return Look(source.NewFile("pictures/"+name, data)) }

// told writes a picture's faults, one a line.
func told(p *Picture) string {
	var b strings.Builder
	for _, f := range p.Faults {
		if b.WriteString(f.Slug); f.Inside {
			at := p.File.Position(f.At.Start)
			b.WriteString(" " + string(rune('0'+at.Line)) + ":" + strings.TrimSpace(p.File.Slice(f.At)))
		}
		b.WriteString(": " + f.What + "\n")
	}
	return b.String()
}

func decoded(t testing.TB, data []byte) image.Image {
	t.Helper()
	m, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return m
}
