// Package picture tells which files may be published, and reads the headers of pictures without decoding a pixel.
package picture

import (
	"errors"
	"fmt"
	"image"
	_ "image/gif" // for image.DecodeConfig
	_ "image/jpeg"
	_ "image/png"
	"io"
	"strings"

	_ "golang.org/x/image/webp"
)

const (
	// MaxPixels is the largest picture that is decoded: more than phones make. A header may claim any.
	MaxPixels = 120_000_000
	// MaxBytes is the largest file, picture or not, that is shown.
	MaxBytes = 200 << 20
)

// A Header is what is known of a picture before it is decoded.
type Header struct {
	Format        string // as package image calls it: "jpeg", "png", "gif", "webp", "heic"
	Width, Height int    // as it is stored
	Turn          int    // how it is to be turned, 1 to 8, by its orientation in EXIF
	Photo         bool   // made with loss and without transparency, as cameras make them
	Memory        int64  // bytes that it takes to decode it and to make what pages show
}

// A Refusal says why a file is never shown, and what its owner can do about it.
type Refusal struct{ Why, Help string }

func (r *Refusal) Error() string { return r.Why }

// Fits returns a [*Refusal] of a file that is too large to be read.
func Fits(size int64) error {
	if size > MaxBytes {
		return &Refusal{fmt.Sprintf("it is larger than %d MiB", MaxBytes>>20), "Save a smaller copy, or put it where large files are kept and link to it there."}
	}
	return nil
}

// Look reads the header of a file: nil without an error for one published as it is, a [*Refusal] for what never is.
func Look(name string, r io.ReaderAt, size int64) (*Header, error) {
	c, format, err := image.DecodeConfig(io.NewSectionReader(r, 0, size))
	switch {
	case errors.Is(err, image.ErrFormat):
		return nil, copied(name, r, size)
	case err != nil && strings.HasSuffix(err.Error(), io.ErrUnexpectedEOF.Error()): // not every decoder wraps it
		return nil, cutShort
	case err != nil:
		return nil, &Refusal{"it cannot be read as a picture: " + err.Error(), "Open it in another program and save it anew."}
	case c.Width < 1 || c.Height < 1:
		return nil, &Refusal{"it is a picture without a single pixel", "Save it anew."}
	case int64(c.Width)*int64(c.Height) > MaxPixels:
		return nil, &Refusal{fmt.Sprintf("it is %d by %d pixels, more than %d million", c.Width, c.Height, MaxPixels/1_000_000), smaller}
	case Fits(size) != nil:
		return nil, Fits(size)
	}
	h := &Header{Format: format, Width: c.Width, Height: c.Height, Turn: 1, Photo: format == "jpeg" || format == "heic"}
	found := parts{whole: true}
	switch format {
	case "jpeg":
		found = walkJPEG(r, size)
	case "png":
		found = walkPNG(r, size)
	case "webp":
		found = walkWebP(r, size)
		h.Photo = found.lossy && !found.clear && !found.lossless
	}
	switch {
	case found.moving:
		return nil, &Refusal{"it is a WebP picture that moves", "Save a still picture, or a GIF: of that the first picture is shown."}
	case !found.whole:
		return nil, cutShort
	}
	if o := orientationTag(found.exif); o >= 1 && o <= 8 {
		h.Turn = o
	}
	if h.Memory = h.memory(quartersOf(format, found)); h.Memory > MaxMemory {
		return nil, &Refusal{fmt.Sprintf("opening it takes %d MiB of memory, more than %d: it is %d by %d pixels", h.Memory>>20, MaxMemory>>20, h.Width, h.Height), smaller}
	}
	return h, nil
}

const smaller = "Save a smaller copy; pages use no more than 1,600 pixels across."

var cutShort = &Refusal{"the picture is cut short: its end is missing", "Copy it again from where it came."}
