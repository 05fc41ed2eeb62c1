package bundle

// This file looks for what archive/zip passes over: bytes between the files, and names that differ in the two places
// where a zip writes them. What nobody lists, no checksum covers.

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"io"
	"slices"
)

// Signatures of a zip's parts (APPNOTE.TXT 4.3).
const (
	localHeader   = "PK\x03\x04"
	centralHeader = "PK\x01\x02"
	descriptor    = "PK\x07\x08"
	endRecord     = "PK\x05\x06"
	endRecord64   = "PK\x06\x06"
)

// gapless is true if a zip holds nothing but its files and its list of them, one right after the
// other, without a comment, and calls each file the same in both places.
func gapless(r io.ReaderAt, size int64, z *zip.Reader) bool {
	type entry struct {
		*zip.File
		data int64
	}
	var files []entry
	for _, f := range z.File {
		data, err := f.DataOffset()
		if err != nil {
			return false
		}
		files = append(files, entry{f, data})
	}
	slices.SortFunc(files, func(a, b entry) int { return int(a.data - b.data) })
	at := int64(0)
	for _, f := range files {
		var ok bool
		if at, ok = after(r, at, f.File, f.data); !ok {
			return false
		}
	}
	return endsAfterList(r, size, at, len(z.File))
}

// endsAfterList is true if the list of files starts at a place, has so many, and is followed by the zip's last record
// and nothing else.
func endsAfterList(r io.ReaderAt, size, at int64, files int) bool {
	const fixed, end, end64, locator = 46, 22, 56, 20 // bytes of 4.3.12, 4.3.16, 4.3.14 and 4.3.15
	start := at
	for range files {
		header := read(r, at, fixed)
		if len(header) < fixed || string(header[:4]) != centralHeader {
			return false
		}
		for _, length := range []int{28, 30, 32} { // of name, extra fields and comment
			at += int64(binary.LittleEndian.Uint16(header[length:]))
		}
		at += fixed
	}
	listed := at - start
	if string(read(r, at, 4)) == endRecord64 { // of zips of 4 GB or 65,535 files
		record := read(r, at, end64)
		if len(record) < end64 || binary.LittleEndian.Uint64(record[4:]) != end64-12 ||
			binary.LittleEndian.Uint64(record[40:]) != uint64(listed) ||
			binary.LittleEndian.Uint64(record[48:]) != uint64(start) {
			return false
		}
		at += end64 + locator
	}
	last := read(r, at, end)
	if at+end != size || len(last) < end || string(last[:4]) != endRecord {
		return false
	}
	return fits(binary.LittleEndian.Uint32(last[12:]), uint64(listed)) &&
		fits(binary.LittleEndian.Uint32(last[16:]), uint64(start))
}

// after gives where the part after a file starts, false if the file's own header is not at a place or names
// another file.
func after(r io.ReaderAt, at int64, f *zip.File, data int64) (int64, bool) {
	const fixed = 30 // bytes of a header (4.3.7), before its name
	header := read(r, at, fixed)
	if len(header) < fixed || string(header[:4]) != localHeader {
		return 0, false
	}
	name, extra := int64(binary.LittleEndian.Uint16(header[26:])), int64(binary.LittleEndian.Uint16(header[28:]))
	if at+fixed+name+extra != data || string(read(r, at+fixed, name)) != f.Name || !sameHeader(header, f) ||
		!onlyPlainExtras(read(r, at+fixed+name, extra)) {
		return 0, false
	}
	at = data + int64(f.CompressedSize64)
	if f.Flags&afterData == 0 {
		return at, true
	}
	return afterDescriptor(r, at, f)
}

// afterDescriptor gives where the record after a file's data ends, which has its checksum and its sizes, with a
// signature or without, in 32 bits or in 64 (4.3.9).
func afterDescriptor(r io.ReaderAt, at int64, f *zip.File) (int64, bool) {
	packed, plain := f.CompressedSize64, f.UncompressedSize64
	short := binary.LittleEndian.AppendUint32(nil, f.CRC32)
	long := slices.Clone(short)
	short = binary.LittleEndian.AppendUint32(binary.LittleEndian.AppendUint32(short, uint32(packed)), uint32(plain))
	long = binary.LittleEndian.AppendUint64(binary.LittleEndian.AppendUint64(long, packed), plain)
	for _, record := range [][]byte{slices.Concat([]byte(descriptor), long), slices.Concat([]byte(descriptor), short),
		long, short} {
		n := int64(len(record))
		if bytes.Equal(read(r, at, n), record) {
			return at + n, true
		}
	}
	return 0, false
}

// read gives up to n bytes at a place.
func read(r io.ReaderAt, at, n int64) []byte {
	if at < 0 {
		return nil
	}
	b := make([]byte, n)
	got, _ := r.ReadAt(b, at)
	return b[:got]
}
