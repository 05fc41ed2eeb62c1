package picture

// Here: which way up a photo is. A camera stores pixels as its sensor lies and notes how it was held (Exif 2.32, tag
// 0x0112, Orientation); with the note gone, the pixels themselves must be turned.

import (
	"encoding/binary"
	"image"
)

// upright is the orientation of a picture that is shown as it is stored. Others, up to 8, say how to turn or mirror it.
const upright = 1

// orientation finds it in an Exif block, which is laid out as a TIFF file; a block that cannot be read turns nothing.
func orientation(exif []byte) int {
	var order binary.ByteOrder = binary.BigEndian
	switch {
	case len(exif) < 8:
		return upright
	case string(exif[:4]) == "II*\x00":
		order = binary.LittleEndian
	case string(exif[:4]) != "MM\x00*":
		return upright
	}
	at := int64(order.Uint32(exif[4:]))
	if at+2 > int64(len(exif)) {
		return upright
	}
	count := int64(order.Uint16(exif[at:]))
	for i := range count {
		entry := at + 2 + 12*i
		if entry+12 > int64(len(exif)) {
			break
		}
		tag, kind := order.Uint16(exif[entry:]), order.Uint16(exif[entry+2:])
		if value := int(order.Uint16(exif[entry+8:])); tag == 0x0112 && kind == 3 && value >= 1 && value <= 8 {
			return value
		}
	}
	return upright
}

// turned gives a picture as its orientation says that it is seen.
func turned(m image.Image, turn int) image.Image {
	if turn == upright {
		return m
	}
	from, bounds := m.(image.RGBA64Image), m.Bounds()
	w, h := bounds.Dx(), bounds.Dy()
	wide, high := w, h
	if turn >= 5 {
		wide, high = h, w
	}
	out := canvas(m, wide, high)
	for y := range high {
		for x := range wide {
			sx, sy := stored(x, y, w, h, turn)
			out.Set(x, y, from.RGBA64At(bounds.Min.X+sx, bounds.Min.Y+sy))
		}
	}
	return out
}

// stored tells where in a stored picture of w × h a pixel is that is seen at x, y.
func stored(x, y, w, h, turn int) (int, int) {
	switch turn {
	case 2: // mirrored left to right
		return w - 1 - x, y
	case 3: // upside down
		return w - 1 - x, h - 1 - y
	case 4: // mirrored top to bottom
		return x, h - 1 - y
	case 5: // mirrored along the diagonal
		return y, x
	case 6: // to be turned clockwise
		return y, h - 1 - x
	case 7: // mirrored along the other diagonal
		return w - 1 - y, h - 1 - x
	case 8: // to be turned anticlockwise
		return w - 1 - y, x
	}
	return x, y
}
