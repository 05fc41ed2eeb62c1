package bundle

// What stands about a file in a zip beside its name and its bytes: fields, flags and modes by which a program may
// unpack something else than what was checked.

import (
	"archive/zip"
	"encoding/binary"
	"io/fs"
)

// plainExtras are the extra fields that say nothing but sizes, times and owners (APPNOTE.TXT 4.5.2 and 4.6, and what
// zip and unzip of Debian write of times and owners). Any other may name the file anew, as 0x7075 does, or link it.
var plainExtras = map[uint16]bool{
	0x0001: true, // sizes of 64 bits
	0x000a: true, // times as NTFS has them
	0x5455: true, // times as Unix has them: the one that Make writes
	0x7875: true, // numbers of owner and group
}

// onlyPlainExtras is true if all extra fields are of that kind, each whole and there once.
func onlyPlainExtras(extra []byte) bool {
	seen := map[uint16]bool{}
	for len(extra) > 0 {
		if len(extra) < 4 {
			return false
		}
		id, size := binary.LittleEndian.Uint16(extra), int(binary.LittleEndian.Uint16(extra[2:]))
		if !plainExtras[id] || seen[id] || len(extra) < 4+size {
			return false
		}
		seen[id], extra = true, extra[4+size:]
	}
	return true
}

// oddHeader says what an entry of the list of files has that none of ours has, "" for nothing.
func oddHeader(f *zip.File) string {
	const inUTF8 = 1 << 11 // the flag of a name in UTF-8 (4.4.4)
	switch mode := f.Mode(); {
	case !onlyPlainExtras(f.Extra):
		return "has a field that may give it another name where it is unpacked; somebody repacked it"
	case f.Flags&inUTF8 == 0 && !ascii(f.Name):
		return "does not say how its name is to be read, so other programs call it something else; somebody repacked it"
	case mode&(fs.ModeSetuid|fs.ModeSetgid|fs.ModeSticky) != 0:
		return "asks for rights that no page needs; somebody changed it"
	case f.Comment != "":
		return "has a comment; somebody added it"
	}
	return ""
}

func ascii(s string) bool {
	for i := range len(s) {
		if s[i] >= 0x80 {
			return false
		}
	}
	return true
}

// sameHeader compares the header in front of a file (4.3.7) with the list of files: programs that unpack a zip as it
// arrives go by the first alone. Sizes and sum may come after the data instead (bit 3), and are 0 then.
func sameHeader(header []byte, f *zip.File) bool {
	if binary.LittleEndian.Uint16(header[6:]) != f.Flags || binary.LittleEndian.Uint16(header[8:]) != f.Method {
		return false
	}
	sum, packed, plain := binary.LittleEndian.Uint32(header[14:]), binary.LittleEndian.Uint32(header[18:]),
		binary.LittleEndian.Uint32(header[22:])
	if f.Flags&afterData != 0 && sum == 0 && packed == 0 && plain == 0 {
		return true
	}
	return sum == f.CRC32 && fits(packed, f.CompressedSize64) && fits(plain, f.UncompressedSize64)
}

// afterData is the flag of a file whose sizes and sum come after it.
const afterData = 1 << 3

// fits compares 32 bits with a size; all ones stand for one that is in an extra field.
func fits(short uint32, size uint64) bool { return uint64(short) == size || short == 1<<32-1 }
