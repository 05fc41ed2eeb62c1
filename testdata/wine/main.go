// Command wine writes the one library of Windows that programs made by Go need and that wine 8.0 lacks:
// bcryptprimitives.dll, whose only function fills memory with random bytes. The file hands calls of it on to a function
// of the same form that wine has, and holds no code. It is for .ci/windows: go run ./testdata/wine FILE
package main

import (
	"bytes"
	"encoding/binary"
	"log"
	"os"
)

// Where things lie in memory and in the file, after "PE Format" of Microsoft's documentation for Windows.
const (
	inMemory = 0x1000 // the one section
	inFile   = 0x200
)

func main() {
	if len(os.Args) != 2 {
		log.Fatal("name the file to write")
	}
	if err := os.WriteFile(os.Args[1], library("bcryptprimitives.dll", "ProcessPrng", "advapi32.SystemFunction036"),
		0o644); err != nil {
		log.Fatal(err)
	}
}

// library gives a library that exports a function and forwards it to another library's.
func library(name, function, to string) []byte {
	exports := table(name, function, to)
	var b bytes.Buffer
	put := func(values ...any) {
		for _, v := range values {
			_ = binary.Write(&b, binary.LittleEndian, v) // into memory; the values have fixed sizes
		}
	}
	put([]byte("MZ"), make([]byte, 58), uint32(64)) // where the header begins
	put([]byte("PE\x00\x00"), uint16(0x8664), uint16(1), uint32(0), uint32(0), uint32(0), uint16(240),
		uint16(0x2022)) // x86-64, one section; a library that can use all addresses
	put(uint16(0x20b), uint16(0), uint32(0), uint32(inFile), uint32(0), uint32(0), uint32(inMemory)) // no code, no entry
	put(uint64(0x180000000), uint32(0x1000), uint32(inFile), uint16(6), uint16(0), uint32(0), uint16(6), uint16(0),
		uint32(0), uint32(2*inMemory), uint32(inFile), uint32(0), uint16(3), uint16(0x160))
	put(uint64(0x100000), uint64(0x1000), uint64(0x100000), uint64(0x1000), uint32(0), uint32(16))
	put(uint32(inMemory), uint32(len(exports)), make([]byte, 15*8)) // the exports are the first of 16 directories
	put([]byte(".edata\x00\x00"), uint32(len(exports)), uint32(inMemory), uint32(inFile), uint32(inFile),
		make([]byte, 12), uint32(0x40000040)) // data that can be read
	put(make([]byte, inFile-b.Len()), exports, make([]byte, inFile-len(exports)))
	return b.Bytes()
}

// table is the list of exports. A function whose address lies in the list itself is the name of another library's.
func table(name, function, to string) []byte {
	const texts = 40 + 4 + 4 + 2 // after the head, the addresses, the names and the numbers
	at := func(i int) uint32 { return uint32(inMemory + texts + i) }
	toAt, functionAt := len(name)+1, len(name)+1+len(to)+1
	var b bytes.Buffer
	for _, v := range []any{uint32(0), uint32(0), uint32(0), at(0), uint32(1), uint32(1), uint32(1),
		uint32(inMemory + 40), uint32(inMemory + 44), uint32(inMemory + 48), // where the three lists are
		at(toAt), at(functionAt), uint16(0)} {
		_ = binary.Write(&b, binary.LittleEndian, v)
	}
	b.WriteString(name + "\x00" + to + "\x00" + function + "\x00")
	return b.Bytes()
}
