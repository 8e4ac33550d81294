package picture

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"strings"
	"testing"
)

func look(name string, data []byte) (*Header, error) {
	return Look(name, bytes.NewReader(data), int64(len(data)))
}

func encoded(t testing.TB, format string, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	var err error
	grey := image.NewGray(image.Rect(0, 0, w, h))
	for i := range grey.Pix {
		grey.Pix[i] = byte(i * i >> 7)
	}
	switch format {
	case "jpeg":
		err = jpeg.Encode(&b, grey, nil)
	case "png":
		err = png.Encode(&b, grey)
	case "gif":
		err = gif.Encode(&b, grey, nil)
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// claiming is a small PNG whose header claims another size.
func claiming(t *testing.T, w, h uint32) []byte {
	data := encoded(t, "png", 2, 2)
	binary.BigEndian.PutUint32(data[16:], w)
	binary.BigEndian.PutUint32(data[20:], h)
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

func webp(t testing.TB) []byte {
	t.Helper()
	data, err := os.ReadFile("../../render/photo/testdata/lossy.webp")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func box(brand string) []byte { return []byte("\x00\x00\x00\x18ftyp" + brand + "\x00\x00\x00\x00") }

func TestRefuses(t *testing.T) {
	photo, drawing := encoded(t, "jpeg", 90, 90), encoded(t, "png", 90, 90)
	canvas := "VP8X\x0a\x00\x00\x00\x02\x00\x00\x00\x3f\x00\x00\x1f\x00\x00"
	moving := []byte("RIFF\x20\x00\x00\x00WEBP" + canvas + "ANIM\x06\x00\x00\x00\x00\x00\x00\x00\x00\x00")
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"a.png":         {claiming(t, 65000, 65000), "65000 by 65000 pixels, more than 120 million"},
		"b.png":         {claiming(t, 1, 120_000_001), "more than 120 million"},
		"empty.jpg":     {nil, "empty"},
		"words.jpg":     {[]byte("not a picture"), "not a picture"},
		"short.jpg":     {photo[:len(photo)-2], "cut short"},
		"shorter.jpg":   {photo[:len(photo)/2], "cut short"},
		"header.jpg":    {photo[:100], "cut short"},
		"short.png":     {drawing[:len(drawing)-4], "cut short"},
		"short.webp":    {webp(t)[:80], "cut short"},
		"moving.webp":   {moving, "moves"},
		"broken.png":    {append(bytes.Clone(drawing[:20]), "x9d8f7g6h5j4k3l2"...), "cannot be read as a picture"},
		"phone.heic":    {box("heic"), "HEIC"},
		"phone.jpg":     {box("heix"), "HEIC"}, // phones misname them when they are sent on
		"phone":         {box("mif1"), "HEIC"},
		"phone.mp4":     {box("msf1"), "HEIC"},
		"a.MOV":         {box("qt  "), "ends in .mov"},
		"film":          {box("isom"), "no ending"},
		"film.jpg":      {box("isom"), "not a picture"},
		"raw.jpg":       {[]byte("II*\x00\x08\x00\x00\x00"), "not a picture"},
		"raw.heic":      {[]byte("II*\x00\x08\x00\x00\x00"), "not a picture"},
		"a.pdf":         {[]byte("\n%PDF-1.7"), "not a PDF"},
		"page.pdf":      {[]byte("<html>"), "not a PDF"},
		"empty.pdf":     {nil, "empty"},
		"page.txt":      {[]byte("\ufeff \n\f<!-- a --><html>"), "like a web page"},
		"drawing.csv":   {[]byte("<?xml version='1.0'?>\n<svg/>"), "like a web page"},
		"latin.txt":     {[]byte("m\xe5la"), "UTF-8"},
		"wide.csv":      {[]byte("\xff\xfea\x00"), "UTF-8"},
		"bytes.txt":     {[]byte("a\x00b"), "not plain text"},
		"zip.txt":       {[]byte("PK\x03\x04"), "not plain text"},
		"a.gpx":         {[]byte("<gpx><trk>"), "not a GPX"},
		"b.gpx":         {[]byte("<kml/>"), "not a GPX"},
		"c.gpx":         {[]byte("<gpx/><gpx/>"), "not a GPX"},
		"d.gpx":         {[]byte("<?xml-stylesheet href='a.xsl'?><gpx/>"), "style sheet"},
		"e.gpx":         {[]byte("<!DOCTYPE gpx [<!ENTITY a 'b'>]><gpx/>"), "not a GPX"},
		"f.gpx":         {[]byte("<gpx><a:script xmlns:a='http://www.w3.org/1999/xhtml'/></gpx>"), "web page"},
		"g.gpx":         {[]byte("<gpx xmlns='&#104;ttp://www.w3.org/1999/xhtml'/>"), "web page"},
		"h.gpx":         {[]byte("words"), "not a GPX"},
		"note.md~":      {[]byte("words"), "ends in .md~"},
		"without a dot": {photo[:200], "cut short"},
	} {
		h, err := look(name, c.data)
		var refusal *Refusal
		if h != nil || !errors.As(err, &refusal) || !strings.Contains(refusal.Why, c.want) || refusal.Help == "" {
			t.Errorf("%s: %v, %v, want %q", name, h, err, c.want)
		}
	}
}

func TestTakes(t *testing.T) {
	photo := encoded(t, "jpeg", 90, 60)
	trailed := append(bytes.Clone(photo), bytes.Repeat([]byte{7}, 5000)...) // as phones put a film behind
	filled := append([]byte("\xff\xd8\xff\xff\xff"), photo[3:]...)
	filmed := append(bytes.Clone(photo), make([]byte, 300_000)...)
	for name, c := range map[string]struct {
		data   []byte
		format string
	}{
		"filmed.jpg": {filmed, "jpeg"},
		"a.jpg":      {photo, "jpeg"}, "a.png": {photo, "jpeg"}, "trailed.jpg": {trailed, "jpeg"}, "filled.jpg": {filled, "jpeg"},
		"b.png": {append(encoded(t, "png", 90, 60), "more"...), "png"}, "a.gif": {encoded(t, "gif", 90, 60), "gif"},
	} {
		h, err := look(name, c.data)
		if err != nil || h.Format != c.format || h.Width != 90 || h.Height != 60 || h.Turn != 1 || h.Photo != (c.format == "jpeg") {
			t.Errorf("%s: %+v, %v", name, h, err)
		}
	}
	if h, err := look("a.webp", webp(t)); err != nil || h.Format != "webp" || h.Width != 64 || h.Height != 32 || !h.Photo {
		t.Errorf("WebP: %+v, %v", h, err)
	}
	for name, data := range map[string]string{
		"receipt.PDF": "%PDF-1.7", "wiring.txt": "\ufeffa\tb\r\n£ <b>", "a.csv": "a,b\n",
		"a.gpx": "\ufeff<?xml version='1.0' encoding='UTF-8'?>\n<gpx xmlns='http://www.topografix.com/GPX/1/1' xmlns:xsi='http://www.w3.org/2001/XMLSchema-instance' xsi:a='b'><trk/></gpx>\n",
	} {
		if h, err := look(name, []byte(data)); h != nil || err != nil || !AsItIs(name) || !Known(name) {
			t.Errorf("%s: %v, %v", name, h, err)
		}
	}
}

// Whatever is on no list is refused, with an ending that nobody thought of too.
func TestRefusesAllElse(t *testing.T) {
	endings := strings.Fields(".RAF .RW2 .ORF .MRW .X3F .MTS .mpg .wmv .ts .qt .jxl .jp2 .psd .svg .html .xhtml .xml .js .mjs .zip .md~ .bak .markdown .MD .eml .doc .xlsx .exe .tif .avif .bmp .dng .mp4 .x .pdf.html .")
	for _, ending := range append(endings, "") {
		for _, data := range []string{"", "words", "%PDF-1.7", "<html>", "<gpx/>", "II*\x00", "\x00\x00\x00\x18ftypisom"} {
			if h, err := look("a"+ending, []byte(data)); h != nil || err == nil || Known("a"+ending) {
				t.Errorf("a%s of %q is published", ending, data)
			}
		}
	}
}

// What is too large is refused unread, with the best reason there is.
func TestRefusesTheLarge(t *testing.T) {
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"a.pdf": {[]byte("%PDF-1.7"), "larger than 200 MiB"},
		"a.jpg": {encoded(t, "jpeg", 90, 60), "larger than 200 MiB"},
		"a.mov": {box("qt  "), "a file"},
	} {
		for size, fits := range map[int64]bool{MaxBytes: true, MaxBytes + 1: false} {
			_, err := Look(name, bytes.NewReader(c.data), size)
			if refused := err != nil && strings.Contains(err.Error(), c.want); refused == fits && c.want != "a file" || !refused && c.want == "a file" {
				t.Errorf("%s of %d bytes: %v", name, size, err)
			}
		}
	}
}

// The manual's limits of pictures are those of the code.
func TestLimitsAreInTheManual(t *testing.T) {
	manual, err := os.ReadFile("../../cmd/guidecoat/manual/limits.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []string{
		fmt.Sprintf("| a picture, or another file that a page leads to | %d MiB |", MaxBytes>>20),
		fmt.Sprintf("| a picture | %d million pixels |", MaxPixels/1_000_000),
	} {
		if !strings.Contains(string(manual), row) {
			t.Errorf("the manual has no row %q", row)
		}
	}
}

// counting is a file that notes how much of it is read.
type counting struct {
	io.ReaderAt
	read int64
}

func (c *counting) ReadAt(p []byte, at int64) (int, error) {
	n, err := c.ReaderAt.ReadAt(p, at)
	c.read += int64(n)
	return n, err
}

// Of an ordinary photo a small part is read, however large it is.
func TestReadsLittle(t *testing.T) {
	for _, format := range []string{"jpeg", "png"} {
		data := encoded(t, format, 4000, 3000)
		data = append(data, 0, 0, 0, 0) // as some phones do
		c := &counting{ReaderAt: bytes.NewReader(data)}
		if _, err := Look("a", c, int64(len(data))); err != nil {
			t.Fatal(err)
		}
		if len(data) < 40_000 || c.read > 80_000 || format == "png" && c.read > 10_000 {
			t.Errorf("%s: %d bytes of %d were read", format, c.read, len(data))
		}
	}
}

func FuzzLook(f *testing.F) {
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x10Exif\x00\x00II*\x00\x08\x00\x00\x00"))
	f.Add([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0deXIf"))
	f.Add([]byte("RIFF\x20\x00\x00\x00WEBPVP8X\x0a\x00\x00\x00\x02\x00\x00\x00\x3f\x00\x00\x1f\x00\x00EXIF\x00\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, size := bytes.NewReader(data), int64(len(data))
		for _, walk := range []func(io.ReaderAt, int64) parts{walkJPEG, walkPNG, walkWebP} {
			orientationTag(walk(r, size).exif)
		}
		if h, err := look("a.jpg", data); h == nil && err == nil {
			t.Fatal("it is called a picture, and nothing is said")
		} else if h != nil && (h.Turn < 1 || h.Turn > 8 || h.Width*h.Height > MaxPixels) {
			t.Fatalf("%+v", h)
		}
	})
}
