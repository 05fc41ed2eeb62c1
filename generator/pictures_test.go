package generator

// Tests of pictures that are not kept in memory between being looked into and being drawn.

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"runtime"
	"testing"
	"testing/fstest"

	"trundle/generator/read"
)

// notedPNG is a small picture with a note of so many bytes in its file.
func notedPNG(t *testing.T, size int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 3, 2))); err != nil {
		t.Fatal(err)
	}
	const begins = 33 // bytes up to the end of IHDR (PNG 3rd edition, 5.3 and 11.2.1)
	note := append([]byte("tEXtnote\x00"), bytes.Repeat([]byte("a"), size)...)
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(note)-4))
	chunk = binary.BigEndian.AppendUint32(append(chunk, note...), crc32.ChecksumIEEE(note))
	return append(append(bytes.Clone(b.Bytes()[:begins]), chunk...), b.Bytes()[begins:]...)
}

func TestPicturesAreNotKeptAsTheyWereSaved(t *testing.T) {
	const count, size = 12, 8 << 20
	folder, files := fstest.MapFS{}, &read.Files{Pictures: map[string]int64{}, Refused: map[string]string{}}
	saved, shown := notedPNG(t, size), map[string]bool{}
	for i := range count {
		name := fmt.Sprintf("pictures/%d.png", i)
		folder[name], files.Pictures[name], shown[name] = &fstest.MapFile{Data: saved}, int64(len(saved)), true
	}
	m := &Memory{once: true}
	before := heap()
	all, problems := m.look(t.Context(), folder, files, shown)
	if after := heap(); after > before+size || problems.Count() > 0 {
		t.Errorf("%d MB are kept, of %d MB; %v", (after-before)>>20, count*size>>20, problems.Sorted())
	}
	for name, p := range all {
		if p.Handed() == nil || len(p.Handed()) > 100 || !bytes.Equal(p.File.Text(), saved) {
			t.Errorf("%s comes to %d bytes, as saved %d: %v", name, len(p.Handed()), len(p.File.Text()), p.Faults)
		}
	}
}

// heap is how much memory is in use.
func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

func TestAPictureThatWasLetGoIsTheSameWhenItIsDrawn(t *testing.T) {
	folder, files := fstest.MapFS{"a.png": {Data: notedPNG(t, 9)}}, &read.Files{}
	kept, _ := newViewer(folder, files, true, mostHeld).look("a.png", nil)
	loose, _ := newViewer(folder, files, true, 0).look("a.png", nil)
	runtime.GC()
	if kept.Data == nil || loose.Data != nil {
		t.Errorf("%d bytes are kept of one, and %d of the other", len(kept.Data), len(loose.Data))
	}
	if !bytes.Equal(loose.Handed(), kept.Handed()) || loose.Sum() != kept.Sum() || loose.Size != kept.Size {
		t.Errorf("it was %q and is %q", kept.Handed(), loose.Handed())
	}
	if files.Changed() != "" {
		t.Errorf("%s counts as changed", files.Changed())
	}
	folder["a.png"].Data = notedPNG(t, 8)
	runtime.GC()
	if loose.Handed(); files.Changed() != "a.png" {
		t.Error("it is not noticed that the file is another one")
	}
}
