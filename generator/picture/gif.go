package picture

// Here: GIF files (GIF89a). Frames, their timing and the looping are kept; comments, text and what programs add are
// left out.

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image/gif"
)

// looping is the one application extension that is kept; its eleven letters are part of the format by use.
const looping = "NETSCAPE2.0"

// lookGIF cleans a file first and unpacks it only when what was counted in it is little enough: a GIF of some
// kilobytes can claim thousands of frames of any size.
func lookGIF(p *Picture, data []byte) {
	f := gifFile{data: data}
	cleaned, err := f.cleaned()
	if err != nil {
		p.broken("GIF")
		return
	}
	if f.frames > MaxFrames {
		p.refuse("picture-too-much", fmt.Sprintf("has %d frames, which is more than trundle unpacks", f.frames),
			fmt.Sprintf("leave frames out; %d are the most", MaxFrames))
		return
	}
	if width, height := f.size(); !p.fits(width, height) {
		return
	}
	if f.pixels > MaxPixels {
		p.refuse("picture-too-much",
			fmt.Sprintf("unpacks to %d million pixels in all its frames, which is more than trundle does",
				f.pixels/1_000_000),
			"make it smaller, or leave frames out")
		return
	}
	m, err := gif.DecodeAll(bytes.NewReader(cleaned))
	if err != nil || len(m.Image) == 0 {
		p.broken("GIF")
		return
	}
	p.Data = cleaned
	p.tooLarge(m.Config.Width, m.Config.Height, "GIF",
		fmt.Sprintf("make it %d pixels at most along the longer side; a GIF that stands still can be saved as PNG",
			MaxSide))
}

// gifFile walks over a file's blocks. What is counted on the way is known before anything is unpacked.
type gifFile struct {
	data   []byte
	at     int
	frames int
	pixels int // of all frames
}

// size is that of the canvas, which each frame covers a part of.
func (f *gifFile) size() (width, height int) {
	return int(binary.LittleEndian.Uint16(f.data[6:])), int(binary.LittleEndian.Uint16(f.data[8:]))
}

// take gives the next n bytes.
func (f *gifFile) take(n int) ([]byte, error) {
	if n > len(f.data)-f.at {
		return nil, errBroken
	}
	f.at += n
	return f.data[f.at-n : f.at], nil
}

// blocks gives the blocks of data that come next, each with its length before it, and the empty one that ends them.
func (f *gifFile) blocks() ([]byte, error) {
	start := f.at
	for {
		length, err := f.take(1)
		if err != nil {
			return nil, err
		}
		if length[0] == 0 {
			return f.data[start:f.at], nil
		}
		if _, err := f.take(int(length[0])); err != nil {
			return nil, err
		}
	}
}

// colours is the length of a table of colours, as a byte of flags tells it.
func colours(flags byte) int {
	if flags&0x80 == 0 {
		return 0
	}
	return 3 << (flags&7 + 1)
}

// cleaned gives the file with only what draws and what times it, and nothing after its end.
func (f *gifFile) cleaned() ([]byte, error) {
	head, err := f.take(13) // signature, size of the canvas, flags, background, shape of pixels
	if err != nil {
		return nil, err
	}
	out := append([]byte(nil), head...)
	table, err := f.take(colours(head[10]))
	if err != nil {
		return nil, err
	}
	out = append(out, table...)
	for {
		kind, err := f.take(1)
		if err != nil {
			return nil, err
		}
		var kept []byte
		switch kind[0] {
		case 0x21: // "!"
			kept, err = f.extension()
		case 0x2c: // ","
			kept, err = f.frame()
		case 0x3b: // ";" ends the file, whatever follows
			return append(out, 0x3b), nil
		default:
			err = errBroken
		}
		if err != nil {
			return nil, err
		}
		out = append(out, kept...)
	}
}

// extension gives what is kept of an extension.
func (f *gifFile) extension() ([]byte, error) {
	label, err := f.take(1)
	if err != nil {
		return nil, err
	}
	blocks, err := f.blocks()
	switch {
	case err != nil:
		return nil, err
	case label[0] == 0xf9 && len(blocks) == 6 && blocks[0] == 4: // when the next frame is shown, and what of it
		return append([]byte{0x21, 0xf9}, blocks...), nil
	case label[0] == 0xff && len(blocks) >= 16 && string(blocks[1:12]) == looping && blocks[12] == 3 && blocks[13] == 1:
		return append(append([]byte{0x21, 0xff}, blocks[:16]...), 0), nil
	}
	return nil, nil
}

// frame gives a frame as it is, with its own colours and its packed pixels, and counts it.
func (f *gifFile) frame() ([]byte, error) {
	start := f.at - 1
	head, err := f.take(9) // place and size on the canvas, flags
	if err != nil {
		return nil, err
	}
	f.frames++
	f.pixels += int(binary.LittleEndian.Uint16(head[4:])) * int(binary.LittleEndian.Uint16(head[6:]))
	if _, err := f.take(colours(head[8]) + 1); err != nil { // its colours, and how many bits a code has
		return nil, err
	}
	if _, err := f.blocks(); err != nil {
		return nil, err
	}
	return f.data[start:f.at], nil
}
