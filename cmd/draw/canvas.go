package main

import (
	"cmp"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/image/vector"
)

// ---- a canvas with a pen

type canvas struct {
	*image.RGBA
	dx, dy, scale float32
}

type point struct{ x, y float32 }

func (c *canvas) to(x, y float32) point { return point{x*c.scale + c.dx, y*c.scale + c.dy} }

func (c *canvas) paint(r *vector.Rasterizer, col color.NRGBA) {
	r.DrawOp = draw.Over
	r.Draw(c.RGBA, c.Bounds(), image.NewUniform(col), image.Point{})
}

// fill fills a path written as in SVG: M, L, Q, C and Z with absolute coordinates.
func (c *canvas) fill(col color.NRGBA, path string) {
	r := vector.NewRasterizer(width, height)
	walk(path, func(op byte, p []point) {
		for i := range p {
			p[i] = c.to(p[i].x, p[i].y)
		}
		switch op {
		case 'M':
			r.MoveTo(p[0].x, p[0].y)
		case 'L':
			r.LineTo(p[0].x, p[0].y)
		case 'Q':
			r.QuadTo(p[0].x, p[0].y, p[1].x, p[1].y)
		case 'C':
			r.CubeTo(p[0].x, p[0].y, p[1].x, p[1].y, p[2].x, p[2].y)
		case 'Z':
			r.ClosePath()
		}
	})
	c.paint(r, col)
}

// line strokes a path with round ends and joins.
func (c *canvas) line(col color.NRGBA, thick float32, path string) {
	for _, run := range c.flatten(path) {
		c.polyline(col, thick*c.scale, run)
	}
}

// dashed strokes a path in dashes.
func (c *canvas) dashed(col color.NRGBA, thick, on, off float32, path string) {
	for _, run := range c.flatten(path) {
		left, drawing := on*c.scale, true
		piece := []point{run[0]}
		for i := 1; i < len(run); {
			a, b := piece[len(piece)-1], run[i]
			d := dist(a, b)
			if d <= left {
				piece, left = append(piece, b), left-d
				i++
				continue
			}
			m := point{a.x + (b.x-a.x)*left/d, a.y + (b.y-a.y)*left/d}
			if drawing {
				c.polyline(col, thick*c.scale, append(piece, m))
			}
			piece, drawing = []point{m}, !drawing
			left = off * c.scale
			if drawing {
				left = on * c.scale
			}
		}
		if drawing && len(piece) > 1 {
			c.polyline(col, thick*c.scale, piece)
		}
	}
}

func dist(a, b point) float32 { return float32(math.Hypot(float64(b.x-a.x), float64(b.y-a.y))) }

// polyline paints each stretch as a quadrilateral and each corner as a disc, all
// turning the same way, so that what overlaps does not cancel out.
func (c *canvas) polyline(col color.NRGBA, thick float32, run []point) {
	r := vector.NewRasterizer(width, height)
	h := thick / 2
	for i, p := range run {
		round(r, p, h, h)
		if i == 0 || dist(run[i-1], p) == 0 {
			continue
		}
		a, d := run[i-1], dist(run[i-1], p)
		nx, ny := -(p.y-a.y)/d*h, (p.x-a.x)/d*h
		r.MoveTo(a.x+nx, a.y+ny)
		r.LineTo(a.x-nx, a.y-ny)
		r.LineTo(p.x-nx, p.y-ny)
		r.LineTo(p.x+nx, p.y+ny)
		r.ClosePath()
	}
	c.paint(r, col)
}

// round adds an ellipse to what is being painted.
func round(r *vector.Rasterizer, m point, rx, ry float32) {
	const k = 0.5523
	r.MoveTo(m.x+rx, m.y)
	r.CubeTo(m.x+rx, m.y+k*ry, m.x+k*rx, m.y+ry, m.x, m.y+ry)
	r.CubeTo(m.x-k*rx, m.y+ry, m.x-rx, m.y+k*ry, m.x-rx, m.y)
	r.CubeTo(m.x-rx, m.y-k*ry, m.x-k*rx, m.y-ry, m.x, m.y-ry)
	r.CubeTo(m.x+k*rx, m.y-ry, m.x+rx, m.y-k*ry, m.x+rx, m.y)
	r.ClosePath()
}

func (c *canvas) ellipse(col color.NRGBA, x, y, rx, ry float32) {
	r := vector.NewRasterizer(width, height)
	round(r, c.to(x, y), rx*c.scale, ry*c.scale)
	c.paint(r, col)
}

func (c *canvas) disc(col color.NRGBA, x, y, radius float32) { c.ellipse(col, x, y, radius, radius) }

func (c *canvas) ring(col color.NRGBA, x, y, radius, thick float32) {
	c.line(col, thick, circle(x, y, radius, radius))
}

func (c *canvas) rect(col color.NRGBA, x, y, w, h float32) {
	c.fill(col, fmt.Sprintf("M%g %g L%g %g L%g %g L%g %gZ", x, y, x+w, y, x+w, y+h, x, y+h))
}

// box is a rectangle with rounded corners.
func (c *canvas) box(col color.NRGBA, x, y, w, h, r float32) {
	c.fill(col, fmt.Sprintf("M%g %g L%g %g Q%g %g %g %g L%g %g Q%g %g %g %g L%g %g Q%g %g %g %g L%g %g Q%g %g %g %gZ",
		x+r, y, x+w-r, y, x+w, y, x+w, y+r, x+w, y+h-r, x+w, y+h, x+w-r, y+h, x+r, y+h, x, y+h, x, y+h-r, x, y+r, x, y, x+r, y))
}

func circle(x, y, rx, ry float32) string {
	const k = 0.5523
	return fmt.Sprintf("M%g %g C%g %g %g %g %g %g C%g %g %g %g %g %g C%g %g %g %g %g %g C%g %g %g %g %g %gZ",
		x+rx, y, x+rx, y+k*ry, x+k*rx, y+ry, x, y+ry, x-k*rx, y+ry, x-rx, y+k*ry, x-rx, y,
		x-rx, y-k*ry, x-k*rx, y-ry, x, y-ry, x+k*rx, y-ry, x+rx, y-k*ry, x+rx, y)
}

// walk reads a path and calls step for each of its letters.
func walk(path string, step func(op byte, p []point)) {
	takes := map[byte]int{'M': 1, 'L': 1, 'Q': 2, 'C': 3, 'Z': 0}
	for i := 0; i < len(path); {
		op := path[i]
		n, known := takes[op]
		if !known {
			i++
			continue
		}
		end := i + 1
		for end < len(path) && !strings.ContainsRune("MLQCZ", rune(path[end])) {
			end++
		}
		var p []point
		words := strings.Fields(strings.ReplaceAll(path[i+1:end], ",", " "))
		for j := 0; j+1 < len(words); j += 2 {
			x, errX := strconv.ParseFloat(words[j], 32)
			y, errY := strconv.ParseFloat(words[j+1], 32)
			if errX != nil || errY != nil {
				panic("draw: not a path: " + path)
			}
			p = append(p, point{float32(x), float32(y)})
		}
		if len(p) != n {
			panic("draw: not a path: " + path)
		}
		step(op, p)
		i = end
	}
}

// flatten turns a path into runs of points on the canvas.
func (c *canvas) flatten(path string) (runs [][]point) {
	var run []point
	end := func() {
		if len(run) > 1 {
			runs = append(runs, run)
		}
		run = nil
	}
	curve := func(p0, p1, p2, p3 point) {
		const steps = 24
		for i := 1; i <= steps; i++ {
			t := float32(i) / steps
			u := 1 - t
			run = append(run, point{
				u*u*u*p0.x + 3*u*u*t*p1.x + 3*u*t*t*p2.x + t*t*t*p3.x,
				u*u*u*p0.y + 3*u*u*t*p1.y + 3*u*t*t*p2.y + t*t*t*p3.y,
			})
		}
	}
	walk(path, func(op byte, p []point) {
		for i := range p {
			p[i] = c.to(p[i].x, p[i].y)
		}
		switch op {
		case 'M':
			end()
			run = []point{p[0]}
		case 'L':
			run = append(run, p[0])
		case 'Q':
			a := run[len(run)-1]
			third := func(a, q point) point { return point{a.x + (q.x-a.x)*2/3, a.y + (q.y-a.y)*2/3} }
			curve(a, third(a, p[0]), third(p[1], p[0]), p[1])
		case 'C':
			curve(run[len(run)-1], p[0], p[1], p[2])
		case 'Z':
			run = append(run, run[0])
		}
	})
	end()
	return runs
}

// paletted is the picture in its 256 commonest colours, which is all that flat
// drawings need and makes a third of the file.
func (c *canvas) paletted() *image.Paletted {
	count := map[color.RGBA]int{}
	for y := range height {
		for x := range width {
			count[c.RGBAAt(x, y)]++
		}
	}
	colours := slices.Collect(maps.Keys(count))
	number := func(a color.RGBA) int { return int(a.R)<<16 | int(a.G)<<8 | int(a.B) }
	slices.SortFunc(colours, func(a, b color.RGBA) int {
		return cmp.Or(count[b]-count[a], number(a)-number(b))
	})
	var p color.Palette
	for _, col := range colours[:min(len(colours), 256)] {
		p = append(p, col)
	}
	out := image.NewPaletted(c.Bounds(), p)
	index := map[color.RGBA]uint8{}
	for y := range height {
		for x := range width {
			col := c.RGBAAt(x, y)
			i, known := index[col]
			if !known {
				i = uint8(p.Index(col))
				index[col] = i
			}
			out.SetColorIndex(x, y, i)
		}
	}
	return out
}

// dice throws the same numbers on every run.
type dice uint32

func (d *dice) upTo(n float32) float32 {
	*d = *d*1664525 + 1013904223
	return float32(*d>>8) / (1 << 24) * n
}
