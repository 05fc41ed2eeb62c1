package picture

// Here: WebP files (RFC 9649). Of the chunks only those that draw are kept; their pixels are never written anew.

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"

	"golang.org/x/image/webp"
)

// Flags of a VP8X chunk (RFC 9649, figure 7).
const (
	webpAnimated = 1 << 1
	webpAlpha    = 1 << 4
)

// lookWebP takes a WebP that stands still and upright; whatever else it is cannot be made right without a writer.
func lookWebP(p *Picture, data []byte) {
	f, err := readWebP(data)
	switch {
	case err != nil:
		p.broken("WebP")
		return
	case f.animated:
		p.refuse("picture-animated", "is an animated WebP, which trundle cannot look through",
			"save it as an animated GIF, or as a picture that stands still")
		return
	case f.turn != upright: // it cannot be written anew, and would lie on its side with the note gone
		p.refuse("picture-turned", "is a WebP that is stored on its side or mirrored",
			"save it as JPEG or PNG, and show that file")
		return
	}
	// The codec has no encode: there is no writer of WebP here, so nothing that needs one may ask for it.
	c := codec{
		name:   "WebP",
		config: func(data []byte) (image.Config, error) { return webp.DecodeConfig(bytes.NewReader(data)) },
		decode: func(data []byte) (image.Image, error) { return webp.Decode(bytes.NewReader(data)) },
	}
	c.finish(p, f.cleaned(), upright, false)
	if p.Data == nil {
		return
	}
	if config, err := c.config(p.Data); err == nil {
		p.tooLarge(config.Width, config.Height, "WebP",
			fmt.Sprintf("make it %d pixels at most along the longer side, or save it as JPEG", MaxSide))
	}
}

// webpFile is what is kept of a file: its chunks, whole.
type webpFile struct {
	chunks   []byte
	turn     int
	animated bool
}

// readWebP walks over the chunks of a RIFF file: a kind of four letters, a length, and that many bytes, to which
// an odd length adds one.
func readWebP(data []byte) (webpFile, error) {
	f, seen := webpFile{turn: upright}, map[string]bool{}
	size := int64(binary.LittleEndian.Uint32(data[4:])) + 8
	if size > int64(len(data)) || size < 12 {
		return f, errBroken
	}
	for rest := data[12:size]; len(rest) >= 8; {
		kind, n := string(rest[:4]), int64(binary.LittleEndian.Uint32(rest[4:]))
		if n > int64(len(rest)-8) {
			return f, errBroken
		}
		chunk := append([]byte(nil), rest[:8+n]...) // a copy, since flags in it are changed
		switch kind {
		case "VP8X":
			if n != 10 {
				return f, errBroken
			}
			f.animated = chunk[8]&webpAnimated != 0
			chunk[8] &= webpAlpha // no profile, no notes
			f.keep(chunk, seen)
		case "ALPH", "VP8 ", "VP8L":
			f.keep(chunk, seen)
		case "EXIF":
			f.turn = orientation(bytes.TrimPrefix(chunk[8:],
				[]byte("Exif\x00\x00"))) // some writers put JPEG's mark there
		}
		rest = rest[min(int64(len(rest)), 8+n+n%2):]
	}
	return f, nil
}

// keep adds a chunk, each kind once and none after the pixels: a second picture would never be seen. Chunks have an
// even length; a byte is added to others.
func (f *webpFile) keep(chunk []byte, seen map[string]bool) {
	kind := string(chunk[:4])
	if seen[kind] || kind != "VP8X" && (seen["VP8 "] || seen["VP8L"]) {
		return
	}
	seen[kind] = true
	if f.chunks = append(f.chunks, chunk...); len(chunk)%2 == 1 {
		f.chunks = append(f.chunks, 0)
	}
}

func (f *webpFile) cleaned() []byte {
	out := binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(f.chunks)+4))
	return append(append(out, "WEBP"...), f.chunks...)
}
