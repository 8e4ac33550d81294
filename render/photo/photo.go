// Package photo makes a builder's pictures fit for a page: right way up, no larger
// than a page can use, and free of everything a camera writes beside the picture,
// such as the place where it was taken. What comes out is encoded anew from the
// bare pixels, so nothing else can be in it.
package photo

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/draw"
	_ "image/gif" // for image.Decode
	"image/jpeg"
	"image/png"
)

const (
	// MaxPixels is the largest picture that is decoded. A header of a few bytes may
	// claim four thousand million pixels.
	MaxPixels = 40_000_000
	quality   = 82
	// maker names the way pictures are made. Whoever changes it gives it another
	// name, and with it the pictures.
	maker = "guidecoat photo 1"
)

// widths are those that pages use; none is larger than the picture itself.
var widths = []int{800, 1600}

// ErrUnknown says that a file is not of a kind of picture that can be shown.
var ErrUnknown = errors.New("it is not a JPEG, PNG or GIF picture; save it as one of those")

// A Plan says what will be made of a picture. It is known from the header alone.
type Plan struct {
	Sizes []Size // the smallest first; at least one
	Ext   string // ".jpg", or ".png" where edges and transparency count
	hash  string
	frame image.Rectangle // the picture as it is stored
	turn  int             // its orientation by EXIF, 1 to 8
}

// A Size is one file of a picture.
type Size struct {
	Name          string // by content: the same picture always has the same name
	Width, Height int
}

// Look reads the header of a picture.
func Look(data []byte) (*Plan, error) {
	c, format, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case errors.Is(err, image.ErrFormat):
		return nil, ErrUnknown
	case err != nil:
		return nil, fmt.Errorf("it cannot be read as a picture: %w", err)
	case c.Width < 1 || c.Height < 1:
		return nil, errors.New("it is a picture without a single pixel")
	case int64(c.Width)*int64(c.Height) > MaxPixels:
		return nil, fmt.Errorf("it is %d by %d pixels, more than %d million; make it smaller", c.Width, c.Height, MaxPixels/1_000_000)
	}
	p := &Plan{Ext: ".png", frame: image.Rect(0, 0, c.Width, c.Height), turn: orientation(data, format)}
	if format == "jpeg" {
		p.Ext = ".jpg"
	}
	w, h := c.Width, c.Height
	if p.turn > 4 { // on its side
		w, h = h, w
	}
	p.hash = hashOf(data)
	for _, width := range widths {
		width = min(width, w)
		if n := len(p.Sizes); n > 0 && p.Sizes[n-1].Width == width {
			break
		}
		height := max(1, (h*width+w/2)/w)
		p.Sizes = append(p.Sizes, Size{fmt.Sprintf("%s-%d%s", p.hash, width, p.Ext), width, height})
	}
	return p, nil
}

// Make decodes the picture that was looked at and returns the content of each of its sizes.
func (p *Plan) Make(data []byte) ([][]byte, error) {
	if hashOf(data) != p.hash {
		return nil, errors.New("it has changed while the site was made; try again")
	}
	src, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("it cannot be read as a picture: %w", err)
	}
	out := make([][]byte, len(p.Sizes))
	var larger *image.RGBA
	for i := len(p.Sizes) - 1; i >= 0; i-- {
		s := p.Sizes[i]
		if larger == nil {
			w, h := s.Width, s.Height
			if p.turn > 4 {
				w, h = h, w
			}
			larger = turned(shrink(src, p.frame, w, h), p.turn)
		} else {
			larger = shrink(larger, larger.Rect, s.Width, s.Height)
		}
		var b bytes.Buffer
		if p.Ext == ".jpg" {
			err = jpeg.Encode(&b, larger, &jpeg.Options{Quality: quality})
		} else {
			err = png.Encode(&b, larger)
		}
		if err != nil {
			return nil, err
		}
		out[i] = b.Bytes()
	}
	return out, nil
}

// shrink returns the part of src within frame as a picture of w by h pixels, each
// the mean of the area it stands for. All arithmetic is in whole numbers, so that
// every machine makes the same bytes.
func shrink(src image.Image, frame image.Rectangle, w, h int) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	sw, sh := frame.Dx(), frame.Dy()
	if sw == w && sh == h {
		draw.Draw(out, out.Rect, src, frame.Min, draw.Src)
		return out
	}
	row := image.NewRGBA(image.Rect(0, 0, sw, 1))
	across := make([]uint64, 4*w) // one row of the source, gathered into the columns of out
	sum := make([]uint64, 4*w)
	whole := uint64(sw) * uint64(sh)
	y := 0
	for sy := range sh {
		clear(row.Pix)
		draw.Draw(row, row.Rect, src, image.Pt(frame.Min.X, frame.Min.Y+sy), draw.Src)
		gather(across, row.Pix, sw, w)
		// In units of 1/(sh·h) of the height, this row reaches from sy·h to (sy+1)·h,
		// and row y of out from y·sh to (y+1)·sh.
		for from, to := sy*h, (sy+1)*h; from < to; {
			end := min(to, (y+1)*sh)
			weight := uint64(end - from)
			for i, v := range across {
				sum[i] += v * weight
			}
			if from = end; from == (y+1)*sh {
				pix := out.Pix[y*out.Stride:]
				for i, v := range sum {
					pix[i] = byte((v + whole/2) / whole)
				}
				clear(sum)
				y++
			}
		}
	}
	return out
}

// gather adds up a row of sw pixels in w columns, each pixel by how much of it lies
// in the column. Each sum is sw times the mean.
func gather(sums []uint64, pix []byte, sw, w int) {
	clear(sums)
	x := 0
	for sx := range sw {
		p := pix[4*sx : 4*sx+4 : 4*sx+4]
		for from, to := sx*w, (sx+1)*w; from < to; {
			end := min(to, (x+1)*sw)
			weight := uint64(end - from)
			s := sums[4*x : 4*x+4 : 4*x+4]
			s[0] += uint64(p[0]) * weight
			s[1] += uint64(p[1]) * weight
			s[2] += uint64(p[2]) * weight
			s[3] += uint64(p[3]) * weight
			if from = end; from == (x+1)*sw {
				x++
			}
		}
	}
}

// turned returns the picture as its orientation by EXIF says it is to be seen.
func turned(src *image.RGBA, orientation int) *image.RGBA {
	if orientation == 1 {
		return src
	}
	w, h := src.Rect.Dx(), src.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if orientation > 4 {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			tx, ty := x, y
			switch orientation {
			case 2:
				tx = w - 1 - x
			case 3:
				tx, ty = w-1-x, h-1-y
			case 4:
				ty = h - 1 - y
			case 5:
				tx, ty = y, x
			case 6:
				tx, ty = h-1-y, x
			case 7:
				tx, ty = h-1-y, w-1-x
			case 8:
				tx, ty = y, w-1-x
			}
			copy(out.Pix[ty*out.Stride+4*tx:][:4], src.Pix[y*src.Stride+4*x:][:4])
		}
	}
	return out
}

func hashOf(data []byte) string {
	h := sha256.New()
	h.Write([]byte(maker + "\x00"))
	h.Write(data)
	return hex.EncodeToString(h.Sum(nil)[:10])
}
