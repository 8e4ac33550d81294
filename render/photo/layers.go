package photo

import (
	"image"
	"image/draw"

	"guidecoat/journal/pick"
)

// Layers are the pixels of a picture: of a photo brightness and two of colour with a quarter of the pixels, which are
// faster to shrink; of a grey one brightness; else one layer of four bytes a pixel.
type layers []layer

// A layer is a rectangle of pixels, each of n bytes, without anything between rows.
type layer struct {
	w, h, n int
	pix     []byte
}

// A source gives the rows of a layer one by one: the largest picture is never copied whole.
type source struct {
	w, h, n int
	row     func(y int) []byte
}

// sourcesOf are the layers of a decoded picture, of which the frame is shown.
func sourcesOf(m image.Image, frame image.Rectangle) []source {
	w, h := frame.Dx(), frame.Dy()
	flat := func(w, h, stride int, pix []byte) source {
		return source{w, h, 1, func(y int) []byte { return pix[y*stride:][:w] }}
	}
	if m.Bounds() == frame {
		switch m := m.(type) {
		case *image.Gray:
			return []source{flat(w, h, m.Stride, m.Pix)}
		case *image.YCbCr:
			last := m.COffset(w-1, h-1) // of the pixels of colour
			cw, ch := last%m.CStride+1, last/m.CStride+1
			return []source{flat(w, h, m.YStride, m.Y), flat(cw, ch, m.CStride, m.Cb), flat(cw, ch, m.CStride, m.Cr)}
		}
	}
	row := image.NewRGBA(image.Rect(0, 0, w, 1))
	return []source{{w, h, 4, func(y int) []byte {
		clear(row.Pix)
		draw.Draw(row, row.Rect, m, image.Pt(frame.Min.X, frame.Min.Y+y), draw.Src)
		return row.Pix
	}}}
}

// fullRange stretches the layers of a WebP, 16 to 235 or 240 (RFC 6386 §9.2, ITU-R BT.601), to a byte.
func fullRange(m image.Image, format string) {
	if format != "webp" {
		return
	}
	var from *image.YCbCr
	switch m := m.(type) {
	case *image.YCbCr:
		from = m
	case *image.NYCbCrA:
		from = &m.YCbCr
	default:
		return
	}
	var bright, colour [256]byte
	for i := range 256 {
		bright[i] = byte(min(255, (max(0, i-16)*255+219/2)/219))
		colour[i] = byte(min(255, max(0, ((i-16)*255+224/2)/224)))
	}
	for _, l := range []struct {
		pix   []byte
		table *[256]byte
	}{{from.Y, &bright}, {from.Cb, &colour}, {from.Cr, &colour}} {
		for i, v := range l.pix {
			l.pix[i] = l.table[v]
		}
	}
}

func (l layers) sources() []source {
	return pick.Map(l, func(x layer) source {
		return source{x.w, x.h, x.n, func(y int) []byte { return x.pix[y*x.w*x.n:][:x.w*x.n] }}
	})
}

// shrunk returns a picture as one of w by h pixels.
func shrunk(from []source, w, h int) layers {
	out := layers{from[0].shrink(w, h)}
	for _, colour := range from[1:] {
		out = append(out, colour.shrink((w+1)/2, (h+1)/2))
	}
	return out
}

func (l layers) turn(orientation int) layers {
	return pick.Map(l, func(x layer) layer { return x.turn(orientation) })
}

// image returns the picture in a form that its encoder takes without copying.
func (l layers) image() image.Image {
	first := l[0]
	frame := image.Rect(0, 0, first.w, first.h)
	switch {
	case len(l) == 3:
		return &image.YCbCr{Y: first.pix, Cb: l[1].pix, Cr: l[2].pix, YStride: first.w, CStride: l[1].w, SubsampleRatio: image.YCbCrSubsampleRatio420, Rect: frame}
	case first.n == 1:
		return &image.Gray{Pix: first.pix, Stride: first.w, Rect: frame}
	}
	return &image.RGBA{Pix: first.pix, Stride: 4 * first.w, Rect: frame}
}

// shrink returns a layer of w by h pixels, each the mean of its area, in whole numbers for equal bytes.
func (s source) shrink(w, h int) layer {
	out := layer{w, h, s.n, make([]byte, w*h*s.n)}
	if s.w == w && s.h == h {
		for y := range h {
			copy(out.pix[y*w*s.n:], s.row(y))
		}
		return out
	}
	across := make([]uint64, w*s.n) // one row of the source, gathered into the columns of out
	sum := make([]uint64, w*s.n)
	whole := uint64(s.w) * uint64(s.h)
	y := 0
	for sy := range s.h {
		row := s.row(sy)
		for c := range s.n {
			gather(across[c:], row[c:], s.n, s.w, w)
		}
		// In units of 1/(s.h·h) of the height, this row reaches from sy·h to (sy+1)·h,
		// and row y of out from y·s.h to (y+1)·s.h.
		for from, to := sy*h, (sy+1)*h; from < to; {
			end := min(to, (y+1)*s.h)
			weight := uint64(end - from)
			for i, v := range across {
				sum[i] += v * weight
			}
			if from = end; from == (y+1)*s.h {
				pix := out.pix[y*w*s.n:]
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

// gather adds up a row of sw values in w columns, each by how much of it lies in the column.
func gather(sums []uint64, pix []byte, n, sw, w int) {
	for x := range w {
		// In units of 1/(sw·w) of the width, the column reaches from begin to end, and
		// value i of the row from i·w to (i+1)·w.
		begin, end := x*sw, (x+1)*sw
		i := begin / w
		sum := uint64(pix[i*n]) * uint64(min(end, (i+1)*w)-begin)
		i++
		var inside uint64
		for ; (i+1)*w <= end; i++ {
			inside += uint64(pix[i*n])
		}
		sum += inside * uint64(w)
		if i*w < end {
			sum += uint64(pix[i*n]) * uint64(end-i*w)
		}
		sums[x*n] = sum
	}
}

// turn returns the layer as an orientation by EXIF says it is to be seen.
func (l layer) turn(orientation int) layer {
	if orientation == 1 {
		return l
	}
	out := layer{l.w, l.h, l.n, make([]byte, len(l.pix))}
	if orientation > 4 {
		out.w, out.h = l.h, l.w
	}
	for y := range l.h {
		for x := range l.w {
			tx, ty := x, y
			switch orientation {
			case 2:
				tx = l.w - 1 - x
			case 3:
				tx, ty = l.w-1-x, l.h-1-y
			case 4:
				ty = l.h - 1 - y
			case 5:
				tx, ty = y, x
			case 6:
				tx, ty = l.h-1-y, x
			case 7:
				tx, ty = l.h-1-y, l.w-1-x
			case 8:
				tx, ty = y, l.w-1-x
			}
			to, from := out.pix[(ty*out.w+tx)*l.n:], l.pix[(y*l.w+x)*l.n:]
			copy(to[:l.n], from[:l.n])
		}
	}
	return out
}
