package picture

import (
	"image"
	"testing"
)

// BenchmarkAPhoto looks into a photo of twelve million pixels.
func BenchmarkAPhoto(b *testing.B) {
	m := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	for i := range m.Y {
		m.Y[i] = uint8(i / 97 % 251)
	}
	data := photo(b, m, 6)
	for b.Loop() {
		if p := look("a.jpg", data); p.Data == nil {
			b.Fatal(told(p))
		}
	}
}
