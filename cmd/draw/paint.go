package main

import (
	"fmt"
	"image/color"
	"math"
)

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
