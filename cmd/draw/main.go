// Command draw makes the pictures of the example build: small flat illustrations,
// the same bytes on every run, so that the example needs nobody's photographs.
//
//	go run ./cmd/draw example-build/photos
package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
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
		data, err := encode(p.name, p.draw)
		if err == nil {
			err = os.WriteFile(filepath.Join(os.Args[1], p.name), data, 0o644)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, "draw:", err)
			os.Exit(3)
		}
	}
}

// encode draws one picture and returns its file.
func encode(name string, draw func(*canvas)) ([]byte, error) {
	c := &canvas{RGBA: image.NewRGBA(image.Rect(0, 0, width, height)), scale: 1}
	draw(c)
	var out bytes.Buffer
	if filepath.Ext(name) == ".png" {
		err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, c.paletted())
		return out.Bytes(), err
	}
	err := jpeg.Encode(&out, c, &jpeg.Options{Quality: 78})
	return out.Bytes(), err
}
