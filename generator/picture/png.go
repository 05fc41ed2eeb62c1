package picture

// Here: PNG files (W3C PNG, third edition). Chunks that draw are kept; text, times, places, profiles and chunks that
// nobody knows are left out.

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"io"
)

func pngCodec() codec {
	return codec{
		"PNG",
		func(data []byte) (image.Config, error) { return png.DecodeConfig(bytes.NewReader(data)) },
		func(data []byte) (image.Image, error) { return png.Decode(bytes.NewReader(data)) },
		func(to *bytes.Buffer, m image.Image) error {
			var b bytes.Buffer
			if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, m); err != nil {
				return err
			}
			f, err := readPNG(b.Bytes()) // so that all come out in one shape
			if err != nil {
				return err
			}
			cleaned, err := f.cleaned(m.Bounds().Dx(), m.Bounds().Dy())
			to.Write(cleaned)
			return err
		},
	}
}

// lookPNG takes a picture of a pack, which may be made smaller.
func lookPNG(p *Picture, data []byte) { cleanPNG(p, data, true) }

// cleanPNG strips a file. It reads the size before anything is unpacked, since a small file can hold a huge picture.
// Without shrink a picture that is too large stays so: one within an SVG has its place there by its size.
func cleanPNG(p *Picture, data []byte, shrink bool) {
	f, err := readPNG(data)
	if err != nil {
		p.broken("PNG")
		return
	}
	if f.animated {
		p.refuse("picture-animated", "is an animated PNG, which trundle cannot look through",
			"save it as an animated GIF, or as a picture that stands still")
		return
	}
	config, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		p.broken("PNG")
		return
	}
	if !p.fits(config.Width, config.Height) {
		return
	}
	cleaned, err := f.cleaned(config.Width, config.Height)
	if err != nil {
		p.broken("PNG")
		return
	}
	pngCodec().finish(p, cleaned, f.turn, shrink)
}

const pngStart = "\x89PNG\r\n\x1a\n"

// keptChunks are those that draw, with the length that they must have; 0 is any. The chunks about colour change how the
// picture looks and have no room for words.
func keptChunks() map[string]int {
	return map[string]int{"IHDR": 13, "PLTE": 0, "tRNS": 0, "gAMA": 4, "cHRM": 32, "sRGB": 1, "cICP": 4}
}

// pngFile is what is kept of a file.
type pngFile struct {
	before   []byte // all chunks before the pixels
	pixels   []byte // one zlib stream, and whatever comes after it
	turn     int
	animated bool
}

// readPNG walks over the chunks: a length, a kind of four letters, that many bytes and a checksum.
func readPNG(data []byte) (pngFile, error) {
	f, kept := pngFile{before: []byte(pngStart), turn: upright}, keptChunks()
	for rest := data[len(pngStart):]; ; {
		if len(rest) < 12 {
			return f, errBroken
		}
		n := int64(binary.BigEndian.Uint32(rest))
		if n > int64(len(rest)-12) {
			return f, errBroken
		}
		kind, body := string(rest[4:8]), rest[8:8+n]
		want, keep := kept[kind]
		// What comes after the first pixels draws nothing, and the profile of colours is dropped as in a JPEG.
		switch {
		case keep && (want == 0 || want == int(n)) && len(f.pixels) == 0:
			f.before = append(f.before, rest[:12+n]...) // with its checksum, which the decoder checks
		case kind == "IDAT":
			f.pixels = append(f.pixels, body...)
		case kind == "acTL":
			f.animated = true
		case kind == "eXIf":
			f.turn = orientation(body)
		case kind == "IEND":
			return f, nil
		}
		rest = rest[12+n:]
	}
}

// cleaned writes the file anew. The pixels become one chunk that ends with their stream: a program that writes a
// cropped picture over the old file may leave the rest of the old one there.
func (f pngFile) cleaned(width, height int) ([]byte, error) {
	left := bytes.NewReader(f.pixels)
	stream, err := zlib.NewReader(left)
	if err != nil {
		return nil, errBroken
	}
	// Eight bytes for a pixel are the most, and some for each line and each of the seven passes of interlacing.
	if _, err := io.CopyN(io.Discard, stream, int64(8*width*height+4*height+64)); err != io.EOF {
		return nil, errBroken
	}
	out := appendChunk(f.before, "IDAT", f.pixels[:len(f.pixels)-left.Len()])
	return appendChunk(out, "IEND", nil), nil
}

// appendChunk adds a chunk with its checksum, which covers the kind and not the length.
func appendChunk(to []byte, kind string, body []byte) []byte {
	to = binary.BigEndian.AppendUint32(to, uint32(len(body)))
	start := len(to)
	to = append(append(to, kind...), body...)
	return binary.BigEndian.AppendUint32(to, crc32.ChecksumIEEE(to[start:]))
}
