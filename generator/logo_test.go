package generator_test

// A logo goes into every worksheet, so that its size counts.

import (
	"bytes"
	"context"
	"image"
	"image/png"
	"math/rand/v2"
	"testing"
	"testing/fstest"

	"trundle/generator"
)

// noise is a PNG of pixels that nothing makes smaller.
func noise(t *testing.T, side int) []byte {
	t.Helper()
	picture, random := image.NewRGBA(image.Rect(0, 0, side, side)), rand.New(rand.NewPCG(1, 2))
	for i := range picture.Pix {
		picture.Pix[i] = byte(random.Uint32())
		if i%4 == 3 {
			picture.Pix[i] = 255
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, picture); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestALogoIsSmall(t *testing.T) {
	for side, want := range map[int]bool{140: true, 150: false} { // 57 and 66 kB
		pack := seasonAt("https://club.example/\nclub: Quay\nlogo: pictures/quay.png")
		pack["pictures/quay.png"] = &fstest.MapFile{Data: noise(t, side)}
		p, err := generator.Prove(context.Background(), pack)
		if err != nil || p.HasErrors() == want {
			t.Errorf("a logo of %d pixels: %v, %v; it should do: %v", side, err, p.Problems, want)
		}
		if !want && (len(p.Problems) != 1 || p.Problems[0].Slug != "logo") {
			t.Errorf("a logo of %d pixels: %v", side, p.Problems)
		}
	}
}
