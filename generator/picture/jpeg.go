package picture

// Here: JPEG files (ITU-T T.81). What draws the picture is kept, segment by segment; the rest is left out.

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"image/jpeg"
)

var errBroken = errors.New("the file is broken")

func jpegCodec() codec {
	return codec{
		"JPEG",
		func(data []byte) (image.Config, error) { return jpeg.DecodeConfig(bytes.NewReader(data)) },
		func(data []byte) (image.Image, error) { return jpeg.Decode(bytes.NewReader(data)) },
		func(to *bytes.Buffer, m image.Image) error {
			return jpeg.Encode(to, m, &jpeg.Options{Quality: jpegQuality})
		},
	}
}

// lookJPEG takes a picture of a pack, which may be made smaller.
func lookJPEG(p *Picture, data []byte) { cleanJPEG(p, data, true) }

// cleanJPEG strips a file; shrink is as for cleanPNG.
func cleanJPEG(p *Picture, data []byte, shrink bool) {
	cleaned, turn, err := strippedJPEG(data)
	if err != nil {
		p.broken("JPEG")
		return
	}
	jpegCodec().finish(p, cleaned, turn, shrink)
}

// Markers of T.81, table B.1.
const (
	markerSOI   = 0xd8
	markerEOI   = 0xd9
	markerSOS   = 0xda
	markerDQT   = 0xdb
	markerDRI   = 0xdd
	markerAPP0  = 0xe0
	markerAPP1  = 0xe1
	markerAPP14 = 0xee
)

// strippedJPEG keeps the segments that draw and finds which way up the picture is. Nothing is kept that stands between
// segments or after the end: there cameras put second pictures, and others put anything.
func strippedJPEG(data []byte) (cleaned []byte, turn int, err error) {
	cleaned, turn = append(cleaned, 0xff, markerSOI), upright
	for i, scans := 2, 0; ; {
		marker, at := nextMarker(data, i)
		switch {
		case marker < 0:
			return nil, 0, errBroken
		case marker == markerEOI:
			return append(cleaned, 0xff, markerEOI), turn, nil
		case marker == markerSOI || marker == 1 || isRestart(marker): // they stand alone, and mean nothing here
			i = at
			continue
		}
		if at+2 > len(data) {
			return nil, 0, errBroken
		}
		end := at + int(binary.BigEndian.Uint16(data[at:]))
		if end < at+2 || end > len(data) {
			return nil, 0, errBroken
		}
		body := data[at+2 : end]
		// A second block of Exif is not looked at; readers take the first.
		if exif, ok := bytes.CutPrefix(body, []byte("Exif\x00\x00")); ok && marker == markerAPP1 && turn == upright {
			turn = orientation(exif)
		}
		if body = keptSegment(marker, body); body != nil {
			cleaned = append(cleaned, 0xff, byte(marker))
			cleaned = binary.BigEndian.AppendUint16(cleaned, uint16(len(body)+2))
			cleaned = append(cleaned, body...)
		}
		if i = end; marker == markerSOS {
			if scans++; scans > MaxScans {
				return nil, 0, errBroken
			}
			i = endOfScan(data, end)
			cleaned = append(cleaned, data[end:i]...)
		}
	}
}

// nextMarker finds the marker at or after an offset, and where it ends; −1 if there is none.
func nextMarker(data []byte, i int) (marker, end int) {
	for ; i+1 < len(data); i++ {
		if data[i] == 0xff && data[i+1] != 0 && data[i+1] != 0xff {
			return int(data[i+1]), i + 2
		}
	}
	return -1, len(data)
}

// isRestart tells whether a marker is one of the eight that stand within coded data, so that a reader can take up
// its thread there.
func isRestart(marker int) bool { return marker >= 0xd0 && marker <= 0xd7 }

// endOfScan finds the marker that ends the coded data.
func endOfScan(data []byte, i int) int {
	for ; i+1 < len(data); i++ {
		if data[i] == 0xff && data[i+1] != 0 && data[i+1] != 0xff && !isRestart(int(data[i+1])) {
			return i
		}
	}
	return len(data)
}

// keptSegment gives what is kept of a segment, nil if nothing is. The colour profile goes too: it names devices and
// people, and browsers take a picture without one for sRGB.
func keptSegment(marker int, body []byte) []byte {
	const jfif, adobe = 14, 12 // bytes before a thumbnail, or anything else, could come
	switch {
	case marker >= 0xc0 && marker <= 0xcf &&
		marker != 0xc8, marker == markerDQT, marker == markerDRI, marker == markerSOS:
		return body // frames, tables, scans; 0xc4 is among them
	case marker == markerAPP0 && len(body) >= jfif && string(body[:5]) == "JFIF\x00":
		return append(append([]byte(nil), body[:jfif-2]...), 0, 0) // no thumbnail
	case marker == markerAPP14 && len(body) >= adobe && string(body[:5]) == "Adobe":
		return body[:adobe] // it says how colours are coded
	}
	return nil
}
