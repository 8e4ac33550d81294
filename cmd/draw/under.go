package main

import (
	"fmt"
	"math"
)

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
