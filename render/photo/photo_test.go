package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/color/palette"
	"image/draw"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"strings"
	"testing"

	"github.com/bep/imagemeta"
)

const secret = "59.9139N 10.7522E kitchen"

// card is a picture with red in its top left quarter and blue elsewhere.
func card(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(m, m.Rect, image.NewUniform(color.RGBA{20, 30, 200, 255}), image.Point{}, draw.Src)
	draw.Draw(m, image.Rect(0, 0, w/2, h/2), image.NewUniform(color.RGBA{220, 20, 20, 255}), image.Point{}, draw.Src)
	return m
}

// exif is a TIFF structure with an orientation, and a secret behind it.
func exif(order binary.AppendByteOrder, orientation uint16) []byte {
	b := []byte("II*\x00")
	if order.String() == "BigEndian" {
		b = []byte("MM\x00*")
	}
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, 2)
	for _, e := range [][3]uint16{{0x010F, 2, 1}, {0x0112, 3, 1}} {
		b = order.AppendUint16(b, e[0])
		b = order.AppendUint16(b, e[1])
		b = order.AppendUint32(b, uint32(e[2]))
		value := uint16('x')
		if e[0] == 0x0112 {
			value = orientation
		}
		b = order.AppendUint16(order.AppendUint16(b, value), 0)
	}
	return append(order.AppendUint32(b, 0), secret...)
}

func segment(marker byte, body string) []byte {
	b := binary.BigEndian.AppendUint16([]byte{0xFF, marker}, uint16(len(body)+2))
	return append(b, body...)
}

// jpegWith is a JPEG with EXIF, XMP and a comment.
func jpegWith(t *testing.T, m image.Image, exif []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	out := bytes.Clone(b.Bytes()[:2])
	out = append(out, segment(0xE1, "Exif\x00\x00"+string(exif))...)
	out = append(out, segment(0xE1, "http://ns.adobe.com/xap/1.0/\x00<x>"+secret+"</x>")...)
	out = append(out, segment(0xFE, secret)...)
	return append(append(out, b.Bytes()[2:]...), secret...)
}

func chunk(name, body string) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	b = append(b, name+body...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// pngWith is a PNG with text, XMP and EXIF.
func pngWith(t *testing.T, m image.Image, exif []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	const head = 8 + 25 // signature and IHDR
	out := bytes.Clone(b.Bytes()[:head])
	out = append(out, chunk("tEXt", "Comment\x00"+secret)...)
	out = append(out, chunk("iTXt", "XML:com.adobe.xmp\x00\x00\x00\x00\x00"+secret)...)
	out = append(out, chunk("eXIf", string(exif))...)
	return append(out, b.Bytes()[head:]...)
}

// webpWith is a WebP made by another program, put into a container with EXIF and XMP.
func webpWith(t testing.TB, name string, w, h int, exif []byte) []byte {
	t.Helper()
	const exifFlag, xmpFlag = 1 << 3, 1 << 2
	plain := file(t, name)
	canvas := []byte{exifFlag | xmpFlag, 0, 0, 0, byte(w - 1), byte((w - 1) >> 8), 0, byte(h - 1), byte((h - 1) >> 8), 0}
	body := "WEBP" + riff("VP8X", string(canvas)) + string(plain[12:]) + riff("EXIF", string(exif)) + riff("XMP ", "<x>"+secret+"</x>")
	return []byte(riff("RIFF", body))
}

func riff(name, body string) string {
	b := binary.LittleEndian.AppendUint32([]byte(name), uint32(len(body)))
	if b = append(b, body...); len(body)%2 == 1 {
		b = append(b, 0)
	}
	return string(b)
}

// given is how a picture is read that is here already.
func given(data []byte) func() ([]byte, error) {
	return func() ([]byte, error) { return data, nil }
}

func made(t *testing.T, data []byte) (*Plan, [][]byte) {
	t.Helper()
	p, err := Look("a", data)
	if err != nil {
		t.Fatal(err)
	}
	files, err := p.Make(given(data))
	if err != nil {
		t.Fatal(err)
	}
	return p, files
}

func TestNothingButPixels(t *testing.T) {
	m := card(2000, 1000)
	for name, data := range map[string][]byte{
		"jpeg": jpegWith(t, m, exif(binary.LittleEndian, 1)),
		"png":  pngWith(t, m, exif(binary.BigEndian, 1)),
		"webp": webpWith(t, "lossy.webp", 64, 32, exif(binary.BigEndian, 1)),
	} {
		if !bytes.Contains(data, []byte(secret)) || len(tags(t, data)) == 0 {
			t.Fatalf("%s: the secret was not planted", name)
		}
		p, files := made(t, data)
		for i, f := range files {
			for _, word := range []string{secret, "Exif", "xap", "tEXt", "iTXt", "eXIf", "EXIF", "adobe"} {
				if bytes.Contains(f, []byte(word)) {
					t.Errorf("%s: %q is in the picture of %d", name, word, p.Sizes[i].Width)
				}
			}
			if found := tags(t, f); len(found) > 0 {
				t.Errorf("%s: the picture of %d tells %v", name, p.Sizes[i].Width, found)
			}
			c, _, err := image.DecodeConfig(bytes.NewReader(f))
			if err != nil || c.Width != p.Sizes[i].Width || c.Height != p.Sizes[i].Height {
				t.Errorf("%s: %d by %d, %v; planned %+v", name, c.Width, c.Height, err, p.Sizes[i])
			}
		}
	}
}

// tags are what a reader of EXIF, IPTC and XMP that is not ours finds in a picture.
func tags(t *testing.T, data []byte) (found []string) {
	t.Helper()
	formats := map[string]imagemeta.ImageFormat{"jpeg": imagemeta.JPEG, "png": imagemeta.PNG, "webp": imagemeta.WebP}
	_, format, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	_, err = imagemeta.Decode(imagemeta.Options{R: bytes.NewReader(data), ImageFormat: formats[format], Sources: imagemeta.EXIF | imagemeta.IPTC | imagemeta.XMP,
		HandleTag: func(tag imagemeta.TagInfo) error {
			found = append(found, tag.Tag)
			return nil
		},
		HandleXMP: func(r io.Reader) error {
			found = append(found, "XMP")
			_, err := io.Copy(io.Discard, r)
			return err
		},
	})
	if err != nil {
		t.Fatalf("%s: %v", format, err)
	}
	return found
}

// Where the red quarter comes to lie by each orientation, seen from the middle.
func TestOrientation(t *testing.T) {
	corner := map[uint16]image.Point{1: {0, 0}, 2: {1, 0}, 3: {1, 1}, 4: {0, 1}, 5: {0, 0}, 6: {1, 0}, 7: {1, 1}, 8: {0, 1}, 9: {0, 0}, 0: {0, 0}}
	for o, want := range corner {
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			for _, data := range [][]byte{jpegWith(t, card(64, 32), exif(order, o)), pngWith(t, card(64, 32), exif(order, o)),
				webpWith(t, "lossy.webp", 64, 32, exif(order, o)), webpWith(t, "lossless.webp", 64, 32, exif(order, o))} {
				p, files := made(t, data)
				m, _, err := image.Decode(bytes.NewReader(files[0]))
				if err != nil {
					t.Fatal(err)
				}
				w, h := m.Bounds().Dx(), m.Bounds().Dy()
				if onSide := o >= 5 && o <= 8; onSide != (w == 32 && h == 64) || p.Sizes[0].Width != w {
					t.Fatalf("orientation %d: %d by %d, planned %+v", o, w, h, p.Sizes)
				}
				for y := range 2 {
					for x := range 2 {
						r, _, b, _ := m.At(w/4+x*w/2, h/4+y*h/2).RGBA()
						if r>>8 > 20 && r>>8 < 200 || b>>8 > 20 && b>>8 < 180 {
							t.Errorf("orientation %d: %d and %d are neither the red nor the blue", o, r>>8, b>>8)
						}
						if red := r > b; red != (image.Pt(x, y) == want) {
							t.Errorf("orientation %d: red at %d,%d is %v", o, x, y, red)
						}
					}
				}
			}
		}
	}
}

func TestNeverEnlarged(t *testing.T) {
	for w, want := range map[int][]int{1: {1}, 400: {400}, 799: {400, 799}, 800: {400, 800}, 801: {400, 800, 801}, 1600: {400, 800, 1600}, 1601: {400, 800, 1600}} {
		var b bytes.Buffer
		if err := png.Encode(&b, card(w, 2)); err != nil {
			t.Fatal(err)
		}
		p, _ := made(t, b.Bytes())
		var got []int
		for _, s := range p.Sizes {
			got = append(got, s.Width)
		}
		if len(got) != len(want) || got[0] != want[0] || got[len(got)-1] != want[len(want)-1] {
			t.Errorf("%d pixels wide: made %v, want %v", w, got, want)
		}
	}
}

// Shrinking means averaging: the middle of a chequered board is grey, transparent
// parts count as nothing, and the sum of light stays.
func TestShrink(t *testing.T) {
	m := image.NewNRGBA(image.Rect(3, 5, 3+7, 5+7))
	for y := range 7 {
		for x := range 7 {
			m.Set(3+x, 5+y, color.Gray{Y: uint8((x + y) % 2 * 255)})
		}
	}
	at := func(m image.Image) color.RGBA {
		return shrunk(sourcesOf(m, m.Bounds()), 1, 1).image().(*image.RGBA).RGBAAt(0, 0)
	}
	if got := at(m); got != (color.RGBA{125, 125, 125, 255}) { // 24 of 49 are white
		t.Errorf("a chequered board is %v", got)
	}
	m = image.NewNRGBA(image.Rect(0, 0, 2, 1))
	m.Set(0, 0, color.NRGBA{200, 100, 0, 255})
	if got := at(m); got != (color.RGBA{100, 50, 0, 128}) {
		t.Errorf("half transparent: %v", got)
	}
}

func TestGIFFrameSmallerThanScreen(t *testing.T) {
	frame := image.NewPaletted(image.Rect(10, 10, 20, 20), palette.Plan9)
	for i := range frame.Pix {
		frame.Pix[i] = 200
	}
	var b bytes.Buffer
	g := &gif.GIF{Image: []*image.Paletted{frame}, Delay: []int{0}, Config: image.Config{ColorModel: color.Palette(palette.Plan9), Width: 40, Height: 30}}
	if err := gif.EncodeAll(&b, g); err != nil {
		t.Fatal(err)
	}
	p, files := made(t, b.Bytes())
	m, err := png.Decode(bytes.NewReader(files[0]))
	if err != nil || m.Bounds().Dx() != 40 || m.Bounds().Dy() != 30 || p.Ext != ".png" {
		t.Fatalf("%v, %v, %s", m.Bounds(), err, p.Ext)
	}
	if _, _, _, a := m.At(5, 5).RGBA(); a != 0 {
		t.Error("beside the frame it is not transparent")
	}
	if _, _, _, a := m.At(15, 15).RGBA(); a == 0 {
		t.Error("the frame is not where it belongs")
	}
}

// A picture that has changed since it was looked at would be published with the sizes of another.
func TestRefusesWhatHasChanged(t *testing.T) {
	data := pngWith(t, card(9, 9), nil)
	p, err := Look("a.png", data)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.Make(given(append(data, 0))); err == nil || !strings.Contains(err.Error(), "changed") {
		t.Errorf("a picture that changed on the way: %v", err)
	}
}

func FuzzMake(f *testing.F) {
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00II*\x00\x08\x00\x00\x00"))
	f.Add([]byte("GIF89a\x01\x00\x01\x00\x00\x00\x00"))
	for _, name := range []string{"lossy.webp", "lossless.webp"} {
		f.Add(file(f, name))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if p, err := Look("a", data); err == nil && p != nil && p.header.Width*p.header.Height < 1<<20 {
			_, _ = p.Make(given(data))
		}
	})
}

func file(tb testing.TB, name string) []byte {
	tb.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		tb.Fatal(err)
	}
	return data
}
