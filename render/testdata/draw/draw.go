// Command draw makes the pictures of the example build: small flat illustrations,
// the same bytes on every run, so that the example needs nobody's photographs.
//
//	go run ./render/testdata/draw example-build/photos
package main

import (
	"bytes"
	"cmp"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/image/vector"
)

const width, height = 800, 600

// The palette. Every picture is made of these and nothing else.
var (
	paper  = rgb(0xefe9dc) // walls and sky
	ground = rgb(0xd3c9b5) // drives and benches
	shade  = rgb(0xb9ad96) // what lies in shadow on them
	ink    = rgb(0x2a3037) // outlines, rubber, holes
	iron   = rgb(0x4a545d) // underbodies
	grey   = rgb(0x77858f) // the car's paint
	light  = rgb(0x9caab2) // the paint where light falls
	pale   = rgb(0xc6d0d2) // steel, glass
	white  = rgb(0xfaf7ef)
	primer = rgb(0xc9b48c)
	zinc   = rgb(0xa9ada6)
	rust   = rgb(0xb4492f) // damage, tail lamps
	amber  = rgb(0xe0a23c) // what the picture is about
	teal   = rgb(0x2f6d72) // tools
)

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xff}
}

func faint(c color.NRGBA, alpha uint8) color.NRGBA {
	c.A = alpha
	return c
}

// pictures are all that is drawn, by file name.
var pictures = []struct {
	name string
	draw func(*canvas)
}{
	{"tail-crushed.jpg", tailCrushed},
	{"finished.jpg", finished},
	{"rear-from-behind.jpg", func(c *canvas) { fromBehind(c, false) }},
	{"rear-panel-welded.jpg", func(c *canvas) { fromBehind(c, true) }},
	{"boot-floor-before.jpg", func(c *canvas) { bootFloor(c, false) }},
	{"boot-floor-after.jpg", func(c *canvas) { bootFloor(c, true) }},
	{"beam-cracked.jpg", beamCracked},
	{"exhaust-on-wire.jpg", exhaustOnWire},
	{"disc-gauge.jpg", discGauge},
	{"guide-coat.jpg", guideCoat},
	{"quarter-painted.jpg", quarterPainted},
	{"jig-points.png", jigPoints},
	{"tow-loom.png", towLoom},
	{"lamp-aim.png", lampAim},
}

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: draw FOLDER")
		os.Exit(2)
	}
	for _, p := range pictures {
		c := &canvas{RGBA: image.NewRGBA(image.Rect(0, 0, width, height)), scale: 1}
		p.draw(c)
		var out bytes.Buffer
		var err error
		if filepath.Ext(p.name) == ".png" {
			err = (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, c.paletted())
		} else {
			err = jpeg.Encode(&out, c, &jpeg.Options{Quality: 78})
		}
		if err == nil {
			err = os.WriteFile(filepath.Join(os.Args[1], p.name), out.Bytes(), 0o644)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, "draw:", err)
			os.Exit(3)
		}
	}
}

// ---- a canvas with a pen

type canvas struct {
	*image.RGBA
	dx, dy, scale float32
}

type point struct{ x, y float32 }

func (c *canvas) to(x, y float32) point { return point{x*c.scale + c.dx, y*c.scale + c.dy} }

// at draws something moved and scaled.
func (c *canvas) at(dx, dy, scale float32, draw func()) {
	was := *c
	c.dx, c.dy, c.scale = c.dx+dx*c.scale, c.dy+dy*c.scale, c.scale*scale
	draw()
	c.dx, c.dy, c.scale = was.dx, was.dy, was.scale
}

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

// ---- the whole car, from its left

func (c *canvas) drive(sky, floor color.NRGBA) {
	c.rect(sky, 0, 0, width, height)
	c.rect(floor, 0, 430, width, 170)
}

// garage stands behind the car.
func (c *canvas) garage() {
	c.fill(rgb(0xe2d9c6), "M40 430 L40 166 L235 84 L430 166 L430 430Z")
	c.fill(shade, "M22 178 L235 88 L448 178 L448 162 L235 70 L22 162Z")
	c.rect(pale, 95, 215, 280, 215)
	for y := float32(258); y < 430; y += 43 {
		c.rect(faint(iron, 60), 95, y, 280, 3)
	}
}

func (c *canvas) hedge() {
	d := dice(7)
	for x := float32(440); x < 840; x += 34 {
		c.disc(rgb(0xa7b9b0), x+36, 405-d.upTo(22), 40+d.upTo(14))
	}
	c.rect(ground, 0, 430, width, 170)
}

func (c *canvas) wheel(x, y float32) {
	c.disc(ink, x, y, 50)
	c.disc(pale, x, y, 33)
	c.disc(iron, x, y, 27)
	for i := range 5 {
		a := float64(i)*2*math.Pi/5 - math.Pi/2
		c.line(pale, 8, fmt.Sprintf("M%g %g L%g %g", x, y, x+29*float32(math.Cos(a)), y+29*float32(math.Sin(a))))
	}
	c.disc(pale, x, y, 9)
	c.disc(ink, x, y, 3.5)
}

// estate draws the car; where it is crushed, everything behind the rear wheel differs.
func (c *canvas) estate(crushed bool) {
	c.ellipse(shade, 400, 484, 345, 15)
	body := "M84 448 L78 400 Q74 372 92 356 Q118 334 170 326 L272 312 L348 246 Q366 231 398 230 L628 230 Q652 230 666 246 "
	if crushed {
		body += "L682 300 L662 330 L676 356 L656 384 L680 380 L664 410 L676 440 L640 452Z"
	} else {
		body += "L712 318 Q724 326 726 344 L730 404 Q732 440 716 452Z"
	}
	c.fill(grey, body)
	// the shoulder catches light, the sill lies in shadow
	if crushed {
		c.fill(light, "M92 356 Q118 334 170 326 L272 312 L640 310 L636 332 L280 334 L120 352Z")
		c.fill(iron, "M84 448 L82 428 L640 432 L662 440 L640 452Z")
	} else {
		c.fill(light, "M92 356 Q118 334 170 326 L272 312 L710 314 Q718 322 720 330 L280 334 L120 352Z")
		c.fill(iron, "M84 452 L82 430 L716 432 L720 446 L716 452Z")
	}
	// glass
	c.fill(ink, "M286 312 L352 254 Q366 242 392 242 L626 242 Q646 242 654 256 L672 308 L640 310Z")
	c.fill(pale, "M304 308 L360 258 Q370 250 392 250 L414 250 L414 308Z")
	c.fill(pale, "M424 250 L530 250 L530 308 L424 308Z")
	c.fill(pale, "M540 250 L622 250 Q640 250 646 262 L658 304 L540 306Z")
	for _, x := range []float32{330, 440, 556} {
		c.fill(faint(white, 150), fmt.Sprintf("M%g 306 L%g 252 L%g 252 L%g 306Z", x+18, x+54, x+74, x+38))
	}
	// roof rail
	c.line(iron, 5, "M404 224 L618 224")
	c.line(iron, 5, "M420 224 L420 231")
	c.line(iron, 5, "M604 224 L604 231")
	// doors
	c.line(iron, 2.5, "M284 318 L282 430")
	c.line(iron, 2.5, "M419 312 L419 430")
	c.line(iron, 2.5, "M536 312 L534 372")
	c.box(iron, 382, 338, 28, 7, 3)
	c.box(iron, 500, 338, 28, 7, 3)
	c.fill(grey, "M268 308 L296 296 L302 312 L274 318Z") // mirror
	c.line(iron, 2, "M268 308 L296 296 L302 312 L274 318Z")
	// front lamp and bumper
	c.fill(white, "M94 364 Q104 350 140 342 L150 352 Q132 368 100 374Z")
	c.line(iron, 2, "M94 364 Q104 350 140 342 L150 352 Q132 368 100 374Z")
	c.line(iron, 3, "M82 404 L140 404")
	// arches, cut off at the sill
	for _, x := range []float32{196, 586} {
		c.fill(ink, fmt.Sprintf("M%g 453 L%g 436 C%g 402 %g 374 %g 374 C%g 374 %g 402 %g 436 L%g 453Z", x-62, x-62, x-62, x-34, x, x+34, x+62, x+62, x+62))
	}
	rear := float32(586)
	if crushed {
		rear = 574 // pushed forward
	}
	c.wheel(196, 436)
	c.wheel(rear, 436)
}

func tailCrushed(c *canvas) {
	c.drive(paper, ground)
	c.garage()
	c.hedge()
	c.estate(true)
	// the quarter behind the arch, in facets
	c.fill(light, "M640 310 L668 306 L660 336 L678 356 L650 362 L636 338Z")
	c.fill(iron, "M650 362 L678 356 L656 386 L640 380Z")
	c.fill(light, "M640 380 L656 386 L682 378 L664 410 L646 402Z")
	c.fill(rgb(0x39424a), "M660 336 L686 330 L678 356Z")
	c.line(ink, 2.5, "M640 310 L636 338 L650 362 L640 380 L646 402 L664 410")
	c.line(ink, 2.5, "M650 362 L678 356")
	c.line(ink, 2.5, "M618 352 L632 368 L622 390")
	// where the lamp was
	c.fill(ink, "M656 308 L684 304 L690 330 L664 340Z")
	c.fill(rust, "M656 308 L670 306 L664 324 L668 338 L660 336Z")
	// the tailgate, dented and not shut
	c.fill(grey, "M650 234 L668 240 L704 300 L694 322 L712 352 L700 378 L690 352 L676 326 L684 304Z")
	c.fill(light, "M668 240 L704 300 L694 322 L712 352 L704 362 L684 322 L692 300Z")
	c.fill(ink, "M664 252 L686 292 L678 302 L658 258Z")
	c.line(ink, 3, "M668 240 L704 300 L694 322 L712 352 L700 378")
	// bumper skin come loose, tow bar bent down
	c.fill(iron, "M644 408 L696 396 L716 414 L702 430 L708 448 L650 452Z")
	c.fill(rgb(0x5d6872), "M644 408 L696 396 L716 414 L660 424Z")
	c.line(ink, 2.5, "M696 396 L716 414 L702 430 L708 448")
	c.line(ink, 9, "M652 450 L698 466 L708 482")
	c.disc(ink, 709, 484, 9)
	// strap
	c.line(amber, 7, "M704 364 L712 420 L706 482")
	c.box(teal, 701, 396, 20, 30, 4)
	c.line(pale, 3, "M706 404 L716 404")
	// pieces on the drive
	c.fill(rust, "M724 500 L744 490 L748 504Z")
	c.fill(rust, "M762 512 L776 504 L774 518Z")
	c.fill(amber, "M744 520 L756 514 L758 524Z")
	c.fill(iron, "M650 516 L682 508 L674 522Z")
}

func finished(c *canvas) {
	c.drive(paper, ground)
	c.disc(faint(amber, 150), 640, 118, 44)
	c.garage()
	c.hedge()
	c.estate(false)
	// tail lamp, tailgate gap, bumper, tow bar
	c.fill(rust, "M688 322 L712 320 Q722 328 724 344 L724 364 L700 360Z")
	c.fill(amber, "M697 342 L723 340 L724 350 L698 350Z")
	c.line(iron, 2.5, "M668 250 L694 318 L702 362 L704 396")
	c.line(iron, 3, "M648 398 L728 396")
	c.line(ink, 8, "M708 448 L744 448 L746 436")
	c.disc(ink, 746, 432, 8)
	c.box(iron, 660, 344, 18, 18, 3) // fuel flap
	c.box(grey, 662, 346, 14, 14, 2)
	// shine
	c.line(faint(white, 130), 4, "M170 334 L272 323 L664 322")
	c.line(faint(white, 60), 10, "M296 392 L406 392")
	c.line(faint(white, 60), 10, "M432 392 L520 392")
}

// ---- the back, from behind

func fromBehind(c *canvas, mended bool) {
	c.rect(paper, 0, 0, width, height)
	c.rect(ground, 0, 470, width, 130)
	c.ellipse(shade, 400, 528, 330, 20)
	// stands or wheels
	c.box(ink, 128, 372, 88, 158, 20)
	c.box(ink, 584, 372, 88, 158, 20)
	// shell
	c.fill(grey, "M236 84 Q250 62 290 60 L510 60 Q550 62 564 84 L640 236 Q664 260 668 300 L672 452 L128 452 L132 300 Q136 260 160 236Z")
	c.fill(light, "M236 84 Q250 62 290 60 L510 60 Q550 62 564 84 L574 104 L226 104Z")
	// aperture, with the rear seats inside
	c.fill(ink, "M258 112 L542 112 L600 250 L600 352 L200 352 L200 250Z")
	c.fill(iron, "M300 180 L392 180 L396 330 L284 330Z")
	c.fill(iron, "M408 180 L500 180 L516 330 L404 330Z")
	c.box(iron, 324, 150, 44, 26, 8)
	c.box(iron, 432, 150, 44, 26, 8)
	// floor of the boot
	c.fill(shade, "M222 352 L262 306 L538 306 L578 352Z")
	// right lamp (and the left one once the panel is new)
	lamp := func(x0, x1, x2 float32) {
		c.fill(rust, fmt.Sprintf("M%g 252 L%g 262 L%g 350 L%g 352Z", x0, x1, x2, x0))
		c.fill(amber, fmt.Sprintf("M%g 292 L%g 294 L%g 312 L%g 312Z", x0, x1, x2, x0))
	}
	if mended {
		// panel in primer, plug welds, both pockets open
		c.fill(primer, "M168 352 L632 352 L636 434 L164 434Z")
		c.fill(primer, "M156 262 L198 252 L200 352 L150 352Z")
		c.fill(primer, "M602 252 L644 262 L650 352 L602 352Z")
		c.fill(ink, "M166 278 L190 270 L190 336 L160 338Z")
		c.fill(ink, "M610 270 L634 278 L640 338 L610 336Z")
		for x := float32(186); x < 630; x += 24 {
			c.disc(iron, x, 364, 4)
			c.disc(iron, x, 422, 4)
		}
		c.box(ink, 378, 356, 44, 16, 5)
		c.fill(faint(white, 90), "M168 376 L632 376 L633 386 L167 386Z")
		railEnd(c, 208, false)
		railEnd(c, 544, false)
		return
	}
	lamp(602, 644, 650)
	c.fill(light, "M400 352 L632 352 L636 434 L400 434Z")
	// left half folded in, torn at the lamp pocket
	c.fill(iron, "M156 262 L198 252 L202 300 L186 322 L204 350 L176 352 L150 340Z")
	c.fill(ink, "M164 282 L188 274 L180 312 L192 336 L160 330Z")
	c.fill(light, "M168 360 L250 376 L330 348 L400 352 L400 434 L330 430 L262 412 L206 438 L164 426Z")
	c.fill(faint(ink, 110), "M168 360 L250 376 L330 348 L346 366 L256 396 L180 384Z")
	c.fill(faint(ink, 80), "M206 438 L262 412 L330 430 L322 440 L262 428Z")
	c.line(ink, 4, "M168 360 L250 376 L330 348 L400 352")
	c.line(ink, 3, "M250 376 L262 412 L206 438")
	c.line(ink, 3, "M330 348 L322 392 L346 432")
	c.line(ink, 3, "M262 412 L322 392")
	c.line(rust, 5, "M176 352 L196 366 L188 384 L204 396")
	railEnd(c, 208, true)
	railEnd(c, 544, false)
	c.disc(ink, 400, 368, 6)
}

func railEnd(c *canvas, x float32, folded bool) {
	if folded {
		c.fill(iron, fmt.Sprintf("M%g 396 L%g 388 L%g 406 L%g 424 L%g 446 L%g 458 L%g 440 L%g 420Z", x, x+38, x+56, x+40, x+58, x+14, x-6, x+12))
		c.line(ink, 3, fmt.Sprintf("M%g 402 L%g 414 L%g 404", x+6, x+22, x+50))
		c.line(ink, 3, fmt.Sprintf("M%g 430 L%g 438 L%g 444", x+2, x+24, x+54))
		c.disc(ink, x+24, 425, 7)
		c.line(amber, 4, circle(x+26, 424, 52, 46))
		return
	}
	c.box(iron, x-4, 392, 56, 58, 5)
	c.box(ink, x+6, 402, 36, 38, 4)
	c.disc(pale, x+1, 398, 3)
	c.disc(pale, x+47, 398, 3)
	c.disc(pale, x+1, 444, 3)
	c.disc(pale, x+47, 444, 3)
}

// ---- the boot floor, seen over the sill

func bootFloor(c *canvas, mended bool) {
	c.rect(iron, 0, 0, width, height)
	c.fill(ink, "M150 0 L650 0 L612 150 L188 150Z") // seat backs
	c.fill(rgb(0x39424a), "M210 0 L396 0 L396 138 L232 138Z")
	c.fill(rgb(0x39424a), "M404 0 L590 0 L568 138 L404 138Z")
	c.fill(grey, "M0 60 L188 150 L104 500 L0 600Z") // side walls
	c.fill(grey, "M800 60 L612 150 L696 500 L800 600Z")
	c.fill(faint(ink, 130), "M26 350 Q84 214 140 300 L104 500 L0 600 L0 430Z") // wheel arches
	c.fill(faint(ink, 130), "M774 350 Q716 214 660 300 L696 500 L800 600 L800 430Z")
	c.fill(zinc, "M188 150 L612 150 L696 500 L104 500Z") // floor
	for i := range 5 {                                   // pressed ribs
		x := float32(240 + i*80)
		c.line(faint(iron, 90), 5, fmt.Sprintf("M%g 168 L%g 208", x, x+(x-400)*0.08))
	}
	if mended {
		c.ellipse(iron, 400, 330, 132, 82)
		c.ellipse(ink, 400, 337, 120, 72)
		c.ellipse(iron, 400, 348, 106, 58)
		c.disc(pale, 400, 348, 9)
		// the patch, welded in short runs
		c.fill(pale, "M150 420 L250 420 L238 488 L134 488Z")
		c.dashed(iron, 7, 10, 9, "M150 420 L250 420 L238 488 L134 488Z")
		c.fill(faint(white, 70), "M150 420 L250 420 L247 434 L147 434Z")
		d := dice(3) // screw holes welded shut
		for i := range 12 {
			x := 286 + float32(i)*32
			c.disc(pale, x, 446+d.upTo(4), 5)
			c.disc(iron, x, 446+d.upTo(4), 2)
		}
		c.fill(primer, "M104 500 L696 500 L720 600 L80 600Z")
		c.fill(faint(white, 80), "M104 500 L696 500 L699 514 L101 514Z")
		for x := float32(130); x < 680; x += 27 {
			c.disc(iron, x, 548, 4)
		}
		c.line(teal, 12, "M180 392 L640 392") // straight-edge
		c.line(faint(white, 120), 3, "M184 389 L636 389")
		return
	}
	// the well has gone to an egg
	c.fill(iron, "M280 316 C284 250 420 244 488 268 C560 296 548 366 470 384 C380 404 276 388 280 316Z")
	c.fill(ink, "M294 320 C300 266 420 258 480 280 C540 304 530 362 462 374 C380 390 290 380 294 320Z")
	// the fold: a lit face, a dark face, and the sharp edge between
	c.fill(light, "M118 440 L196 400 L300 420 L392 392 L520 414 L610 404 L684 446 L690 470 L600 440 L520 452 L396 432 L300 458 L200 440 L110 476Z")
	c.fill(faint(ink, 140), "M110 476 L200 440 L300 458 L396 432 L520 452 L600 440 L690 470 L696 500 L104 500Z")
	c.line(ink, 4, "M110 476 L200 440 L300 458 L396 432 L520 452 L600 440 L690 470")
	c.line(white, 3, "M118 440 L196 400 L300 420 L392 392 L520 414 L610 404 L684 446")
	// torn corner
	c.fill(ink, "M134 452 L176 424 L196 446 L180 474 L150 486Z")
	c.line(rust, 4, "M134 452 L176 424 L196 446 L180 474 L150 486Z")
	// the old panel, leaning in
	c.fill(grey, "M104 500 L220 482 L330 508 L430 490 L696 500 L720 600 L80 600Z")
	c.line(ink, 4, "M104 500 L220 482 L330 508 L430 490 L696 500")
	c.line(ink, 3, "M220 482 L236 540 L200 600")
	c.line(ink, 3, "M330 508 L318 556 L350 600")
}

// ---- the axle beam

func beamCracked(c *canvas) {
	c.rect(paper, 0, 0, width, height)
	c.rect(ground, 0, 420, width, 180)
	c.ellipse(shade, 400, 452, 340, 16)
	for _, x := range []float32{250, 550} { // trestles
		c.line(teal, 14, fmt.Sprintf("M%g 330 L%g 500", x, x-44))
		c.line(teal, 14, fmt.Sprintf("M%g 330 L%g 500", x, x+44))
		c.line(teal, 10, fmt.Sprintf("M%g 430 L%g 430", x-26, x+26))
	}
	// arms, cross-tube, stubs
	c.fill(iron, "M96 196 L152 190 L188 300 L196 364 L138 372 L124 306Z")
	c.fill(iron, "M704 196 L648 190 L612 300 L604 364 L662 372 L676 306Z")
	c.fill(iron, "M150 288 Q400 316 650 288 L648 336 Q400 352 152 336Z")
	c.fill(grey, "M150 288 Q400 316 650 288 L650 304 Q400 328 150 304Z")
	c.disc(grey, 620, 356, 38) // spring seats
	c.disc(iron, 620, 356, 22)
	c.disc(grey, 180, 356, 38)
	c.disc(iron, 180, 356, 22)
	c.box(pale, 56, 326, 84, 22, 6)
	c.box(pale, 660, 326, 84, 22, 6)
	c.disc(iron, 112, 338, 30)
	c.disc(iron, 688, 338, 30)
	// bushes
	for _, x := range []float32{124, 676} {
		c.disc(iron, x, 190, 46)
		c.disc(ink, x, 190, 36)
		c.disc(grey, x, 190, 16)
		c.disc(ink, x, 190, 8)
	}
	c.line(rust, 4, "M92 226 L108 240 L118 236 L134 250 L150 244 L162 254")
	// a closer look
	c.line(amber, 5, "M166 244 L300 186")
	c.disc(amber, 414, 150, 126)
	c.disc(rgb(0xd9d0bd), 414, 150, 118)
	lens := func() {
		c.fill(iron, "M312 92 Q360 40 440 48 Q500 58 506 130 L524 190 Q470 262 400 264 Q330 250 304 188Z")
		c.disc(ink, 372, 96, 48)
		c.disc(grey, 372, 96, 22)
		c.disc(ink, 372, 96, 11)
		c.line(grey, 8, "M316 130 Q352 174 420 148")
		c.fill(rust, "M316 196 L350 176 L372 190 L410 168 L440 184 L496 160 L442 196 L412 182 L374 206 L350 190Z")
		c.line(ink, 4, "M318 194 L350 182 L373 198 L411 175 L441 190 L490 164")
	}
	lens()
	d := dice(11) // dirt
	for range 60 {
		a, r := float64(d.upTo(2*math.Pi)), d.upTo(92)
		c.disc(faint(shade, 110), 414+r*float32(math.Cos(a)), 150+r*float32(math.Sin(a)), 1+d.upTo(3))
	}
}

// ---- the exhaust

func exhaustOnWire(c *canvas) {
	c.rect(paper, 0, 0, width, height)
	c.rect(ground, 0, 500, width, 100)
	c.fill(iron, "M0 0 L800 0 L800 118 L640 126 L610 150 L180 150 L150 122 L0 116Z") // underbody
	c.fill(rgb(0x39424a), "M180 150 L610 150 L600 172 L190 172Z")
	// bracket with its torn rubber, twice
	for _, x := range []float32{300, 566} {
		c.line(ink, 10, fmt.Sprintf("M%g 168 L%g 206 L%g 206", x, x, x+26))
		c.fill(ink, fmt.Sprintf("M%g 198 L%g 196 L%g 230 L%g 224 L%g 240 L%g 222Z", x+14, x+40, x+38, x+30, x+24, x+18))
	}
	// tow eye
	c.line(ink, 12, "M452 168 L452 190")
	c.ring(ink, 452, 208, 17, 10)
	// pipe, box and tail, hanging crooked
	c.line(grey, 34, "M0 256 Q120 262 196 314")
	c.line(light, 8, "M0 248 Q122 254 202 306")
	c.line(grey, 30, "M582 392 Q664 404 700 396 L768 384")
	c.line(light, 7, "M582 384 Q664 396 700 388 L764 376")
	c.ellipse(ink, 770, 383, 8, 15)
	c.fill(grey, "M196 282 Q206 262 236 266 L566 336 Q604 346 598 380 L590 412 Q580 440 548 434 L224 366 Q188 356 190 326Z")
	c.fill(light, "M206 288 Q214 272 238 276 L562 346 Q586 352 590 366 L220 292Z")
	c.fill(faint(ink, 90), "M404 380 L560 412 L548 434 L400 404Z") // its flat face
	c.line(iron, 3, "M262 272 L248 370")
	c.line(iron, 3, "M536 330 L522 428")
	c.line(rust, 5, "M404 380 L470 388 L560 412")
	// the wire: twice round the box and up to the eye
	c.line(amber, 4, "M452 222 C430 262 390 280 384 300")
	c.line(amber, 4, "M450 222 C446 270 428 290 420 308")
	c.line(amber, 4, "M384 300 C376 340 376 380 388 402")
	c.line(amber, 4, "M420 308 C412 348 410 386 422 409")
	c.line(amber, 4, "M446 194 C430 214 442 230 462 224 C474 216 470 200 460 196")
	c.line(amber, 4, "M462 224 C474 238 470 250 484 256 C492 258 494 248 486 246")
	c.ellipse(shade, 400, 538, 260, 12)
}

// ---- the brake disc

func discGauge(c *canvas) {
	c.rect(paper, 0, 0, width, height)
	c.fill(ground, "M0 540 L800 520 L800 600 L0 600Z")
	c.fill(ink, "M0 0 L330 0 Q150 90 128 300 Q126 420 160 540 L0 545Z") // the arch
	c.fill(iron, "M60 250 L330 280 L330 360 L60 420Z")                  // arm
	x, y := float32(400), float32(316)
	c.disc(iron, x+10, y+6, 196)
	c.disc(pale, x, y, 196)
	for r := float32(190); r > 108; r -= 20 {
		c.ring(faint(grey, 70), x, y, r, 1.6)
	}
	c.ring(grey, x, y, 194, 4)
	c.disc(grey, x, y, 102)
	c.disc(light, x, y, 92)
	c.disc(iron, x, y, 34)
	c.disc(ink, x, y, 22)
	for i := range 5 {
		a := float64(i)*2*math.Pi/5 - math.Pi/2
		px, py := x+62*float32(math.Cos(a)), y+62*float32(math.Sin(a))
		c.disc(iron, px, py, 13)
		c.disc(pale, px, py, 7)
	}
	// caliper
	c.fill(teal, "M196 170 Q176 180 170 220 L158 340 Q158 400 186 440 L262 420 Q238 370 236 310 Q240 250 268 206 L240 168Z")
	c.fill(rgb(0x3f8288), "M196 170 Q176 180 170 220 L166 270 Q190 230 252 196 L240 168Z")
	c.box(ink, 176, 286, 46, 40, 8)
	c.line(ink, 7, "M190 438 Q150 500 60 470")
	// stand, arm, gauge with its plunger on the disc
	c.box(ink, 600, 500, 150, 44, 6)
	c.box(iron, 616, 486, 118, 20, 5)
	c.line(iron, 13, "M676 490 L676 300")
	c.line(iron, 11, "M676 312 L620 262")
	c.disc(ink, 676, 312, 14)
	c.line(ink, 8, "M600 280 L520 296")
	c.disc(rust, 518, 296, 7)
	c.disc(ink, 640, 232, 78)
	c.disc(amber, 640, 232, 72)
	c.disc(white, 640, 232, 62)
	for i := range 40 {
		a := float64(i) * 2 * math.Pi / 40
		in, thick := float32(52), float32(1.8)
		if i%5 == 0 {
			in, thick = 46, 3
		}
		cos, sin := float32(math.Cos(a)), float32(math.Sin(a))
		c.line(ink, thick, fmt.Sprintf("M%g %g L%g %g", 640+in*cos, 232+in*sin, 640+58*cos, 232+58*sin))
	}
	c.line(rust, 4, "M640 232 L664 188")
	c.disc(ink, 640, 232, 7)
	c.ellipse(shade, 676, 552, 100, 8)
}

// ---- guide coat and paint

// quarter is the left quarter: arch at the left below, lamp at the right.
func (c *canvas) quarter(skin, lit color.NRGBA) {
	c.rect(skin, 0, 0, width, height)
	c.fill(lit, "M0 118 Q400 96 800 130 L800 176 Q400 140 0 160Z")
	c.fill(ink, "M0 0 L620 0 Q650 4 662 40 L672 74 Q400 52 0 62Z") // side glass
	c.fill(pale, "M0 0 L606 0 Q628 8 638 34 L644 54 Q400 36 0 44Z")
	c.fill(faint(white, 140), "M300 0 L380 0 L350 38 L268 40Z")
	c.fill(ink, "M0 384 Q120 330 226 404 Q292 458 306 600 L0 600Z") // arch
	c.fill(rgb(0x39424a), "M0 440 Q112 396 190 456 Q240 500 252 600 L0 600Z")
}

func guideCoat(c *canvas) {
	c.quarter(primer, rgb(0xd8c6a2))
	d := dice(42)
	// black over everything that has not been blocked yet
	for range 1250 {
		x, y := 250+d.upTo(550), 170+d.upTo(430)
		edge := 330 + 190*float32(math.Sin(float64(y)/150)) // how far the block has come
		if x < edge+90 || x < 320 && y > 380 {
			continue
		}
		c.disc(faint(ink, 150), x, y, 1.4+d.upTo(2.6))
	}
	// and what stays after it: a low place and a ring
	for range 240 {
		a, r := float64(d.upTo(2*math.Pi)), float32(math.Sqrt(float64(d.upTo(1))))
		c.disc(faint(ink, 170), 420+70*r*float32(math.Cos(a)), 250+38*r*float32(math.Sin(a)), 1+d.upTo(2.2))
	}
	for range 80 {
		a := float64(d.upTo(2 * math.Pi))
		r := 17 + d.upTo(7)
		c.disc(faint(ink, 170), 392+r*float32(math.Cos(a)), 482+r*float32(math.Sin(a)), 1+d.upTo(1.8))
	}
	// bright metal where it is high
	c.ellipse(pale, 350, 392, 26, 12)
	c.ellipse(zinc, 350, 392, 18, 7)
	// fuel flap
	c.box(iron, 236, 206, 92, 92, 12)
	c.box(rgb(0xd8c6a2), 240, 210, 84, 84, 10)
	// lamp pocket and masking
	c.fill(ink, "M712 180 L800 170 L800 400 L730 392Z")
	c.line(teal, 10, "M706 176 L726 398 L800 408")
	// the long block, laid at a slant
	c.fill(faint(ink, 60), "M470 470 L640 330 L676 372 L508 512Z")
	c.fill(amber, "M460 458 L630 316 L666 358 L498 500Z")
	c.fill(white, "M452 466 L460 458 L498 500 L490 508Z")
	c.fill(faint(white, 90), "M468 458 L628 324 L636 334 L478 468Z")
	c.line(teal, 20, "M520 454 L606 382")
	c.line(rgb(0x3f8288), 6, "M522 448 L602 380")
}

func quarterPainted(c *canvas) {
	c.quarter(grey, light)
	c.fill(faint(light, 120), "M0 190 Q400 170 800 210 L800 250 Q400 210 0 236Z")
	c.fill(faint(ink, 40), "M306 600 Q560 560 800 574 L800 600Z")
	c.line(faint(white, 150), 7, "M20 140 Q380 122 690 146")
	c.line(faint(white, 90), 5, "M340 420 Q520 396 690 408")
	c.box(iron, 236, 206, 92, 92, 12)
	c.box(grey, 239, 209, 86, 86, 10)
	c.line(faint(white, 110), 4, "M250 216 L312 216")
	// lamp, whole
	c.fill(ink, "M690 176 L800 166 L800 410 L716 402Z")
	c.fill(rust, "M696 182 L800 172 L800 404 L720 397Z")
	c.fill(rgb(0xc96a4b), "M696 182 L800 172 L800 222 L703 232Z")
	c.fill(amber, "M706 256 L800 250 L800 296 L712 300Z")
	c.fill(white, "M713 312 L800 308 L800 346 L717 347Z")
	c.line(faint(white, 130), 5, "M716 196 L780 190")
	// tailgate gap and bumper
	c.line(ink, 4, "M664 58 L690 176 L718 404 L724 446")
	c.line(ink, 5, "M300 470 Q520 438 800 450")
	c.disc(iron, 560, 520, 15) // parking sensor, flush
	c.disc(grey, 560, 520, 12)
	// arch lip
	c.line(light, 6, "M0 384 Q120 330 226 404 Q292 458 306 600")
}

// ---- drawings and scenes that are not photographs

func jigPoints(c *canvas) {
	c.rect(paper, 0, 0, width, height)
	for x := float32(40); x < width; x += 40 {
		c.rect(faint(shade, 50), x, 0, 1, height)
	}
	for y := float32(40); y < height; y += 40 {
		c.rect(faint(shade, 50), 0, y, width, 1)
	}
	// wheels
	c.box(ink, 128, 212, 56, 132, 16)
	c.box(ink, 616, 212, 56, 132, 16)
	// the shell from above, front at the top
	c.line(shade, 4, "M220 20 L220 430 Q226 548 300 556 L500 556 Q574 548 580 430 L580 20")
	// rails and cross-members
	c.rect(grey, 268, 30, 40, 386)
	c.rect(grey, 492, 30, 40, 510)
	c.rect(light, 276, 30, 8, 386)
	c.rect(light, 500, 30, 8, 510)
	c.rect(grey, 268, 92, 264, 32)
	c.rect(grey, 268, 300, 264, 32)
	c.fill(grey, "M268 416 L308 416 L318 440 L296 462 L316 484 L300 506 L272 498 L286 470 L258 446Z")
	c.line(ink, 3, "M258 446 L300 440 L318 440")
	c.line(ink, 3, "M286 470 L316 484")
	c.dashed(rust, 3, 9, 7, "M268 416 L268 540 L308 540 L308 416")
	c.fill(faint(grey, 150), "M296 506 L400 520 L532 512 L532 540 L400 548 L300 530Z")
	// across: one as it should be, one short
	c.line(teal, 5, "M288 316 L512 520")
	c.dashed(rust, 5, 14, 9, "M512 316 L292 486")
	c.dashed(teal, 3, 6, 7, "M288 108 L288 316")
	c.dashed(teal, 3, 6, 7, "M512 108 L512 520")
	for _, p := range []point{{288, 108}, {512, 108}, {288, 316}, {512, 316}, {512, 520}} {
		datum(c, p.x, p.y, teal)
	}
	datum(c, 292, 486, rust)
	// which way is the front
	c.fill(amber, "M400 34 L420 66 L406 66 L406 88 L394 88 L394 66 L380 66Z")
}

func datum(c *canvas, x, y float32, col color.NRGBA) {
	c.disc(white, x, y, 17)
	c.ring(col, x, y, 15, 4)
	c.line(col, 3, fmt.Sprintf("M%g %g L%g %g", x-22, y, x+22, y))
	c.line(col, 3, fmt.Sprintf("M%g %g L%g %g", x, y-22, x, y+22))
}

func towLoom(c *canvas) {
	c.rect(paper, 0, 0, width, height)
	c.fill(white, "M70 50 L742 34 L758 552 L52 566Z") // the newspaper
	for y := float32(90); y < 540; y += 22 {
		for x := float32(100); x < 700; x += 210 {
			c.rect(faint(shade, 55), x, y, 176, 7)
		}
	}
	// module
	c.box(ink, 84, 214, 132, 172, 12)
	c.box(iron, 94, 224, 112, 152, 8)
	c.box(teal, 112, 246, 76, 46, 5)
	c.disc(ink, 108, 362, 6)
	c.disc(ink, 192, 362, 6)
	// wires, gathered in the middle, spread at both ends
	wires := []color.NRGBA{amber, rgb(0x4c7390), rgb(0xd8d2c4), rgb(0x6c8a57), rgb(0x7d5a3c), rust, ink, rgb(0xcf9a95), rgb(0xcf7f3a)}
	pin := func(i int) (float32, float32) {
		a := float64(i)*2*math.Pi/9 - math.Pi/2
		return 600 + 68*float32(math.Cos(a)), 300 + 68*float32(math.Sin(a))
	}
	c.disc(iron, 600, 300, 134) // socket behind the wires
	c.disc(ink, 600, 300, 120)
	c.disc(iron, 600, 300, 100)
	c.box(iron, 560, 148, 80, 30, 8)
	for i, w := range wires {
		y0, mid := 238+float32(i)*15.5, 276+float32(i)*6
		x, y := pin(i)
		path := fmt.Sprintf("M216 %g C280 %g 300 %g 350 %g C430 %g 460 %g %g %g", y0, y0, mid, mid, mid, y, x, y)
		c.line(faint(ink, 70), 9, path)
		c.line(w, 7, path)
	}
	for i, w := range wires {
		x, y := pin(i)
		c.disc(white, x, y, 15)
		c.disc(w, x, y, 10)
	}
	for _, x := range []float32{574, 600, 626} {
		c.disc(ink, x, 300, 7)
	}
	// tape round the middle, ends of the old joint beside it
	c.box(iron, 336, 268, 38, 66, 6)
	c.line(faint(white, 60), 3, "M346 270 L346 332")
	c.line(faint(white, 60), 3, "M360 270 L360 332")
	c.line(rgb(0x4c7390), 7, "M300 470 C350 440 380 470 410 460")
	c.line(rust, 7, "M300 486 C350 500 380 462 410 474")
	c.line(amber, 4, "M404 458 L420 474 L412 456 L432 474 L424 456 L444 470")
	c.line(rgb(0x4c7390), 7, "M444 468 C490 480 510 450 548 462")
}

func lampAim(c *canvas) {
	night := rgb(0x20262c)
	c.rect(night, 0, 0, width, height)
	c.rect(rgb(0x343b41), 60, 0, 680, 452) // the wall
	for y := float32(40); y < 452; y += 44 {
		c.rect(rgb(0x2c3339), 60, y, 680, 3)
		off := float32(0)
		if int(y/44)%2 == 0 {
			off = 46
		}
		for x := 60 + off; x < 740; x += 92 {
			c.rect(rgb(0x2c3339), x, y, 3, 44)
		}
	}
	// beams: flat top, a step up towards the kerb
	for _, x := range []float32{262, 538} {
		for i := range 7 {
			g := float32(i)
			c.fill(faint(amber, 30), fmt.Sprintf("M%g %g L%g %g L%g 262 L%g 262 Q%g %g %g %g Q%g %g %g %gZ",
				x-128+g*12, 214+g*6, x-30, 262+g*0.5, x+20, x+130-g*12, x+126-g*12, 366-g*12, x, 390-g*14, x-140+g*12, 372-g*12, x-128+g*12, 214+g*6))
		}
		c.ellipse(faint(white, 120), x, 292, 46, 20)
		c.ellipse(faint(white, 140), x, 288, 26, 11)
	}
	// tape on the wall: one level, two uprights
	c.line(white, 3.5, "M84 262 L716 262")
	for _, x := range []float32{262, 538} {
		c.line(white, 3.5, fmt.Sprintf("M%g 168 L%g 372", x, x))
	}
	// floor, with the light running back to the car
	c.fill(rgb(0x2b2f32), "M0 452 L800 452 L800 600 L0 600Z")
	c.fill(faint(amber, 28), "M150 452 L380 452 L330 600 L230 600Z")
	c.fill(faint(amber, 28), "M420 452 L650 452 L570 600 L470 600Z")
	// the front of the car, seen over its bonnet
	c.fill(ink, "M120 600 Q132 548 200 532 Q400 506 600 532 Q668 548 680 600Z")
	c.fill(iron, "M200 532 Q400 506 600 532 L592 540 Q400 516 208 540Z")
	c.fill(faint(amber, 200), "M176 556 Q200 542 244 540 L236 552 L184 566Z")
	c.fill(faint(amber, 200), "M624 556 Q600 542 556 540 L564 552 L616 566Z")
}
