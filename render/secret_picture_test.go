package render

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io"
	"strings"
	"testing"

	"guidecoat/journal/measure"
	"guidecoat/render/place"
)

// tellingPicture is one with a secret everywhere a picture can hold words: of a JPEG
// in its Exif, XMP and comment segments, of a PNG in text chunks, plain and packed,
// and of both after their end.
func tellingPicture(asJPEG bool, shade uint8) []byte {
	img := image.NewRGBA(image.Rect(0, 0, 40, 30))
	draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{shade, 90, 120, 255}), image.Point{}, draw.Src)
	var b bytes.Buffer
	if asJPEG {
		_ = jpeg.Encode(&b, img, nil) // into memory
		var extra bytes.Buffer
		for _, s := range []struct {
			marker byte
			body   string
		}{
			{0xe1, "Exif\x00\x00" + exifWith("zqmetadatacamera")},
			{0xe1, "http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta>zqmetadataxmp</x:xmpmeta>"},
			{0xfe, "zqmetadatacomment"},
		} {
			extra.Write([]byte{0xff, s.marker})
			_ = binary.Write(&extra, binary.BigEndian, uint16(len(s.body)+2))
			extra.WriteString(s.body)
		}
		data := b.Bytes()
		return bytes.Join([][]byte{data[:2], extra.Bytes(), data[2:], []byte("zqmetadataafter")}, nil)
	}
	_ = png.Encode(&b, img)
	data := b.Bytes()
	const header = 8 + 4 + 4 + 13 + 4 // signature and IHDR
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	_, _ = io.WriteString(w, "zqmetadatapacked")
	_ = w.Close()
	return bytes.Join([][]byte{data[:header], chunk("tEXt", "Author\x00zqmetadatatext"), chunk("zTXt", "Place\x00\x00"+packed.String()),
		chunk("iTXt", "Title\x00\x01\x00\x00\x00"+packed.String()), chunk("eXIf", exifWith("zqmetadataexif")), data[header:], []byte("zqmetadataafter")}, nil)
}

func chunk(kind, body string) []byte {
	var b bytes.Buffer
	_ = binary.Write(&b, binary.BigEndian, uint32(len(body)))
	b.WriteString(kind + body)
	_ = binary.Write(&b, binary.BigEndian, crc32.ChecksumIEEE([]byte(kind+body)))
	return b.Bytes()
}

// exifWith is a TIFF of one directory with one entry, the make of the camera.
func exifWith(words string) string {
	var b bytes.Buffer
	b.WriteString("MM\x00\x2a\x00\x00\x00\x08\x00\x01")
	_ = binary.Write(&b, binary.BigEndian, struct {
		Tag, Type     uint16
		Count, Offset uint32
		Next          uint32
	}{0x010f, 2, uint32(len(words) + 1), 8 + 2 + 12 + 4, 0})
	b.WriteString(words + "\x00")
	return b.String()
}

// pictureTexts unpacks whatever words a published picture holds beside its pixels,
// and complains of every part that is there for anything else.
func pictureTexts(t *testing.T, f place.File) string {
	t.Helper()
	var texts strings.Builder
	if isPNG(f.Data) {
		for rest := f.Data[8:]; len(rest) >= 12; {
			n := int(binary.BigEndian.Uint32(rest))
			kind, body := string(rest[4:8]), rest[8:8+n]
			if !strings.Contains("IHDR PLTE tRNS IDAT IEND", kind) {
				t.Errorf("%s: a chunk %s", f.Path, kind)
			}
			for at := range body { // wherever a packed text may begin
				if r, err := zlib.NewReader(bytes.NewReader(body[at:])); err == nil && kind != "IDAT" {
					plain, _ := io.ReadAll(io.LimitReader(r, 1<<16))
					texts.Write(plain)
				}
			}
			rest = rest[12+n:]
			if kind == "IEND" && len(rest) > 0 {
				t.Errorf("%s: %d bytes after its end", f.Path, len(rest))
			}
		}
		return texts.String()
	}
	for at := 2; at+4 <= len(f.Data) && f.Data[at] == 0xff; {
		marker := f.Data[at+1]
		if marker == 0xda { // pixels from here on
			break
		}
		if marker >= 0xe0 && marker <= 0xef || marker == 0xfe {
			t.Errorf("%s: a segment %#x", f.Path, marker)
		}
		at += 2 + int(binary.BigEndian.Uint16(f.Data[at+2:]))
	}
	if !bytes.HasSuffix(f.Data, []byte{0xff, 0xd9}) {
		t.Errorf("%s: bytes after its end", f.Path)
	}
	return texts.String()
}

// The picture itself must hold the secrets, or nothing is shown by their absence.
func TestTellingPictures(t *testing.T) {
	for _, asJPEG := range []bool{true, false} {
		data := tellingPicture(asJPEG, 9)
		if _, _, err := image.Decode(bytes.NewReader(data)); err != nil {
			t.Errorf("JPEG %v: %v", asJPEG, err)
		}
		if n := bytes.Count(data, []byte("zqmetadata")); n < 3 {
			t.Errorf("JPEG %v: %d secrets", asJPEG, n)
		}
	}
}

func day0(t *testing.T, text string) measure.Date {
	t.Helper()
	if text == "" {
		return 0
	}
	d, bad := measure.ParseDate(text)
	if bad != nil {
		t.Fatal(bad.Why)
	}
	return d
}

// find finds a secret; a figure only where no other digit belongs to it.
func find(text, secret string) int {
	secret = strings.ToLower(secret)
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	for from := 0; ; {
		at := strings.Index(text[from:], secret)
		if at < 0 {
			return -1
		}
		at += from
		if !digit(at) || !digit(at-1) && !digit(at+len(secret)) {
			return at
		}
		from = at + 1
	}
}

func isPNG(data []byte) bool { return bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")) }
