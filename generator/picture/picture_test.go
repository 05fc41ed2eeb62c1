package picture

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// noted gives a picture of each format with all kinds of notes in it.
func noted(t testing.TB) map[string][]byte {
	return map[string][]byte{
		"a.jpg": photo(t, corners(40, 30), 1), "b.png": notedPNG(t,
			corners(40, 30)), "c.gif": notedGIF(t), "d.webp": notedWebP(40, 30, 1),
	}
}

func TestNotesAreTakenOutAndThePixelsStay(t *testing.T) {
	for name, data := range noted(t) {
		p := look(name, data)
		if len(p.Faults) > 0 {
			t.Errorf("%s: %s", name, told(p))
			continue
		}
		before, after := decoded(t, data), decoded(t, p.Data)
		if !samePixels(before, after) {
			t.Errorf("%s: the pixels are not the same", name)
		}
		for _, word := range planted {
			if bytes.Contains(p.Data, []byte(word)) {
				t.Errorf("%s still holds %q", name, word)
			}
		}
		if again := look(name, p.Data); !bytes.Equal(again.Data, p.Data) {
			t.Errorf("%s: cleaned once more it is not the same", name)
		}
	}
}

func TestAWebPDoesNotAnnounceWhatWasTakenOut(t *testing.T) {
	const flags = 12 + 8
	if data := look("a.webp", notedWebP(4, 3, 1)).Data; data[flags] != 0 {
		t.Errorf("the flags are %08b", data[flags])
	}
}

func TestTheFixturesHoldWhatIsTakenOut(t *testing.T) {
	all := bytes.Join([][]byte{photo(t, corners(4, 3), 1), notedPNG(t, corners(4, 3)), notedGIF(t),
		notedWebP(4, 3, 1)}, nil)
	for _, word := range planted {
		if !bytes.Contains(all, []byte(word)) {
			t.Errorf("no fixture holds %q, so no test can miss it", word)
		}
	}
}

func samePixels(a, b image.Image) bool {
	if a.Bounds() != b.Bounds() {
		return false
	}
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			if a.(image.RGBA64Image).RGBA64At(x, y) != b.(image.RGBA64Image).RGBA64At(x, y) {
				return false
			}
		}
	}
	return true
}

// TestAPhotoIsSeenAsTheCameraWasHeld goes by the words of Exif 2.32 for tag 0x0112: on which side of the scene the
// first row and the first column of the stored picture are.
func TestAPhotoIsSeenAsTheCameraWasHeld(t *testing.T) {
	stored := corners(40, 30)
	for turn, sides := range []string{1: "top left", 2: "top right", 3: "bottom right", 4: "bottom left",
		5: "left top", 6: "right top", 7: "right bottom", 8: "left bottom"} {
		if turn == 0 {
			continue
		}
		for name, data := range map[string][]byte{
			"a.jpg": photo(t, stored, turn),
			"b.png": asPNG(t, stored, chunk("eXIf", string(exif(turn, binary.LittleEndian)))),
		} {
			p := look(name, data)
			if len(p.Faults) > 0 {
				t.Fatal(told(p))
			}
			m := decoded(t, p.Data)
			if bytes.Contains(p.Data, []byte("Heronware")) {
				t.Errorf("%s turned by %d still names the camera", name, turn)
			}
			row, column, _ := strings.Cut(sides, " ")
			w, h := m.Bounds().Dx(), m.Bounds().Dy()
			if lies := row == "left" || row == "right"; lies != (h > w) {
				t.Errorf("%s turned by %d is %d × %d", name, turn, w, h)
			}
			for _, c := range []struct {
				right, bottom bool // in what is stored
			}{{false, false}, {true, false}, {false, true}, {true, true}} {
				at := image.Pt(-1, -1)
				for side, far := range map[string]bool{row: c.bottom, column: c.right} {
					switch side {
					case "top", "bottom":
						at.Y = map[bool]int{false: 1, true: h - 2}[(side == "bottom") != far]
					default:
						at.X = map[bool]int{false: 1, true: w - 2}[(side == "right") != far]
					}
				}
				if got, want := m.At(at.X, at.Y), colourOf(c.right, c.bottom); !near(got, want) {
					t.Errorf("%s turned by %d: at %v is %v, want %v", name, turn, at, got, want)
				}
			}
		}
	}
}

func near(a, b color.Color) bool {
	r, g, bl, _ := a.RGBA()
	r2, g2, b2, _ := b.RGBA()
	off := func(x, y uint32) bool { return max(x, y)-min(x, y) > 0x0800 }
	return !off(r, r2) && !off(g, g2) && !off(bl, b2)
}

func TestAnExifBlockOfAnyShapeTurnsAtMost(t *testing.T) {
	whole := exif(6, binary.BigEndian)
	for n := range whole {
		if turn := orientation(whole[:n]); turn != 1 && turn != 6 {
			t.Errorf("the first %d bytes turn by %d", n, turn)
		}
	}
	if turn := orientation(exif(9, binary.BigEndian)); turn != upright {
		t.Errorf("an orientation that there is not turns by %d", turn)
	}
	far := append([]byte("MM\x00*"), 0xff, 0xff, 0xff, 0xff)
	if turn := orientation(far); turn != upright {
		t.Errorf("a block beyond the end turns by %d", turn)
	}
}

func TestALargePictureIsMadeSmaller(t *testing.T) {
	for _, c := range []struct {
		name string
		data []byte
		want image.Point
		says string
	}{
		{"a.jpg", photo(t, corners(4000, 3000), 1), image.Pt(1600, 1200),
			"is 4000 × 3000 pixels, and is handed out as 1600 × 1200"},
		{"b.jpg", photo(t, corners(2400, 1000), 6), image.Pt(667, 1600),
			"is 1000 × 2400 pixels, and is handed out as 667 × 1600"},
		{"c.png", asPNG(t, speckled(2000, 100)), image.Pt(1600, 80),
			"is 2000 × 100 pixels, and is handed out as 1600 × 80"},
		{"d.png", asPNG(t, corners(4000, 1)), image.Pt(1600, 1), "is 4000 × 1 pixels, and is handed out as 1600 × 1"},
	} {
		p := look(c.name, c.data)
		if p.Data == nil || len(p.Faults) != 1 || p.Faults[0].Slug != "picture-made-smaller" ||
			p.Faults[0].What != c.says || !p.Faults[0].Caution {
			t.Errorf("%s: %s", c.name, told(p))
			continue
		}
		m := decoded(t, p.Data)
		if m.Bounds().Size() != c.want {
			t.Errorf("%s is now %v, want %v", c.name, m.Bounds().Size(), c.want)
		}
		if again := look(c.name, p.Data); !bytes.Equal(again.Data, p.Data) || len(again.Faults) > 0 {
			t.Errorf("%s: cleaned once more it is not the same", c.name)
		}
	}
	if p := look("e.jpg", photo(t, corners(1600, 1600), 1)); len(p.Faults) > 0 {
		t.Errorf("the largest that stays: %s", told(p))
	}
}

// A plan in two colours takes few bytes at any size; its softened edges take more.
func TestASmallFileStaysUnlessItIsHuge(t *testing.T) {
	plan := func(w, h int) []byte {
		m := image.NewPaletted(image.Rect(0, 0, w, h), color.Palette{color.White, color.Black})
		for i := range w * h {
			if i%7 == 0 || i/w%5 == 0 {
				m.Pix[i] = 1
			}
		}
		return asPNG(t, m)
	}
	data := plan(2000, 1500)
	if p := look("a.png", data); len(p.Faults) > 0 || !samePixels(decoded(t, p.Data), decoded(t, data)) {
		t.Errorf("a plan of few bytes is not left alone: %s", told(p))
	}
	if p := look("a.png", plan(4000, 800)); len(p.Faults) != 1 || decoded(t, p.Data).Bounds().Dx() != MaxSide {
		t.Errorf("a huge plan is left as it is: %s", told(p))
	}
}

func speckled(w, h int) *image.NRGBA {
	r := rand.New(rand.NewPCG(4, 2))
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = uint8(r.UintN(256))
	}
	return m
}

// TestEachPixelIsTheAverageOfWhatItCovers works areas out again, pixel by pixel and in another way.
func TestEachPixelIsTheAverageOfWhatItCovers(t *testing.T) {
	from := speckled(37, 23)
	const w, h = 16, 10
	got := smaller(from, w, h).(*image.NRGBA)
	for y := range h {
		for x := range w {
			var sum [4]float64
			for sy := range 23 {
				for sx := range 37 {
					area := overlap(sx, 37, x, w) * overlap(sy, 23, y, h)
					r, g, b, a := from.At(sx, sy).RGBA()
					for i, v := range []uint32{r, g, b, a} {
						sum[i] += area * float64(v)
					}
				}
			}
			whole := 37.0 * 23 / w / h
			want := color.NRGBA{R: uint8(sum[0]/sum[3]*255 + .5), G: uint8(sum[1]/sum[3]*255 + .5),
				B: uint8(sum[2]/sum[3]*255 + .5), A: uint8(sum[3]/whole/0xffff*255 + .5)}
			if got.NRGBAAt(x, y) != want {
				t.Fatalf("at %d, %d is %v, want %v", x, y, got.NRGBAAt(x, y), want)
			}
		}
	}
}

// overlap is how much of pixel i of n lies within pixel j of m over the same length, in pixels of n.
func overlap(i, n, j, m int) float64 {
	per := float64(n) / float64(m)
	return max(0, min(float64(i+1), float64(j+1)*per)-max(float64(i), float64(j)*per))
}

// TestAllProcessorsMakeTheSamePixels has a sum that was the same on amd64 and arm64.
func TestAllProcessorsMakeTheSamePixels(t *testing.T) {
	m := turned(smaller(speckled(2111, 977), 1600, 740), 6).(*image.NRGBA)
	const want = "342dc0b156b3b1c3"
	if got := fmt.Sprintf("%x", sha256.Sum256(m.Pix))[:16]; got != want {
		t.Errorf("the pixels have the sum %s, want %s", got, want)
	}
}

func TestWhatNoBrowserShowsIsRefused(t *testing.T) {
	jpg, pic := photo(t, corners(40, 30), 1), notedPNG(t, corners(40, 30))
	bad := slices.Clone(pic)
	bad[bytes.Index(bad, []byte("IDAT"))+9] ^= 1
	for _, c := range []struct{ name, data, want string }{
		{"a.jpg", "\x00\x00\x00\x18ftypheic\x00\x00\x00\x00",
			"picture-kind: is a HEIC photo, which not every browser shows\n"},
		{"a.heic", "\x00\x00\x00\x18ftypmif1\x00\x00\x00\x00",
			"picture-kind: is a HEIC photo, which not every browser shows\n"},
		{"a.avif", "\x00\x00\x00\x18ftypavif\x00\x00\x00\x00",
			"picture-kind: is an AVIF picture, which not every browser shows\n"},
		{"a.tif", "II*\x00\x08\x00\x00\x00", "picture-kind: is a TIFF picture, which not every browser shows\n"},
		{"a.pdf", "%PDF-1.7\n", "picture-kind: is a PDF document, which not every browser shows\n"},
		{"a.bmp", "BM\x00\x00", "picture-kind: is a BMP picture, which not every browser shows\n"},
		{"a.svgz", "\x1f\x8b\x08", "picture-kind: is a compressed file, which not every browser shows\n"},
		{"a.png", "not a picture", "picture-kind: is not a picture that every browser shows\n"},
		{"a.html", "<!doctype html><script>1</script>", "picture-kind: is not a picture that every browser shows\n"},
		{"a.png", "", "picture-kind: is an empty file\n"},
		{"a.png", string(jpg), "picture-ending: is a JPEG file, but its name ends in .png\n"},
		{"a", string(jpg), "picture-ending: is a JPEG file, but its name has no ending\n"},
		{"a.png", string(pic[:len(pic)/2]), "picture-broken: is a broken PNG file, or one that was cut off\n"},
		{"a.png", string(bad), "picture-broken: is a broken PNG file, or one that was cut off\n"},
		{"a.jpg", string(jpg[:len(jpg)-40]), "picture-broken: is a broken JPEG file, or one that was cut off\n"},
		{"a.jpg", "\xff\xd8\xff\xe0", "picture-broken: is a broken JPEG file, or one that was cut off\n"},
		{"a.gif", string(notedGIF(t)[:60]), "picture-broken: is a broken GIF file, or one that was cut off\n"},
		{"a.webp", string(notedWebP(4, 3, 1)[:50]), "picture-broken: is a broken WebP file, or one that was cut off\n"},
		{"a.webp", string(notedWebP(4, 3, 6)), "picture-turned: is a WebP that is stored on its side or mirrored\n"},
		{"a.webp", string(asWebP(4, 3, 1<<1)),
			"picture-animated: is an animated WebP, which trundle cannot look through\n"},
		{"a.png", string(asPNG(t, corners(4, 3), chunk("acTL", "\x00\x00\x00\x01\x00\x00\x00\x00"))),
			"picture-animated: is an animated PNG, which trundle cannot look through\n"},
	} {
		p := look(c.name, []byte(c.data))
		if told(p) != c.want || p.Data != nil {
			t.Errorf("%s %.12q:\n%swant\n%s", c.name, c.data, told(p), c.want)
		}
	}
	for _, name := range []string{"a.JPG", "a.jpeg", "b.JPEG"} {
		if p := look(name, jpg); len(p.Faults) > 0 {
			t.Errorf("%s: %s", name, told(p))
		}
	}
	if hint := look("lock.png",
		jpg).Faults[0].Hint; hint != "rename the file to lock.jpg, and write its new name here" {
		t.Error(hint)
	}
}

func TestWhatCannotBeMadeSmallerIsLeftWithAWord(t *testing.T) {
	for name, data := range map[string][]byte{"a.gif": asGIF(t, 1, 1700, 20), "a.webp": asWebP(1700, 20, 0)} {
		p := look(name, data)
		if len(p.Faults) != 1 || p.Faults[0].Slug != "picture-large" || !p.Faults[0].Caution || p.Data == nil {
			t.Errorf("%s: %s", name, told(p))
		}
	}
}

func TestAnAnimatedPictureKeepsItsFramesAndItsLoop(t *testing.T) {
	data := notedGIF(t)
	before, err := gif.DecodeAll(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	after, err := gif.DecodeAll(bytes.NewReader(look("a.gif", data).Data))
	if err != nil {
		t.Fatal(err)
	}
	if len(after.Image) != 2 || !slices.Equal(after.Delay,
		before.Delay) || after.LoopCount != before.LoopCount || !slices.Equal(after.Disposal, before.Disposal) {
		t.Errorf("%d frames, delays %v, loops %d", len(after.Image), after.Delay, after.LoopCount)
	}
}

// TestABombIsNotUnpacked gives files of a few bytes that unpack to gigabytes; that they are refused and not unpacked
// shows in that the test ends.
func TestABombIsNotUnpacked(t *testing.T) {
	huge := asPNG(t, corners(4, 3))
	copy(huge[16:], "\x00\x01\x00\x00\x00\x01\x00\x00")
	binary.BigEndian.PutUint32(huge[29:], crc32.ChecksumIEEE(huge[12:29]))
	wide := photo(t, corners(40, 30), 1)
	frame := bytes.Index(wide, []byte{0xff, 0xc0})
	copy(wide[frame+5:], "\xff\xff\xff\xff")
	canvas := asGIF(t, 1, 4, 3)
	copy(canvas[6:], "\xff\xff\xff\xff")
	for name, data := range map[string][]byte{
		"a.png": huge, "b.jpg": wide, "c.gif": canvas, "d.webp": asWebP(16000, 16000, 0), "e.gif": asGIF(t,
			MaxFrames+1, 2, 2), "f.gif": asGIF(t, 60, 1000, 1000),
	} {
		p := look(name, data)
		if p.Data != nil || len(p.Faults) != 1 || p.Faults[0].Slug != "picture-too-much" {
			t.Errorf("%s: %s", name, told(p))
		}
	}
	longer := asPNG(t, image.NewGray(image.Rect(0, 0, 4000, 4000)))
	copy(longer[16:], "\x00\x00\x00\x04\x00\x00\x00\x04") // a stream that is much too long for the picture
	binary.BigEndian.PutUint32(longer[29:], crc32.ChecksumIEEE(longer[12:29]))
	if p := look("g.png", longer); p.Data != nil || p.Faults[0].Slug != "picture-broken" {
		t.Errorf("g.png: %s", told(p))
	}
	scans := photo(t, corners(40, 30), 1)
	from := bytes.Index(scans, []byte{0xff, markerSOS})
	to := from + bytes.Index(scans[from:], []byte{0xff, markerEOI})
	many := slices.Concat(scans[:to], bytes.Repeat(scans[from:to], MaxScans), scans[to:])
	if p := look("h.jpg", many); p.Data != nil || p.Faults[0].Slug != "picture-broken" {
		t.Errorf("h.jpg: %s", told(p))
	}
}

// A picture that was cropped by writing a shorter stream over the old one still holds the rest of the old.
func TestWhatFollowsThePixelsIsCutOff(t *testing.T) {
	plain := asPNG(t, corners(40, 30))
	f, err := readPNG(plain)
	if err != nil {
		t.Fatal(err)
	}
	f.pixels = append(f.pixels, "Heronware, the rest of the old picture"...)
	data := appendChunk(appendChunk(slices.Clone(f.before), "IDAT", f.pixels), "IEND", nil)
	p := look("a.png", data)
	if len(p.Faults) > 0 || bytes.Contains(p.Data, []byte("Heronware")) || !samePixels(decoded(t, p.Data),
		corners(40, 30)) {
		t.Errorf("%s%q", told(p), p.Data)
	}
}

func FuzzClean(f *testing.F) {
	for name, data := range noted(f) {
		f.Add(slices.Index([]string{".jpg", ".png", ".gif", ".webp", ".svg"}, name[1:]), data)
	}
	for _, c := range hostile {
		f.Add(4, []byte(c.svg))
	}
	f.Add(4, []byte(drawn))
	f.Add(0, photo(f, corners(12, 8), 6))
	endings := []string{".jpg", ".png", ".gif", ".webp", ".svg"}
	f.Fuzz(func(t *testing.T, kind int, data []byte) {
		name := "a" + endings[uint(kind)%uint(len(endings))]
		p := look(name, data)
		if (p.Data == nil) != p.Refused() {
			t.Fatalf("refused %v, and %d bytes come out", p.Refused(), len(p.Data))
		}
		for _, fault := range p.Faults {
			if fault.Inside && (fault.At.Start < 0 || fault.At.End > len(data) || fault.At.End < fault.At.Start) {
				t.Fatalf("a place that there is not: %v", fault)
			}
		}
		if p.Data == nil {
			return
		}
		if again := look(name, p.Data); !bytes.Equal(again.Data, p.Data) {
			t.Fatalf("cleaned once more it is not the same:\n%q\n%q %s", p.Data, again.Data, told(again))
		}
	})
}
