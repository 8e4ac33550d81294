package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/color/palette"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// framed is the beginning of a JPEG, as far as the decoder takes its memory: a frame of
// layers, each with its name and its share of the pixels.
func framed(marker byte, w, h int, before string, layers ...string) []byte {
	b := []byte("\xff\xd8" + before + "\xff")
	b = append(b, marker, 0, byte(8+3*len(layers)), 8, byte(h>>8), byte(h), byte(w>>8), byte(w), byte(len(layers)))
	scan := []byte{0xff, 0xda, 0, byte(6 + 2*len(layers)), byte(len(layers))}
	for _, l := range layers {
		b, scan = append(append(b, l...), 0), append(scan, l[0], 0)
	}
	last := byte(63)
	if marker == 0xc2 {
		last = 0
	}
	return append(append(b, append(scan, 0, last, 0)...), "\xff\xd9"...)
}

// withChunk puts a chunk behind the head of a PNG, and another byte for interlacing.
func withChunk(data []byte, name string, interlaced byte, body string) []byte {
	data = slices.Clone(data)
	data[28] = interlaced
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	if name == "" {
		return data
	}
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	chunk = append(chunk, name+body...)
	return slices.Insert(data, 33, binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))...)
}

// What is counted for a picture is what its decoder takes: never less, and not much more.
func TestMemoryIsThatOfTheDecoder(t *testing.T) {
	const w, h = 1000, 600
	frame := image.Rect(0, 0, w, h)
	asPNG := func(m image.Image) []byte {
		var b bytes.Buffer
		if err := png.Encode(&b, m); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	clear := image.NewNRGBA64(frame)
	clear.Set(1, 1, color.NRGBA64{A: 9})
	solid := image.NewRGBA64(frame)
	for i := range solid.Pix {
		solid.Pix[i] = 0xff
	}
	var photo, moving bytes.Buffer
	if err := errors.Join(jpeg.Encode(&photo, solid, nil), gif.Encode(&moving, image.NewGray(frame), nil)); err != nil {
		t.Fatal(err)
	}
	adobe := "\xff\xee\x00\x0eAdobe\x00\x64\x00\x00\x00\x00\x00"
	for name, data := range map[string][]byte{
		"grey":                                asPNG(image.NewGray(frame)),
		"grey, 16 bits":                       asPNG(image.NewGray16(frame)),
		"grey with a transparent shade":       withChunk(asPNG(image.NewGray(frame)), "tRNS", 0, "\x00\x07"),
		"grey, 16 bits, transparent":          withChunk(asPNG(image.NewGray16(frame)), "tRNS", 0, "\x00\x07"),
		"palette":                             asPNG(image.NewPaletted(frame, palette.Plan9)),
		"colours":                             asPNG(image.NewRGBA(frame)),
		"colours, 16 bits":                    asPNG(solid),
		"transparent, 16 bits":                asPNG(clear),
		"interlaced":                          withChunk(asPNG(solid), "", 1, ""), // which fails on the way
		"GIF":                                 moving.Bytes(),
		"photo":                               photo.Bytes(),
		"photo, in passes":                    framed(0xc2, w, h, "", "\x01\x22", "\x02\x11", "\x03\x11"),
		"photo, whole layers":                 framed(0xc0, w, h, "", "\x01\x11", "\x02\x11", "\x03\x11"),
		"photo, whole layers, in passes":      framed(0xc2, w, h, "", "\x01\x11", "\x02\x11", "\x03\x11"),
		"photo, 4:1:0":                        framed(0xc1, w, h, "", "\x01\x42", "\x02\x11", "\x03\x11"),
		"grey photo, in passes":               framed(0xc2, w, h, "", "\x01\x11"),
		"four layers, in passes":              framed(0xc2, w, h, adobe, "\x01\x11", "\x02\x11", "\x03\x11", "\x04\x11"),
		"in passes, behind what is passed by": framed(0xc2, w, h, "\xff\x00\xff\xd0", "\x01\x11", "\x02\x11", "\x03\x11"),
		"in passes, behind something odd":     framed(0xc2, w, h, "odd", "\x01\x11", "\x02\x11", "\x03\x11"),
	} {
		header, err := look(name, data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, _, _ = image.Decode(bytes.NewReader(data))
		runtime.ReadMemStats(&after)
		took, counted := int64(after.TotalAlloc-before.TotalAlloc), header.Memory-(&Header{Width: w, Height: h, Turn: 1}).memory(0)
		if took -= 100 << 10; took > counted || float64(counted) > 2.4*float64(took) && !strings.Contains(name, "odd") {
			t.Errorf("%s: it takes %.1f bytes a pixel, and %.1f are counted", name, float64(took)/w/h, float64(counted)/w/h)
		}
	}
	for name, want := range map[string]int64{"lossy": 2, "lossless": 8} {
		data, err := os.ReadFile("../../render/photo/testdata/" + name + ".webp")
		if err != nil {
			t.Fatal(err)
		}
		if header, err := look(name, data); err != nil || header.Memory < want*int64(header.Width*header.Height) {
			t.Errorf("%s: %+v, %v", name, header, err)
		}
	}
}

// Pictures that take too much are refused by what they take: by their colours, by
// rows that are long and by copies of what is high and narrow.
func TestRefusesWhatTakesMemory(t *testing.T) {
	deep := func(w, h uint32, depth, kind byte) []byte {
		data := claiming(t, w, h)
		data[24], data[25] = depth, kind
		return withChunk(data, "", 0, "")
	}
	for name, c := range map[string]struct {
		data    []byte
		refused bool
	}{
		"120 million pixels of 8 bits":            {deep(12_000, 10_000, 8, 2), false},
		"120 million pixels of 16 bits":           {deep(12_000, 10_000, 16, 2), true},
		"120 million pixels of 16 bits and alpha": {deep(12_000, 10_000, 16, 6), true},
		"120 million pixels of grey":              {deep(12_000, 10_000, 16, 0), false},
		"80 million pixels of 16 bits":            {deep(8_000, 10_000, 16, 2), false},
		"one long row":                            {deep(50_000_000, 1, 8, 2), true},
		"one long column":                         {deep(1, 100_000_000, 8, 2), true},
		"a phone's largest photo":                 {framed(0xc0, 12_000, 9_000, "", "\x01\x22", "\x02\x11", "\x03\x11"), false},
		"a large photo in passes":                 {framed(0xc2, 12_000, 9_000, "", "\x01\x22", "\x02\x11", "\x03\x11"), true},
		"a photo of 60 million pixels in passes":  {framed(0xc2, 9_000, 6_700, "", "\x01\x11", "\x02\x11", "\x03\x11"), true},
		"a photo of 45 million pixels in passes":  {framed(0xc2, 8_192, 5_464, "", "\x01\x11", "\x02\x11", "\x03\x11"), false},
	} {
		h, err := look(name, c.data)
		refusal, refused := errors.AsType[*Refusal](err)
		if refused != c.refused || refused && (!strings.Contains(refusal.Why, "of memory, more than 768") || refusal.Help == "") {
			t.Errorf("%s: %+v, %v", name, h, err)
		}
		if h != nil && (h.Memory > MaxMemory || h.Memory > math.MaxInt64/2) {
			t.Errorf("%s: %d bytes", name, h.Memory)
		}
	}
}
